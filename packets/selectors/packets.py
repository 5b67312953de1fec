"""Packets with their completeness and their last revision."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.http import Http404

from packets.models import Packet, Revision
from packets.pages import Part, as_of, gather
from packets.selectors.asks import Asked, answered
from packets.selectors.stale import Changed, changes
from projects.models import Project
from projects.words import day, listed, plural

SOON = 14  # days in which a due date is near


@dataclass(frozen=True, slots=True)
class Standing:
    """A packet as it stands today."""

    packet: Packet
    parts: list[Part]
    asks: list[Asked]
    revisions: list[Revision]
    changes: list[Changed]
    today: date

    @property
    def last(self) -> Revision | None:
        return self.revisions[0] if self.revisions else None

    @property
    def needed(self) -> list[Asked]:
        return [asked for asked in self.asks if asked.ask.needed]

    @property
    def met(self) -> int:
        return sum(asked.met for asked in self.needed)

    @property
    def open(self) -> list[Asked]:
        return [asked for asked in self.needed if not asked.met]

    @property
    def days_left(self) -> int | None:
        due = self.packet.due_on
        return (due - self.today).days if due else None

    @property
    def late(self) -> bool:
        return self.days_left is not None and self.days_left < 0

    @property
    def near(self) -> bool:
        return self.days_left is not None and 0 <= self.days_left <= SOON

    @property
    def words(self) -> int:
        return sum(part.words for part in self.parts if part.printed)

    @property
    def pictures(self) -> int:
        return sum(part.pictures for part in self.parts if part.printed)


def standings(project: Project, today: date) -> list[Standing]:
    """Every packet of the project, the next due first."""
    rows = Packet.objects.filter(project=project).prefetch_related("asks", "revisions")
    found = [standing(packet, project, today) for packet in rows]
    return sorted(found, key=lambda s: (s.packet.due_on or date.max, s.packet.pk))


def standing(packet: Packet, project: Project, today: date) -> Standing:
    packet.project = project
    parts = gather(packet, today)
    revisions = list(packet.revisions.all())
    last = revisions[0] if revisions else None
    return Standing(
        packet=packet,
        parts=parts,
        asks=answered(packet, parts, last.section_pages if last else {}),
        revisions=revisions,
        changes=changes(last, as_of(packet, parts, last.day, today)) if last else [],
        today=today,
    )


def packet_of(project: Project, packet_id: int) -> Packet:
    rows = Packet.objects.filter(project=project).prefetch_related("asks", "revisions")
    packet = rows.filter(pk=packet_id).first()
    if packet is None:
        raise Http404
    return packet


def sheet_sentence(found: list[Standing]) -> str:
    """What matters now, over all packets, with the one next step."""
    if not found:
        return "No packet yet. Start with the proposal."
    urgent = next((s for s in found if s.open or s.changes), found[0])
    return sentence(urgent)


def sentence(s: Standing) -> str:
    """What matters now of one packet, with the one next step."""
    name, due = s.packet.title, due_words(s)
    if s.open:
        wanted = listed([asked.ask.title.lower() for asked in s.open[:2]])
        more = f" and {len(s.open) - 2} more" if len(s.open) > 2 else ""
        return f"{name}{due} still needs {plural(len(s.open), 'answer')}: {wanted}{more}."
    if not s.last:
        return f"{name}{due} answers every ask. Make revision A and read it on paper."
    if s.changes:
        changed = listed([change.title.lower() for change in s.changes])
        says = f"Revision {s.last.letter} of {name} is out of date: {changed} changed since."
        return f"{says} Make a new one."
    return f"Revision {s.last.letter} of {name} is complete and shows what is so today."


def due_words(s: Standing) -> str:
    if s.packet.due_on is None:
        return ""
    return f", {'was due' if s.late else 'due'} {day(s.packet.due_on)},"
