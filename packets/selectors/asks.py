"""How far a packet answers each thing that its reader asks for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from urllib.parse import urlencode

from django.urls import reverse

from packets.models import Ask, Packet
from packets.outline import Section
from packets.pages import Part
from projects.words import plural


class Answer(StrEnum):
    MET = "met"
    MISSING = "missing"
    OVER = "over"


PICTURES = "projects:picture-add"
LEVELS = {Answer.MET: "holds", Answer.MISSING: "near", Answer.OVER: "broken"}


@dataclass(frozen=True, slots=True)
class Link:
    """The one link that changes an answer."""

    url: str
    words: str


@dataclass(frozen=True, slots=True)
class Asked:
    """An ask with its answer today: the figure, and where to change it."""

    ask: Ask
    answer: Answer
    figure: str
    fix: Link | None

    @property
    def level(self) -> str:
        return LEVELS[self.answer]

    @property
    def met(self) -> bool:
        return self.answer == Answer.MET


def answered(packet: Packet, parts: list[Part], pages: Mapping[str, int]) -> list[Asked]:
    """Each ask of the packet; ``pages`` are those of the last revision, by section."""
    by_key = {part.key: part for part in parts}
    return [judged(ask, by_key[ask.section], pages, packet) for ask in packet.asks.all()]


def judged(ask: Ask, part: Part, pages: Mapping[str, int], packet: Packet) -> Asked:
    for check, fix in (
        (lacks, fix_of),
        (lacks_pictures, add_picture),
        (too_many_words, edit_text),
        (too_many_pictures, remove_picture),
        (too_many_pages, fix_of),
    ):
        found = check(ask, part, pages)
        if found:
            return Asked(ask, *found, fix(part, packet))
    return Asked(ask, Answer.MET, figure_of(ask, part, pages), fix_of(part, packet))


Found = tuple[Answer, str] | None


def lacks(ask: Ask, part: Part, pages: Mapping[str, int]) -> Found:
    return (Answer.MISSING, part.missing) if part.missing else None


def lacks_pictures(ask: Ask, part: Part, pages: Mapping[str, int]) -> Found:
    least = ask.min_pictures or 0
    if part.pictures >= least:
        return None
    return Answer.MISSING, f"{part.pictures} of at least {plural(least, 'picture')}"


def too_many_words(ask: Ask, part: Part, pages: Mapping[str, int]) -> Found:
    if ask.max_words is None or part.words <= ask.max_words:
        return None
    more = part.words - ask.max_words
    return Answer.OVER, f"{plural(part.words, 'word')}, {more:,} over the {ask.max_words:,} allowed"


def too_many_pictures(ask: Ask, part: Part, pages: Mapping[str, int]) -> Found:
    if ask.max_pictures is None or part.pictures <= ask.max_pictures:
        return None
    more = part.pictures - ask.max_pictures
    counted = plural(part.pictures, "picture")
    return Answer.OVER, f"{counted}, {more} over the {ask.max_pictures} allowed"


def too_many_pages(ask: Ask, part: Part, pages: Mapping[str, int]) -> Found:
    count = pages.get(part.key, 0)
    if ask.max_pages is None or count <= ask.max_pages:
        return None
    return Answer.OVER, f"{plural(count, 'page')} in the last revision, {ask.max_pages} allowed"


def figure_of(ask: Ask, part: Part, pages: Mapping[str, int]) -> str:
    """“412 of 500 words, 3 of 5 pictures”."""
    found = []
    if ask.max_words is not None:
        found.append(f"{part.words:,} of {plural(ask.max_words, 'word')}")
    elif part.section.topics and part.words:
        found.append(plural(part.words, "word"))
    if ask.max_pictures is not None:
        found.append(f"{part.pictures} of {plural(ask.max_pictures, 'picture')}")
    elif part.section.uses and part.pictures:
        found.append(plural(part.pictures, "picture"))
    if ask.max_pages is not None and part.key in pages:
        found.append(f"{pages[part.key]} of {plural(ask.max_pages, 'page')}")
    return ", ".join(found) or "In place"


def fix_of(part: Part, packet: Packet) -> Link | None:
    """Where the section is changed: the page its rows come from, else its text."""
    place = part.section.place
    if place is None:
        return edit_text(part, packet)
    if place.url == PICTURES:
        return Link(picture_url(packet, part.section), place.words)
    return Link(reverse(place.url, args=[packet.project_id]), place.words)


def edit_text(part: Part, packet: Packet) -> Link | None:
    topics = part.section.topics
    return Link(text_url(packet, topics[0]), "Edit the text") if topics else None


def add_picture(part: Part, packet: Packet) -> Link | None:
    uses = part.section.uses
    return Link(picture_url(packet, part.section), "Add a picture") if uses else None


def remove_picture(part: Part, packet: Packet) -> Link:
    return Link(reverse("projects:overview", args=[packet.project_id]), "Remove a picture")


def text_url(packet: Packet, topic: str) -> str:
    return f"{reverse('packets:text-edit', args=[packet.project_id, topic])}?packet={packet.pk}"


def picture_url(packet: Packet, section: Section) -> str:
    """The form for a picture of the section, which comes back to the packet."""
    back = reverse("packets:packet", args=[packet.project_id, packet.pk])
    query = urlencode({"use": section.uses[0], "back": back})
    return f"{reverse(PICTURES, args=[packet.project_id])}?{query}"
