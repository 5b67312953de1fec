"""From panels to what is bought: cut shapes, cloth by the yard and metre, thread."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from worksheets.engine.dimensions import YARD
from worksheets.engine.outline import Cut, OutlineError, cut_line
from worksheets.engine.packing.laying import Shape
from worksheets.engine.skin import Panel, Skin, edge_names, flat

EIGHTHS, TENTHS = 8, 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """In m: along the columns, at each ring between, at the top and at the bottom."""

    seam: float
    overlap: float
    top: float
    bottom: float

    def of(self, panel: int, panels: int) -> dict[str, float]:
        """For one panel, counted from 0 at the top, by the names of ``skin.edge_names``."""
        return {
            "side": self.seam,
            "top": self.top if panel == 0 else self.overlap,
            "bottom": self.bottom if panel == panels - 1 else self.overlap,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """One panel as it is sewn and as it is cut; ``number`` counts from 0 at the top."""

    number: int
    panel: Panel
    allowances: dict[str, float]
    cut: Cut
    count: int

    @property
    def letter(self) -> str:
        return letter(self.number)

    @property
    def lean(self) -> float:
        """How far a side leans outward, in m for each m down the panel."""
        return (self.panel.bottom - self.panel.top) / 2 / self.panel.slant

    def half_width(self, y: float) -> float:
        """From the middle to the cut side at a height above the sewn lower edge, in m."""
        side = self.allowances["side"] * math.hypot(1.0, self.lean)
        return self.panel.bottom / 2 - self.lean * y + side

    def shape(self) -> Shape:
        """The trapezoid that holds the cut panel."""
        low, high = (bound(y for _, y in self.cut.points) for bound in (min, max))
        return Shape(
            top=2 * self.half_width(high),
            bottom=2 * self.half_width(low),
            height=high - low,
            count=self.count,
        )


class PatternError(ValueError):
    """A hem or seam that is too deep: of panel ``number``, at ``edge`` (side, top or bottom)."""

    def __init__(self, number: int, edge: str) -> None:
        super().__init__(
            f"This allowance is so deep that the sides of panel {letter(number)} meet inside it. "
            "Make it shallower."
        )
        self.number, self.edge = number, edge


def letter(number: int) -> str:
    """A to Z, then AA and on.

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    before, last = divmod(number, 26)
    return (chr(64 + before) if before else "") + chr(65 + last)


def patterns(skin: Skin, allowances: Allowances, smaller: float = 0.0) -> tuple[Pattern, ...]:
    """Every panel with its allowances; ``smaller`` is the share by which it is cut to sit taut.

    Lengths in m, ``smaller`` from 0 to below 1. Raises PatternError where a hem is too deep.
    """
    last = len(skin.panels)
    return tuple(
        _pattern(number, true.scaled(1 - smaller), allowances.of(number, last), skin.columns)
        for number, true in enumerate(skin.panels)
    )


def _pattern(number: int, panel: Panel, shares: dict[str, float], count: int) -> Pattern:
    names = edge_names(panel)
    try:
        cut = cut_line(flat(panel), [shares[name] for name in names])
    except OutlineError as wrong:
        if wrong.edge is None:
            raise
        raise PatternError(number, names[wrong.edge]) from None
    return Pattern(number=number, panel=panel, allowances=shares, cut=cut, count=count)


def to_buy(laid: float, *, repeat: float, panels: int, shrink: float, spare: float) -> float:
    """Cloth to buy in m: the length laid, a repeat for each panel, shrinking, and mistakes.

    A loss divides: what shrinks by a tenth must start a ninth longer.

    >>> round(to_buy(9.0, repeat=0.0, panels=8, shrink=0.1, spare=0.0), 6)
    10.0
    """
    return (laid + repeat * panels) * (1 + spare) / (1 - shrink)


def yards(length: float) -> float:
    """A length in m as yards, up to the next eighth.

    >>> yards(3.6576), yards(3.66)
    (4.0, 4.125)
    """
    return _up(length / YARD, EIGHTHS)


def metres(length: float) -> float:
    """A length in m, up to the next tenth.

    >>> metres(3.61), metres(3.6)
    (3.7, 3.6)
    """
    return _up(length, TENTHS)


def _up(number: float, parts: int) -> float:
    return math.ceil(number * parts - 1e-6) / parts


def thread(seam: float, rows: int, *, per_seam: float, spare: float) -> float:
    """Thread in m for ``rows`` of stitching along ``seam`` m; ``per_seam`` is its ratio.

    Source: sewing page with a lockstitch ratio of 2.5 and 550 cm for a seam of 220 cm.

    >>> thread(2.2, 1, per_seam=2.5, spare=0.0)
    5.5
    """
    return seam * rows * per_seam * (1 + spare)


def fewest_columns(radii: Sequence[float], seam: float, strip: float, most: int = 48) -> int:
    """The least number of columns at which the widest panel fits; 0 where none up to ``most``.

    ``seam`` is the width that both sides add, ``strip`` the width of the cloth, all in m.

    >>> fewest_columns([1.5], 0.05, 1.2)
    8
    """
    radius = max(radii)
    fits = (n for n in range(3, most + 1) if 2 * radius * math.sin(math.pi / n) + seam <= strip)
    return next(fits, 0)
