"""Hours, goods and space given: the room, and one form for each kind of gift."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from budgets.engine.dated import NoFact
from budgets.facts import all_of
from budgets.forms.gift_desk import Desk, desk
from budgets.forms.held import keep_reckoned
from budgets.forms.travel_log import TravelLogForm
from budgets.models import Expense
from budgets.selectors.gift_kinds import Kind, kinds
from budgets.selectors.gifts import gift_sheet
from budgets.selectors.travel_log import travellers, trips_of
from budgets.services import gifts as services
from budgets.services.expenses import named
from budgets.views.pages import expense_in, shown, to_expense
from projects.access import project_for
from projects.clock import today
from projects.meanwhile import Overtaken
from projects.models import Project
from projects.pages import posted
from projects.words import day


@require_GET
def gifts(request: HttpRequest, project_id: int) -> HttpResponse:
    return gifts_page(request, project_for(request.user, project_id))


def gifts_page(
    request: HttpRequest, project: Project, *, log: TravelLogForm | None = None
) -> HttpResponse:
    names = travellers(trips_of(project))
    context = {
        "g": gift_sheet(project),
        "kinds": kinds().values(),
        "log": log or (TravelLogForm(names=names) if names else None),
    }
    return shown(request, project, "gifts.html", context, status=422 if log else 200)


@require_http_methods(["GET", "POST"])
def gift_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    kind = kinds().get(request.GET.get("kind", ""))
    if kind is None:
        return redirect("budgets:gifts", project.pk)
    return gift_page(request, project, Expense(project=project), kind)


@require_http_methods(["GET", "POST"])
def gift_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """A gift without a kind is asked for one first: `?kind=`."""
    project = project_for(request.user, project_id, change=True)
    expense = expense_in(project, pk)
    kind = kinds().get(request.GET.get("kind", "")) or kinds().get(expense.gift_kind)
    if not expense.in_kind:
        return redirect("budgets:expense", project.pk, pk)
    if kind is None:
        context = {"expense": expense, "kinds": kinds().values()}
        return shown(request, project, "gift_kind.html", context)
    return gift_page(request, project, expense, kind)


def gift_page(request: HttpRequest, project: Project, expense: Expense, kind: Kind) -> HttpResponse:
    new = expense.pk is None
    opened = desk(request, expense, kind, today(project))
    if posted(request) and opened.is_valid():
        try:
            if made := keep(request, project, opened):
                says = f"{'Logged' if new else 'Saved'} {named(made)}."
                return to_expense(request, project, made, says)
        except Overtaken:
            opened = desk(request, expense_in(project, expense.pk), kind, today(project))
    context = {
        "desk": opened,
        "kind": kind,
        "expense": expense,
        "heading": kind.label if new else f"Change: {kind.label.lower()}",
        "back": reverse("budgets:gifts", args=[project.pk]),
    }
    return shown(request, project, "gift_form.html", context, status=opened.status)


def keep(request: HttpRequest, project: Project, opened: Desk) -> Expense | None:
    """The gift as saved; nothing, with the reason on the form, when it cannot be."""
    form, rows = opened.form, opened.rows
    try:
        reckoned = services.gift_values(opened.kind, form.cleaned_data, rows, all_of(project))
    except NoFact as unknown:
        form.add_error(None, f"No rate is known for {day(unknown.day)}. Add it under Rates.")
        return None
    told = {**form.cleaned_data, **reckoned}
    if not form.check_worth(reckoned["cents"]) or not keep_reckoned(form, told):
        return None
    return services.save_gift(
        expense=form.instance,
        kind=opened.kind,
        values=form.cleaned_data,
        reckoned=reckoned,
        rows=rows,
        user=request.user,
    )


@require_POST
def hours_signed(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """Every line of the sheet is signed: said once the paper is."""
    project = project_for(request.user, project_id, change=True)
    expense = expense_in(project, pk)
    says = services.sign_all(expense=expense, user=request.user)
    return to_expense(request, project, expense, says)
