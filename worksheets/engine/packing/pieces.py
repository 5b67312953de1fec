"""Rectangles and where they lie: ``x`` across the strip, ``y`` along it, any length unit."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

CLOSE = 1e-9


class TooWide(ValueError):
    """A piece that is wider than the strip; ``piece`` is its place in the list."""

    def __init__(self, piece: int, width: float, strip: float) -> None:
        super().__init__(f"Piece {piece + 1} is {width:g} wide; the strip is {strip:g}.")
        self.piece, self.width, self.strip = piece, width, strip


@dataclass(frozen=True, slots=True)
class Rectangle:
    """``width`` lies across the strip and is not turned."""

    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Placed:
    piece: int  # its place in the list
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """``bound``: no layout is shorter. ``proven`` where ``length`` cannot be beaten."""

    strip: float
    placed: tuple[Placed, ...]
    length: float
    bound: float
    proven: bool


def checked(pieces: Sequence[Rectangle], strip: float) -> None:
    """Raise ValueError for what is no rectangle, TooWide for what does not fit the strip."""
    for at, piece in enumerate(pieces):
        if not (0 < piece.width < math.inf and 0 < piece.height < math.inf):
            raise ValueError(f"Piece {at + 1} has no size.")
        if piece.width > strip * (1 + CLOSE):
            raise TooWide(at, piece.width, strip)


def shortest_thinkable(pieces: Sequence[Rectangle], strip: float) -> float:
    """A length below which no layout can come: by area, by the longest piece, and by the pieces
    wider than half the strip, of which no two lie side by side.

    >>> shortest_thinkable([Rectangle(3, 2), Rectangle(3, 2), Rectangle(1, 1)], 4)
    4
    """
    if not pieces:
        return 0.0
    area = sum(piece.width * piece.height for piece in pieces) / strip
    wide = sum(piece.height for piece in pieces if piece.width * 2 > strip * (1 + CLOSE))
    return max(area, wide, max(piece.height for piece in pieces))


def faults(layout: Layout, pieces: Sequence[Rectangle]) -> Iterator[str]:
    """What is wrong with a layout, in words; nothing where it can be cut."""
    slack = CLOSE * max(1.0, layout.strip, layout.length)
    if sorted(at.piece for at in layout.placed) != list(range(len(pieces))):
        yield "Not every piece lies there once."
        return
    for at in layout.placed:
        piece = pieces[at.piece]
        beside = at.x < -slack or at.x + piece.width > layout.strip + slack
        if beside or at.y < -slack or at.y + piece.height > layout.length + slack:
            yield f"Piece {at.piece + 1} lies outside the cloth."
    for one, other in combinations(layout.placed, 2):
        if _overlap(one, pieces[one.piece], other, pieces[other.piece], slack):
            yield f"Pieces {one.piece + 1} and {other.piece + 1} overlap."


def _overlap(one: Placed, a: Rectangle, other: Placed, b: Rectangle, slack: float) -> bool:
    across = min(one.x + a.width, other.x + b.width) - max(one.x, other.x)
    along = min(one.y + a.height, other.y + b.height) - max(one.y, other.y)
    return across > slack and along > slack
