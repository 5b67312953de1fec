"""What a revision shows that is not so any more."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from packets.models import Revision
from packets.outline import Section
from packets.pages import Part
from packets.sections import SECTIONS
from projects.words import plural

SAID = 3  # so many changes of a section are told; the rest are counted


@dataclass(frozen=True, slots=True)
class Changed:
    """A section that would print differently today, and why."""

    title: str
    sentences: tuple[str, ...]
    more: int

    @property
    def says(self) -> str:
        rest = [f"And {plural(self.more, 'more change')}."] if self.more else []
        return f"{self.title}: {' '.join([*self.sentences, *rest])}"


def changes(revision: Revision, parts: Iterable[Part]) -> list[Changed]:
    """By section, against what the packet would show now. No query."""
    now = {part.key: part for part in parts if part.printed}
    keys = [*now, *(key for key in revision.sources if key not in now)]
    found = [changed(key, revision, now.get(key)) for key in keys]
    return [change for change in found if change]


def changed(key: str, revision: Revision, part: Part | None) -> Changed | None:
    if part is None:
        title = SECTIONS[key].title if key in SECTIONS else key
        return Changed(title, ("The section was taken out.",), 0)
    if key not in revision.sources:
        return Changed(part.section.title, ("The section was added.",), 0)
    facts = part.facts
    if part.fingerprint == revision.sources[key]:
        return None
    sentences = sentences_of(part.section, revision.shown.get(key, {}), facts)
    return Changed(part.section.title, tuple(sentences[:SAID]), max(0, len(sentences) - SAID))


def sentences_of(section: Section, before: dict[str, str], after: dict[str, str]) -> list[str]:
    names = list(dict.fromkeys([*after, *before]))
    return [
        section.change(name, before.get(name), after.get(name))
        for name in names
        if before.get(name) != after.get(name)
    ]
