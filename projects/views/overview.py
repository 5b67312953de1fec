"""The overview of a project, and its details."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from projects.access import project_for
from projects.clock import today
from projects.forms.project import DetailsForm
from projects.pages import done, sheet
from projects.selectors.details import site_of
from projects.selectors.overview import lede_of, panels_of, pictures_of
from projects.services.details import change_details
from projects.words import listed


@require_safe
def overview(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    panels = panels_of(project, today(project))
    context = {
        "panels": panels,
        "lede": lede_of(panels),
        "site": site_of(project),
        "pictures": pictures_of(project),
    }
    return sheet(
        request, project, "projects/overview.html", context, current="overview", part="sheet"
    )


@require_http_methods(["GET", "HEAD", "POST"])
def details(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    chosen = request.GET.get("country", "")
    form = DetailsForm(request.POST or None, project=project, country=chosen)
    if not form.is_valid():
        status = 422 if form.is_bound else 200
        context = {"form": form}
        return sheet(
            request, project, "projects/details.html", context, current="overview", status=status
        )
    changed = change_details(
        project=project, details=form.cleaned_data, today=today(project), user=request.user
    )
    messages.success(request, f"Saved: {listed(changed)}." if changed else "Nothing was different.")
    return done(request, reverse("projects:overview", args=[project.pk]))
