"""What an elevation or a section shows: wall, path, parts, people, and what was found of them.

Lengths in metres from the wall’s left end, from its face, and above the finished ground.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace

CSS_PIXEL = 0.0254 / 96  # m: drawings are laid out in pixels of a 96th of an inch
US_SCALES = {
    24: "1/2 in to 1 ft", 32: "3/8 in to 1 ft", 48: "1/4 in to 1 ft", 64: "3/16 in to 1 ft",
    96: "1/8 in to 1 ft", 192: "1/16 in to 1 ft", 384: "1/32 in to 1 ft",
}  # fmt: skip
METRIC_SCALES = (10, 20, 25, 50, 100, 200, 500)
NO_WALL = (6.0, 4.0)  # a ground to stand on where no wall is known
GAP = 0.6  # m, between parts whose place is not known


@dataclass(frozen=True, slots=True)
class Mark:
    """A finding at the place where it occurs: over or near; ``at`` is used, edge or path."""

    standing: str
    at: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """``left`` is None where it is not known: it then stands in a free place, and says so."""

    name: str
    kind: str = "other"
    mounting: str = "wall"
    left: float | None = None
    bottom: float = 0.0
    width: float = 0.3
    height: float = 0.3
    out: float = 0.0
    used: float | None = None
    size: str = ""  # in words
    marks: tuple[Mark, ...] = ()
    placed: bool = True

    @property
    def top(self) -> float:
        return self.bottom + self.height


@dataclass(frozen=True, slots=True)
class Reach:
    """A person, and the heights that hands reach; ``low`` is None where no rule gives them."""

    who: str  # standing, seated, child
    words: str
    tall: float
    says: str = ""  # “reach 15 in to 48 in”
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """Where a thing may not stick out far: above a cane’s reach and below head room."""

    above: float
    to: float
    wall: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """``show`` writes a length in the reader’s units; ``rules`` names the rule set."""

    title: str
    show: Callable[[float], str]
    pieces: tuple[Piece, ...] = ()
    people: tuple[Reach, ...] = ()
    wall: tuple[float, float] | None = None
    stands_free: bool = False  # no wall behind it
    path_from: float | None = None
    path_width: float | None = None
    kerb: float | None = None
    zone: Zone | None = None
    shared: tuple[float, float] | None = None  # heights that everybody reaches
    anchors: tuple[tuple[float, float], ...] = ()
    feet: bool = True  # scale in feet and inches
    rules: str = ""
    notes: tuple[str, ...] = field(default=())

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the wall, or of what stands in for it."""
        if self.wall:
            return self.wall
        ends = [(p.left or 0.0) + p.width for p in self.pieces]
        tops = [piece.top for piece in self.pieces]
        wide, tall = NO_WALL
        return max([wide, *ends]), max([tall, *(top + 0.5 for top in tops)])


def scale_that_fits(
    wide: float, tall: float, room: tuple[float, float], *, feet: bool
) -> tuple[float, str]:
    """Pixels a metre and the scale’s name: the largest usual scale that fits ``room``.

    >>> scale_that_fits(10.0, 6.0, (800, 500), feet=False)
    (75.59055118110237, '1 : 50')
    """
    scales = tuple(US_SCALES) if feet else METRIC_SCALES
    fits = [n for n in scales if max(wide / room[0], tall / room[1]) / n <= CSS_PIXEL]
    n = fits[0] if fits else scales[-1]
    words = f"1 : {n}" + (f" ({US_SCALES[n]})" if feet else "")
    if not fits:
        return min(room[0] / wide, room[1] / tall), "not to a usual scale"
    return 1 / (CSS_PIXEL * n), words


def placed(pieces: Iterable[Piece], width: float) -> tuple[Piece, ...]:
    """Parts without a place are set side by side from the left; those with one keep it."""
    found, at = [], GAP
    for piece in pieces:
        if piece.left is None:
            left = min(at, max(0.0, width - piece.width))
            at += piece.width + GAP
            piece = moved(piece, left)
        found.append(piece)
    return tuple(found)


def moved(piece: Piece, left: float) -> Piece:
    return replace(piece, left=left, placed=False)
