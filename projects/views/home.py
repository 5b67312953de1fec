"""Your projects, and a new one."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from projects.clock import today
from projects.forms.places import currency_of
from projects.forms.project import BeginForm
from projects.pages import title_cells
from projects.selectors.home import home_rows
from projects.services.begin import begin_project
from projects.starts import starting_plans


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    columns, rows = home_rows(request.user, cells_of=title_cells)
    return render(request, "projects/home.html", {"columns": columns, "rows": rows})


@require_http_methods(["GET", "HEAD", "POST"])
def project_new(request: HttpRequest) -> HttpResponse:
    form = BeginForm(request.POST or None, today=today)
    if not form.is_valid():
        status = 422 if form.is_bound else 200
        return render(request, "projects/new.html", {"form": form}, status=status)
    values = form.cleaned_data
    project = begin_project(
        user=request.user,
        today=form.today_there(),
        plan=starting_plans()[values.pop("kind")],
        currency=currency_of(values["country"]),
        **values,
    )
    return redirect("schedules:schedule", project.pk)
