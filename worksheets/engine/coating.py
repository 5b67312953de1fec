"""A wall, its openings and its layers of paint, as things to reckon with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from worksheets.engine import paint
from worksheets.engine.given import Given
from worksheets.engine.packs import Purchase
from worksheets.engine.rules import RuleSet

HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """Lengths in m; ``left`` from the field’s left edge, ``low`` above the ground."""

    name: str
    width: float
    height: float
    left: float | None
    low: float | None

    @property
    def area(self) -> float:
        return self.width * self.height

    @property
    def placed(self) -> bool:
        return self.left is not None and self.low is not None

    def below(self, height: float) -> float:
        """Area of it below a height above the ground; nothing where its place is not known."""
        if self.left is None or self.low is None:
            return 0.0
        return self.width * max(0.0, min(self.low + self.height, height) - self.low)


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """The wall to paint; ``bottom`` is its lower edge above the ground."""

    width: float
    height: float
    bottom: float
    openings: tuple[Opening, ...]

    @property
    def gross(self) -> float:
        return self.width * self.height

    @property
    def net(self) -> float:
        return paint.net_area(self.gross, [each.area for each in self.openings])

    @property
    def top(self) -> float:
        return self.bottom + self.height

    def below(self, height: float) -> float:
        """Area to paint up to a height above the ground."""
        taken = [each.below(height) for each in self.openings]
        return paint.net_area(self.width * (height - self.bottom), taken)


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """From the data sheet; lengths in m, ``thinner`` for each volume of paint."""

    solids: float
    dry: float | None
    thinner: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """``area`` with the surface factor; ``rate`` before loss; ``assumed`` names a rate’s source."""

    row: int
    name: str
    kind: str
    area: float
    up_to: float | None
    coats: int
    rate: float
    loss: float
    assumed: str
    film: Film | None
    need: float
    best: Purchase | None
    single: Purchase | None

    @property
    def practical(self) -> float:
        return paint.practical(self.rate, self.loss)

    def yearly(self, cleanings: float) -> float:
        """Volume renewed a year, of a coat that comes off with the tags."""
        if self.kind != "sacrificial":
            return 0.0
        return paint.renewals(self.area, self.rate, self.coats, self.loss, cleanings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    given: Given
    field: Field
    layers: tuple[Layer, ...]
    rules: RuleSet

    @property
    def cents(self) -> int | None:
        """Cost of all packs; None when a layer has no price."""
        every = [layer.best.cents for layer in self.layers if layer.best is not None]
        return sum(every) if len(every) == len(self.layers) else None


def key(name: str) -> str:
    return " ".join(name.casefold().split())


def overlap(one: Opening, other: Opening) -> bool:
    if one.left is None or one.low is None or other.left is None or other.low is None:
        return False
    across = min(one.left + one.width, other.left + other.width) - max(one.left, other.left)
    upward = min(one.low + one.height, other.low + other.height) - max(one.low, other.low)
    return across > HAIR and upward > HAIR


def bands(layers: Sequence[Layer]) -> Iterator[tuple[float, str]]:
    """Each height with the layers that stop there, from the lowest."""
    heights = sorted({each.up_to for each in layers if each.up_to is not None})
    for height in heights:
        yield height, ", ".join(each.name for each in layers if each.up_to == height)
