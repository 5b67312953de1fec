"""An expense: logged from a phone, changed, deleted, and shared out among the funds."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from budgets import fit
from budgets.forms.expenses import ExpenseEdit, ExpenseForm
from budgets.forms.shares import ShareForm
from budgets.models import BudgetLine, Expense
from budgets.selectors.expenses import payees
from budgets.services import expenses as services
from budgets.views.pages import expense_in, expense_page, shown, to_expense, to_money
from projects.access import project_for
from projects.clock import today
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
    form = ExpenseEdit(
        data_of(request),
        instance=expense_in(project, pk),
        project=project,
        today=today(project),
        lines=list(BudgetLine.objects.filter(project=project)),
    )
    if posted(request) and form.is_valid():
        made = services.save_expense(expense=form.instance, values=form.values(), user=request.user)
        return to_expense(request, project, made, f"Saved {services.named(made)}.")
    back = reverse("budgets:expense", args=[project.pk, pk])
    return form_page(request, project, form, "Change the expense", back)


def form_page(
    request: HttpRequest, project: Project, form: ExpenseForm, heading: str, back: str
) -> HttpResponse:
    more = any(name in form.errors for name in ("what", "supplier", "order", "in_kind"))
    filled = any(form[name].value() for name in ("what", "supplier", "order", "in_kind"))
    context = {
        "form": form,
        "heading": heading,
        "back": back,
        "payees": payees(project),
        "more_open": more or filled,
        "no_lines": not BudgetLine.objects.filter(project=project).exists(),
    }
    status = 422 if posted(request) else 200
    return shown(request, project, "expense_form.html", context, status=status)


@require_http_methods(["GET", "POST"])
def expense_delete(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = expense_in(project, pk)
    if posted(request):
        name = services.named(found)
        services.delete_expense(expense=found, user=request.user)
        return to_money(request, project, f"Deleted {name}.")
    context = {
        "heading": f"Delete {services.named(found)}?",
        "warning": "Its papers and its shares go with it. This cannot be undone.",
        "back": reverse("budgets:expense", args=[project.pk, pk]),
    }
    return shown(request, project, "confirm.html", context)


@require_POST
def share(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    """Who pays which cents; a rule that bars a share answers beside it."""
    project = project_for(request.user, project_id, change=True)
    found = expense_in(project, pk)
    books = fit.read(project)
    had = books.shares_of.get(pk, {})
    form = ShareForm(request.POST, expense=found, answers=fit.answers(books, found), had=had)
    if form.is_valid():
        try:
            services.save_shares(expense=found, wanted=form.wanted(), user=request.user)
            return to_expense(request, project, found, "Saved who pays it.")
        except services.Barred as barred:
            form.refuse(dict(barred.reasons))
    return expense_page(request, project, found, form=form)
