"""Bars and their labels on as few lines of a lane as keep them from colliding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

CLEAR = 10  # between a label and the next thing
INSET = 6  # from a bar's end to its label
TAIL_SHOWN = 16  # what must be seen of a tail behind a label


@dataclass(frozen=True, slots=True)
class Item:
    """What needs room: x of the mark, of its tails' ends, and the width of its label."""

    key: str
    x0: float
    x1: float
    tail0: float
    tail1: float
    label: float
    can_hold: bool = True  # the label may stand inside
    edge: float = 0  # width of a heavy left edge
    kept: tuple[float, float] | None = None  # of the plan of record's bar under it


@dataclass(frozen=True, slots=True)
class Spot:
    """A place for a label, and the stretch of line that mark, tails and label take."""

    name: str
    x: float
    from_x: float
    to_x: float


@dataclass(frozen=True, slots=True)
class Put:
    item: Item
    spot: Spot
    line: int
    label_line: int


def with_kept(item: Item, x0: float, x1: float) -> tuple[float, float]:
    """A stretch widened by the plan of record's bar, so that nothing else stands over it."""
    return (x0, x1) if item.kept is None else (min(x0, item.kept[0]), max(x1, item.kept[1]))


@dataclass(slots=True)
class Line:
    taken: list[tuple[float, float]] = field(default_factory=list)

    def free(self, x0: float, x1: float) -> bool:
        return all(x1 <= a or b <= x0 for a, b in self.taken)


def spots(item: Item, canvas: float, avoid: Sequence[float]) -> list[Spot]:
    """Where the label may stand, best first; not across a line to avoid if it can be helped."""
    found = [s for s in possible(item) if s.x >= 2 and s.x + item.label <= canvas - 2]
    clear = [s for s in found if s.name == "in" or not crossed(s, item, avoid)]
    return clear or found


def possible(item: Item) -> list[Spot]:
    wide, x0, x1, t0, t1 = item.label, item.x0, item.x1, item.tail0, item.tail1
    found = []
    if item.can_hold and wide + 2 * INSET + item.edge <= x1 - x0:
        found.append(Spot("in", x0 + item.edge + INSET, t0, t1))
    if wide + INSET + TAIL_SHOWN <= t1 - x1:
        found.append(Spot("right", x1 + INSET, t0, t1))
    if wide + INSET + TAIL_SHOWN <= x0 - t0:
        found.append(Spot("left", x0 - INSET - wide, t0, t1))
    found.append(Spot("right", t1 + INSET, t0, t1 + INSET + wide + CLEAR))
    found.append(Spot("left", t0 - INSET - wide, t0 - INSET - wide - CLEAR, t1))
    return found


def crossed(spot: Spot, item: Item, avoid: Sequence[float]) -> bool:
    return any(spot.x - 3 < x < spot.x + item.label + 3 for x in avoid)


def pack(items: Sequence[Item], canvas: float, avoid: Sequence[float]) -> tuple[list[Put], int]:
    """Every item on the first line that has room for it; and the number of lines."""
    lines: list[Line] = []
    puts = []
    for item in sorted(items, key=lambda i: (i.x0, i.x1, i.key)):
        choices = spots(item, canvas, avoid)
        put = on_a_line(item, choices, lines) if choices else on_two_lines(item, canvas, lines)
        puts.append(put)
    return puts, len(lines)


def on_a_line(item: Item, choices: list[Spot], lines: list[Line]) -> Put:
    for number, line in enumerate([*lines, Line()]):
        for spot in choices:
            stretch = with_kept(item, spot.from_x, spot.to_x)
            if line.free(*stretch):
                if number == len(lines):
                    lines.append(line)
                line.taken.append(stretch)
                return Put(item, spot, number, number)
    raise AssertionError("an empty line has room for anything")


def on_two_lines(item: Item, canvas: float, lines: list[Line]) -> Put:
    """The label is too long for either side: it stands on the line below its mark."""
    x = max(0.0, min(item.x0, canvas - item.label - CLEAR))
    words = (x - CLEAR, x + item.label + CLEAR)
    mark = with_kept(item, item.tail0, item.tail1)
    number = 0
    while not (has_room(lines, number, mark) and has_room(lines, number + 1, words)):
        number += 1
    while len(lines) < number + 2:
        lines.append(Line())
    lines[number].taken.append(mark)
    lines[number + 1].taken.append(words)
    return Put(item, Spot("below", x, *words), number, number + 1)


def has_room(lines: list[Line], number: int, stretch: tuple[float, float]) -> bool:
    return number >= len(lines) or lines[number].free(*stretch)
