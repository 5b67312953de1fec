"""Packets that a slip makes wrong."""

from __future__ import annotations

from collections.abc import Mapping

from django.urls import reverse

from packets.models import Packet, Revision
from packets.outline import named
from packets.sections.making import span
from projects import hooks
from projects.hooks import Level, Party, PlanDays, Ripple
from projects.models import Project
from projects.words import day, day_year
from schedules.plan.once import once


@hooks.parties.register("packets.readers", place=30)
def bodies(project: Project) -> list[Party]:
    """The bodies that hold a packet."""
    held = Packet.objects.filter(project=project, revisions__isnull=False).exclude(reader="")
    names = sorted(set(held.values_list("reader", flat=True)))
    return [Party(name=name, hears=frozenset({"public", "hearing", "due"})) for name in names]


@hooks.ripples.register("packets.revisions", place=80)
def wrong_dates(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    packets = Packet.objects.filter(project=project).prefetch_related("revisions")
    rows = once(project, ("packets", None), lambda: list(packets))
    found = [check(row, before, after) for row in rows for check in (shows_wrong, due)]
    return [ripple for ripple in found if ripple]


def shows_wrong(packet: Packet, before: PlanDays, after: PlanDays) -> Ripple | None:
    last = next(iter(packet.revisions.all()), None)
    if last is None or not goes_wrong(last, before, after):
        return None
    return Ripple(
        level=Level.NEAR,
        subject=f"{packet.title} rev {last.letter}",
        says="shows dates that would be wrong.",
        url=address(packet),
    )


def goes_wrong(revision: Revision, before: PlanDays, after: PlanDays) -> bool:
    """A date that it shows moves, to a day that it does not show."""
    shown: dict[str, str] = {}
    for section in ("timeline", "cover"):
        shown.update(revision.shown.get(section, {}))
    was, then = dates(before), dates(after)
    moved = {name: value for name, value in then.items() if was.get(name) != value}
    if any(shown.get(name, value) != value for name, value in moved.items()):
        return True
    by_lane = revision.shown.get("making", {})
    return any(value != moved.get(task_in(name), value) for name, value in by_lane.items())


def task_in(name: str) -> str:
    """“Weld lantern frame” of “Weld lantern frame (Saltglaze Metalworks)”."""
    return name.rpartition(" (")[0]


def dates(plan: PlanDays) -> Mapping[str, str]:
    tasks = [(t.name, span(t.start, t.finish)) for t in plan.tasks.values()]
    public = [(plan.public_name, day_year(plan.public_on))] if plan.public_on else []
    return named([*public, *tasks])


def due(packet: Packet, before: PlanDays, after: PlanDays) -> Ripple | None:
    """The public date comes before the day the packet is due."""
    if not (packet.due_on and before.public_on and after.public_on):
        return None
    if not after.public_on < packet.due_on <= before.public_on:
        return None
    return Ripple(
        level=Level.NEAR,
        subject=packet.title,
        says=f"is due {day(packet.due_on)}, after the public date.",
        url=address(packet),
    )


def address(packet: Packet) -> str:
    return reverse("packets:packet", args=[packet.project_id, packet.pk])
