"""Hand a result on: a small form in place that says what the target was and becomes."""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import Opened, data_of, posted
from worksheets.forms.handing import HandForm
from worksheets.forms.hands import form_for
from worksheets.selectors.desk import Desk, Effect, desk_of
from worksheets.selectors.handed import PLACES
from worksheets.services import handing
from worksheets.views.new import kept_asked, to_worksheet
from worksheets.views.showing import worksheet_in, worksheet_page


@dataclass(frozen=True, kw_only=True)
class OpenHand(Opened):
    """The form of a hand, with what its answers do."""

    hand_key: str
    effect: Effect | None = None
    unseen: str = ""
    looked: bool = False  # only asked what it would do

    @property
    def status(self) -> int:
        if self.looked:
            return 200
        return 409 if self.unseen else super().status


@require_http_methods(["GET", "POST"])
def worksheet_hand(
    request: HttpRequest, project_id: int, worksheet_id: int, key: str
) -> HttpResponse:
    """With ``look`` in what is sent, only what it would do."""
    project = project_for(request.user, project_id, change=True)
    found = worksheet_in(project, worksheet_id)
    desk = desk_of(found, key, today(project))
    if desk is None:
        raise Http404
    form = form_for(desk, data_of(request))
    if posted(request) and "look" not in request.POST and form.is_valid() and not form.unseen:
        says = handed_on(request, desk, form)
        if says:
            return to_worksheet(request, project, found.pk, says)
        form = form_for(desk, request.POST)
    return hand_page(request, project, desk, form)


def handed_on(request: HttpRequest, desk: Desk, form: HandForm) -> str:
    """Empty when something was changed in the same moment."""
    try:
        return handing.hand_on(
            worksheet=desk.worksheet,
            key=desk.hand.key,
            values=form.cleaned_data,
            seen=request.POST.get("seen", ""),
            user=request.user,
            today=desk.today,
        )
    except handing.Overtaken:
        return ""


def hand_page(request: HttpRequest, project: Project, desk: Desk, form: HandForm) -> HttpResponse:
    looked = posted(request) and "look" in request.POST
    shown = form if form.is_bound else form.as_opened()
    shown.is_valid()
    worksheet = desk.worksheet
    opened = OpenHand(
        what="hand",
        hand_key=desk.hand.key,
        action=reverse("worksheets:hand", args=[project.pk, worksheet.pk, desk.hand.key]),
        heading=f"Hand on “{desk.hand.label}” to {PLACES[type(desk.hand)]}",
        form=form,
        button="Hand it on",
        below="worksheets/_becomes.html",
        effect=shown.effect,
        unseen=form.unseen if form.is_bound and not looked else "",
        looked=looked,
    )
    return worksheet_page(request, replace(kept_asked(project, worksheet), opened=opened))
