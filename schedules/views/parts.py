"""The parts sheet: what is made, by whom, and how far each part has come."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from projects import hooks
from projects.access import project_for
from projects.clock import today
from projects.models import Part, Project, Stage
from projects.pages import after, data_of, sheet
from schedules.forms.parts import PartForm, TickForm, TieForm
from schedules.selectors.parts import open_before_words, parts_of, sentence
from schedules.services import parts as services


def show(
    request: HttpRequest,
    project: Project,
    *,
    opened: dict[str, Any] | None = None,
    status: int = 200,
    says: str = "",
) -> HttpResponse:
    """The sheet; ``opened`` names the piece that is open and holds its forms."""
    day = today(project)
    rows = parts_of(project, day)
    context = {
        "rows": rows,
        "sentence": sentence(rows),
        "opened": opened or {},
        "today": day,
        "drawings": hooks.drawings_of_parts(project, day),
    }
    return sheet(
        request,
        project,
        "schedules/parts.html",
        context,
        current="parts",
        part="sheet",
        status=status,
        says=says,
    )


def changed(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    url = reverse("schedules:parts", args=[project.pk])
    return after(request, url, says, lambda: show(request, project, says=says), push=False)


@require_GET
def parts(request: HttpRequest, project_id: int) -> HttpResponse:
    return show(request, project_for(request.user, project_id))


@require_http_methods(["GET", "POST"])
def part_add(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    form = PartForm(data_of(request), instance=Part(project=project), project=project)
    url = reverse("schedules:part-add", args=[project.pk])
    opened = {"what": "add", "form": form, "url": url, "heading": "Add a part", "button": "Add"}
    return part_form(request, project, form, opened)


@require_http_methods(["GET", "POST"])
def part_edit(request: HttpRequest, project_id: int, part_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    part = get_object_or_404(Part, project=project, pk=part_id)
    heading = f"Change “{part}”"
    form = PartForm(data_of(request), instance=part, project=project)
    url = reverse("schedules:part-edit", args=[project.pk, part_id])
    opened = {"what": "edit", "part_id": part_id, "form": form, "url": url, "heading": heading}
    return part_form(request, project, form, {**opened, "button": "Save"})


def part_form(
    request: HttpRequest, project: Project, form: PartForm, opened: dict[str, Any]
) -> HttpResponse:
    if form.is_valid():
        says = services.part_save(
            part=form.instance,
            maker=form.cleaned_data["maker"],
            stages=form.cleaned_data["stages"],
            user=request.user,
        )
        return changed(request, project, says)
    return show(request, project, opened=opened, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "POST"])
def part_delete(request: HttpRequest, project_id: int, part_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    part = get_object_or_404(Part, project=project, pk=part_id)
    if request.method == "POST":
        return changed(request, project, services.part_delete(part=part, user=request.user))
    url = reverse("schedules:part-delete", args=[project.pk, part_id])
    return show(request, project, opened={"what": "delete", "part_id": part_id, "url": url})


@require_GET
def stage(request: HttpRequest, project_id: int, stage_id: int) -> HttpResponse:
    """One stage, open below its part."""
    project = project_for(request.user, project_id, change=True)
    return show(request, project, opened=stage_opened(project, stage_in(project, stage_id)))


@require_POST
def stage_tick(request: HttpRequest, project_id: int, stage_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found, day = stage_in(project, stage_id), today(project)
    form = TickForm(request.POST, stage=found, today=day)
    if form.is_valid():
        on = form.cleaned_data["done_on"]
        says = services.stage_tick(stage=found, on=on, user=request.user, today=day)
        return changed(request, project, says)
    return show(request, project, opened=stage_opened(project, found, tick=form), status=422)


@require_POST
def stage_untick(request: HttpRequest, project_id: int, stage_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = stage_in(project, stage_id)
    says = services.stage_untick(stage=found, user=request.user, today=today(project))
    return changed(request, project, says)


@require_POST
def stage_tie(request: HttpRequest, project_id: int, stage_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = stage_in(project, stage_id)
    form = TieForm(request.POST, stage=found, project=project)
    if form.is_valid():
        task, day = form.cleaned_data["task"], today(project)
        says = services.stage_tie(stage=found, task=task, user=request.user, today=day)
        return changed(request, project, says)
    return show(request, project, opened=stage_opened(project, found, tie=form), status=422)


def stage_in(project: Project, stage_id: int) -> Stage:
    rows = Stage.objects.select_related("part__project")
    return get_object_or_404(rows, part__project=project, pk=stage_id)


def stage_opened(
    project: Project, found: Stage, *, tick: TickForm | None = None, tie: TieForm | None = None
) -> dict[str, Any]:
    return {
        "what": "stage",
        "part_id": found.part_id,
        "stage": found,
        "before": open_before_words(found),
        "tick": tick or TickForm(stage=found, today=today(project)),
        "tie": tie or TieForm(stage=found, project=project),
    }
