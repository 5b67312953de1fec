"""Begin a project from a starting plan."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db import transaction

from projects import hooks, log
from projects.models import Membership, Part, PartKind, Project, Role, Site, Stage, StageName
from projects.words import day_year

Somebody = AbstractBaseUser | AnonymousUser
PART_KINDS = {kind.label.lower(): kind for kind in PartKind} | {"tile field": PartKind.TILE}
STAGES = {stage.label.lower(): stage for stage in StageName}
ALWAYS = {StageName.DESIGN, StageName.MAKE, StageName.INSTALL}


@transaction.atomic
def begin_project(
    *,
    user: Somebody,
    plan: Mapping[str, Any],
    name: str,
    site_name: str,
    site_address: str,
    public_name: str,
    public_on: date,
    weekdays: str,
    country: str,
    zone: str,
    currency: str,
    today: date,
) -> Project:
    """The project, its site and its owner; then every app lays out its own part."""
    project = Project.objects.create(
        name=name, kind=plan["kind"], country=country, zone=zone, currency=currency
    )
    Site.objects.create(project=project, name=site_name, address=site_address)
    Membership.objects.create(project=project, user_id=user.pk or 0, role=Role.OWNER)
    beginning = hooks.Beginning(
        project=project,
        plan=plan,
        public_on=public_on,
        public_name=public_name,
        weekdays=weekdays,
        today=today,
    )
    lay_out_parts(beginning)
    for lay_out in hooks.beginnings:
        lay_out(beginning)
    sentence = f"Began the project from “{plan['title']}”: {public_name} on {day_year(public_on)}."
    log.write(project=project, user=user, about="projects", sentence=sentence)
    return project


def lay_out_parts(beginning: hooks.Beginning) -> None:
    """The parts, each with its stages; the schedule ties its tasks to them."""
    for position, row in enumerate(beginning.plan["parts"]):
        part = Part.objects.create(
            project=beginning.project,
            name=row["name"],
            kind=PART_KINDS.get(row["kind"], PartKind.OTHER),
            position=position,
        )
        Stage.objects.bulk_create(stages_of(part, beginning.plan))


def stages_of(part: Part, plan: Mapping[str, Any]) -> list[Stage]:
    """Design, make and install, and those that a task of the plan names; in the order of work."""
    tasks = (task for task in plan["tasks"] if task["part"] == part.name and task["stage"])
    named = {STAGES[task["stage"]] for task in tasks}
    names = [name for name in StageName if name in named | ALWAYS]
    return [Stage(part=part, name=name, position=place) for place, name in enumerate(names)]
