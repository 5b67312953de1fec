"""A sheet of paper to draw the demo's pictures on, in feet, twice as fine as it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from io import BytesIO

from PIL import Image, ImageDraw, ImageFont

from projects.management.commands.set_up_fonts import FACES, file_of

PAPER, INK, SOFT, PALE = "#fffdf9", "#211c17", "#857b6e", "#e6dfd2"
BRICK, MORTAR, SINOPIA, EMBER = "#b9795f", "#d9b8a3", "#9a3b20", "#d98a2b"
GREEN, PATH, SKY, AMBER = "#2c6a5d", "#d8d3ca", "#e1e8f4", "#f2b544"
FINE = 2
Point = tuple[float, float]


@cache
def font(size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(file_of(*FACES["plex-sans"])), size)


class Canvas:
    """Origin at the left on the ground; ``scale`` pixels a foot, ``floor`` feet below ground."""

    def __init__(
        self, wide: float, high: float, scale: float, *, floor: float = 0, paper: str = PAPER
    ) -> None:
        self.top, self.scale = high - floor, scale * FINE
        size = (round(wide * self.scale), round(high * self.scale))
        self.image = Image.new("RGB", size, paper)
        self.pen = ImageDraw.Draw(self.image)

    def at(self, x: float, y: float) -> Point:
        return x * self.scale, (self.top - y) * self.scale

    def box(self, x: float, y: float, w: float, h: float, fill: str | None, line: str = "") -> None:
        corners = [self.at(x, y + h), self.at(x + w, y)]
        self.pen.rectangle(corners, fill=fill, outline=line or None, width=2 * FINE)

    def shape(self, points: Sequence[Point], fill: str | None, line: str = INK) -> None:
        self.pen.polygon([self.at(*p) for p in points], fill=fill)
        if line:
            self.line([*points, points[0]], line)

    def line(self, points: Sequence[Point], fill: str = INK, width: float = 2) -> None:
        pixels = round(width * FINE)
        self.pen.line([self.at(*p) for p in points], fill=fill, width=pixels, joint="curve")

    def disc(self, x: float, y: float, r: float, fill: str | None, line: str = "") -> None:
        corners = [self.at(x - r, y + r), self.at(x + r, y - r)]
        self.pen.ellipse(corners, fill=fill, outline=line or None, width=2 * FINE)

    def text(self, x: float, y: float, words: str, size: int = 24, anchor: str = "ls") -> None:
        self.pen.text(self.at(x, y), words, INK, font(size * FINE), anchor)

    def width(self, x1: float, x2: float, y: float, words: str) -> None:
        """A dimension line with its figure above it."""
        self.line([(x1, y), (x2, y)], INK, 1.2)
        tick = 6 / self.scale * FINE
        for x in (x1, x2):
            self.line([(x - tick, y - tick), (x + tick, y + tick)], INK, 1.6)
        self.text((x1 + x2) / 2, y + tick, words, 22, "ms")

    def height(self, x: float, y1: float, y2: float, words: str) -> None:
        self.line([(x, y1), (x, y2)], INK, 1.2)
        tick = 6 / self.scale * FINE
        for y in (y1, y2):
            self.line([(x - tick, y - tick), (x + tick, y + tick)], INK, 1.6)
        self.text(x + 2 * tick, (y1 + y2) / 2, words, 22, "lm")

    def person(self, x: float, tall: float = 5.6, shade: str = SOFT) -> None:
        self.disc(x, tall - 0.4, 0.38, shade)
        self.shape(
            [(x - 0.62, tall - 0.95), (x + 0.62, tall - 0.95), (x + 0.34, 0), (x - 0.34, 0)],
            shade,
            "",
        )

    def jpeg(self) -> bytes:
        size = (self.image.width // FINE, self.image.height // FINE)
        out = BytesIO()
        small = self.image.resize(size, Image.Resampling.LANCZOS)
        small.save(out, "JPEG", quality=88, optimize=True)
        return out.getvalue()
