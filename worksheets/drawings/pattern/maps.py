"""The first pages of a tiled pattern: how to print, what to try, where each sheet goes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from worksheets.drawings.pattern.foot import foot
from worksheets.drawings.pattern.marked import Marked, Point, around
from worksheets.drawings.pattern.pdf import GREY, Page
from worksheets.drawings.pattern.tiles import MARGIN, Paper, Tile

ACROSS, DOWN = 2, 3  # panels on a page of the map
HEADER = 48.0  # mm
Cell = tuple[float, float, float, float]
HOW = (
    "Lay the sheets out as on this map and slide each over its neighbour until the crosses on both",
    "lie on each other; the sheets then overlap by 10 mm. Tape them, cut along the line drawn",
    "through, and lay the arrow along the straight grain of the cloth.",
)
TRY = (
    "Sew one panel in cheap cloth and try it on the frame before you cut the dear cloth: cloth",
    "stretches, and a frame is never quite as drawn.",
)


def map_pages(
    panels: Sequence[Marked], sheets: Mapping[str, Sequence[Tile]], paper: Paper, count: int
) -> list[Page]:
    """``count`` of sheets; below 0 where there are too many to make."""
    across = 1 if len(panels) == 1 else ACROSS
    down = min(DOWN, -(-len(panels) // across))
    each = across * down
    pages = []
    for start in range(0, len(panels), each):
        page = Page(paper.width, paper.height)
        heading(page, paper, count)
        for number, panel in enumerate(panels[start : start + each]):
            cell = cell_of(paper, number, across, down)
            _panel(page, cell, sheets[panel.letter], count > 0)
        foot(page, "Map of the sheets")
        pages.append(page)
    return pages


def heading(page: Page, paper: Paper, count: int) -> None:
    top = paper.height - MARGIN
    page.text((MARGIN, top - 6), "Sewn skin: pattern at full size", size=6.5, bold=True)
    many = f"{count} sheets of {paper.name} paper follow, to be printed at 100 %."
    if count < 0:
        many = (
            f"It would take {-count} sheets of {paper.name} paper: print the one big sheet instead."
        )
    page.text((MARGIN, top - 13), many, size=3.6)
    for number, line in enumerate(HOW):
        page.text((MARGIN, top - 20 - number * 4.8), line, size=3.4)
    for number, line in enumerate(TRY):
        page.text((MARGIN, top - 37 - number * 4.8), line, size=3.4, bold=True)


def cell_of(paper: Paper, number: int, across: int, down: int) -> Cell:
    """Lower left corner, width and height of the place of a panel on the map."""
    wide, tall = paper.window[0] / across, (paper.window[1] - HEADER) / down
    left = paper.corner[0] + number % across * wide
    low = paper.corner[1] + paper.window[1] - HEADER - (number // across + 1) * tall
    return left, low, wide, tall


def _panel(page: Page, cell: Cell, sheets: Sequence[Tile], drawn: bool) -> None:
    """One panel small, with the frames of its sheets where they are ``drawn``."""
    left, low, wide, tall = cell
    panel = sheets[0].panel
    span = [min(0.0, *(tile.low[n] for tile in sheets), 0.0) for n in (0, 1)]
    ends = [max(panel.size[n], *(tile.low[n] + tile.size[n] for tile in sheets)) for n in (0, 1)]
    scale = min((wide - 8) / (ends[0] - span[0]), (tall - 14) / (ends[1] - span[1]))
    size = " × ".join(f"{value:.0f} mm" for value in panel.size)
    words = f"{size}, lying on its side" if panel.lying else size
    page.text((left, low + tall - 5), f"{panel.name}, cut {panel.count}", size=3.6, bold=True)
    page.text((left + 36, low + tall - 5), words, size=3, colour=GREY)
    origin = (left + 2 - span[0] * scale, low + 3 - span[1] * scale)
    for tile in sheets if drawn else ():
        _frame(page, tile, origin, scale)
    for start, end in around(panel.cut):
        (x1, y1), (x2, y2) = (
            (origin[0] + x * scale, origin[1] + y * scale) for x, y in (start, end)
        )
        page.line((x1, y1), (x2, y2), thick=0.35)


def _frame(page: Page, tile: Tile, origin: Point, scale: float) -> None:
    x, y = (origin[n] + tile.low[n] * scale for n in (0, 1))
    wide, tall = (length * scale for length in tile.size)
    page.frame((x, y), wide, tall)
    size = min(2.8, wide / 7)
    page.text((x + wide * 0.2, y + tall * 0.5), f"row {tile.row}", size=size, colour=GREY)
    at = (x + wide * 0.2, y + tall * 0.5 - size * 1.3)
    page.text(at, f"column {tile.column}", size=size, colour=GREY)
