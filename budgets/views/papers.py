"""Receipts and proofs of payment: added, shown to members, removed."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from budgets.forms.expenses import PaperForm
from budgets.models import Paper
from budgets.selectors.appendix import kept_as
from budgets.selectors.held import kept_words
from budgets.services import expenses as services
from budgets.views.pages import expense_in, expense_page, shown, to_expense
from projects.access import project_for
from projects.files import PDF, served
from projects.models import Project
from projects.pages import posted


def paper_in(project: Project, pk: int) -> Paper:
    papers = Paper.objects.select_related("expense__project")
    return get_object_or_404(papers, expense__project=project, pk=pk)


@require_GET
def paper_file(request: HttpRequest, project_id: int, paper_id: int) -> HttpResponseBase:
    """A picture is shown; a PDF is saved, never opened inside the page."""
    found = paper_in(project_for(request.user, project_id), paper_id)
    is_pdf = found.media_type == PDF
    name, kind = kept_as(found), found.media_type
    return served(found.file, name=name, media_type=kind, attach=is_pdf)


@require_POST
def paper_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    expense = expense_in(project, pk)
    form = PaperForm(project, request.POST, request.FILES)
    if not form.is_valid():
        return expense_page(request, project, expense, paper_form=form)
    services.add_paper(
        expense=expense,
        paper=form.cleaned_data["file"],
        kind=form.cleaned_data["kind"],
        user=request.user,
    )
    return to_expense(request, project, expense, "Added the paper.")


@require_http_methods(["GET", "POST"])
def paper_delete(request: HttpRequest, project_id: int, paper_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found, problem = paper_in(project, paper_id), ""
    expense = found.expense
    if posted(request):
        try:
            services.delete_paper(paper=found, user=request.user)
            return to_expense(request, project, expense, "Removed the paper.")
        except services.Held as held:
            problem = kept_words(held.claims, "This paper stays")
    context = {
        "heading": f"Remove this {found.get_kind_display().lower()}?",
        "warning": "A fund that asks for it will no longer pay this expense.",
        "problem": problem,
        "back": reverse("budgets:expense", args=[project.pk, expense.pk]),
    }
    return shown(request, project, "confirm.html", context, status=409 if problem else 200)
