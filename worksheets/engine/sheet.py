"""The declaration of a worksheet: one file under worksheets/sheets makes one SHEET."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from enum import IntEnum, StrEnum
from typing import Any

from worksheets.engine.dimensions import System
from worksheets.engine.given import Given, Reading, read
from worksheets.engine.inputs import Block, Input
from worksheets.engine.result import Result


class Group(StrEnum):
    QUANTITIES = "What to buy and cut"
    ACCESS = "Reach and work on site"
    LOADS = "Weight, wind and anchors"
    SITE = "Weather, sun and water"
    POWER = "Pumps and lights"


class Caution(IntEnum):
    """Who must look before anybody builds from the number."""

    NONE = 0
    DATA_SHEET = 1
    AUTHORITY = 2
    COMPETENT = 3
    LICENSED = 4

    @property
    def words(self) -> str:
        return CAUTION_WORDS[self]


CAUTION_WORDS = {
    Caution.NONE: "A figure to plan with.",
    Caution.DATA_SHEET: "Check it against the product data sheet.",
    Caution.AUTHORITY: "The local authority decides.",
    Caution.COMPETENT: "A competent person or the authority must check it on site.",
    Caution.LICENSED: "Screening estimate. Do not build from this number: a licensed engineer or "
    "electrician must check it and sign.",
}


class Status(StrEnum):
    """How a formula or a value was come by."""

    PUBLISHED = "published"
    RECOMPUTED = "published formula, recomputed"
    DERIVED = "derived, recomputed"
    MEMORY = "from memory"
    PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Source:
    says: str
    status: Status
    url: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """A published worked example: its inputs as typed, and what the publication found."""

    title: str
    source: str
    typed: Mapping[str, Any]
    finds: str  # the publication's own answer in words
    expects: Mapping[str, float]  # figure key -> value in SI (plain numbers as they are)
    within: float  # relative


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """Something to take away, such as a pattern at full size."""

    name: str  # “pattern-letter.pdf”; its ending says what it is
    label: str
    make: Callable[[Given], bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """``improve`` searches on from ``given.kept`` and calls ``tell(share done)`` as it goes."""

    key: str
    title: str
    purpose: str
    group: Group
    place: int
    caution: Caution
    blocks: tuple[Block, ...]
    compute: Callable[[Given], Result]
    formula: tuple[str, ...]
    sources: tuple[Source, ...]
    cautions: tuple[str, ...]
    recipe: Recipe
    rules: tuple[tuple[str, str], ...] = ()  # (about, input that chooses the set)
    kinds: tuple[str, ...] = ()  # of part it is offered for
    improve: Callable[[Given, Callable[[float, Result], bool]], Result] | None = None
    files: tuple[File, ...] = ()

    @property
    def inputs(self) -> Iterator[Input]:
        return (each for block in self.blocks for each in block.inputs)

    def input(self, name: str) -> Input:
        return next(each for each in self.inputs if each.name == name)

    def read(
        self,
        typed: Mapping[str, Any],
        *,
        facts: Mapping[str, Any] | None = None,
        system: System = System.US,
        currency: str = "USD",
        kept: Mapping[str, Any] | None = None,
    ) -> Reading:
        """What was typed, as SI; what is wrong, by the field's name."""
        return read(
            tuple(self.inputs),
            typed,
            facts=facts or {},
            system=system,
            currency=currency,
            kept=kept or {},
        )

    def work(self, typed: Mapping[str, Any], **more: Any) -> Result:
        """Read and compute in one go; for tests, examples and benches.

        Raises ValueError with the sentences when something typed is wrong.
        """
        reading = self.read(typed, **more)
        if reading.problems:
            raise ValueError(reading.problems)
        return self.compute(reading.given)
