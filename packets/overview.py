"""The panel “Papers” of the overview."""

from __future__ import annotations

from datetime import date

from django.urls import reverse

from packets.selectors.packets import Standing, sentence, standings
from projects import hooks
from projects.hooks import Level, Panel, PanelRow
from projects.models import Project
from projects.words import day


@hooks.overview.register("packets.papers", place=60)
def papers(project: Project, today: date) -> Panel:
    found = standings(project, today)
    pressing = next((s for s in found if s.open and (s.late or s.near)), None)
    return Panel(
        title="Papers",
        rows=tuple(row(project, s) for s in found),
        empty="No packet yet. A proposal is put together from the parts, the plan and the money.",
        url=reverse("packets:packets", args=[project.pk]),
        sentence=sentence(pressing) if pressing else "",
    )


def row(project: Project, s: Standing) -> PanelRow:
    figures = [f"{s.met} of {len(s.needed)} asks met"]
    if s.packet.due_on:
        figures.insert(0, f"{'was due' if s.late else 'due'} {day(s.packet.due_on)}")
    if s.last:
        state = "out of date" if s.changes else "up to date"
        figures.append(f"revision {s.last.letter} is {state}")
    return PanelRow(
        text=s.packet.title,
        detail="; ".join(figures),
        url=reverse("packets:packet", args=[project.pk, s.packet.pk]),
        level=level(s),
    )


def level(s: Standing) -> Level:
    if s.open and s.late:
        return Level.BROKEN
    if s.changes or (s.open and s.near):
        return Level.NEAR
    return Level.HOLDS if s.last and not s.open else Level.PLAIN
