"""Why not this fund: each fund's answer to one expense, and what mending it is worth."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from budgets.engine import best as optimum
from budgets.fit.best import best
from budgets.selectors.worth import why_not
from budgets.views.pages import expense_in, shown
from projects.access import project_for
from projects.clock import today
from projects.pages import wants_part


@require_GET
def why(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    row = expense_in(project, pk)
    context = {"project": project, "expense": row, "rows": [], "unsolved": ""}
    try:
        context["rows"] = why_not(best(project, today(project)), row)
    except optimum.BestError as error:
        context["unsolved"] = str(error)
    if wants_part(request):
        return render(request, "budgets/_why_rows.html", context)
    return shown(request, project, "why.html", context)
