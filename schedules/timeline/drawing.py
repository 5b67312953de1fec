"""The finished drawing, and what its page says around it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from schedules.timeline.marks import Placed, State, Zoom
from schedules.timeline.shapes import (
    Band,
    BarShape,
    FlagShape,
    Label,
    LaneShape,
    Metrics,
    OtherShape,
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
    Zoom.PAPER: "On paper",
}
PLACED_NAMES = {Placed.EARLIEST: "As early as can be", Placed.LATEST: "As late as can be"}
EPOCH = date(1970, 1, 1).toordinal()
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
    way: str = ""  # closer or farther, for the keys + and −


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
    others: tuple[OtherShape, ...]
    threads: tuple[Thread, ...]
    flags: tuple[FlagShape, ...]
    bands: tuple[Band, ...]
    ticks: tuple[Tick, ...]
    scale: tuple[Label, ...]
    summary: str
    start_at: float  # where the view opens: a little before today
    first: date
    per_day: float
    closeness: tuple[Zoom, ...]
    weeks: tuple[Week, ...] = ()
    worked: tuple[tuple[str, str], ...] = ()  # by calendar, a letter a day
    record: str = ""  # the plan of record that can be laid under the plan
    against: bool = False
    number: int = 0  # of the page
    pages: tuple[Timeline, ...] = ()  # the same on paper
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
    def hatched(self) -> bool:
        """An earlier page of the same document holds the hatchings."""
        return not self.style and self.number > 0

    @property
    def first_number(self) -> int:
        """Of the first day drawn, counted from the first of 1970 as the browser counts."""
        return self.first.toordinal() - EPOCH

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
    def weekends(self) -> str:
        return "".join(
            f"M{band.x:g} {self.head:g}h{band.width:g}V{self.height:g}h-{band.width:g}z"
            for band in self.bands
            if not band.why
        )

    @property
    def tails(self) -> list[str]:
        """Each piece a path of its own: a browser dots a straight line only where it is seen."""
        return [f"M{piece}" for bar in self.bars for piece in bar.tail.split("M")[1:]]

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
        ways = self.ways
        return [
            View(f"zoom-{zoom}", name, self.query(zoom=zoom), zoom is self.zoom, ways.get(zoom, ""))
            for zoom, name in ZOOM_NAMES.items()
        ]

    @property
    def ways(self) -> dict[Zoom, str]:
        """The next zoom closer and the next farther."""
        if self.zoom not in self.closeness:
            return {}
        here = self.closeness.index(self.zoom)
        found = dict.fromkeys(self.closeness[here + 1 : here + 2], "closer")
        return found | dict.fromkeys(self.closeness[max(0, here - 1) : here], "farther")

    @property
    def placings(self) -> list[View]:
        return [
            View(f"placed-{placed}", name, self.query(placed=placed), placed is self.placed)
            for placed, name in PLACED_NAMES.items()
        ]

    @property
    def againsts(self) -> list[View]:
        """Nothing to choose before a plan of record is kept."""
        names = {"nothing": "Nothing", "record": f"Rev {self.record}"}
        return [
            View(f"against-{way}", name, self.query(against=way), self.against is (way == "record"))
            for way, name in names.items()
            if self.record
        ]

    def query(self, **other: str) -> str:
        chosen: dict[str, str] = {"zoom": self.zoom, "placed": self.placed}
        chosen |= {"against": "record" if self.against else "nothing"} if self.record else {}
        return "?" + urlencode(chosen | other)

    @property
    def key(self) -> list[tuple[str, str]]:
        """The marks in use, with what they mean."""
        states = {bar.state for bar in self.bars}
        found = [(state.value, words) for state, words in KEY.items() if state in states]
        if any(bar.tail for bar in self.bars):
            late = self.placed is Placed.LATEST
            words = "how early it may start" if late else "how late it may finish"
            found.append(("tail", words))
        if any(bar.kept for bar in self.bars):
            found.append(("kept", f"where Rev {self.record} had it"))
        kinds = {other.kind for other in self.others}
        if "dropped" in kinds:
            found.append(("dropped", f"in Rev {self.record}, dropped since"))
        if "hire" in kinds:
            found.append(("hire", "hire or supervision, as long as it is needed"))
        if self.waits:
            found.append(("wait", "passes by itself, day and night"))
        flown = {flag.kind for flag in self.flags}
        found += [("public", "the public date")] if "public" in flown else []
        return found + ([("flag", "another key date")] if flown & {"key", "beyond"} else [])
