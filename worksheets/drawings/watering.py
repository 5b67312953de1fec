"""Water a week, month by month: with the usual rain, and without any."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from worksheets.drawings.svg import Canvas

LEFT, STEP, TALL, TOP = 44.0, 34.0, 150.0, 24.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekBar:
    name: str
    usual: float
    dry: float
    cans: str  # over the bar, in a dry week


def weeks(rows: Sequence[WeekBar], unit: str) -> str:
    """A solid bar for the usual rain; a dashed one around it for a week without rain."""
    width = LEFT + 12 * STEP + 8
    canvas = Canvas(width, TOP + TALL + 62, "Water to bring in a week, month by month")
    top = max([row.dry for row in rows] + [1e-9])
    steps = [float(s) * 10.0**n for n in range(-2, 7) for s in (1, 2, 5)]
    each = next((step for step in steps if top / step <= 5), steps[-1])

    def y(value: float) -> float:
        return TOP + TALL * (1 - value / (each * 5))

    for n in range(6):
        canvas.line((LEFT, y(n * each)), (width - 8, y(n * each)), "grid" if n else "axis")
        canvas.text((LEFT - 6, y(n * each) + 4), f"{n * each:g}", "small", anchor="end")
    canvas.text((LEFT, TOP - 10), f"{unit} a week", "small")
    for n, row in enumerate(rows):
        x = LEFT + n * STEP + 5
        if row.dry > 0:
            canvas.rect((x, y(row.dry)), STEP - 10, y(0) - y(row.dry), "field")
            canvas.text((x + STEP / 2 - 5, y(row.dry) - 4), row.cans, "small", anchor="middle")
        if row.usual > 0:
            canvas.rect((x + 4, y(row.usual)), STEP - 18, y(0) - y(row.usual), "band")
        canvas.text((x + STEP / 2 - 5, TOP + TALL + 16), row.name, "small", anchor="middle")
    below = TOP + TALL + 36
    canvas.rect((LEFT, below), 22, 12, "band")
    canvas.text((LEFT + 28, below + 10), "with the usual rain", "small")
    canvas.rect((LEFT + 150, below), 22, 12, "field")
    canvas.text((LEFT + 178, below + 10), "a week without rain; over it, the cans", "small")
    return canvas.svg()
