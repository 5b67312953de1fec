"""Try changes, alone or side by side; apply one option with a reason, or take it back."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import sheet, wants_part
from schedules import engine
from schedules.forms.options import Option, Options
from schedules.forms.plain import explain
from schedules.forms.reasons import ReasonForm
from schedules.models import AppliedSlip
from schedules.plan import current, read
from schedules.selectors.comparing import Column, Comparison, chances, heading
from schedules.selectors.notices import aftermath
from schedules.services.slip import ChangedSince, PlanChanged, apply_slip, take_back


@require_GET
def slip(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    current(project, today(project))
    options = Options(request.GET, read(project, today(project)))
    if options.pressed is not None:
        return redirect(f"{request.path}?{options.query(options.pressed)}")
    return show(request, project, options)


def show(
    request: HttpRequest,
    project: Project,
    options: Options,
    reason: ReasonForm | None = None,
    status: int = 200,
    **more: Any,
) -> HttpResponse:
    context = {**tried(options), "reason": reason or ReasonForm(), **more}
    context["plan_changed"] = status == 409 and not more
    context["aftermath"] = aftermath(project, request.GET.get("applied", ""))
    context["chances"] = chances_of(options) if request.GET.get("chance") else []
    return sheet(
        request,
        project,
        "schedules/slip.html",
        context,
        current="schedule",
        part="sheet",
        status=422 if status == 200 and options.wrong else status,
    )


def tried(options: Options) -> dict[str, Any]:
    """Every option laid out, and the one that is seen whole."""
    compared = Comparison(options.rows)
    columns = [column(compared, options, option) for option in options.options]
    picked = next(c for c in columns if c.letter == options.pick)
    return {
        "options": options,
        "columns": columns if options.anything else [],
        "compared": compared,
        "picked": picked,
        "preview": picked.preview,
        "public": options.rows.public,
        "query": options.query(),
    }


def column(compared: Comparison, options: Options, option: Option) -> Column:
    found = None
    if option.slips:
        try:
            found = compared.preview(option.slips)
        except engine.ScheduleError as error:
            explain(option.asking[-1], error, "days")
    query = options.query(pick=option.letter)
    return Column(
        letter=option.letter,
        words=option.words,
        preview=found,
        query=query,
        alone=len(options.options) == 1,
    )


@require_GET
def slip_chance(request: HttpRequest, project_id: int) -> HttpResponse:
    """The row of the chances: it takes longer than all the rest, so it comes by itself."""
    project = project_for(request.user, project_id)
    options = Options(request.GET, read(project, today(project)))
    if not wants_part(request):
        whole = reverse("schedules:slip", args=[project.pk])
        return redirect(f"{whole}?{options.query()}&chance=yes")
    return render(request, "schedules/_slip_chance.html", {"chances": chances_of(options)})


def chances_of(options: Options) -> list[tuple[str, str]]:
    """None of them where the plan cannot be laid out, or has no public date to make."""
    try:
        found = chances(options.rows, [option.slips for option in options.options])
    except engine.ScheduleError:
        return []
    alone = len(options.options) == 1
    names = ["Now", *(heading(option.letter, alone=alone) for option in options.options)]
    return list(zip(names, found, strict=True)) if all(found) else []


@require_POST
def slip_apply(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    day = today(project)
    options, reason = Options(request.POST, read(project, day)), ReasonForm(request.POST)
    if not options.picked.slips or not reason.is_valid():
        return show(request, project, options, reason, status=422)
    try:
        applied = apply_slip(
            project=project,
            user=request.user,
            today=day,
            slips=options.picked.slips,
            reason=reason.cleaned_data["reason"],
            seen=request.POST.get("basis", ""),
        )
    except PlanChanged:
        return show(request, project, options, reason, status=409)
    messages.success(request, applied.sentence)
    return redirect(f"{reverse('schedules:slip', args=[project.pk])}?applied={applied.pk}")


@require_POST
def slip_undo(request: HttpRequest, project_id: int, slip_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    found = get_object_or_404(AppliedSlip, pk=slip_id, project=project)
    try:
        says = take_back(project=project, user=request.user, today=today(project), slip=found)
    except ChangedSince as error:
        options = Options({}, read(project, today(project)))
        return show(request, project, options, status=409, kept_because=error.sentences)
    messages.success(request, says)
    return redirect(f"{reverse('schedules:slip', args=[project.pk])}?applied={found.pk}")
