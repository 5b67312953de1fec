"""Try a slip and see what it does; then apply it with a reason, or leave it."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import sheet
from schedules import engine
from schedules.forms.plain import explain
from schedules.forms.reasons import ReasonForm
from schedules.forms.slip import SlipForm
from schedules.plan import current, read
from schedules.selectors.slip import Preview, preview
from schedules.services.slip import PlanChanged, apply_slip, slip_words

ASKED = ("what", "days", "on")


@require_GET
def slip(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    current(project, today(project))
    asked = any(request.GET.get(name) for name in ASKED)
    form = SlipForm(request.GET if asked else None, rows=read(project, today(project)))
    return show(request, project, form)


def show(
    request: HttpRequest,
    project: Project,
    form: SlipForm,
    reason: ReasonForm | None = None,
    status: int = 200,
) -> HttpResponse:
    found = previewed(form)
    tried = form.slip() if found else None
    context = {
        "form": form,
        "preview": found,
        "title": f"If {slip_words(tried)}" if tried else "",
        "public": form.rows.public,
        "reason": reason or ReasonForm(),
        "plan_changed": status == 409,
    }
    wrong = status == 200 and form.is_bound and form.errors
    return sheet(
        request,
        project,
        "schedules/slip.html",
        context,
        current="schedule",
        part="sheet",
        status=422 if wrong else status,
    )


def previewed(form: SlipForm) -> Preview | None:
    tried = form.slip()
    if tried is None:
        return None
    try:
        return preview(form.rows, tried)
    except engine.ScheduleError as error:
        explain(form, error, "days")
        return None


@require_POST
def slip_apply(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    day = today(project)
    form, reason = SlipForm(request.POST, rows=read(project, day)), ReasonForm(request.POST)
    tried = form.slip()
    if tried is None or not reason.is_valid():
        return show(request, project, form, reason, status=422)
    try:
        says = apply_slip(
            project=project,
            user=request.user,
            today=day,
            slip=tried,
            reason=reason.cleaned_data["reason"],
            seen=request.POST.get("basis", ""),
        )
    except PlanChanged:
        return show(request, project, form, reason, status=409)
    messages.success(request, says)
    return redirect(reverse("schedules:schedule", args=[project.pk]))
