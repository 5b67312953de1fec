"""The finished drawing, and what its page says around it."""

from __future__ import annotations

from dataclasses import dataclass

from schedules.timeline.marks import Placed, State, Zoom
from schedules.timeline.shapes import (
    Band,
    BarShape,
    FlagShape,
    Label,
    LaneShape,
    Metrics,
    Thread,
    Tick,
    WaitShape,
    Week,
)

ZOOM_NAMES = {
    Zoom.FIT: "Whole plan",
    Zoom.MONTHS: "Months",
    Zoom.WEEKS: "Weeks",
    Zoom.DAYS: "Days",
}
PLACED_NAMES = {Placed.EARLIEST: "As early as can be", Placed.LATEST: "As late as can be"}
KEY = {
    State.CHAIN: "carries the date",
    State.LATE: "too late for the date",
    State.NEAR: "within 2 days of carrying it",
    State.PLAIN: "has days in hand",
    State.DONE: "done",
}


@dataclass(frozen=True, slots=True)
class View:
    id: str  # keeps the focus where it is when the timeline is drawn anew
    name: str
    query: str
    on: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    zoom: Zoom
    placed: Placed
    for_print: bool
    metrics: Metrics
    width: float
    height: float
    head: float
    lanes: tuple[LaneShape, ...]
    bars: tuple[BarShape, ...]
    waits: tuple[WaitShape, ...]
    threads: tuple[Thread, ...]
    flags: tuple[FlagShape, ...]
    bands: tuple[Band, ...]
    ticks: tuple[Tick, ...]
    scale: tuple[Label, ...]
    summary: str
    start_at: float  # where the view opens: a little before today
    weeks: tuple[Week, ...] = ()
    style: str = ""  # the rules of the marks, for the PDF

    @property
    def empty(self) -> bool:
        return not self.bars

    @property
    def body(self) -> float:
        return self.height - self.head

    @property
    def left(self) -> float:
        """Where the sheet begins: in print the names of lanes stand left of nought."""
        return -self.metrics.lane if self.for_print else 0

    @property
    def full_width(self) -> float:
        return self.width - self.left

    @property
    def names_at(self) -> float:
        return self.left + 12

    @property
    def tick_lines(self) -> list[tuple[str, str]]:
        """The class and the path of the light divisions and of the heavy ones."""
        found = {"tick": "", "tick long": ""}
        for tick in self.ticks:
            found["tick long" if tick.heavy else "tick"] += (
                f"M{tick.x:g} {tick.y:g}V{self.height:g}"
            )
        return list(found.items())

    @property
    def tails(self) -> str:
        return "".join(bar.tail for bar in self.bars)

    @property
    def caps(self) -> str:
        return "".join(bar.cap for bar in self.bars)

    @property
    def thread(self) -> str:
        return "".join(thread.path for thread in self.threads)

    @property
    def earlier(self) -> tuple[Week, ...]:
        return tuple(week for week in self.weeks if week.past)

    @property
    def coming(self) -> tuple[Week, ...]:
        return tuple(week for week in self.weeks if not week.past)

    @property
    def week_marks(self) -> list[str]:
        """The marks of the list by week, each once."""
        return list(dict.fromkeys(row.kind for week in self.weeks for row in week.rows))

    @property
    def zooms(self) -> list[View]:
        return [
            View(f"zoom-{zoom}", name, f"?zoom={zoom}&placed={self.placed}", zoom is self.zoom)
            for zoom, name in ZOOM_NAMES.items()
        ]

    @property
    def placings(self) -> list[View]:
        return [
            View(
                f"placed-{placed}",
                name,
                f"?zoom={self.zoom}&placed={placed}",
                placed is self.placed,
            )
            for placed, name in PLACED_NAMES.items()
        ]

    @property
    def key(self) -> list[tuple[str, str]]:
        """The marks in use, with what they mean."""
        states = {bar.state for bar in self.bars}
        found = [(state.value, words) for state, words in KEY.items() if state in states]
        if any(bar.tail for bar in self.bars):
            late = self.placed is Placed.LATEST
            words = "how early it may start" if late else "how late it may finish"
            found.append(("tail", words))
        if self.waits:
            found.append(("wait", "passes by itself, day and night"))
        kinds = {flag.kind for flag in self.flags}
        found += [("public", "the public date")] if "public" in kinds else []
        return found + ([("flag", "another key date")] if kinds & {"key", "beyond"} else [])
