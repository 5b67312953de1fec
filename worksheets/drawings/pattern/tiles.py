"""A panel over sheets of paper that overlap, so that they can be taped together."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from worksheets.drawings.pattern.marked import Marked, Point, Segment

MARGIN = 10.0  # mm that every printer keeps free
FOOT = 26.0  # mm below the drawing, for the check bars and the name
OVERLAP = 10.0
AROUND = 3.0  # mm of paper beyond the line to cut


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet, in mm."""

    name: str
    width: float
    height: float

    @property
    def window(self) -> Point:
        """Width and height of what can be drawn on."""
        return self.width - 2 * MARGIN, self.height - 2 * MARGIN - FOOT

    @property
    def corner(self) -> Point:
        """Lower left of the drawing on the sheet."""
        return MARGIN, MARGIN + FOOT


LETTER = Paper("letter", 215.9, 279.4)
A4 = Paper("A4", 210.0, 297.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One sheet of a panel: rows from the top, columns from the left, both from 1."""

    panel: Marked
    row: int
    column: int
    rows: int
    columns: int
    low: Point  # lower left of the window, in mm of the panel
    size: Point

    @property
    def words(self) -> str:
        where = f"row {self.row} of {self.rows}, column {self.column} of {self.columns}"
        return f"{self.panel.name}, cut {self.panel.count}: {where}"

    def clip(self, segment: Segment) -> Segment | None:
        """What of a line lies on this sheet, in mm of its window."""
        (x1, y1), (x2, y2) = segment
        first, last = 0.0, 1.0
        for start, move, low, size in (
            (x1, x2 - x1, self.low[0], self.size[0]),
            (y1, y2 - y1, self.low[1], self.size[1]),
        ):
            if abs(move) < 1e-12:
                if not low <= start <= low + size:
                    return None
                continue
            ends = sorted(((low - start) / move, (low + size - start) / move))
            first, last = max(first, ends[0]), min(last, ends[1])
        if first >= last:
            return None
        return self.at(x1, y1, x2, y2, first), self.at(x1, y1, x2, y2, last)

    def at(self, x1: float, y1: float, x2: float, y2: float, share: float) -> Point:
        return (x1 + (x2 - x1) * share - self.low[0], y1 + (y2 - y1) * share - self.low[1])

    def marks(self) -> Iterator[Point]:
        """Where the crosses lie that this sheet shares with its neighbours, in its window."""
        wide, tall = self.size
        for is_there, x in ((self.column > 1, OVERLAP / 2),
                            (self.column < self.columns, wide - OVERLAP / 2)):  # fmt: skip
            if is_there:
                yield from ((x, tall * share) for share in (0.25, 0.75))
        for is_there, y in ((self.row > 1, tall - OVERLAP / 2),
                            (self.row < self.rows, OVERLAP / 2)):  # fmt: skip
            if is_there:
                yield from ((wide * share, y) for share in (0.25, 0.75))

    @property
    def holds(self) -> bool:
        """Whether any of the panel lies on it: a line, or its inside."""
        cut = self.panel.cut
        edges = zip(cut, [*cut[1:], cut[0]], strict=True)
        return any(self.clip(edge) for edge in edges) or inside(cut, self.middle)

    @property
    def middle(self) -> Point:
        return self.low[0] + self.size[0] / 2, self.low[1] + self.size[1] / 2


def inside(corners: tuple[Point, ...], point: Point) -> bool:
    """Whether a point lies in a convex outline that runs counter-clockwise.

    >>> inside(((0, 0), (4, 0), (4, 4), (0, 4)), (1, 1))
    True
    """
    x, y = point
    pairs = zip(corners, [*corners[1:], corners[0]], strict=True)
    return all((x2 - x1) * (y - y1) >= (y2 - y1) * (x - x1) for (x1, y1), (x2, y2) in pairs)


def counted(length: float, window: float) -> int:
    """Sheets in a row that cover a length, each overlapping the last.

    >>> counted(190.0, 190.0), counted(191.0, 190.0), counted(371.0, 190.0)
    (1, 2, 3)
    """
    return max(1, math.ceil((length - OVERLAP) / (window - OVERLAP) - 1e-9))


def fewest(panel: Marked, paper: Paper) -> list[Tile]:
    """The sheets of a panel upright, or on its side where that takes fewer."""
    upright, lying = (list(tiles(each, paper)) for each in (panel, panel.on_its_side()))
    return lying if len(lying) < len(upright) else upright


def grid_of(panel: Marked, paper: Paper) -> Point:
    """Rows and columns of sheets."""
    (wide, tall), (width, height) = panel.size, paper.window
    return counted(tall + 2 * AROUND, height), counted(wide + 2 * AROUND, width)


def tiles(panel: Marked, paper: Paper) -> Iterator[Tile]:
    """Every sheet that holds some of the panel, row by row from the top, in the middle of them."""
    rows, columns = (int(number) for number in grid_of(panel, paper))
    width, height = paper.window
    left = (panel.size[0] - columns * (width - OVERLAP) - OVERLAP) / 2
    low = (panel.size[1] - rows * (height - OVERLAP) - OVERLAP) / 2
    for row in range(1, rows + 1):
        for column in range(1, columns + 1):
            corner = (
                left + (column - 1) * (width - OVERLAP),
                low + (rows - row) * (height - OVERLAP),
            )
            tile = Tile(panel=panel, row=row, column=column, rows=rows, columns=columns,
                        low=corner, size=(width, height))  # fmt: skip
            if tile.holds:
                yield tile
