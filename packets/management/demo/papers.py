"""The demo's packets and plans of record, and the project that is still a proposal."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from django.contrib.auth.models import User

from budgets.models import BudgetLine
from packets.management.demo import people, spent, things, when
from packets.management.demo.days import Days
from packets.models import Packet
from packets.services.revisions import revision_make
from packets.services.start import packet_start
from projects.clock import today
from projects.models import Membership, Part, Phase, Project, Role
from projects.services.begin import begin_project
from projects.starts import starting_plans
from schedules.services.records import keep_plan

Row = Mapping[str, Any]
BYTES_A_MEGABYTE = 1_000_000


def artist() -> User:
    return User.objects.get(username="artist")


def keep(project: Project, reason: str) -> None:
    keep_plan(project=project, user=artist(), today=today(project), reason=reason)


def make_packets(project: Project, rows: list[Row], days: Days) -> None:
    for row in rows:
        packet = packet_start(project=project, key=row["kind"])
        packet.title, packet.reader = row["title"], row["reader"]
        packet.due_on, packet.max_pages = days.of(row["due_on"]), row["max_pages"]
        packet.max_bytes = row["max_mb"] * BYTES_A_MEGABYTE
        packet.save()
        print_before(packet, row["printed_before"], days)


def print_before(packet: Packet, change: Row, days: Days) -> None:
    """Revision A, from before the last weighing of a part: so it is stale, and says why."""
    part = Part.objects.get(project=packet.project, name=change["part"])
    weighed = part.mass_g
    Part.objects.filter(pk=part.pk).update(mass_g=change["mass_g"])
    revision_make(packet=packet, user=artist(), today=days.today)
    Part.objects.filter(pk=part.pk).update(mass_g=weighed)


def two_herons(data: Row) -> None:
    project = begun(data)
    for name, role in people.LOGINS.items():
        if role != Role.OWNER:
            user = User.objects.get(username=name)
            Membership.objects.create(project=project, user=user, role=role)
    Project.objects.filter(pk=project.pk).update(summary=data["summary"], phase=Phase.PROPOSAL)
    for field in ("owner", "ground", "width_mm", "height_mm"):
        setattr(project.site, field, data["site"][field])
    project.site.save()
    days = Days(today(project))
    things.make_suppliers(project, data["suppliers"])
    things.hang_parts(project, data["parts"])
    things.make_texts(project, data["texts"])
    things.make_pictures(project, data["pictures"], {})
    spent.make_funds(project, data["funds"], days)
    price_lines(project, data["line_cents"])
    packet = Packet.objects.get(project=project)
    packet.reader, packet.due_on = data["packet"]["reader"], days.of(data["packet"]["due_on"])
    packet.save()


def begun(data: Row) -> Project:
    start = starting_plans()[data["start"]]
    day = today(Project(name=data["name"]))
    return begin_project(
        user=artist(),
        plan=start,
        name=data["name"],
        site_name=data["site"]["name"],
        site_address=data["site"]["address"],
        public_name=data["public_name"],
        public_on=when.saturday_from(day + timedelta(days=data["public_in"])),
        weekdays="1111100",
        country="US",
        zone="America/New_York",
        currency="USD",
        today=day,
    )


def price_lines(project: Project, cents: list[int]) -> None:
    lines = list(BudgetLine.objects.filter(project=project))
    for line, amount in zip(lines, cents, strict=False):
        line.planned_cents = amount
        line.save()
