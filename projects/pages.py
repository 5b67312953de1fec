"""Answer with a whole page, or with the piece that htmx asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.urls import reverse

from projects import hooks
from projects.clock import today
from projects.models import Project

SHEETS = (
    ("overview", "Overview", "projects:overview"),
    ("parts", "Parts", "schedules:parts"),
    ("schedule", "Schedule", "schedules:schedule"),
    ("money", "Money", "budgets:money"),
    ("suppliers", "Suppliers", "suppliers:suppliers"),
    ("worksheets", "Worksheets", "worksheets:worksheets"),
    ("packets", "Packets", "packets:packets"),
    ("log", "Log", "projects:log"),
)


@dataclass(frozen=True, kw_only=True)
class Opened:
    """What stands open on a page: a form, or a question before something is deleted."""

    what: str
    action: str
    heading: str = ""
    form: forms.BaseForm | None = None
    pk: int | None = None
    question: str = ""
    problem: str = ""
    button: str = ""
    below: str = ""  # a template that stands between the fields and the button

    @property
    def verb(self) -> str:
        """What the button says, where the page gives it no words of its own."""
        return self.button or ("Save" if self.form is not None else "Delete")

    @property
    def status(self) -> int:
        if self.problem:
            return 409
        return 422 if self.form is not None and self.form.is_bound else 200


def posted(request: HttpRequest) -> bool:
    return request.method == "POST"


def data_of(request: HttpRequest) -> QueryDict | None:
    """What a form is bound to: nothing before it was sent."""
    return request.POST if posted(request) else None


def wants_part(request: HttpRequest) -> bool:
    htmx = getattr(request, "htmx", None)
    if not htmx:
        return False
    return not htmx.boosted and not htmx.history_restore_request


def sheet(
    request: HttpRequest,
    project: Project,
    template: str,
    context: Mapping[str, Any],
    *,
    current: str,
    part: str = "",
    status: int = 200,
    says: str = "",
) -> HttpResponse:
    """A sheet of the project, or its ``part`` when htmx asks.

    With a part come, out of band, the title block (its figures may have changed) and the
    sentence ``says`` for the status line.
    """
    whole = {
        **context,
        "project": project,
        "says": says,
        "title_cells": title_cells(project),
        "sheets": [(key, label, reverse(url, args=[project.pk])) for key, label, url in SHEETS],
        "current_sheet": current,
    }
    if part and wants_part(request):
        body = render_to_string(f"{template}#{part}", whole, request)
        body += render_to_string("_out_of_band.html", whole, request)
        return HttpResponse(body, status=status)
    return render(request, template, whole, status=status)


def title_cells(project: Project) -> list[hooks.Cell]:
    day = today(project)
    cells = [cell(project, day) for cell in hooks.titleblock]
    return [cell for cell in cells if cell is not None]


def done(request: HttpRequest, url: str) -> HttpResponse:
    """After a change on a plain request: go to ``url`` (a page's address)."""
    return redirect(url)


def after(
    request: HttpRequest,
    url: str,
    says: str,
    page: Callable[[], HttpResponse],
    *,
    push: bool = True,
) -> HttpResponse:
    """After a change: ``page`` as a piece, under its address if ``push``; else a redirect."""
    if not wants_part(request):
        messages.success(request, says)
        return done(request, url)
    response = page()
    if push:
        response["HX-Push-Url"] = url
    return response
