"""Who pays which cents of an expense; a rule that bars a share answers beside it."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_POST

from budgets import fit
from budgets.fit.sharing import sharing
from budgets.forms.shares import ShareForm
from budgets.models import Expense
from budgets.services import sharing as services
from budgets.views.pages import expense_in, expense_page, to_expense
from projects.access import project_for
from projects.models import Project


@require_POST
def share(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = expense_in(project, pk)
    form = sent(request, project, found)
    if not form.is_valid():
        return expense_page(request, project, found, form=form)
    try:
        services.save_shares(
            expense=found,
            shares=form.shares(),
            match=form.match(),
            user=request.user,
            was=form.was(),
        )
    except services.Overtaken:
        form = sent(request, project, found)
        form.overtaken()
        return expense_page(request, project, found, form=form, status=409)
    except services.Barred as barred:
        form.refuse(barred.wanted)
    if form.errors:
        return expense_page(request, project, found, form=form)
    return to_expense(request, project, found, "Saved who pays it.")


def sent(request: HttpRequest, project: Project, expense: Expense) -> ShareForm:
    """What was typed, beside the books as they are now."""
    form = ShareForm(request.POST, sharing=sharing(fit.read(project), expense))
    form.is_valid()
    return form
