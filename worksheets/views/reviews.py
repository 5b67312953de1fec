"""Reviews by licensed persons, and the page that tells whether the work can be installed."""

from __future__ import annotations

from dataclasses import replace

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods

from projects import pages
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import Opened, data_of, posted
from projects.paper import print_page
from worksheets import run
from worksheets.engine.sheet import Caution
from worksheets.forms.reviews import ReviewForm
from worksheets.models import Review, Worksheet
from worksheets.selectors import reviews as selectors
from worksheets.services import reviews as services
from worksheets.views.new import kept_asked, to_worksheet
from worksheets.views.papers import taken_away
from worksheets.views.showing import worksheet_in, worksheet_page

QUESTION = (
    "It counts for this version alone: if an input, a part or a rule changes, it has to be "
    "checked again."
)


@require_http_methods(["GET", "POST"])
def review(request: HttpRequest, project_id: int, worksheet_id: int) -> HttpResponse:
    """Enter who has checked the version that is shown."""
    project = project_for(request.user, project_id, change=True)
    found = worksheet_in(project, worksheet_id)
    state = selectors.checked(found, run.work_saved(found))
    if state.caution < Caution.COMPETENT or state.last is None:
        return to_worksheet(request, project, found.pk, "This worksheet needs no review.")
    if state.hindrance:
        return opened_page(request, project, found, problem=state.hindrance)
    form = ReviewForm(data_of(request), run=state.last, today=today(project))
    if not posted(request) or not form.is_valid():
        return opened_page(request, project, found, form=form)
    try:
        says = services.enter(worksheet=found, user=request.user, **form.cleaned_data)
    except services.CannotReview as refused:
        return opened_page(request, project, found, problem=str(refused))
    return to_worksheet(request, project, found.pk, says)


def opened_page(
    request: HttpRequest,
    project: Project,
    worksheet: Worksheet,
    *,
    form: ReviewForm | None = None,
    problem: str = "",
) -> HttpResponse:
    opened = Opened(
        what="review",
        action=reverse("worksheets:review", args=[project.pk, worksheet.pk]),
        heading="Enter a review",
        form=form,
        question=QUESTION,
        problem=problem,
        button="Enter the review",
    )
    return worksheet_page(request, replace(kept_asked(project, worksheet), opened=opened))


@require_http_methods(["GET", "POST"])
def review_delete(request: HttpRequest, project_id: int, worksheet_id: int) -> HttpResponse:
    """Take back the newest review."""
    project = project_for(request.user, project_id, change=True)
    found = worksheet_in(project, worksheet_id)
    rows = Review.objects.filter(run__worksheet=found).select_related("run__worksheet__project")
    newest = rows.order_by("-run__number").first()
    if newest is None:
        return to_worksheet(request, project, found.pk, "There is no review to take back.")
    if posted(request):
        says = services.take_back(review=newest, user=request.user)
        return to_worksheet(request, project, found.pk, says)
    opened = Opened(
        what="review",
        action=reverse("worksheets:review_delete", args=[project.pk, found.pk]),
        heading=f"Take back the review by {newest.reviewer}?",
        question="The worksheet then counts as not checked.",
        button="Take it back",
    )
    return worksheet_page(request, replace(kept_asked(project, found), opened=opened))


@require_GET
def ready(request: HttpRequest, project_id: int) -> HttpResponse:
    return ready_page(request, project_for(request.user, project_id))


def ready_page(
    request: HttpRequest, project: Project, *, status: int = 200, refused: bool = False
) -> HttpResponse:
    context = {"r": selectors.ready(project), "refused": refused}
    return pages.sheet(
        request,
        project,
        "worksheets/ready.html",
        context,
        current="worksheets",
        part="sheet",
        status=status,
    )


@require_GET
def ready_paper(request: HttpRequest, project_id: int) -> HttpResponse:
    """Refused, with the reasons, until everything that asks for a licensed person is reviewed."""
    project = project_for(request.user, project_id)
    found = selectors.ready(project)
    if found.reasons:
        return ready_page(request, project, status=409, refused=True)
    day = today(project)
    context = {
        "project": project, "heading": "Ready to install", "about": "Ready to install",
        "day": day, "r": found,
    }  # fmt: skip
    return taken_away(print_page("worksheets/ready_paper.html", context), "ready-to-install.pdf")
