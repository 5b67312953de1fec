"""What stays in the battery night by night, and what is lost along the wire."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from worksheets.drawings.svg import Canvas

WIDTH, HEIGHT = 560.0, 250.0
LEFT, RIGHT, TOP, BOTTOM = 78.0, 20.0, 48.0, 44.0
SHOWN = 10  # nights, at most


@dataclass(frozen=True, slots=True, kw_only=True)
class Nights:
    """``left`` is what the battery holds, as a share of full, at dusk of the first night and
    after each; ``floor`` the share below which it must not go; ``lit`` how many nights it lasts."""

    left: Sequence[float]
    floor: float
    lit: float
    full_words: str
    floor_words: str


def nights_view(nights: Nights) -> str:
    canvas = Canvas(WIDTH, HEIGHT, "What the battery holds after each night without charge")
    base, wide = HEIGHT - BOTTOM, WIDTH - LEFT - RIGHT
    shown = nights.left[: SHOWN + 1]
    step = wide / len(shown)

    def y(share: float) -> float:
        return base - share * (base - TOP)

    for place, share in enumerate(shown):
        at = LEFT + place * step + step * 0.18
        dark = place > nights.lit + 1e-9
        canvas.rect((at, y(share)), step * 0.64, base - y(share), "over" if dark else "band")
        name = "Full" if place == 0 else f"Night {place}" if len(shown) < 9 else str(place)
        canvas.text((at + step * 0.32, base + 16), name, "small", anchor="middle")
        told = "goes out" if dark else f"{share * 100:.0f} %"
        canvas.text((at + step * 0.32, y(share) - 5), told, "small", anchor="middle")
    floor = y(nights.floor)
    canvas.line((LEFT, floor), (WIDTH - RIGHT, floor), "cut")
    canvas.text((LEFT - 6, floor + 4), "Floor", "small", anchor="end")
    canvas.text((LEFT - 6, y(1) + 4), "Full", "small", anchor="end")
    canvas.line((LEFT, base), (WIDTH - RIGHT, base), "axis")
    canvas.line((LEFT, base), (LEFT, TOP), "axis")
    canvas.text((LEFT, TOP - 28), f"Battery: {nights.full_words}, floor {nights.floor_words}")
    canvas.text((WIDTH - RIGHT, HEIGHT - 8), "Without charge", "small", anchor="end")
    return canvas.svg()


@dataclass(frozen=True, slots=True, kw_only=True)
class Along:
    """The voltage along a run as a share of the supply; limits as shares lost."""

    left: float
    limits: tuple[float, float]
    start_words: str
    end_words: str
    length_words: str
    wire_words: str


def run_view(along: Along) -> str:
    """A share that falls along the run; the scale begins below the lower of end and limit."""
    wide, tall = 560.0, 210.0
    canvas = Canvas(wide, tall, "Voltage along the wire, from the battery to the light")
    low = 1 - max(1 - along.left, along.limits[1]) * 1.4
    first, last, top, base = 92.0, 470.0, 34.0, 140.0

    def y(share: float) -> float:
        return base - (share - low) / (1 - low) * (base - top)

    canvas.line((first, base), (last, base), "axis")
    for limit in along.limits:
        at = y(1 - limit)
        canvas.line((first, at), (last, at), "dashed")
        canvas.text((first - 8, at + 4), f"−{limit * 100:.0f} %", "small", anchor="end")
    canvas.line((first, y(1)), (last, y(along.left)), "curve")
    canvas.circle((first, y(1)), 4, "load-head")
    canvas.circle((last, y(along.left)), 4, "load-head")
    canvas.text((first, y(1) - 10), along.start_words, "strong")
    canvas.text((last + 8, y(along.left) + 4), along.end_words, "strong")
    canvas.rect((first - 24, base + 14), 24, 18, "part")
    canvas.text((first - 12, base + 46), "Battery", "small", anchor="middle")
    canvas.line((first, base + 19), (last, base + 19), "line")
    canvas.line((first, base + 27), (last, base + 27), "line")
    canvas.circle((last + 10, base + 23), 10, "near")
    canvas.text((last + 10, base + 46), "Light", "small", anchor="middle")
    middle = (first + last) / 2
    canvas.text((middle, base + 46), f"{along.length_words} one way, {along.wire_words}",
                "dim-label", anchor="middle")  # fmt: skip
    return canvas.svg()
