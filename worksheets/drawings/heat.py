"""The heat index on its bands, in the shade and in full sun."""

from __future__ import annotations

from collections.abc import Sequence

from worksheets.drawings.svg import Canvas

WIDTH, HEIGHT, LEFT, RIGHT = 560.0, 190.0, 24.0, 24.0
LOW, HIGH = 60.0, 150.0  # °F, the ends of the scale
TOP, BAND = 78.0, 34.0


def bands_view(
    bands: Sequence[tuple[float, str, str]], index: float, sun: float, words: tuple[str, str]
) -> str:
    """``bands`` start at °F, with a name and the start in the person’s units; so do ``words``."""
    canvas = Canvas(WIDTH, HEIGHT, "The heat index on the bands of the weather service")
    for place, (start, name, shown) in enumerate(bands):
        end = bands[place + 1][0] if place + 1 < len(bands) else HIGH
        kind = ("field", "near", "over", "over")[min(place, 3)]
        canvas.rect((x(start), TOP), x(end) - x(start), BAND, kind)
        canvas.line((x(start), TOP + BAND), (x(start), TOP + BAND + 8), "axis")
        canvas.text((x(start), TOP + BAND + 22), shown, "small", anchor="middle")
        canvas.text(((x(start) + x(end)) / 2, TOP + BAND + 42), name, "small", anchor="middle")
    canvas.line((LEFT, TOP + BAND), (WIDTH - RIGHT, TOP + BAND), "axis")
    pointer(canvas, index, f"In the shade {words[0]}", 48)
    if sun > index:
        pointer(
            canvas,
            sun,
            f"In full sun up to {words[1]}",
            24,
            "start" if x(sun) < WIDTH - 190 else "end",
        )
    return canvas.svg()


def pointer(canvas: Canvas, index: float, words: str, at: float, side: str = "") -> None:
    mark = x(index)
    canvas.line((mark, at + 6), (mark, TOP + BAND), "load")
    canvas.circle((mark, TOP + BAND / 2), 4, "load-head")
    side = side or ("end" if mark > 140 else "start")
    canvas.text((mark + (-6 if side == "end" else 6), at + 8), words, "strong", anchor=side)


def x(index: float) -> float:
    """Beyond the ends of the scale the mark stands at the end."""
    share = (min(HIGH, max(LOW, index)) - LOW) / (HIGH - LOW)
    return LEFT + share * (WIDTH - LEFT - RIGHT)
