"""What a section and a kind of packet are, and how their files are found."""

from __future__ import annotations

import hashlib
import json
import pkgutil
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from importlib import import_module
from types import ModuleType
from typing import Any, Protocol, TypeVar

from projects.models import Picture, PictureUse, Project, Text, Topic
from schedules.plan.once import once

OPAQUE = "#"  # a fact too long to say: only that it changed can be said
Context = dict[str, Any]


class Keyed(Protocol):
    key: str


Found = TypeVar("Found", bound=Keyed)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a section's data is changed: the name of a page, and the words of the link."""

    url: str
    words: str


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph, or a list when each of its lines begins with a dash."""

    text: str

    @property
    def items(self) -> list[str]:
        lines = self.text.split("\n")
        return [line[2:] for line in lines] if all(line.startswith("- ") for line in lines) else []


@dataclass(frozen=True, slots=True)
class Passage:
    """A text of the project as a section prints it."""

    topic: Topic
    body: str

    @property
    def title(self) -> str:
        return str(self.topic.label)

    @property
    def blocks(self) -> list[Block]:
        parts = self.body.replace("\r\n", "\n").split("\n\n")
        return [Block(part.strip()) for part in parts if part.strip()]

    @property
    def words(self) -> int:
        return len(self.body.split())


class Section:
    """A part of a packet: what it shows, counted and compared; its template has its key.

    A subclass names its texts and pictures; one that shows rows adds ``rows``, ``row_facts`` and
    ``missing``.
    """

    key: str
    title: str
    topics: tuple[Topic, ...] = ()
    uses: tuple[PictureUse, ...] = ()
    place: Place | None = None
    dated = False  # the day alone changes what it shows
    headed = True  # the document prints its title above it

    @property
    def template(self) -> str:
        return f"packets/sections/{self.key}.html"

    def context(self, project: Project, today: date) -> Context:
        return {
            "section": self,
            "passages": passages(project, self.topics),
            "pictures": pictures(project, self.uses),
            **self.rows(project, today),
        }

    def rows(self, project: Project, today: date) -> Context:
        return {}

    def facts(self, context: Context) -> dict[str, str]:
        """Everything the section shows, by name: equal facts print the same."""
        texts = [(f"The text “{p.title}”", opaque(p.body)) for p in context["passages"] if p.body]
        shown = [(f"The picture “{p.caption}”", picture_fact(p)) for p in context["pictures"]]
        return named([*self.row_facts(context), *texts, *shown])

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        return []

    def words(self, context: Context) -> int:
        return sum(passage.words for passage in context["passages"])

    def count_pictures(self, context: Context) -> int:
        return len(context["pictures"])

    def missing(self, context: Context) -> str:
        """What the section still waits for, in a few words; empty when it stands."""
        if self.topics and not self.words(context):
            return "No text yet"
        if self.uses and not self.topics and not context["pictures"]:
            return "No pictures yet"
        return ""

    def change(self, name: str, before: str | None, after: str | None) -> str:
        """What happened to a fact since a revision was made, as a sentence."""
        if before is None:
            return f"{name} was added."
        if after is None:
            return f"{name} was taken out."
        if before.startswith(OPAQUE) or after.startswith(OPAQUE):
            return f"{name} was changed."
        return f"{name} changed from {before} to {after}."


@dataclass(frozen=True, slots=True, kw_only=True)
class StartingAsk:
    """What a body usually asks for; the artist sets it right from the body's own list."""

    title: str
    section: str
    needed: bool = True
    max_words: int | None = None
    min_pictures: int | None = None
    max_pictures: int | None = None
    max_pages: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A packet: who reads it, what it is called, its sections in order."""

    key: str
    title: str
    reader: str
    sections: tuple[str, ...]
    asks: tuple[StartingAsk, ...] = ()
    max_pages: int | None = None
    max_bytes: int | None = None


def discover(package: ModuleType, name: str) -> dict[str, Any]:
    """The object called ``name`` of every module in the package, by its key."""
    found: dict[str, Any] = {}
    for info in sorted(pkgutil.iter_modules(package.__path__), key=lambda info: info.name):
        module = import_module(f"{package.__name__}.{info.name}")
        add(found, getattr(module, name))
    return found


def add(found: dict[str, Found], item: Found) -> None:
    if item.key in found:
        raise ValueError(f"“{item.key}” is taken by {found[item.key]!r} and by {item!r}.")
    found[item.key] = item


def passages(project: Project, topics: Iterable[Topic]) -> list[Passage]:
    wanted = list(topics)
    bodies = once(project, ("texts", None), lambda: bodies_of(project)) if wanted else {}
    return [Passage(topic, bodies.get(topic, "")) for topic in wanted]


def bodies_of(project: Project) -> dict[str, str]:
    return {row.topic: row.body.strip() for row in Text.objects.filter(project=project)}


def pictures(project: Project, uses: Iterable[PictureUse]) -> list[Picture]:
    wanted = list(uses)
    rows = once(project, ("pictures", None), lambda: pictures_of(project)) if wanted else ()
    return [row for row in rows if row.use in wanted]


def pictures_of(project: Project) -> tuple[Picture, ...]:
    return tuple(Picture.objects.filter(project=project))


def picture_fact(picture: Picture) -> str:
    return opaque("|".join([picture.file.name or "", picture.alt, picture.credit]))


def opaque(value: str) -> str:
    return OPAQUE + hashlib.sha256(value.encode()).hexdigest()[:16]


def named(pairs: Iterable[tuple[str, str]]) -> dict[str, str]:
    """Facts by name; the second of a name becomes “name (2)”."""
    found: dict[str, str] = {}
    for name, value in pairs:
        key, count = name, 1
        while key in found:
            count += 1
            key = f"{name} ({count})"
        found[key] = value
    return found


def fingerprint(facts: Mapping[str, str]) -> str:
    return hashlib.sha256(json.dumps(facts, sort_keys=True).encode()).hexdigest()
