"""An expense: logged from a phone, changed, deleted, and shared out among the funds."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from budgets.forms.expenses import ExpenseEdit, ExpenseForm
from budgets.models import BudgetLine, Expense
from budgets.selectors.expenses import payees
from budgets.selectors.held import kept_words
from budgets.services import expenses as services
from budgets.views.pages import expense_in, expense_page, shown, to_expense, to_money
from projects.access import project_for
from projects.clock import today
from projects.meanwhile import Overtaken
from projects.models import Project
from projects.pages import data_of, posted


@require_GET
def expense(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    return expense_page(request, project, expense_in(project, pk))


@require_http_methods(["GET", "POST"])
def expense_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = ExpenseForm(
        data_of(request),
        request.FILES or None,
        instance=Expense(project=project),
        initial={"day": today(project)},
        project=project,
        today=today(project),
        lines=list(BudgetLine.objects.filter(project=project)),
    )
    if posted(request) and form.is_valid():
        made = services.save_expense(
            expense=form.instance,
            values=form.values(),
            paper=form.cleaned_data["photo"],
            user=request.user,
        )
        return to_expense(request, project, made, f"Logged {services.named(made)}.")
    back = reverse("budgets:money", args=[project.pk])
    return form_page(request, project, form, "Log an expense", back)


@require_http_methods(["GET", "POST"])
def expense_edit(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = edit_form(request, project, pk)
    if form.instance.in_kind:
        return redirect("budgets:gift-edit", project.pk, pk)
    if posted(request) and form.is_valid():
        try:
            made = services.save_expense(
                expense=form.instance, values=form.values(), user=request.user
            )
            return to_expense(request, project, made, f"Saved {services.named(made)}.")
        except Overtaken:
            form = edit_form(request, project, pk)
    back = reverse("budgets:expense", args=[project.pk, pk])
    return form_page(request, project, form, "Change the expense", back)


def edit_form(request: HttpRequest, project: Project, pk: int) -> ExpenseEdit:
    return ExpenseEdit(
        data_of(request),
        instance=expense_in(project, pk),
        project=project,
        today=today(project),
        lines=list(BudgetLine.objects.filter(project=project)),
    )


def form_page(
    request: HttpRequest, project: Project, form: ExpenseForm, heading: str, back: str
) -> HttpResponse:
    context = {
        "form": form,
        "heading": heading,
        "back": back,
        "payees": payees(project),
        "no_lines": not BudgetLine.objects.filter(project=project).exists(),
    }
    overtaken = getattr(form, "overtaken", False)
    status = 200 if not posted(request) else 409 if overtaken else 422
    return shown(request, project, "expense_form.html", context, status=status)


@require_http_methods(["GET", "POST"])
def expense_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found, problem = expense_in(project, pk), ""
    if posted(request):
        name = services.named(found)
        try:
            services.delete_expense(expense=found, user=request.user)
            return to_money(request, project, f"Deleted {name}.")
        except services.Held as held:
            problem = kept_words(held.claims, "It cannot be deleted")
    context = {
        "heading": f"Delete {services.named(found)}?",
        "warning": "Its papers and its shares go with it. This cannot be undone.",
        "problem": problem,
        "back": reverse("budgets:expense", args=[project.pk, pk]),
    }
    return shown(request, project, "confirm.html", context, status=409 if problem else 200)
