"""The pictures of the demo, drawn by hand of code: no photograph of a real place."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin

from packets.management.demo.canvas import (
    AMBER,
    BRICK,
    EMBER,
    GREEN,
    INK,
    MORTAR,
    PALE,
    PATH,
    SINOPIA,
    SKY,
    SOFT,
    Canvas,
)


def bricks(c: Canvas, x: float, y: float, w: float, h: float, joint: str = MORTAR) -> None:
    c.box(x, y, w, h, BRICK)
    rows = int(h / 0.5)
    for row in range(rows + 1):
        c.line([(x, y + row * h / rows), (x + w, y + row * h / rows)], joint, 1)
        for n in range(int(w) + 1):
            place = x + n + (0.5 if row % 2 else 0)
            if row < rows and place < x + w:
                c.line([(place, y + row * h / rows), (place, y + (row + 1) * h / rows)], joint, 1)


def hearth(c: Canvas, x: float, y: float, w: float, h: float) -> None:
    """The painted field: embers below, smoke that turns into swifts."""
    c.box(x, y, w, h, "#3a2a22")
    for n in range(110):
        a = n * 2.399963
        px, py = x + w * ((n * 0.6180339) % 1), y + h * 0.34 * ((n * 0.7548776) % 1)
        c.disc(px, py + 0.15, 0.16 + 0.16 * abs(sin(a)), (EMBER, SINOPIA, AMBER)[n % 3])
    for n in range(5):
        curve = [
            (x + w * (0.15 + 0.17 * n) + 0.5 * sin(t / 2 + n), y + h * 0.36 + t * h * 0.06)
            for t in range(8)
        ]
        c.line(curve, "#8d7a6c", 5)
    for n in range(14):
        sx, sy = x + w * (0.06 + (n * 0.618) % 0.9), y + h * (0.74 + 0.2 * ((n * 0.37) % 1))
        c.line([(sx - 0.45, sy + 0.2), (sx, sy), (sx + 0.45, sy + 0.2)], "#f6f2ea", 3.4)


def lantern(c: Canvas, x: float, y: float, lit: bool = False) -> None:
    """Six sides, four rings, about 4 ft across; ``y`` is the lowest ring."""
    rings = ((0.8, 0.0), (2.0, 1.3), (2.0, 3.6), (0.8, 5.0))
    fill = AMBER if lit else "#f1d9a8"
    outline = [(x - r, y + h) for r, h in rings] + [(x + r, y + h) for r, h in reversed(rings)]
    c.shape(outline, fill)
    for share in (-0.45, 0.45):
        c.line([(x + r * share, y + h) for r, h in rings], INK, 2)
    for r, h in rings:
        c.line([(x - r, y + h), (x + r, y + h)], INK, 3)
    c.line([(x, y + 5.0), (x, y + 5.7)], INK, 3)


def trough(c: Canvas, x: float, w: float = 4.9) -> None:
    for n in range(13):
        foot = x + 0.3 + n * (w - 0.6) / 12
        for lean in (-0.45, 0.0, 0.45):
            c.line([(foot, 1.4), (foot + lean / 2, 2.1), (foot + lean, 2.3)], GREEN, 3)
    c.box(x, 0, w, 1.48, "#8a5a3c", INK)


def crank(c: Canvas, x: float) -> None:
    c.line([(x, 0), (x, 2.3)], INK, 5)
    c.box(x - 0.4, 2.3, 0.8, 1.3, SOFT, INK)
    c.line([(x + 0.4, 3.0), (x + 0.9, 3.0), (x + 0.9, 3.35)], INK, 4)


def pier() -> bytes:
    c = Canvas(36, 24, 48, floor=2, paper=SKY)
    c.box(0, -2, 36, 5, "#a9b794")
    bricks(c, 6, 0.4, 25, 22)
    c.box(5, -0.3, 27, 0.9, "#8f8578", INK)
    c.shape([(0, -2), (36, -2), (36, -0.7), (0, -0.3)], PATH, "")
    for n in range(60):
        x = 5 + n * 0.45
        c.line([(x, -0.4), (x + 0.3 * sin(n), 0.5 + 0.3 * cos(n))], GREEN, 3)
    c.person(28, 5.6)
    return c.jpeg()


def elevation() -> bytes:
    c = Canvas(36, 27, 48, floor=3)
    bricks(c, 5.5, 0, 25, 20.5, "#c98f76")
    hearth(c, 6, 2.4, 24, 12)
    c.line([(2, 0), (34, 0)], INK, 4)
    lantern(c, 14, 9.2)
    trough(c, 7.2)
    trough(c, 23.6)
    crank(c, 20.2)
    c.person(18.2, 5.6, PALE)
    c.person(22.2, 3.7, PALE)
    c.width(6, 30, 21.6, "24 ft")
    c.height(31.4, 2.4, 14.4, "12 ft")
    c.height(3.2, 0, 9.2, "9 ft 2 in")
    c.text(2, -1.9, "Elevation: brick pier with mural field, lantern and troughs", 24)
    return c.jpeg()


def section() -> bytes:
    c = Canvas(28, 24, 56, floor=3)
    c.box(1, 0, 4, 19, BRICK, INK)
    c.box(5, -0.6, 4, 0.6, "#a9b794", INK)
    c.box(9, -0.6, 9, 0.6, PATH, INK)
    c.box(18, -0.6, 8, 0.6, "#a9b794", INK)
    lantern(c, 7.5, 9.2)
    c.line([(5, 14.9), (7.5, 14.9)], INK, 5)
    c.box(5.3, 0, 1.3, 1.48, "#8a5a3c", INK)
    c.line([(8.55, 0), (8.55, 2.3)], INK, 5)
    c.box(8.3, 2.3, 0.5, 1.3, SOFT, INK)
    c.line([(8.8, 3.0), (9.2, 3.0)], INK, 4)
    c.person(14.4, 5.6)
    c.person(12.6, 3.7)
    c.height(19.5, 0, 9.2, "9 ft 2 in clear")
    c.line([(9.5, 9.2), (19.5, 9.2)], SOFT, 1)
    c.width(9, 18, 16.5, "Path 9 ft")
    c.width(5, 9, 16.5, "Verge 4 ft")
    c.height(9.8, 0, 3, "36 in")
    c.text(1, -1.9, "Section through pier, verge and path", 24)
    return c.jpeg()


def plan() -> bytes:
    c = Canvas(90, 64, 20)
    c.box(0, 0, 90, 64, "#e7ecd9")
    c.shape([(0, 22), (90, 30), (90, 39), (0, 31)], PATH)
    c.shape([(74, 0), (84, 0), (84, 64), (74, 64)], PATH)
    for n in range(3):
        c.box(6 + n * 27, 40 + n * 2.4, 12, 8, BRICK, INK)
    c.disc(40, 40.5, 1.1, AMBER, INK)
    c.text(8, 52, "Pier 3", 22)
    c.text(34, 55, "Pier 4, the site", 22)
    c.text(58, 57.5, "Pier 5", 22)
    c.text(30, 28, "Footpath, 9 ft", 22)
    c.text(20, 10, "Water meadow", 26)
    c.text(75, 4, "Mill Lane", 22)
    c.line([(6, 5), (6, 14)], INK, 3)
    c.shape([(5, 12), (7, 12), (6, 16)], INK)
    c.text(6, 17, "N", 24, "ms")
    c.width(48, 68, 3, "20 ft")
    return c.jpeg()


def night() -> bytes:
    c = Canvas(36, 24, 48, floor=3, paper="#232c42")
    bricks(c, 6, 0, 25, 21, "#4a3b3a")
    c.box(6, 0, 25, 21, "#352b2e")
    hearth(c, 6.5, 2.4, 24, 12)
    for n in range(12, 0, -1):
        tone = f"#{58 + 8 * (12 - n):02x}{42 + 5 * (12 - n):02x}{34 + (12 - n):02x}"
        c.disc(14, 11.7, 2.4 + n * 0.28, tone)
    lantern(c, 14, 9.2, lit=True)
    c.box(0, -3, 36, 3, "#1b1f2b")
    trough(c, 7.2)
    trough(c, 23.6)
    c.person(18.2, 5.6, "#10131c")
    c.person(20.4, 3.7, "#10131c")
    return c.jpeg()


def facets() -> bytes:
    c = Canvas(20, 14, 80, floor=2)
    for x, turn in ((6, 0.0), (14, pi / 6)):
        for r, y in ((0.9, 1.0), (2.3, 3.4), (2.3, 7.6), (0.9, 10.2)):
            ring = [
                (x + r * 1.3 * cos(turn + k * pi / 3), y + r * 0.36 * sin(turn + k * pi / 3))
                for k in range(7)
            ]
            c.line(ring, SINOPIA if r > 1 else INK, 5)
        for k in range(6):
            posts = [
                (x + r * 1.3 * cos(turn + k * pi / 3), y + r * 0.36 * sin(turn + k * pi / 3))
                for r, y in ((0.9, 1.0), (2.3, 3.4), (2.3, 7.6), (0.9, 10.2))
            ]
            c.line(posts, INK, 4)
    c.text(3, -1.2, "Frame as welded", 26)
    c.text(11, -1.2, "The same, turned 30 degrees", 26)
    return c.jpeg()


def stair() -> bytes:
    c = Canvas(24, 20, 64, paper=SKY)
    for n in range(14, -1, -1):
        inset, y = 0.42 * n, n * 1.15
        c.box(3 + inset, y, 18 - 2 * inset, 1.15, "#efe7d8", INK)
        for k in range(9):
            x = 3 + inset + (k + 0.5) * (18 - 2 * inset) / 9
            c.disc(x, y + 0.56, 0.42, (EMBER, SINOPIA, GREEN, AMBER, "#264a86")[(n + k) % 5])
            c.disc(x, y + 0.56, 0.16, "#fffdf9")
    return c.jpeg()


def herons() -> bytes:
    c = Canvas(26, 20, 64, floor=3)
    c.box(0, -3, 26, 3, "#d5dcc4")
    c.box(7, -0.4, 12, 0.8, PATH, INK)
    for x, way in ((11, -1), (15, 1)):
        c.line([(x, 0.4), (x + 0.1 * way, 6)], INK, 7)
        c.line([(x + 0.7 * way, 0.4), (x + 0.5 * way, 6)], INK, 7)
        body = [
            (0.9, 6.2),
            (-1.2, 5.6),
            (-0.4, 7.6),
            (0.7, 8.8),
            (0.5, 11),
            (1.0, 12.8),
            (3.2, 12.3),
            (1.3, 11.9),
            (1.3, 10.6),
            (1.6, 8.6),
        ]
        c.shape([(x + dx * way, y) for dx, y in body], "#8a5a3c")
    c.person(13, 5.6, PALE)
    c.height(20, 0.4, 13, "13 ft")
    c.text(1, -2.2, "Elevation: two herons on one footing", 24)
    return c.jpeg()


DRAWINGS: dict[str, Callable[[], bytes]] = {
    "pier": pier,
    "elevation": elevation,
    "section": section,
    "plan": plan,
    "night": night,
    "facets": facets,
    "stair": stair,
    "herons": herons,
}
