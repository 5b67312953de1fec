"""Four cells of the title block: public date, days in hand, chance, plan of record."""

from __future__ import annotations

from datetime import date

from django.urls import reverse

from projects import hooks
from projects.models import Project
from projects.words import day, plural
from schedules.models import KeyDate, KeyDateKind, PlanOfRecord
from schedules.plan import current
from schedules.selectors.chance import level, percent_words
from schedules.selectors.wording import in_hand_level


@hooks.titleblock.register("schedules.public", place=10)
def public_date(project: Project, today: date) -> hooks.Cell | None:
    public = KeyDate.objects.filter(project=project, kind=KeyDateKind.PUBLIC).first()
    url = reverse("schedules:schedule", args=[project.pk])
    if public is None:
        return hooks.Cell(label="Public date", value="not set", url=url)
    return hooks.Cell(
        label="Public date",
        value=day(public.on),
        detail=days_to_go((public.on - today).days),
        url=url,
    )


def days_to_go(days: int) -> str:
    if days == 0:
        return "today"
    return plural(days, "day") if days > 0 else f"opened {plural(-days, 'day')} ago"


@hooks.titleblock.register("schedules.in_hand", place=20)
def in_hand(project: Project, today: date) -> hooks.Cell | None:
    days = current(project, today).in_hand_days
    if days is None:
        return None
    value = plural(days, "day") if days >= 0 else f"late by {plural(-days, 'day')}"
    url = reverse("schedules:schedule", args=[project.pk])
    return hooks.Cell(label="In hand", value=value, url=url, level=in_hand_level(days))


@hooks.titleblock.register("schedules.chance", place=30)
def chance(project: Project, today: date) -> hooks.Cell | None:
    """The kept figure as long as it holds; else the cell fetches it after the page."""
    kept = ("project__chance__basis", "project__chance__percent")
    public = KeyDate.objects.filter(project=project, kind=KeyDateKind.PUBLIC)
    found = public.filter(task__isnull=False).values_list(*kept).first()
    if found is None or (settled(found[0]) and found[1] is None):
        return None
    url = reverse("schedules:chance", args=[project.pk])
    if not settled(found[0]):
        loads = reverse("schedules:chance-cell", args=[project.pk])
        return hooks.Cell(label="Chance", value="see chance", url=url, loads=loads)
    return hooks.Cell(label="Chance", value=percent_words(found[1]), url=url, level=level(found[1]))


def settled(basis: str | None) -> bool:
    """Whether the kept draws are of the plan as it stands; not while they are made anew."""
    return bool(basis) and not str(basis).startswith("~")


@hooks.titleblock.register("schedules.record", place=60)
def plan_of_record(project: Project, today: date) -> hooks.Cell | None:
    letters = PlanOfRecord.objects.filter(project=project).values_list("letter", flat=True)
    letter = letters.first()
    url = reverse("schedules:schedule", args=[project.pk]) + "#record"
    value = f"Rev {letter}" if letter else "none kept"
    return hooks.Cell(label="Plan of record", value=value, url=url)
