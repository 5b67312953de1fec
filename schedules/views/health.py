"""What ails the plan, and the fixes that one press can make."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import after, sheet
from schedules import engine
from schedules.forms.health import WhyForm
from schedules.forms.plain import sentence
from schedules.models import KeyDate, Link, Task
from schedules.selectors.health import health_sheet
from schedules.services import mending

LONGEST = {"link": 120, "date": 200, "start": 200}


@require_GET
def health(request: HttpRequest, project_id: int) -> HttpResponse:
    return show(request, project_for(request.user, project_id))


def show(
    request: HttpRequest,
    project: Project,
    *,
    says: str = "",
    problem: str = "",
    wrong: tuple[str, WhyForm] | None = None,
) -> HttpResponse:
    """``wrong`` is a form with something wrong in it, and the address it was sent to."""
    context = health_sheet(project, today(project)) | {
        "problem": problem,
        "wrong_url": wrong[0] if wrong else "",
        "wrong_form": wrong[1] if wrong else None,
    }
    status = 422 if wrong else 409 if problem else 200
    return sheet(
        request, project, "schedules/health.html", context,
        current="schedule", part="sheet", status=status, says=says,
    )  # fmt: skip


def mended(request: HttpRequest, project: Project, mend: Callable[[], str]) -> HttpResponse:
    try:
        says = mend()
    except mending.NothingToMend as nothing:
        return show(request, project, problem=str(nothing))
    except engine.ScheduleError as error:
        return show(request, project, problem=sentence(error))
    url = reverse("schedules:health", args=[project.pk])
    return after(request, url, says, lambda: show(request, project, says=says))


def mend_task(
    request: HttpRequest, project_id: int, task_id: int, mend: Callable[..., str]
) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    task = get_object_or_404(Task, project=project, pk=task_id)
    own = {"project": project, "user": request.user, "today": today(project), "task": task}
    return mended(request, project, lambda: mend(**own))


@require_POST
def tie(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    return mend_task(request, project_id, task_id, mending.tie_to_public_date)


@require_POST
def wait(request: HttpRequest, project_id: int, link_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    links = Link.objects.select_related("before__lane", "after")
    link = get_object_or_404(links, project=project, pk=link_id)
    return mended(
        request, project,
        lambda: mending.make_waiting_task(
            project=project, user=request.user, today=today(project), link=link
        ),
    )  # fmt: skip


@require_POST
def set_today(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    return mend_task(request, project_id, task_id, mending.set_to_today)


@require_POST
def waits(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    return mend_task(request, project_id, task_id, mending.say_it_waits)


Explain = Callable[[str], str]


def explained(request: HttpRequest, project: Project, kind: str, say: Explain) -> HttpResponse:
    form = WhyForm(request.POST, longest=LONGEST[kind], auto_id="why-wrong-%s")
    if not form.is_valid():
        return show(request, project, wrong=(request.path, form))
    return mended(request, project, lambda: say(form.cleaned_data["reason"]))


@require_POST
def link_reason(request: HttpRequest, project_id: int, link_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    links = Link.objects.select_related("before", "after")
    link = get_object_or_404(links, project=project, pk=link_id)
    own: dict[str, Any] = {"project": project, "user": request.user, "link": link}
    return explained(request, project, "link", lambda r: mending.explain_link(**own, reason=r))


@require_POST
def date_reason(request: HttpRequest, project_id: int, key_date_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    row = get_object_or_404(KeyDate, project=project, pk=key_date_id)
    own: dict[str, Any] = {"project": project, "user": request.user, "key_date": row}
    return explained(request, project, "date", lambda r: mending.explain_key_date(**own, reason=r))


@require_POST
def start_reason(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    task = get_object_or_404(Task, project=project, pk=task_id)
    own: dict[str, Any] = {"project": project, "user": request.user, "task": task}
    return explained(request, project, "start", lambda r: mending.explain_start(**own, reason=r))
