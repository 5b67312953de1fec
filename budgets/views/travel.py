"""A trip by car and nights away: reckoned by the rates of their days, logged as expenses."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from budgets.engine.dated import NoFact
from budgets.facts import all_of
from budgets.forms.gift_desk import legs_begun, with_more
from budgets.forms.held import keep_reckoned
from budgets.forms.travel import (
    Legs,
    StayDays,
    StayEdit,
    StayForm,
    TripEdit,
    TripForm,
    legs_formset,
)
from budgets.models import BudgetLine, Expense
from budgets.selectors.travel import RateBook, days_between, meal_table
from budgets.selectors.workings import STAY, TRIP, Workings, workings_of
from budgets.services import travel as services
from budgets.services.expenses import named
from budgets.views.pages import expense_in, shown, to_expense
from projects.access import project_for
from projects.clock import today
from projects.meanwhile import Overtaken
from projects.models import Project
from projects.pages import data_of, posted
from projects.words import day

QUICKER = "Somebody saved this at the same moment. Look it over and save again."


@require_http_methods(["GET", "POST"])
def trip_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    return trip_page(request, project, Expense(project=project))


@require_http_methods(["GET", "POST"])
def trip_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    expense = expense_in(project, pk)
    if expense.workings.get("kind") != TRIP or expense.in_kind:
        return redirect("budgets:expense", project.pk, pk)
    return trip_page(request, project, expense)


def trip_page(request: HttpRequest, project: Project, expense: Expense) -> HttpResponse:
    more = posted(request) and "more" in request.POST
    data = with_more(request.POST, "legs") if more else data_of(request)
    form = trip_form(data, expense)
    had = legs_begun(expense.workings)
    legs = legs_formset(1 if had else 2)(data, initial=had, today=today(project))
    ready = posted(request) and not more and form.is_valid() and legs.is_valid()
    if ready and (made := keep_trip(request, project, form, legs)):
        return to_expense(request, project, made, f"Saved {named(made)}.")
    context = {
        "form": form,
        "legs": legs,
        "saved": saved_meanwhile(form),
        "heading": "Change the trip" if expense.pk else "A trip by car",
        "back": back_from(project, expense),
    }
    status = 200 if more else status_of(request, form)
    return shown(request, project, "trip_form.html", context, status=status)


def trip_form(data: QueryDict | None, expense: Expense) -> TripForm:
    made = TripEdit if expense.pk else TripForm
    lines = BudgetLine.objects.filter(project=expense.project)
    return made(data, instance=expense, lines=lines, initial=traveller(expense))


def saved_meanwhile(form: TripForm | StayForm) -> Workings | None:
    return workings_of(form.instance) if getattr(form, "overtaken", False) else None


def status_of(request: HttpRequest, form: TripForm | StayForm | None) -> int:
    if getattr(form, "overtaken", False):
        return 409
    return 422 if posted(request) else 200


def keep_trip(request: HttpRequest, project: Project, form: TripForm, legs: Legs) -> Expense | None:
    facts, rows = all_of(project), legs.rows()
    try:
        reckoned = services.trip_values(rows, facts)
    except NoFact as unknown:
        form.add_error(None, f"No rate is known for {day(unknown.day)}. Add it under Rates.")
        return None
    if not allowed(form, reckoned):
        return None
    try:
        return services.save_trip(
            expense=form.instance,
            values=form.cleaned_data,
            rows=rows,
            facts=facts,
            user=request.user,
        )
    except Overtaken:
        form.add_error(None, QUICKER)
        return None


@require_http_methods(["GET", "POST"])
def stay_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    return stay_page(request, project, Expense(project=project))


@require_http_methods(["GET", "POST"])
def stay_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    expense = expense_in(project, pk)
    if expense.workings.get("kind") != STAY:
        return redirect("budgets:expense", project.pk, pk)
    return stay_page(request, project, expense)


def stay_page(request: HttpRequest, project: Project, expense: Expense) -> HttpResponse:
    """First the dates, by themselves in the address; then each of the days."""
    asked = StayDays(dates_of(request, expense))
    form = None
    if asked.is_bound and asked.is_valid():
        days = days_between(asked.cleaned_data["first"], asked.cleaned_data["last"])
        form = stay_form(request, project, expense, days)
        if form is None:
            asked.add_error("first", f"No rate is known for {day(days[0])}. Add it under Rates.")
    ready = posted(request) and form is not None and form.is_valid()
    if ready and form and (made := keep_stay(request, project, form)):
        return to_expense(request, project, made, f"Saved {named(made)}.")
    context = {
        "asked": asked,
        "form": form,
        "saved": saved_meanwhile(form) if form else None,
        "heading": "Change the nights away" if expense.pk else "Nights away",
        "back": back_from(project, expense),
    }
    wrong = asked.is_bound and not asked.is_valid()
    status = 422 if wrong else status_of(request, form)
    return shown(request, project, "stay_form.html", context, status=status)


def dates_of(request: HttpRequest, expense: Expense) -> Any:
    if "first" in request.GET or "last" in request.GET:
        return request.GET
    if posted(request):
        return request.POST
    kept = expense.workings.get("days")
    return {"first": kept[0]["day"], "last": kept[-1]["day"]} if kept else None


def stay_form(
    request: HttpRequest, project: Project, expense: Expense, days: list[date]
) -> StayForm | None:
    table = meal_table(days[0])
    if table is None or RateBook(project).on(days[0]) is None:
        return None
    kept = {f"meals_{row['day']}": row["provided"] for row in expense.workings.get("days", [])}
    told = {"place": expense.place, "purpose": expense.workings.get("purpose", "")}
    made = StayEdit if expense.pk else StayForm
    return made(
        data_of(request),
        instance=expense,
        lines=BudgetLine.objects.filter(project=project),
        days=days,
        table=table,
        today=today(project),
        initial={**traveller(expense), **told, **kept, **expense.workings.get("own", {})},
    )


def keep_stay(request: HttpRequest, project: Project, form: StayForm) -> Expense | None:
    book, values, provided = RateBook(project), form.cleaned_data, form.provided()
    found, _ = services.stay_reckoned(
        form.days, book, night=values["night"], meals=values["meals"], provided=provided
    )
    if not allowed(form, {"cents": found.cents, "day": form.days[-1]}):
        return None
    try:
        return services.save_stay(
            expense=form.instance,
            values=values,
            days=form.days,
            provided=provided,
            book=book,
            user=request.user,
        )
    except Overtaken:
        form.add_error(None, QUICKER)
        return None


def allowed(form: TripForm | StayForm, reckoned: Mapping[str, Any]) -> bool:
    """It comes to something, and to what a filed claim was told."""
    if reckoned["cents"] < 1:
        form.add_error(None, "It comes to less than a cent. Check the miles.")
        return False
    return keep_reckoned(form, {**form.cleaned_data, **reckoned})


def traveller(expense: Expense) -> dict[str, Any]:
    return {"payee": expense.payee or "Artist", "line": expense.line_id}


def back_from(project: Project, expense: Expense) -> str:
    if expense.pk:
        return reverse("budgets:expense", args=[project.pk, expense.pk])
    return reverse("budgets:expense-add", args=[project.pk])
