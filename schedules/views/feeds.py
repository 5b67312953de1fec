"""The page of calendar feeds: switch them on and off, renew an address, read a file."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import after, sheet
from projects.words import plural
from schedules.forms.feeds import FileForm
from schedules.models import Feed
from schedules.selectors.feeds import FeedLine, feed_lines
from schedules.services import feeds as service
from suppliers.models import Supplier


@dataclass(frozen=True, slots=True)
class Row:
    """A line with its address, which only who may change the project sees."""

    line: FeedLine
    address: str


def show(
    request: HttpRequest, project: Project, *, form: FileForm | None = None, says: str = ""
) -> HttpResponse:
    lines = feed_lines(project, today(project))
    context = {
        "rows": [Row(line, address_of(request, project, line)) for line in lines],
        "lede": lede(lines),
        "form": form or FileForm(project=project, today=today(project)),
    }
    return sheet(
        request,
        project,
        "schedules/feeds.html",
        context,
        current="schedule",
        part="sheet",
        status=422 if form else 200,
        says=says,
    )


def address_of(request: HttpRequest, project: Project, line: FeedLine) -> str:
    if line.feed is None or not getattr(project, "can_change", False):
        return ""
    path = reverse("calendar:feed", args=[service.token_of(line.feed)])
    return request.build_absolute_uri(path)


def lede(lines: list[FeedLine]) -> str:
    on = [line for line in lines if line.feed]
    if not on:
        return (
            "No feed is on. Switch one on and give its address to whoever should see the dates: "
            "when a date moves, their calendar follows."
        )
    others = sum(1 for line in on if line.supplier)
    who = plural(others, "supplier") if others else "no supplier yet"
    return f"{plural(len(on), 'feed')} on, for {who}. When a date moves, their calendars follow."


def back(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("schedules:feeds", args=[project.pk])
    return after(request, url, says, lambda: show(request, project, says=says))


@require_GET
def feeds(request: HttpRequest, project_id: int) -> HttpResponse:
    return show(request, project_for(request.user, project_id))


@require_POST
def feed_on(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    wanted = request.POST.get("supplier", "")
    supplier = None
    if wanted:
        known = Supplier.objects.filter(project=project)
        supplier = get_object_or_404(known, pk=int(wanted) if wanted.isdecimal() else 0)
    return back(
        request,
        project,
        service.switch_on(project=project, user=request.user, supplier=supplier),
    )


@require_POST
def feed_renew(request: HttpRequest, project_id: int, feed_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    feed = get_object_or_404(Feed, project=project, pk=feed_id)
    return back(request, project, service.renew(project=project, user=request.user, feed=feed))


@require_POST
def feed_off(request: HttpRequest, project_id: int, feed_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    feed = get_object_or_404(Feed, project=project, pk=feed_id)
    return back(request, project, service.switch_off(project=project, user=request.user, feed=feed))
