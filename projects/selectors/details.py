"""What the details page of a project shows."""

from __future__ import annotations

from typing import Any

from projects.models import Project, Site

OWN = ("name", "summary", "phase", "country", "zone", "currency")
OF_SITE = {
    "site_name": "name",
    "site_address": "address",
    "site_owner": "owner",
    "site_width": "width_mm",
    "site_height": "height_mm",
    "site_ground": "ground",
}


def site_of(project: Project) -> Site:
    """The site as saved, or an empty one."""
    return Site.objects.filter(project=project).first() or Site(project=project)


def details_of(project: Project) -> dict[str, Any]:
    site = site_of(project)
    return {name: getattr(project, name) for name in OWN} | {
        field: getattr(site, name) for field, name in OF_SITE.items()
    }
