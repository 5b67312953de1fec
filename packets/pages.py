"""A packet gathered: which sections it prints, with their data, as one HTML document."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from django.template.loader import render_to_string

from packets import plates
from packets.kinds import KINDS
from packets.models import Packet
from packets.outline import Context, Section, fingerprint
from packets.sections import SECTIONS
from projects.log import short_name
from projects.models import Membership, Picture, Role
from schedules.engine import ScheduleError


@dataclass(frozen=True, slots=True)
class Part:
    """A section of this packet, with what it would show today."""

    section: Section
    context: Context
    asked: bool

    @property
    def key(self) -> str:
        return self.section.key

    @property
    def missing(self) -> str:
        return self.section.missing(self.context)

    @property
    def words(self) -> int:
        return self.section.words(self.context)

    @property
    def pictures(self) -> int:
        return self.section.count_pictures(self.context)

    @property
    def facts(self) -> dict[str, str]:
        return self.section.facts(self.context)

    @property
    def fingerprint(self) -> str:
        return fingerprint(self.facts)

    @property
    def printed(self) -> bool:
        return self.asked or not self.missing


def gather(packet: Packet, today: date) -> list[Part]:
    """Every section of the packet's kind, in order; the number of queries is constant."""
    asked = {ask.section for ask in packet.asks.all()}
    return [
        Part(SECTIONS[key], context_of(SECTIONS[key], packet, today), key in asked)
        for key in KINDS[packet.kind].sections
    ]


def context_of(section: Section, packet: Packet, today: date) -> Context:
    return {**section.context(packet.project, today), "packet": packet}


def as_of(packet: Packet, parts: list[Part], day: date, today: date) -> list[Part]:
    """The same parts as they would print on another day: a plan whose tasks have not begun
    moves on with every day, and that alone is no change of the project."""
    if day == today:
        return parts
    try:
        return [
            replace(part, context=context_of(part.section, packet, day))
            if part.section.dated
            else part
            for part in parts
        ]
    except ScheduleError:  # what was done since then cannot be told of that day
        return parts


def pictures_of(parts: list[Part]) -> list[Picture]:
    leads = [part.context["lead"] for part in parts if part.context.get("lead")]
    return leads + [picture for part in parts for picture in part.context["pictures"]]


def document(
    packet: Packet, parts: list[Part], *, letter: str, day: date, images: Mapping[str, bytes]
) -> str:
    """The whole packet as HTML; ``images`` are the pictures that can be read."""
    owners = Membership.objects.filter(project=packet.project, role=Role.OWNER)
    return render_to_string(
        "packets/document.html",
        {
            "project": packet.project,
            "packet": packet,
            "letter": letter,
            "day": day,
            "authors": [short_name(row.user) for row in owners.select_related("user")],
            "parts": [part for part in parts if part.printed],
            "rows": {part.key: plates.in_rows(part.context["pictures"]) for part in parts},
            "images": images,
        },
    )
