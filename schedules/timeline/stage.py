"""The body of the drawing: bars, waits and labels on their lines, and the thread."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from schedules.timeline import packing, wording
from schedules.timeline.marks import Bar, Chart, Hire, Other, State, Wait, first_day, last_day
from schedules.timeline.paths import bracket, caps_of, diamond, tail_path, tails_of
from schedules.timeline.scale import Scale
from schedules.timeline.shapes import (
    BarShape,
    Box,
    Label,
    LaneShape,
    Metrics,
    OtherShape,
    Thread,
    WaitShape,
    outline,
)
from schedules.timeline.text import fitted, wrapped
from schedules.timeline.thread import Corners, End, Row, drawn, route

TICK = 12.0  # width of the sign that a task is done, with its space
UNDER = 2  # from a bar to the plan of record's below it
HIRE = 7  # height of the bracket of a hire


def other_key(other: Other) -> str:
    return f"{type(other).__name__} {other.key}"


def other_name(other: Other) -> str:
    return other.name if isinstance(other, Hire) else f"{other.name}, dropped"


@dataclass(frozen=True, slots=True)
class Laid:
    """A lane's bars or waits on their lines, before its height is known above it."""

    key: str
    name: str
    puts: list[packing.Put]
    lines: int
    waiting: bool = False


def names_of(lane: Laid, sizes: Metrics) -> list[str]:
    most = max(3, lane.lines)
    return wrapped(lane.name, sizes.lane - 24, sizes.lane_text, most=most, heavy=True)


def height_of(lane: Laid, sizes: Metrics) -> float:
    need = lane.lines * sizes.line + sizes.gap - 2
    return max(need, len(names_of(lane, sizes)) * sizes.lane_line + sizes.gap)


class Stage:
    """The body of the drawing, filled lane by lane from the top."""

    def __init__(
        self, chart: Chart, scale: Scale, sizes: Metrics, head: float, poles: Sequence[float]
    ) -> None:
        self.chart, self.scale, self.sizes = chart, scale, sizes
        self.y: float = head
        self.poles = poles
        self.lanes: list[LaneShape] = []
        self.bars: list[BarShape] = []
        self.waits: list[WaitShape] = []
        self.others: list[OtherShape] = []
        self.rows: list[Row] = []
        self.row_of: dict[str, int] = {}
        self.outside: list[Box] = []
        self.bar_of = {bar.key: bar for bar in chart.bars}
        self.wait_of = {wait.key: wait for wait in chart.waits}
        self.other_of = {other_key(other): other for other in chart.others}

    def add(self, lane: Laid) -> None:
        sizes = self.sizes
        names = names_of(lane, sizes)
        top, first = self.y, len(self.rows)
        for n in range(lane.lines):
            bar_top = top + sizes.gap - 1 + n * sizes.line
            channel = bar_top - sizes.gap / 2
            self.rows.append(Row(bar_top + sizes.bar / 2, round(channel, 1), self.poles))
        for put in lane.puts:
            self.put(put, first, lane.waiting)
        self.y = top + height_of(lane, sizes)
        words = tuple(
            (round(top + sizes.gap - 1 + sizes.baseline + n * sizes.lane_line, 1), name)
            for n, name in enumerate(names)
        )
        self.lanes.append(LaneShape(lane.name, words, top, self.y, lane.waiting))

    def put(self, put: packing.Put, first: int, waiting: bool) -> None:
        row = self.rows[first + put.line]
        label_row = self.rows[first + put.label_line]
        key = put.item.key
        box = self.box(put.item, row, self.height(key, waiting))
        row.bars.append((box.x0, box.x1))
        shape: BarShape | WaitShape | OtherShape
        if waiting:
            shape = self.wait_shape(self.wait_of[key], put, box, label_row)
            self.waits.append(shape)
        elif key in self.other_of:
            shape = self.other_shape(self.other_of[key], put, box, label_row)
            self.others.append(shape)
        else:
            self.row_of[key] = first + put.line
            shape = self.bar_shape(self.bar_of[key], put, box, label_row)
            self.bars.append(shape)
        if shape.label.place == "out":
            label_row.labels.append((shape.label.box.x0, shape.label.box.x1))
            self.outside.append(shape.label.box)

    def height(self, key: str, waiting: bool) -> float:
        if waiting:
            return self.sizes.wait
        other = self.other_of.get(key)
        if isinstance(other, Hire):
            return HIRE
        return self.sizes.kept if other else self.sizes.bar

    def box(self, item: packing.Item, row: Row, high: float) -> Box:
        x0, x1 = round(item.x0, 1), round(item.x1, 1)
        return Box(x0, row.middle - high / 2, x1, row.middle + high / 2)

    def kept_box(self, item: packing.Item, box: Box) -> Box | None:
        if item.kept is None:
            return None
        x0, x1 = (round(x, 1) for x in item.kept)
        return Box(x0, box.y1 + UNDER, x1, box.y1 + UNDER + self.sizes.kept)

    def bar_shape(self, bar: Bar, put: packing.Put, box: Box, label_row: Row) -> BarShape:
        label = self.label(bar.name, put, label_row, ticked=bar.state is State.DONE)
        gap = label.box if label.place == "out" and put.line == put.label_line else None
        middle = (box.y0 + box.y1) / 2
        tails = [tail_path(a, b, middle, gap) for a, b in tails_of(put.item)]
        caps = [f"M{end:g} {middle - 5:g}v10" for end in caps_of(put.item)]
        edge = f"M{box.x0:g} {box.y0:g}h4v{box.y1 - box.y0:g}h-4z"
        is_point = bar.start == bar.finish
        return BarShape(
            key=bar.key,
            url=bar.url,
            title=wording.title(bar),
            state=bar.state,
            box=box,
            diamond=diamond(box, self.sizes) if is_point else "",
            edge=edge if bar.state is State.NEAR and not is_point else "",
            tail="".join(tails),
            cap="".join(caps),
            label=label,
            kept=self.kept_box(put.item, box),
            ties=bar.ties,
            calendar="" if is_point else bar.calendar,
            span=f"{self.scale.number(first_day(bar))} {self.scale.number(last_day(bar))}",
        )

    def wait_shape(self, wait: Wait, put: packing.Put, box: Box, label_row: Row) -> WaitShape:
        label = self.label(wait.name, put, label_row)
        return WaitShape(wording.wait_title(wait), wait.carries, box, label)

    def other_shape(self, other: Other, put: packing.Put, box: Box, label_row: Row) -> OtherShape:
        label = self.label(other_name(other), put, label_row)
        hire = isinstance(other, Hire)
        path = bracket(box) if hire else outline(box)
        return OtherShape("hire" if hire else "dropped", other.title, box, path, label)

    def label(self, name: str, put: packing.Put, row: Row, *, ticked: bool = False) -> Label:
        sizes, spot = self.sizes, put.spot
        tick = TICK if ticked else 0.0
        words = fitted(name, self.scale.width - TICK - 2 * packing.CLEAR, sizes.text)
        x0, x1 = spot.x, spot.x + put.item.label
        y = row.middle - sizes.bar / 2 + sizes.baseline
        box = Box(x0, row.middle - sizes.text * 0.62, x1, row.middle + sizes.text * 0.62)
        left = spot.name == "left"
        mark = f"M{x0:.1f} {row.middle + 0.5:g}l3 3.5 5.5 -8" if ticked else ""
        return Label(
            words,
            round(x1 if left else x0 + tick, 1),
            round(y, 1),
            "end" if left else "start",
            "in" if spot.name == "in" else "out",
            box,
            mark,
        )

    def threads(self, edges: Mapping[str, int]) -> list[Thread]:
        """The pieces on this page; towards a bar in ``edges`` a piece runs off the page."""
        shapes = {bar.key: bar for bar in self.bars}
        found = []
        for join in self.chart.joins:
            a = b = None
            if join.before in shapes:
                a = self.end_of(shapes[join.before], at_start=join.from_start)
            if join.after in shapes:
                b = self.end_of(shapes[join.after], at_start=not join.to_finish)
            if a and b:
                corners = route(self.rows, a, b)
            elif a and join.after in edges:
                corners = self.off_the_page(a, edges[join.after])
            elif b and join.before in edges:
                corners = self.off_the_page(b, edges[join.before])[::-1]
            else:
                continue
            found.append(Thread(join.before, join.after, corners, drawn(corners, self.outside)))
        return found

    def off_the_page(self, end: End, way: int) -> Corners:
        edge = self.y if way > 0 else self.lanes[0].top
        return (end.x, self.rows[end.row].middle), (end.x, edge)

    def end_of(self, shape: BarShape, *, at_start: bool) -> End:
        """Just under the bar's end, so that the thread comes out of the bar."""
        if shape.diamond:
            return End(self.row_of[shape.key], round((shape.box.x0 + shape.box.x1) / 2, 1))
        x = shape.box.x0 + 1 if at_start else shape.box.x1 - 1
        return End(self.row_of[shape.key], round(x, 1))
