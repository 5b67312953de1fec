"""The pattern as open drawing files in mm: SVG, and DXF of release 12."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from worksheets.drawings.pattern.marked import Marked, Point
from worksheets.drawings.pattern.pages import spread
from worksheets.drawings.svg import number

CUT, SEW, MARKS = "CUT", "SEW", "MARKS"
COLOURS = {CUT: 1, SEW: 5, MARKS: 7}
LETTERING = 8.0  # mm


def placed(panels: Sequence[Marked]) -> Iterator[tuple[Marked, Point]]:
    spots, _ = spread(panels)
    yield from zip(panels, spots, strict=True)


def svg_file(panels: Sequence[Marked]) -> bytes:
    """A drawing whose units are mm, with a group for each layer of each panel."""
    _, (wide, tall) = spread(panels)
    pieces = [_svg_panel(panel, spot, tall) for panel, spot in placed(panels)]
    size = f"{number(wide)} {number(tall)}"
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(wide)}mm" '
        f'height="{number(tall)}mm" viewBox="0 0 {size}" fill="none" stroke="black" '
        f'stroke-width="0.3">\n<title>Sewn skin: pattern at full size, in mm</title>\n'
        f"{''.join(pieces)}</svg>\n"
    ).encode()


def _svg_panel(panel: Marked, spot: Point, tall: float) -> str:
    def at(point: Point) -> str:
        return f"{number(spot[0] + point[0])},{number(tall - spot[1] - point[1])}"

    def outline(layer: str, corners: Sequence[Point], more: str = "") -> str:
        told = " ".join(at(corner) for corner in corners)
        return f'<polygon class="{layer}" points="{told}"{more}/>\n'

    marks = "".join(f'<path class="{MARKS}" d="M{at(a)} L{at(b)}"/>\n'
                    for a, b in (*panel.notches, *panel.grain))  # fmt: skip
    x, y = at((panel.middle[0] + 4, panel.middle[1])).split(",")
    words = escape(f"{panel.name}, cut {panel.count}")
    label = f'<text x="{x}" y="{y}" font-size="8" fill="black" stroke="none">{words}</text>\n'
    cut = outline(CUT, panel.cut)
    sewn = outline(SEW, panel.sewn, ' stroke-dasharray="4 2.5"')
    return f'<g id="panel-{panel.letter}">\n{cut}{sewn}{marks}{label}</g>\n'


def dxf_file(panels: Sequence[Marked]) -> bytes:
    """Group codes and values, one a line, as release 12 of the format has them."""
    pairs = [*_header(), *_tables(), (0, "SECTION"), (2, "ENTITIES")]
    for panel, spot in placed(panels):
        pairs += _polyline(CUT, panel.cut, spot)
        pairs += _polyline(SEW, panel.sewn, spot)
        for segment in (*panel.notches, *panel.grain):
            pairs += _line(segment, spot)
        pairs += _text(panel, spot)
    pairs += [(0, "ENDSEC"), (0, "EOF")]
    return "".join(f"{code:>3}\r\n{_value(value)}\r\n" for code, value in pairs).encode("ascii")


Pair = tuple[int, str | float | int]


def _value(value: str | float | int) -> str:
    return f"{value:.6f}" if isinstance(value, float) else str(value)


def _header() -> list[Pair]:
    return [
        (0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009"),
        (9, "$MEASUREMENT"), (70, 1), (0, "ENDSEC"),
    ]  # fmt: skip


def _tables() -> list[Pair]:
    found: list[Pair] = [
        (0, "SECTION"), (2, "TABLES"),
        (0, "TABLE"), (2, "LTYPE"), (70, 1),
        (0, "LTYPE"), (2, "CONTINUOUS"), (70, 0), (3, "Solid line"), (72, 65), (73, 0), (40, 0.0),
        (0, "ENDTAB"),
        (0, "TABLE"), (2, "LAYER"), (70, len(COLOURS)),
    ]  # fmt: skip
    for layer, colour in COLOURS.items():
        found += [(0, "LAYER"), (2, layer), (70, 0), (62, colour), (6, "CONTINUOUS")]
    return [*found, (0, "ENDTAB"), (0, "ENDSEC")]


def _polyline(layer: str, corners: Sequence[Point], spot: Point) -> list[Pair]:
    found: list[Pair] = [(0, "POLYLINE"), (8, layer), (66, 1), (10, 0.0), (20, 0.0), (30, 0.0),
                         (70, 1)]  # fmt: skip
    for x, y in corners:
        found += [(0, "VERTEX"), (8, layer), (10, spot[0] + x), (20, spot[1] + y), (30, 0.0)]
    return [*found, (0, "SEQEND"), (8, layer)]


def _line(segment: tuple[Point, Point], spot: Point) -> list[Pair]:
    (x1, y1), (x2, y2) = segment
    return [(0, "LINE"), (8, MARKS), (10, spot[0] + x1), (20, spot[1] + y1), (30, 0.0),
            (11, spot[0] + x2), (21, spot[1] + y2), (31, 0.0)]  # fmt: skip


def _text(panel: Marked, spot: Point) -> list[Pair]:
    x, y = panel.middle
    words = f"{panel.name}, cut {panel.count}"
    return [(0, "TEXT"), (8, MARKS), (10, spot[0] + x + 4), (20, spot[1] + y), (30, 0.0),
            (40, LETTERING), (1, words)]  # fmt: skip
