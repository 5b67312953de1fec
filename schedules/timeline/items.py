"""What needs room in a lane: bars, hires, what was dropped, and what passes by itself."""

from __future__ import annotations

from collections.abc import Sequence

from schedules.timeline import packing
from schedules.timeline.marks import Bar, Chart, Other, State, Wait
from schedules.timeline.scale import Scale
from schedules.timeline.shapes import Metrics
from schedules.timeline.stage import TICK, Laid, other_key, other_name
from schedules.timeline.text import fitted, width

THINNEST = 4.0
EDGE = 4  # of a bar that is near
WAITING = "Waiting"


def lanes(chart: Chart, scale: Scale, sizes: Metrics, avoid: Sequence[float]) -> list[Laid]:
    """Lanes that hold anything, in their order; the waiting last."""
    held: dict[str, list[packing.Item]] = {lane.key: [] for lane in chart.lanes}
    for bar in chart.bars:
        held.setdefault(bar.lane, []).append(bar_item(bar, scale, sizes))
    for other in chart.others:
        held.setdefault(other.lane, []).append(other_item(other, scale, sizes))
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
        kept_stretch(bar, scale),
    )


def kept_stretch(bar: Bar, scale: Scale) -> tuple[float, float] | None:
    return stretch(bar.kept.start, bar.kept.finish, scale) if bar.kept else None


def stretch(start: int, finish: int, scale: Scale) -> tuple[float, float]:
    """Never so thin that it is not seen."""
    x0 = min(scale.x(start), scale.width - THINNEST)
    return x0, max(x0 + THINNEST, scale.x(finish))


def other_item(other: Other, scale: Scale, sizes: Metrics) -> packing.Item:
    return plain_item(other_key(other), other_name(other), other, scale, sizes)


def wait_item(wait: Wait, scale: Scale, sizes: Metrics) -> packing.Item:
    return plain_item(wait.key, wait.name, wait, scale, sizes)


def plain_item(
    key: str, name: str, mark: Wait | Other, scale: Scale, sizes: Metrics
) -> packing.Item:
    x0, x1 = stretch(mark.start, mark.finish, scale)
    words = fitted(name, scale.width - TICK - 2 * packing.CLEAR, sizes.text)
    return packing.Item(key, x0, x1, x0, x1, width(words, sizes.text), False)
