"""Change what a project is called and where it is."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import transaction

from projects import hooks, log
from projects.models import Project
from projects.selectors.details import OF_SITE, OWN, details_of, site_of
from projects.words import listed

Somebody = AbstractBaseUser | AnonymousUser
COMPUTED_FROM = {"country", "region", "zone", "site_position"}  # the schedule hangs on these
CALLED = {
    "name": "name",
    "summary": "sentence",
    "phase": "phase",
    "country": "country",
    "region": "region",
    "zone": "time zone",
    "currency": "currency",
    "site_name": "site",
    "site_address": "address",
    "site_owner": "owner of the site",
    "site_position": "position of the site",
    "site_width": "width of the site",
    "site_height": "height of the site",
    "site_path_from": "distance from wall to path",
    "site_path_width": "width of the path",
    "site_kerb": "height of the kerb",
    "site_ground": "description of the ground",
}


@transaction.atomic
def change_details(
    *, project: Project, details: Mapping[str, Any], today: date, user: Somebody
) -> list[str]:
    """Save the details; returns what changed, in words."""
    before = details_of(project)
    changed = {name for name, value in details.items() if value != before[name]}
    if not changed:
        return []
    save_details(project, details)
    if changed & COMPUTED_FROM:
        for compute in hooks.changes:
            compute(project, today)
    words = [word for name, word in CALLED.items() if name in changed]
    sentence = f"Changed the {listed(words)}."
    log.write(project=project, user=user, about="projects", sentence=sentence)
    hooks.rework(project, sentence, user)
    return words


def save_details(project: Project, details: Mapping[str, Any]) -> None:
    for name in OWN:
        setattr(project, name, details[name])
    project.save(update_fields=OWN)
    site = site_of(project)
    for field, name in OF_SITE.items():
        setattr(site, name, details[field])
    site.latitude, site.longitude = details["site_position"] or (None, None)
    site.save()
