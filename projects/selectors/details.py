"""What the details page of a project shows."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from projects.models import Project, Site

OWN = ("name", "summary", "phase", "country", "region", "zone", "currency")
OF_SITE = {
    "site_name": "name",
    "site_address": "address",
    "site_owner": "owner",
    "site_width": "width_mm",
    "site_height": "height_mm",
    "site_path_from": "path_from_mm",
    "site_path_width": "path_width_mm",
    "site_kerb": "kerb_mm",
    "site_ground": "ground",
}


def site_of(project: Project) -> Site:
    """The site as saved, or an empty one."""
    return Site.objects.filter(project=project).first() or Site(project=project)


def details_of(project: Project) -> dict[str, Any]:
    site = site_of(project)
    own = {name: getattr(project, name) for name in OWN}
    of_site = {field: getattr(site, name) for field, name in OF_SITE.items()}
    return own | of_site | {"site_position": position_of(site)}


def position_of(site: Site) -> tuple[Decimal, Decimal] | None:
    """Latitude and longitude in degrees."""
    if site.latitude is None or site.longitude is None:
        return None
    return site.latitude, site.longitude
