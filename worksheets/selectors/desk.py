"""One hand of a kept worksheet, and what handing it on would do to its target."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import date

from projects.models import Project
from worksheets.engine.dimensions import System
from worksheets.engine.result import Hand
from worksheets.models import Handed, Worksheet
from worksheets.run import Worked, hands_in_words, system_of, work_saved
from worksheets.selectors.handed import handed_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """One hand of a kept worksheet, ready to be handed on."""

    worksheet: Worksheet
    worked: Worked
    hand: Hand
    words: str
    handed: Handed | None
    today: date

    @property
    def project(self) -> Project:
        return self.worksheet.project

    @property
    def system(self) -> System:
        return system_of(self.project)


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    label: str
    was: str
    becomes: str

    @property
    def same(self) -> bool:
        return self.was == self.becomes


@dataclass(frozen=True, slots=True, kw_only=True)
class Effect:
    """``warnings`` must have been seen before it is done; ``notes`` are good to know."""

    where: str  # “the line “Paint””
    target: str  # a key that tells targets apart
    changes: tuple[Change, ...]
    warnings: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    words: str = ""  # of the hand

    @property
    def basis(self) -> str:
        """What was looked at before it was agreed to: it no longer fits once that has changed."""
        seen = [self.words, *((c.label, c.was) for c in self.changes), *self.warnings]
        return f"{self.target}:{hashlib.sha256(repr(seen).encode()).hexdigest()[:20]}"


def desk_of(worksheet: Worksheet, key: str, today: date) -> Desk | None:
    """None when the result has no such hand now."""
    worked = work_saved(worksheet)
    hands = worked.result.hands if worked.result else ()
    hand = next((each for each in hands if each.key == key), None)
    if hand is None:
        return None
    return Desk(
        worksheet=worksheet,
        worked=worked,
        hand=hand,
        words=hands_in_words(worked)[key],
        handed=handed_of(worksheet).get(key),
        today=today,
    )
