"""What the lanes timeline draws: numbers for the attributes of an SVG, nothing else."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import date

from schedules.timeline.marks import State, Tie


@dataclass(frozen=True, slots=True)
class Metrics:
    """Sizes in pixels."""

    text: float = 12.5
    small: float = 11.5  # the scale
    bar: int = 20
    wait: int = 12
    line: int = 30  # from bar to bar
    kept: int = 0  # height of the plan of record's bar under it
    row: int = 18  # a line of the head
    lane: int = 190  # width of the names of lanes
    lane_text: float = 13.5
    lane_line: int = 18
    width: int = 1180  # the drawing without the names of lanes

    @property
    def gap(self) -> int:
        return self.line - self.bar

    def with_kept(self) -> Metrics:
        """With room under each bar for where the plan of record had it."""
        return replace(self, line=self.line + 4, kept=5 if self.bar > 16 else 4)

    @property
    def baseline(self) -> float:
        """From the top of a bar to the foot of its letters."""
        return self.bar / 2 + self.text * 0.34


SCREEN = Metrics()
PRINT = Metrics(
    text=9.5,
    small=9,
    bar=14,
    wait=9,
    line=20,
    row=14,
    lane=130,
    lane_text=10,
    lane_line=13,
    width=810,
)


@dataclass(frozen=True, slots=True)
class Box:
    x0: float
    y0: float
    x1: float
    y1: float

    def meets(self, other: Box) -> bool:
        across = self.x0 < other.x1 and other.x0 < self.x1
        return across and self.y0 < other.y1 and other.y0 < self.y1


def outline(box: Box) -> str:
    return f"M{box.x0:g} {box.y0:g}H{box.x1:g}V{box.y1:g}H{box.x0:g}z"


@dataclass(frozen=True, slots=True)
class Label:
    text: str
    x: float
    y: float
    anchor: str  # start or end
    place: str  # in, out or head
    box: Box
    tick: str = ""


@dataclass(frozen=True, slots=True)
class BarShape:
    key: str
    url: str
    title: str
    state: State
    box: Box
    diamond: str
    edge: str  # the heavy left edge of a bar that is near
    tail: str
    cap: str
    label: Label
    kept: Box | None = None
    ties: tuple[Tie, ...] = ()
    calendar: str = ""
    span: str = ""  # first and last day, counted from the first one drawn

    @property
    def plate(self) -> str:
        """The clear ground behind a label that stands in hatching."""
        if self.state is not State.DONE or self.label.place != "in":
            return ""
        box = self.label.box
        return f"M{box.x0 - 3:.1f} {box.y0:g}H{box.x1 + 3:.1f}V{box.y1:g}H{box.x0 - 3:.1f}z"

    @property
    def kept_path(self) -> str:
        return outline(self.kept) if self.kept else ""

    @property
    def links(self) -> str:
        """Keys of what it waits for, as JSON; with the kind and the words where there are any."""
        found = [
            tie.before if tie.kind == "FS" and not tie.words else [tie.before, tie.kind, tie.words]
            for tie in self.ties
        ]
        return json.dumps(found, separators=(",", ":"), ensure_ascii=False) if found else ""

    @property
    def width(self) -> float:
        return round(self.box.x1 - self.box.x0, 1)

    @property
    def height(self) -> float:
        return round(self.box.y1 - self.box.y0, 1)


@dataclass(frozen=True, slots=True)
class WaitShape:
    title: str
    carries: bool
    box: Box
    label: Label

    @property
    def width(self) -> float:
        return round(self.box.x1 - self.box.x0, 1)

    @property
    def height(self) -> float:
        return round(self.box.y1 - self.box.y0, 1)


@dataclass(frozen=True, slots=True)
class OtherShape:
    """A hire, or a task that was dropped since the plan of record."""

    kind: str  # hire or dropped
    title: str
    box: Box
    path: str
    label: Label


@dataclass(frozen=True, slots=True)
class LaneShape:
    name: str
    words: tuple[tuple[float, str], ...]  # foot of the letters, and the line
    top: float
    bottom: float
    waiting: bool = False


@dataclass(frozen=True, slots=True)
class FlagShape:
    kind: str  # public, key, today or beyond
    title: str
    x: float
    pole: str
    pennant: str
    label: Label


@dataclass(frozen=True, slots=True)
class Band:
    x: float
    width: float
    why: str


@dataclass(frozen=True, slots=True)
class Tick:
    x: float
    y: float  # top of its line
    heavy: bool


@dataclass(frozen=True, slots=True)
class Thread:
    """From bar to bar: the corners passed, and the drawn path, broken under labels."""

    before: str
    after: str
    corners: tuple[tuple[float, float], ...]
    path: str


@dataclass(frozen=True, slots=True)
class WeekRow:
    kind: str  # a State, or wait, flag, public, hire, dropped
    name: str
    url: str
    when: str
    lane: str
    word: str
    note: str = ""  # what it waits for on the chain; where the plan of record had it

    @property
    def mark(self) -> str:
        """Its kind as a class or an id has it: one word."""
        return self.kind.replace(" ", "-")


@dataclass(frozen=True, slots=True)
class Week:
    title: str
    begins: date
    now: bool
    past: bool
    rows: tuple[WeekRow, ...]
