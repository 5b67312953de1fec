"""Add, edit, remove a task; say how far it is."""

from __future__ import annotations

from typing import Any

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods, require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from schedules import engine
from schedules.forms.links import LinkForm
from schedules.forms.plain import explain, focus_first
from schedules.forms.tasks import NewTaskForm, ProgressForm, TaskForm
from schedules.models import Task
from schedules.selectors.links import links_of
from schedules.services import tasks as service
from schedules.views.showing import changed, show, wrong


def opened_task(project: Project, task: Task, **forms_: forms.BaseForm) -> dict[str, Any]:
    """The row of a task, open, with its three forms; those given hold what was typed."""
    fresh = Task.objects.select_related("lane").get(pk=task.pk)
    form = forms_.get("form") or TaskForm(instance=fresh, project=project)
    if not forms_:
        focus_first(form)
    return {
        "kind": "task",
        "pk": task.pk,
        "task": fresh,
        "form": form,
        "progress": forms_.get("progress")
        or ProgressForm(instance=fresh, today=today(project), auto_id="progress_%s"),
        "link": forms_.get("link") or LinkForm(task=fresh, auto_id="link_%s"),
        "links": links_of(task),
    }


@require_http_methods(["GET", "POST"])
def task_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    if not project.lanes.exists():
        return changed(request, project, "Add a lane first: every task is done by somebody.")
    form = NewTaskForm(request.POST or None, project=project)
    if request.method == "GET":
        focus_first(form)
        return show(request, project, opened={"kind": "task-new", "form": form})
    if form.is_valid():
        task = form.save(commit=False)
        waits_for = form.cleaned_data["waits_for"]
        try:
            service.add_task(
                project=project,
                user=request.user,
                today=today(project),
                task=task,
                waits_for=waits_for,
                also=form.cleaned_data["also"],
            )
            return changed(request, project, f"“{task}” is in the plan.")
        except engine.ScheduleError as error:
            explain(form, error, "days")
    return wrong(request, project, kind="task-new", form=form)


@require_http_methods(["GET", "POST"])
def task_edit(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    task = get_object_or_404(Task, project=project, pk=task_id)
    if request.method == "GET":
        return show(request, project, opened=opened_task(project, task))
    form = TaskForm(request.POST, instance=task, project=project)
    if form.is_valid():
        try:
            saved = service.save_task(
                project=project, user=request.user, today=today(project), task=task,
                also=form.cleaned_data["also"],
            )  # fmt: skip
            return changed(request, project, f"“{task}” is saved." if saved else "Nothing changed.")
        except engine.ScheduleError as error:
            explain(form, error, "days")
    return wrong(request, project, **opened_task(project, task, form=form))


@require_POST
def task_delete(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    task = get_object_or_404(Task, project=project, pk=task_id)
    says = service.delete_task(project=project, user=request.user, today=today(project), task=task)
    return changed(request, project, says)


@require_POST
def task_progress(request: HttpRequest, project_id: int, task_id: int) -> HttpResponse:
    """From the form of the row, or with one tick: ``mark`` is started or finished, today."""
    project = project_for(request.user, project_id, change=True)
    task = get_object_or_404(Task, project=project, pk=task_id)
    data = marked(task, request, project) if "mark" in request.POST else request.POST
    form = ProgressForm(data, instance=task, today=today(project), auto_id="progress_%s")
    if form.is_valid():
        try:
            says = service.mark_progress(
                project=project, user=request.user, today=today(project), task=task
            )
            return changed(request, project, says)
        except engine.ScheduleError as error:
            explain(form, error, "remaining_days")
    return wrong(request, project, **opened_task(project, task, progress=form))


def marked(task: Task, request: HttpRequest, project: Project) -> dict[str, Any]:
    day = today(project).isoformat()
    if request.POST["mark"] == "finished":
        return {"started_on": task.started_on, "finished_on": day}
    return {"started_on": day}
