"""From a chart to its drawing. Pure: the same chart gives the same drawing."""

from __future__ import annotations

from collections.abc import Sequence

from schedules.timeline import flags, packing, wording
from schedules.timeline.drawing import Timeline
from schedules.timeline.marks import Bar, Chart, Placed, State, Wait, Zoom
from schedules.timeline.scale import Scale, bands, ruler, scale_for
from schedules.timeline.shapes import (
    PRINT,
    SCREEN,
    Band,
    Box,
    FlagShape,
    Label,
    Metrics,
)
from schedules.timeline.stage import TICK, Laid, Stage
from schedules.timeline.text import fitted, width
from schedules.timeline.thread import drawn
from schedules.timeline.weeks import weeks_of

THINNEST = 4.0
EDGE = 4  # of a bar that is near
BEFORE_TODAY = 140
WAITING = "Waiting"


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
    scale = scale_for(chart, zoom, sizes)
    poles = flags.place(chart, scale, sizes)
    head_lines = max((p.line for p in poles), default=-1) + 1
    scale_top = 4 + head_lines * sizes.row
    head = scale_top + 2 * sizes.row + 2
    stage = Stage(chart, scale, sizes, head)
    heavy = [p.wanted.x for p in poles if p.wanted.heavy]
    for lane in lanes(chart, scale, sizes, heavy):
        stage.add(lane)
    ticks, dates = ruler(scale, scale_top, sizes, heavy)
    written = [*stage.outside, *(d.box for d in dates)]
    return Timeline(
        zoom=zoom,
        placed=placed,
        for_print=for_print,
        metrics=sizes,
        width=scale.width,
        height=stage.y,
        head=head,
        lanes=tuple(stage.lanes),
        bars=tuple(stage.bars),
        waits=tuple(stage.waits),
        threads=tuple(stage.threads()),
        flags=tuple(flag_shapes(poles, written, sizes, stage.y)),
        bands=tuple(Band(*band) for band in bands(scale, chart)),
        ticks=tuple(ticks),
        scale=tuple(dates),
        summary=wording.summary(chart),
        start_at=max(0.0, scale.day(chart.today) - BEFORE_TODAY),
        weeks=() if for_print else weeks_of(chart),
    )


def lanes(chart: Chart, scale: Scale, sizes: Metrics, avoid: Sequence[float]) -> list[Laid]:
    """Lanes that hold anything, in their order; the waiting last."""
    held: dict[str, list[packing.Item]] = {lane.key: [] for lane in chart.lanes}
    for bar in chart.bars:
        held.setdefault(bar.lane, []).append(bar_item(bar, scale, sizes))
    names = {lane.key: lane.name for lane in chart.lanes}
    found = [
        Laid(key, names.get(key, key), *packing.pack(items, scale.width, avoid))
        for key, items in held.items()
        if items
    ]
    if chart.waits:
        items = [wait_item(wait, scale, sizes) for wait in chart.waits]
        found.append(Laid("", WAITING, *packing.pack(items, scale.width, avoid), waiting=True))
    return found


def bar_item(bar: Bar, scale: Scale, sizes: Metrics) -> packing.Item:
    x0, x1 = scale.x(bar.start), scale.x(bar.finish)
    half = round(sizes.bar * 0.4, 1)
    if bar.start == bar.finish:
        x0 = min(max(x0, half), scale.width - half)
        x0, x1 = x0 - half, x0 + half
    elif x1 - x0 < THINNEST:
        x0 = min(x0, scale.width - THINNEST)
        x1 = x0 + THINNEST
    words = fitted(bar.name, scale.width - TICK - 2 * packing.CLEAR, sizes.text)
    tick = TICK if bar.state is State.DONE else 0.0
    return packing.Item(
        bar.key,
        x0,
        x1,
        min(x0, scale.x(bar.earliest)),
        max(x1, scale.x(bar.latest)),
        tick + width(words, sizes.text),
        bar.start < bar.finish,
        EDGE if bar.state is State.NEAR else 0,
    )


def wait_item(wait: Wait, scale: Scale, sizes: Metrics) -> packing.Item:
    x0 = min(scale.x(wait.start), scale.width - THINNEST)
    x1 = max(x0 + THINNEST, scale.x(wait.finish))
    words = fitted(wait.name, scale.width - 2 * packing.CLEAR, sizes.text)
    return packing.Item(wait.key, x0, x1, x0, x1, width(words, sizes.text), False)


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
