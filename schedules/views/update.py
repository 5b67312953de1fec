"""Say how things stand, one task after another."""

from __future__ import annotations

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
from schedules.forms.plain import explain
from schedules.forms.update import AheadForm, AnswerForm
from schedules.models import Task
from schedules.plan import current
from schedules.selectors.update import update_page
from schedules.services import update as service
from schedules.views.answers import Kept


@require_GET
def update(request: HttpRequest, project_id: int) -> HttpResponse:
    return show(request, project_for(request.user, project_id))


def show(
    request: HttpRequest,
    project: Project,
    *,
    answer: AnswerForm | None = None,
    ahead: tuple[int, AheadForm] | None = None,
    just: int = 0,
    says: str = "",
) -> HttpResponse:
    """The page; ``answer`` and ``ahead`` (a task and its form) hold something wrong."""
    page = update_page(project, today(project), also_asked(request))
    kept = Kept.of(request, project)
    context = {
        "page": page,
        "lines": [kept.line(question, answer) for question in page.questions],
        "effect": kept.effect(page.state),
        "ahead": ahead,
        "just": just,
    }
    status = 422 if answer or ahead else 200
    return sheet(
        request, project, "schedules/update.html", context,
        current="schedule", part="sheet", status=status, says=says,
    )  # fmt: skip


def also_asked(request: HttpRequest) -> int | None:
    """A task that the plan would not ask about today."""
    also = request.GET.get("also", "")
    return int(also) if also.isdecimal() else None


def task_of(request: HttpRequest, project_id: int, task_id: int) -> tuple[Project, Task]:
    project = project_for(request.user, project_id, change=True)
    tasks = Task.objects.select_related("lane")
    return project, get_object_or_404(tasks, project=project, pk=task_id)


def answered(request: HttpRequest, project: Project, task: Task, says: str) -> HttpResponse:
    url = reverse("schedules:update", args=[project.pk])
    page = f"{url}#ask-{task.pk}"
    return after(
        request, page, says, lambda: show(request, project, just=task.pk, says=says), push=False
    )


@require_POST
def update_answer(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    project, task = task_of(request, project_id, task_id)
    form = AnswerForm(request.POST, task=task, today=today(project))
    if not form.is_valid():
        return show(request, project, answer=form)
    before = current(project, today(project)).in_hand_days
    was = service.state_of(task)
    try:
        says = saved(request, project, task, form.cleaned_data)
    except engine.ScheduleError as error:
        explain(form, error, "left")
        return show(request, project, answer=form)
    Kept.of(request, project).keep(task, was, service.state_of(task), says, before)
    return answered(request, project, task, says)


def saved(request: HttpRequest, project: Project, task: Task, said: dict[str, Any]) -> str:
    what: dict[str, Any] = {
        "project": project, "user": request.user, "today": today(project), "task": task,
    }  # fmt: skip
    match said["verb"]:
        case "started":
            return service.begin(on=said["on"], **what)
        case "finished":
            return service.finish(on=said["on"], begun=said["begun"], **what)
        case "left":
            return service.say_left(left=said["left"], **what)
        case _:
            return service.not_yet(**what)


@require_POST
def update_undo(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    project, task = task_of(request, project_id, task_id)
    kept = Kept.of(request, project)
    pair = kept.taken(task)
    says = "There is no answer of yours to take back."
    if pair:
        try:
            says = service.take_back(
                project=project, user=request.user, today=today(project), task=task,
                was=pair[0], became=pair[1],
            )  # fmt: skip
            kept.forget(task)
        except service.Changed:
            says = f"“{task}” was changed since. Nothing was taken back: look at it first."
    return answered(request, project, task, says)


@require_POST
def task_ahead(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    """Work begun early goes on regardless, for a reason; or it waits again."""
    project, task = task_of(request, project_id, task_id)
    form = AheadForm(request.POST)
    reason = ""
    if "wait" not in request.POST:
        if not form.is_valid():
            return show(request, project, ahead=(task.pk, form))
        reason = form.cleaned_data["reason"]
    says = service.go_ahead(
        project=project, user=request.user, today=today(project), task=task, reason=reason
    )
    return answered(request, project, task, says)
