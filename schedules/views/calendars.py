"""The calendars page: hours, weekdays, days off and extra days."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_GET, require_POST

from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import sheet, wants_part
from projects.words import plural
from schedules import engine
from schedules.forms.calendars import DaysOffForm, calendar_form
from schedules.forms.plain import explain
from schedules.models import Calendar, DayException
from schedules.plan import current, read
from schedules.selectors.calendars import (
    CalendarLine,
    calendar_lines,
    calendars_lede,
    coming_holidays,
    light_at,
    stretches,
)
from schedules.services import calendars as service

Typed = dict[str, forms.BaseForm]


def show(
    request: HttpRequest, project: Project, typed: Typed | None = None, says: str = ""
) -> HttpResponse:
    """The page; ``typed`` holds the forms that were wrong, by their mark."""
    found, now = typed or {}, today(project)
    current(project, now)
    rows = read(project, now)
    lines, light = calendar_lines(rows), light_at(rows)
    context = {
        "lede": calendars_lede(rows, lines, light),
        "lines": [opened(project, line, found) for line in lines],
        "light": light,
        "new": found.get("new") or calendar_form(project),
        "holidays": coming_holidays(project, now),
    }
    return sheet(
        request,
        project,
        "schedules/calendars.html",
        context,
        current="schedule",
        part="sheet",
        status=422 if typed else 200,
        says=says,
    )


def opened(project: Project, line: CalendarLine, typed: Typed) -> dict[str, Any]:
    """A calendar with its two forms: its hours and weekdays, and its days off."""
    key = line.row.pk
    return {
        "line": line,
        "form": typed.get(f"c{key}") or calendar_form(project, None, line.row),
        "days": typed.get(f"d{key}") or DaysOffForm(auto_id=f"d{key}_%s"),
        "open": f"c{key}" in typed,
    }


def changed(request: HttpRequest, project: Project, says: str) -> HttpResponse:
    if wants_part(request):
        return show(request, project, says=says)
    messages.success(request, says)
    return redirect("schedules:calendars", project.pk)


@require_GET
def calendars(request: HttpRequest, project_id: int) -> HttpResponse:
    return show(request, project_for(request.user, project_id))


@require_POST
def calendar_edit(
    request: HttpRequest, project_id: int, calendar_id: int | None = None
) -> HttpResponse:
    """A calendar of the project, or a new one."""
    project = project_for(request.user, project_id, change=True)
    found = get_object_or_404(Calendar, project=project, pk=calendar_id) if calendar_id else None
    form = calendar_form(project, request.POST, found)
    if form.is_valid():
        calendar = form.save(commit=False)
        calendar.weekdays = form.cleaned_data["weekdays"]
        calendar.day_hours = form.day_hours
        try:
            says = service.save_calendar(
                project=project, user=request.user, today=today(project), calendar=calendar
            )
            return changed(request, project, says)
        except engine.ScheduleError as error:
            explain(form, error, "weekdays")
    return show(request, project, {f"c{calendar_id}" if calendar_id else "new": form})


@require_POST
def calendar_delete(request: HttpRequest, project_id: int, calendar_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    calendar = get_object_or_404(Calendar, project=project, pk=calendar_id)
    held = calendar.tasks.count()
    if held or calendar.is_default:
        form = calendar_form(project, None, calendar)
        form.problem = (  # type: ignore[attr-defined]
            f"{plural(held, 'task')} are planned on it. Choose another calendar for them first."
            if held
            else "This is the project’s own calendar. Change it, but it cannot be removed."
        )
        return show(request, project, {f"c{calendar.pk}": form})
    says = service.delete_calendar(
        project=project, user=request.user, today=today(project), calendar=calendar
    )
    return changed(request, project, says)


@require_POST
def days_add(request: HttpRequest, project_id: int, calendar_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    calendar = get_object_or_404(Calendar, project=project, pk=calendar_id)
    form = DaysOffForm(request.POST, auto_id=f"d{calendar.pk}_%s")
    if form.is_valid():
        try:
            says = service.set_days(
                project=project,
                user=request.user,
                today=today(project),
                calendar=calendar,
                **form.cleaned_data,
            )
            return changed(request, project, says)
        except engine.ScheduleError as error:
            explain(form, error, "first")
    return show(request, project, {f"d{calendar.pk}": form})


@require_POST
def days_delete(request: HttpRequest, project_id: int, exception_id: int) -> HttpResponse:
    """The whole stretch of days that begins with this one."""
    project = project_for(request.user, project_id, change=True)
    first = get_object_or_404(DayException, calendar__project=project, pk=exception_id)
    found = next(s for s in stretches(first.calendar.exceptions.all()) if s.pk == first.pk)
    says = service.clear_days(
        project=project,
        user=request.user,
        today=today(project),
        calendar=first.calendar,
        first=found.first,
        last=found.last,
    )
    return changed(request, project, says)
