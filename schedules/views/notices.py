"""Tell each party what moved: words ready to send, and a record of who was told."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import after, posted, sheet
from schedules.forms.notices import NoticeForm, ToldForm
from schedules.models import Notice
from schedules.plan import current
from schedules.selectors.notices import Line, days_now, notices
from schedules.services import notify

TEMPLATE = "schedules/notices.html"
AGAIN = "The dates have moved again since this was written. Write it anew before you tell it."


@require_safe
def page(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    current(project, today(project))
    return show(request, project)


def show(
    request: HttpRequest,
    project: Project,
    *,
    status: int = 200,
    says: str = "",
    telling: tuple[int, ToldForm] | None = None,
    **more: Any,
) -> HttpResponse:
    found = notices(project, today(project))
    context = {
        "found": found,
        "rows": [(line, told_form(project, line, telling)) for line in found.unsent],
    }
    return sheet(
        request,
        project,
        TEMPLATE,
        {**context, **more},
        current="schedule",
        part="sheet",
        status=status,
        says=says,
    )


def told_form(project: Project, line: Line, telling: tuple[int, ToldForm] | None) -> ToldForm:
    if telling and telling[0] == line.row.pk:
        return telling[1]
    return ToldForm(today=today(project), prefix=f"n{line.row.pk}")


def changed(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("schedules:notices", args=[project.pk])
    return after(request, url, says, lambda: show(request, project, says=says))


def waiting(project: Project, notice_id: int) -> Notice:
    """One that was not told yet: what was told is kept as it was."""
    return get_object_or_404(Notice, pk=notice_id, project=project, told_on=None)


def notice_edit(request: HttpRequest, project_id: int, notice_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    notice = waiting(project, notice_id)
    form = NoticeForm(request.POST if posted(request) else None, instance=notice)
    if posted(request) and form.is_valid():
        notify.change_words(notice=form.save(commit=False))
        return changed(request, project, f"The notice to {notice.party} reads as you wrote it.")
    status = 422 if posted(request) else 200
    return show(request, project, status=status, opened=notice.pk, form=form)


@require_POST
def notice_tell(request: HttpRequest, project_id: int, notice_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    day = today(project)
    notice = get_object_or_404(Notice, pk=notice_id, project=project)
    form = ToldForm(request.POST, today=day, prefix=f"n{notice.pk}")
    if not form.is_valid():
        return show(request, project, status=422, telling=(notice.pk, form))
    how, on = form.cleaned_data["how"], form.cleaned_data["on"]
    days = days_now(project, day)
    try:
        says = notify.tell(notice=notice, user=request.user, how=how, on=on, days=days)
    except notify.MovedAgain:
        form.add_error(None, AGAIN)
        return show(request, project, status=409, telling=(notice.pk, form))
    except notify.ToldAlready:
        return changed(request, project, f"{notice.party} was told already.")
    return changed(request, project, says)


@require_POST
def notice_anew(request: HttpRequest, project_id: int, notice_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    notice = get_object_or_404(Notice, pk=notice_id, project=project)
    days = days_now(project, today(project))
    if notify.write_anew(notice=notice, user=request.user, days=days):
        return changed(request, project, f"Wrote the notice to {notice.party} anew.")
    return changed(request, project, f"There is nothing left to tell {notice.party}.")


@require_POST
def notice_aside(request: HttpRequest, project_id: int, notice_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    notice = waiting(project, notice_id)
    return changed(request, project, notify.set_aside(notice=notice, user=request.user))


@require_safe
def letters(request: HttpRequest, project_id: int) -> HttpResponse:
    """To print, one page a party: all that wait, or the one asked for."""
    project = project_for(request.user, project_id)
    only = request.GET.get("only", "")
    found = notices(project, today(project))
    every = [*found.unsent, *found.told] if only else found.to_print
    lines = [line for line in every if not only or str(line.row.pk) == only]
    context = {"lines": lines, "day": today(project)}
    return sheet(request, project, "schedules/letters.html", context, current="schedule")
