"""Key dates and today along the top: labels that neither collide nor run off the sheet."""

from __future__ import annotations

from dataclasses import dataclass, field

from schedules.timeline.marks import Chart, Flag, day_of, instant
from schedules.timeline.scale import Scale
from schedules.timeline.shapes import Box, Metrics
from schedules.timeline.text import fitted, width

PENNANT = 10
SPACE = 4
CLEAR = 8


@dataclass(frozen=True, slots=True)
class Wanted:
    kind: str  # public, key, today or beyond
    words: str
    title: str
    x: float
    heavy: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    wanted: Wanted
    words: str
    line: int
    right: bool  # the label stands right of the pole
    x: float  # left end of the words
    wide: float


@dataclass(slots=True)
class Head:
    canvas: float
    metrics: Metrics
    placed: list[Placed] = field(default_factory=list)

    @property
    def lines(self) -> int:
        return max((p.line for p in self.placed), default=-1) + 1


def wanted(chart: Chart, scale: Scale) -> list[Wanted]:
    """The public date first, then today, then the others in order."""
    flags = sorted(chart.flags, key=lambda f: (not f.public, f.at, f.key))
    found = [wish(flag, scale) for flag in flags]
    if scale.holds(instant(chart.today)):
        words = f"Today, {short(instant(chart.today))}"
        today = Wanted("today", words, words, scale.day(chart.today), True)
        found.insert(1 if found and found[0].kind == "public" else 0, today)
    return found


def wish(flag: Flag, scale: Scale) -> Wanted:
    title = f"{flag.name}, {day_of(flag.at):%a} {short(flag.at)} {day_of(flag.at).year}"
    if scale.holds(flag.at):
        kind = "public" if flag.public else "key"
        return Wanted(kind, f"{flag.name}, {short(flag.at)}", title, scale.x(flag.at), flag.public)
    later = flag.at > scale.origin
    when = f"{flag.name}, {short(flag.at)} {day_of(flag.at).year}"
    x = scale.width if later else 0.0
    return Wanted("beyond", f"{when} →" if later else f"← {when}", title, x)


def short(at: int) -> str:
    day = day_of(at)
    return f"{day.day} {day:%b}"


def place(chart: Chart, scale: Scale, metrics: Metrics) -> list[Placed]:
    head = Head(scale.width, metrics)
    for wish in wanted(chart, scale):
        head.placed.append(choose(head, wish))
    return head.placed


def choose(head: Head, wish: Wanted) -> Placed:
    """The highest line with room beside the pole; else a new line, across other poles."""
    limit = max(wish.x, head.canvas - wish.x) - PENNANT - SPACE - 4
    words = fitted(wish.words, limit, head.metrics.text, heavy=wish.heavy)
    for line in range(head.lines + 1):
        for right in (True, False):
            found = stand(head, wish, words, line, right)
            if inside(head, found) and not hits(head, found):
                return found
    sides = [stand(head, wish, words, head.lines, right) for right in (True, False)]
    return next((s for s in sides if inside(head, s)), sides[0])


def stand(head: Head, wish: Wanted, words: str, line: int, right: bool) -> Placed:
    wide = width(words, head.metrics.text, heavy=wish.heavy)
    off = SPACE if wish.kind in {"today", "beyond"} else PENNANT + SPACE
    x = wish.x + off if right else wish.x - off - wide
    return Placed(wish, words, line, right, x, wide)


def inside(head: Head, found: Placed) -> bool:
    return found.x >= 2 and found.x + found.wide <= head.canvas - 2


def reach(found: Placed) -> tuple[float, float]:
    """Label and pennant, with air."""
    x0, x1 = min(found.x, found.wanted.x), max(found.x + found.wide, found.wanted.x)
    return x0 - CLEAR / 2, x1 + CLEAR / 2


def hits(head: Head, new: Placed) -> bool:
    return any(collide(new, old) for old in head.placed)


def collide(new: Placed, old: Placed) -> bool:
    """Two labels on a line, or a label across the pole of a flag on a higher line."""
    if new.line == old.line:
        (a0, a1), (b0, b1) = reach(new), reach(old)
        return a0 < b1 and b0 < a1
    upper, lower = (old, new) if new.line > old.line else (new, old)
    crosses = lower.x - 3 < upper.wanted.x < lower.x + lower.wide + 3
    return crosses and upper.wanted.kind != "beyond"


def box_of(found: Placed, metrics: Metrics) -> Box:
    top = 4 + found.line * metrics.row
    return Box(found.x, top + 1, found.x + found.wide, top + metrics.row - 1)
