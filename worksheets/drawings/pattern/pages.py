"""The pattern at full size: tiled on sheets of paper with a map of them, or on one big sheet."""

from __future__ import annotations

from collections.abc import Sequence

from worksheets.drawings.pattern.foot import FOOT_TALL, foot
from worksheets.drawings.pattern.maps import map_pages
from worksheets.drawings.pattern.marked import Marked, Point, around
from worksheets.drawings.pattern.pdf import GREY, PALE, Page, written
from worksheets.drawings.pattern.tiles import MARGIN, OVERLAP, Paper, Tile, fewest

ROLL = 880.0  # mm; what a roll of 36 in paper takes between its margins
GAP = 12.0  # mm between panels
MOST = 400  # sheets; beyond that only the map is made


def tiled(panels: Sequence[Marked], paper: Paper) -> bytes:
    """Every panel over as many sheets as it takes, after the map."""
    sheets = {panel.letter: fewest(panel, paper) for panel in panels}
    count = sum(len(each) for each in sheets.values())
    told = count if count <= MOST else -count
    pages = map_pages(panels, sheets, paper, told)
    if count <= MOST:
        pages += [sheet(tile, paper) for panel in panels for tile in sheets[panel.letter]]
    for number, page in enumerate(pages, start=1):
        words = f"Page {number} of {len(pages)}"
        page.text((page.width - MARGIN - 24, MARGIN + 1), words, size=2.8, colour=GREY)
    return written(pages, f"Sewn skin: pattern at full size on {paper.name}")


def sheet(tile: Tile, paper: Paper) -> Page:
    page = Page(paper.width, paper.height)
    left, low = paper.corner
    wide, tall = paper.window
    page.frame((left, low), wide, tall)
    page.text((left + 2, low + tall - 13), tile.words, size=3, colour=GREY)
    draw(page, tile.panel, tile, (left, low))
    for x, y in tile.marks():
        page.cross((left + x, low + y))
    _overlaps(page, tile, (left, low))
    foot(page, tile.words, grain="across" if tile.panel.lying else "up")
    return page


def _overlaps(page: Page, tile: Tile, corner: Point) -> None:
    """Pale lines where the next sheet’s frame comes to lie."""
    (left, low), (wide, tall) = corner, tile.size
    if tile.column < tile.columns:
        x = left + wide - OVERLAP
        page.line((x, low), (x, low + tall), thick=0.15, dash=(1, 2), colour=PALE)
    if tile.row < tile.rows:
        y = low + OVERLAP
        page.line((left, y), (left + wide, y), thick=0.15, dash=(1, 2), colour=PALE)


def draw(page: Page, panel: Marked, tile: Tile, corner: Point) -> None:
    """What of a panel lies on a sheet: line to cut, line to sew, notches, grain."""
    kinds = (
        (around(panel.cut), 0.5, ()),
        (around(panel.sewn), 0.35, (4.0, 2.5)),
        (panel.notches, 0.35, ()),
        (panel.grain, 0.25, ()),
    )
    for segments, thick, dash in kinds:
        for segment in segments:
            if met := tile.clip(segment):
                ends = [(corner[0] + x, corner[1] + y) for x, y in met]
                page.line(ends[0], ends[1], thick=thick, dash=dash)


def big(panels: Sequence[Marked]) -> bytes:
    """All panels on one sheet, as wide as a roll of paper where they fit."""
    spots, (wide, tall) = spread(panels)
    wide = max(wide, 190.0)
    page = Page(wide + 2 * MARGIN, tall + 2 * MARGIN + FOOT_TALL)
    for panel, (x, y) in zip(panels, spots, strict=True):
        whole = Tile(panel=panel, row=1, column=1, rows=1, columns=1, low=(0.0, 0.0),
                     size=panel.size)  # fmt: skip
        corner = (MARGIN + x, MARGIN + FOOT_TALL + y)
        draw(page, panel, whole, corner)
        middle = (corner[0] + panel.middle[0] + 4, corner[1] + panel.middle[1])
        page.text(middle, panel.name, size=7, bold=True)
        page.text((middle[0], middle[1] - 7), f"cut {panel.count}", size=5)
    size = f"{page.width:.0f} mm × {page.height:.0f} mm"
    foot(page, f"Sewn skin, all panels. This sheet is {size}", grain="up")
    return written([page], f"Sewn skin: pattern at full size on one sheet of {size}")


def spread(panels: Sequence[Marked]) -> tuple[list[Point], Point]:
    """Where each panel lies, in rows from below, and the size of them all."""
    across = max(ROLL, *(panel.size[0] for panel in panels))
    spots: list[Point] = []
    x = y = tall = wide = 0.0
    for panel in panels:
        if x and x + panel.size[0] > across:
            x, y, tall = 0.0, y + tall + GAP, 0.0
        spots.append((x, y))
        wide, tall = max(wide, x + panel.size[0]), max(tall, panel.size[1])
        x += panel.size[0] + GAP
    return spots, (wide, y + tall)
