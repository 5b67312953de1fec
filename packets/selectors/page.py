"""The sections of a packet as its page lists them."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse

from packets.models import Packet
from packets.pages import Part
from packets.selectors.asks import Link, picture_url, text_url
from packets.selectors.packets import Standing
from projects.words import plural


@dataclass(frozen=True, slots=True)
class Row:
    title: str
    figure: str
    printed: bool
    links: tuple[Link, ...]


def rows_of(standing: Standing) -> list[Row]:
    return [
        Row(part.section.title, figure(part), part.printed, tuple(links(part, standing.packet)))
        for part in standing.parts
    ]


def figure(part: Part) -> str:
    if part.missing:
        return part.missing if part.printed else f"{part.missing}: left out"
    counts = []
    if part.words:
        counts.append(plural(part.words, "word"))
    if part.pictures:
        counts.append(plural(part.pictures, "picture"))
    return ", ".join(counts) or "In place"


def links(part: Part, packet: Packet) -> list[Link]:
    """Every text of the section, its pictures, and the page its rows come from."""
    found = [Link(text_url(packet, t), f"Text “{t.label}”") for t in part.section.topics]
    if part.section.uses:
        found.append(Link(picture_url(packet, part.section), "Add a picture"))
    place = part.section.place
    if place and not (part.section.uses and place.url == "projects:picture-add"):
        found.append(Link(reverse(place.url, args=[packet.project_id]), place.words))
    return found
