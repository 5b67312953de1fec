"""What a mass and sizes do to a part."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from worksheets.engine import amounts
from worksheets.engine.result import ToPart
from worksheets.selectors.desk import Change, Desk, Effect

# What a part keeps: its column, the hand's own name, the dimension; in thousandths of SI.
COLUMNS = {
    "mass_g": ("mass", "mass"),
    "width_mm": ("width", "length"),
    "height_mm": ("height", "length"),
    "depth_mm": ("depth", "length"),
}


def columns(hand: ToPart) -> list[str]:
    """Those that the hand has something for."""
    return [name for name, (of, _) in COLUMNS.items() if getattr(hand, of) is not None]


def thousandths(hand: ToPart, column: str) -> int:
    """Whole grams or millimetres."""
    amount: float = getattr(hand, COLUMNS[column][0])
    return round(amount * 1000)


def on_part(desk: Desk, values: Mapping[str, Any]) -> Effect:
    part = values["part"]
    changes = [
        Change(
            label=COLUMNS[name][0].capitalize(),
            was=words(desk, name, getattr(part, name)),
            becomes=words(desk, name, values[name]),
        )
        for name in COLUMNS
        if values.get(name) is not None
    ]
    return Effect(
        where=f"the part “{part.name}”",
        target=f"part-{part.pk}",
        changes=tuple(changes),
        words=desk.words,
    )


def words(desk: Desk, column: str, value: int | None) -> str:
    if value is None:
        return "not known"
    return amounts.both(value / 1000, COLUMNS[column][1], desk.system)
