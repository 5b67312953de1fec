"""A canvas for drawings to scale: SVG text with classes, whose colours come from drawing.css.

No style attributes: the pages allow none, and the PDF puts the rules in place itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

Point = tuple[float, float]
TICK = 4.0  # half length of the slash that ends a dimension line, in drawing units


def number(value: float) -> str:
    """Short and never in powers of ten.

    >>> number(12.0), number(0.12345), number(-0.0001)
    ('12', '0.123', '0')
    """
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


class Canvas:
    """Things are drawn in the order in which they are added; y grows downwards."""

    def __init__(self, width: float, height: float, title: str, *, kind: str = "") -> None:
        self.width, self.height, self.title, self.kind = width, height, title, kind
        self.pieces: list[str] = []

    def add(self, tag: str, text: str = "", **attributes: str | float) -> None:
        """An element; `_class` becomes `class`, `stroke_width` becomes `stroke-width`."""
        pairs = ((name.strip("_").replace("_", "-"), value) for name, value in attributes.items())
        told = "".join(
            f' {name}="{escape(number(value) if isinstance(value, int | float) else value)}"'
            for name, value in pairs
            if value != ""
        )
        self.pieces.append(f"<{tag}{told}>{escape(text)}</{tag}>" if text else f"<{tag}{told}/>")

    def line(self, start: Point, end: Point, kind: str = "line") -> None:
        self.add("line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], _class=kind)

    def rect(self, corner: Point, width: float, height: float, kind: str = "shape") -> None:
        self.add("rect", x=corner[0], y=corner[1], width=width, height=height, _class=kind)

    def circle(self, centre: Point, radius: float, kind: str = "shape") -> None:
        self.add("circle", cx=centre[0], cy=centre[1], r=radius, _class=kind)

    def polygon(self, points: Iterable[Point], kind: str = "shape") -> None:
        told = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self.add("polygon", points=told, _class=kind)

    def polyline(self, points: Iterable[Point], kind: str = "line") -> None:
        told = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self.add("polyline", points=told, _class=kind)

    def path(self, commands: str, kind: str = "line") -> None:
        self.add("path", d=commands, _class=kind)

    def text(
        self, at: Point, words: str, kind: str = "label", *, anchor: str = "", turn: float = 0
    ) -> None:
        """`anchor` is start, middle or end; `turn` is in degrees, clockwise."""
        x, y = at
        turned = f"rotate({number(turn)} {number(x)} {number(y)})" if turn else ""
        self.add("text", words, x=x, y=y, _class=kind, text_anchor=anchor, transform=turned)

    def dimension(self, start: Point, end: Point, words: str, *, size: float = 11) -> None:
        """A dimension line with slashes at its ends, its words above it or to its left.

        Beside an upright line too short for them the words lie level.
        """
        (x1, y1), (x2, y2) = start, end
        self.line(start, end, "dim")
        for x, y in (start, end):
            self.line((x - TICK, y + TICK), (x + TICK, y - TICK), "dim")
        middle = ((x1 + x2) / 2, (y1 + y2) / 2)
        if abs(x2 - x1) >= abs(y2 - y1):
            self.text((middle[0], middle[1] - size * 0.4), words, "dim-label", anchor="middle")
        elif abs(y2 - y1) < len(words) * size * 0.55 + 3 * TICK:
            at = (middle[0] - size * 0.6, middle[1] + size * 0.35)
            self.text(at, words, "dim-label", anchor="end")
        else:
            at = (middle[0] - size * 0.4, middle[1])
            self.text(at, words, "dim-label", anchor="middle", turn=-90)

    def group(self, pieces: Sequence[str], kind: str = "") -> None:
        self.pieces.append(f'<g class="{escape(kind)}">{"".join(pieces)}</g>')

    def svg(self) -> str:
        """The whole drawing, named for whoever cannot see it."""
        size = f"0 0 {number(self.width)} {number(self.height)}"
        kind = f"drawing {self.kind}".strip()
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="{kind}" viewBox="{size}" '
            f'width="{number(self.width)}" height="{number(self.height)}" role="img" '
            f'aria-label="{escape(self.title)}"><title>{escape(self.title)}</title>'
            f"{''.join(self.pieces)}</svg>"
        )
