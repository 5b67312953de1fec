"""What a worksheet on paint hands on: budget lines, a purchase list, and how to look after it."""

from __future__ import annotations

from collections.abc import Iterator

from worksheets.engine.coating import Job, Layer
from worksheets.engine.coating_answer import counted
from worksheets.engine.dimensions import DIMENSIONS
from worksheets.engine.result import Hand, ToCare, ToLine, ToRequest


def hands(job: Job) -> Iterator[Hand]:
    if len(job.layers) > 1:
        yield line(job, job.layers, "paint", "Paint, all layers", job.cents)
    for layer in job.layers:
        cents = None if layer.best is None else layer.best.cents
        yield line(job, (layer,), f"paint-{layer.row + 1}", layer.name, cents)
    yield purchase(job)
    yield from care(job)


def line(
    job: Job, layers: tuple[Layer, ...], name: str, label: str, cents: int | None
) -> ToLine:  # fmt: skip
    """What is bought, or what is needed while no packs are known."""
    unit = DIMENSIONS["volume"].unit(job.given.system)
    volume = sum(layer.best.size if layer.best else layer.need for layer in layers)
    return ToLine(key=name, label=label, quantity=volume / unit.factor, unit=unit.symbol,
                  cents=cents)  # fmt: skip


def purchase(job: Job) -> ToRequest:
    return ToRequest(
        key="packs",
        label="The purchase list",
        title="Paint and coatings",
        items=tuple(item(job, layer) for layer in job.layers),
    )


def item(job: Job, layer: Layer) -> str:
    need = job.given.both(layer.need, "volume", toward="up")
    packs = f": {counted(job, layer.best)}" if layer.best else ""
    thinner = ""
    if layer.film and layer.film.thinner:
        volume = layer.need * layer.film.thinner
        thinner = f"; thinner {job.given.both(volume, 'volume', toward='up')}"
    return f"{layer.name}{packs} (at least {need}), one batch number if you can{thinner}"


def care(job: Job) -> Iterator[ToCare]:
    yearly = [(each, each.yearly(job.given["cleanings"])) for each in job.layers]
    for layer, volume in yearly:
        if volume > 0:
            text = (
                f"{layer.name}: it comes off with the tags. After each cleaning put on "
                f"{layer.coats} coats again; for {job.given['cleanings']:g} cleanings a year keep "
                f"{job.given.both(volume, 'volume', toward='up')}."
            )
            yield ToCare(key=f"care-{layer.row + 1}", label=f"Renewing {layer.name}", text=text)
    back = job.given["keep_back"]
    if back > 0:
        names = ", ".join(layer.name for layer in job.layers)
        text = (
            f"Paint kept back for touching up ({job.given.show(back, 'fraction')} of each): "
            f"{names}. Keep it from frost, labelled with colour, maker’s number and batch."
        )
        yield ToCare(key="touch-up", label="Paint kept back", text=text)
