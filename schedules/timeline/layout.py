"""From a chart to its drawing. Pure: the same chart gives the same drawing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from schedules.timeline import flags, wording
from schedules.timeline.drawing import Timeline
from schedules.timeline.items import lanes
from schedules.timeline.marks import Chart, Placed, Zoom
from schedules.timeline.scale import Scale, bands, by_closeness, days, ruler, scale_for
from schedules.timeline.shapes import (
    PRINT,
    SCREEN,
    Band,
    Box,
    FlagShape,
    Label,
    Metrics,
)
from schedules.timeline.stage import Laid, Stage, height_of
from schedules.timeline.thread import drawn
from schedules.timeline.weeks import weeks_of

BEFORE_TODAY = 140


def lay_out(
    chart: Chart,
    *,
    zoom: Zoom = Zoom.FIT,
    placed: Placed = Placed.EARLIEST,
    for_print: bool = False,
    metrics: Metrics | None = None,
) -> Timeline:
    """The drawing of ``chart``: as wide as the sheet (``fit``) or on a scale of its own."""
    sizes = metrics or (PRINT if for_print else SCREEN)
    base = Base.of(chart, zoom, placed, sizes, for_print)
    return base.drawn(base.lanes(), edges={})


def lay_out_pages(
    chart: Chart, *, tall: float, metrics: Metrics = PRINT, placed: Placed = Placed.EARLIEST
) -> tuple[Timeline, ...]:
    """For paper: whole lanes to a page, none taller than ``tall`` unless one lane is."""
    base = Base.of(chart, Zoom.FIT, placed, metrics, True)
    groups = grouped(base.lanes(), tall - base.head, metrics)
    page_of = {
        put.item.key: n
        for n, group in enumerate(groups)
        for lane in group
        if not lane.waiting
        for put in lane.puts
    }
    drawn = (
        base.drawn(group, edges={k: page - n for k, page in page_of.items() if page != n})
        for n, group in enumerate(groups)
    )
    return tuple(replace(page, number=n) for n, page in enumerate(drawn))


def grouped(laid: Sequence[Laid], room: float, sizes: Metrics) -> list[list[Laid]]:
    groups: list[list[Laid]] = [[]]
    left = room
    for lane in laid:
        tall = height_of(lane, sizes)
        if groups[-1] and tall > left:
            groups.append([])
            left = room
        groups[-1].append(lane)
        left -= tall
    return groups


@dataclass(frozen=True, slots=True)
class Base:
    """What every page of the drawing shares: its scale, and its head."""

    chart: Chart
    zoom: Zoom
    placed: Placed
    sizes: Metrics
    for_print: bool
    scale: Scale
    poles: Sequence[flags.Placed]

    @classmethod
    def of(cls, chart: Chart, zoom: Zoom, placed: Placed, sizes: Metrics, for_print: bool) -> Base:
        sizes = sizes.with_kept() if chart.against else sizes
        scale = scale_for(chart, zoom, sizes)
        poles = flags.place(chart, scale, sizes)
        return cls(chart, zoom, placed, sizes, for_print, scale, poles)

    @property
    def scale_top(self) -> float:
        return 4 + (max((p.line for p in self.poles), default=-1) + 1) * self.sizes.row

    @property
    def head(self) -> float:
        return self.scale_top + 2 * self.sizes.row + 2

    @property
    def heavy(self) -> list[float]:
        return [p.wanted.x for p in self.poles if p.wanted.heavy]

    def worked(self) -> Iterator[tuple[str, str]]:
        """Of each calendar, a 1 for each day drawn that is worked and a 0 for each that is not."""
        drawn = list(days(self.scale.first, self.scale.last))
        for key, works in self.chart.works.items():
            yield key, "".join("1" if works(day) else "0" for day in drawn)

    def lanes(self) -> list[Laid]:
        return lanes(self.chart, self.scale, self.sizes, self.heavy)

    def drawn(self, laid: Sequence[Laid], edges: Mapping[str, int]) -> Timeline:
        """A page with these lanes; ``edges`` says which bars stand on pages before and after."""
        stage = Stage(self.chart, self.scale, self.sizes, self.head, self.heavy)
        for lane in laid:
            stage.add(lane)
        ticks, dates = ruler(self.scale, self.scale_top, self.sizes, self.heavy)
        written = [*stage.outside, *(d.box for d in dates)]
        return Timeline(
            zoom=self.zoom,
            placed=self.placed,
            for_print=self.for_print,
            metrics=self.sizes,
            width=self.scale.width,
            height=stage.y,
            head=self.head,
            lanes=tuple(stage.lanes),
            bars=tuple(stage.bars),
            waits=tuple(stage.waits),
            others=tuple(stage.others),
            threads=tuple(stage.threads(edges)),
            flags=tuple(flag_shapes(self.poles, written, self.sizes, stage.y)),
            bands=tuple(Band(*band) for band in bands(self.scale, self.chart)),
            ticks=tuple(ticks),
            scale=tuple(dates),
            summary=wording.summary(self.chart),
            start_at=max(0.0, self.scale.day(self.chart.today) - BEFORE_TODAY),
            weeks=() if self.for_print else weeks_of(self.chart),
            first=self.scale.first,
            per_day=self.scale.per_day,
            closeness=by_closeness(self.chart, self.sizes),
            record=self.chart.record,
            against=self.chart.against,
            worked=() if self.for_print else tuple(self.worked()),
        )


def flag_shapes(
    poles: Sequence[flags.Placed], written: Sequence[Box], sizes: Metrics, foot: float
) -> list[FlagShape]:
    boxes = [flags.box_of(pole, sizes) for pole in poles]
    found = []
    for n, pole in enumerate(poles):
        others = [*written, *boxes[:n], *boxes[n + 1 :]]
        found.append(flag_shape(pole, boxes[n], others, sizes, foot))
    return found


def flag_shape(
    pole: flags.Placed, box: Box, others: Sequence[Box], sizes: Metrics, foot: float
) -> FlagShape:
    want, x = pole.wanted, pole.wanted.x
    top = box.y0 + 1
    line = "" if want.kind == "beyond" else drawn(((x, top), (x, foot)), others)
    way = 1 if pole.right else -1
    tall = (sizes.row - 6) / 2
    cloth = f"M{x:g} {top:g}h{10 * way}l{-3 * way} {tall:g}l{3 * way} {tall:g}h{-10 * way}z"
    anchor_x = pole.x if pole.right else pole.x + pole.wide
    label = Label(
        pole.words,
        round(anchor_x, 1),
        round(box.y1 - sizes.row * 0.22, 1),
        "start" if pole.right else "end",
        "head",
        box,
    )
    pennant = cloth if want.kind in {"public", "key"} else ""
    return FlagShape(want.kind, want.title, x, line, pennant, label)
