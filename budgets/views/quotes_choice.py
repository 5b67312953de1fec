"""Choose one quote with a reason, and reopen the choice with another."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from budgets.forms.quotes import ChooseForm, ReasonForm
from budgets.services import choosing
from budgets.services.quotes import Refused
from budgets.views.quotes_pages import quote_in, request_in, the_page, to_request
from projects.access import project_for
from projects.clock import today
from projects.pages import Opened, data_of, posted
from schedules.engine import ScheduleError

NO_PLAN = "The plan cannot be computed with this lead time: look at the schedule first."


@require_http_methods(["GET", "POST"])
def choose(request: HttpRequest, project_id: int, pk: int, quote_id: int) -> HttpResponse:
    """An order comes of it, its task takes as long as the quote says, and the plan moves."""
    project = project_for(request.user, project_id, change=True)
    quote, day, problem = quote_in(project, pk, quote_id), today(project), ""
    form = ChooseForm(data_of(request), today=day, initial={"on": day, "placed": True})
    if posted(request) and form.is_valid():
        deal = choosing.Deal(**form.deal())
        try:
            _, says = choosing.accept(quote=quote, deal=deal, user=request.user, today=day)
            return to_request(request, project, quote.request, says)
        except Refused as refused:
            problem = str(refused)
        except ScheduleError:
            problem = NO_PLAN
    opened = Opened(
        what="choose",
        action=reverse("budgets:quote-choose", args=[project.pk, pk, quote_id]),
        heading=f"Order it from {quote.supplier.name}",
        form=form,
        pk=quote_id,
        problem=problem,
        button="Order it",
    )
    return the_page(request, project, quote.request, opened=opened)


@require_http_methods(["GET", "POST"])
def reopen(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found, problem = request_in(project, pk), ""
    form = ReasonForm(data_of(request))
    if posted(request) and form.is_valid():
        try:
            says = choosing.reopen(
                request=found,
                reason=form.cleaned_data["reason"],
                user=request.user,
                today=today(project),
            )
            return to_request(request, project, found, says)
        except Refused as refused:
            problem = str(refused)
        except ScheduleError:
            problem = NO_PLAN
    url = reverse("budgets:quotes-reopen", args=[project.pk, pk])
    opened = Opened(
        what="reopen",
        action=url,
        heading="Reopen the choice",
        form=form,
        problem=problem,
        button="Reopen it",
    )
    return the_page(request, project, found, opened=opened)
