"""What a worksheet on paint says: figures, findings, tables, and what it hands on."""

from __future__ import annotations

from collections.abc import Iterator

from worksheets.engine import paint
from worksheets.engine.coating import Job, Layer
from worksheets.engine.dimensions import DIMENSIONS
from worksheets.engine.packs import Purchase
from worksheets.engine.result import Figure, Finding, Grid, Standing


def says(job: Job) -> str:
    need = sum(layer.need for layer in job.layers)
    start = (
        f"{job.given.both(need, 'volume', toward='up')} of paint for "
        f"{job.given.both(job.field.net, 'area')}"
    )
    if job.cents is None:
        return f"{start}. Write sizes and prices of packs to see what to buy."
    return f"{start}; the packs cost {job.given.money(job.cents)} at least."


def figures(job: Job) -> tuple[Figure, ...]:
    field = job.field
    need = sum(layer.need for layer in job.layers)
    yearly = sum(layer.yearly(job.given["cleanings"]) for layer in job.layers)
    taken = sum(each.area for each in field.openings)
    thinner = sum(thinner_of(layer) for layer in job.layers)
    cost = () if job.cents is None else (
        Figure(key="cost", label="All packs, at least cost", value=job.cents, of="money",
               main=True),
    )  # fmt: skip
    return (
        Figure(key="need", label="Paint, all layers", value=need, of="volume", toward="up",
               main=True),
        *cost,
        Figure(key="net", label="Area to paint", value=field.net, of="area", main=True),
        Figure(key="gross", label="Whole wall", value=field.gross, of="area"),
        Figure(key="openings", label="Openings", value=taken, of="area"),
        *when(thinner, "thinner", "Thinner", "for all layers"),
        *when(yearly, "yearly", "Renewed each year", "of coats that come off with the tags"),
    )  # fmt: skip


def when(volume: float, key: str, label: str, note: str) -> Iterator[Figure]:
    if volume > 0:
        yield Figure(key=key, label=label, value=volume, of="volume", toward="up", note=note)


def thinner_of(layer: Layer) -> float:
    return layer.need * layer.film.thinner if layer.film else 0.0


def findings(job: Job) -> Iterator[Finding]:
    for layer in job.layers:
        yield from too_thin(job, layer)
        if layer.assumed:
            says = (
                f"{layer.name}: a common rate stands in, "
                f"{job.given.both(layer.rate, 'spread')}. Write the product sheet’s, or the one "
                "of a test patch of 1 m² on this wall."
            )
            yield Finding(standing=Standing.NEAR, says=says, rule=layer.assumed, part=layer.name)
    yield from about_openings(job)


def too_thin(job: Job, layer: Layer) -> Iterator[Finding]:
    """The entered rate leaves a thinner film than the data sheet asks for."""
    film = layer.film
    if film is None or film.dry is None:
        return
    left = paint.dry_film(film.solids, layer.rate)
    if left * job.rules.values["thin"] < film.dry:
        asked = paint.film_rate(film.solids, film.dry)
        says = (
            f"{layer.name}: at the entered rate a coat dries to {job.given.both(left, 'film')}, "
            f"less than the {job.given.both(film.dry, 'film')} asked for. Spread it at "
            f"{job.given.both(asked, 'spread', toward='down')} or less."
        )
        yield Finding(standing=Standing.NEAR, says=says, part=layer.name)


def about_openings(job: Job) -> Iterator[Finding]:
    loose = [each for each in job.field.openings if not each.placed]
    if loose and any(layer.up_to is not None for layer in job.layers):
        says = (
            f"{len(loose)} of the openings have no place, so nothing is taken off for them below "
            "a height. Write where they are to buy less."
        )
        yield Finding(standing=Standing.NOTE, says=says)


def grids(job: Job) -> tuple[Grid, ...]:
    return (amounts_grid(job), films_grid(job), *packs_grid(job))


def amounts_grid(job: Job) -> Grid:
    given = job.given
    return Grid(
        title="Paint, layer by layer",
        head=("Layer", "Area", "Coats", "Rate on this job", "Loss", "To buy at least"),
        rows=tuple(
            (layer.name, given.both(layer.area, "area"), str(layer.coats),
             given.both(layer.practical, "spread", toward="down"),
             given.show(layer.loss, "fraction"), given.both(layer.need, "volume", toward="up"))
            for layer in job.layers
        ),
        numeric=(1, 2, 3, 4, 5),
        note=f"With {given.show(given['keep_back'], 'fraction')} kept back for touching up; the "
        "area includes the surface factor.",
    )  # fmt: skip


def films_grid(job: Job) -> Grid:
    return Grid(
        title="Film of each coat, to check with a comb",
        head=("Layer", "Theoretical rate", "Wet film", "Dry film", "Dry, all coats"),
        rows=tuple(film_row(job, layer) for layer in job.layers),
        numeric=(1, 2, 3, 4),
        note="At the rate of the layer; the dry film needs the solids by volume.",
    )


def film_row(job: Job, layer: Layer) -> tuple[str, ...]:
    given, film = job.given, layer.film
    rate = given.both(layer.rate, "spread")
    if film is None:
        wet = given.both(1 / layer.rate, "film")
        return (layer.name, rate, wet, "solids not given", "")
    dry = paint.dry_film(film.solids, layer.rate)
    wet = given.both(paint.wet_film(dry, film.solids, film.thinner), "film")
    return (layer.name, rate, wet, given.both(dry, "film"), given.both(dry * layer.coats, "film"))


def packs_grid(job: Job) -> Iterator[Grid]:
    priced = [layer for layer in job.layers if layer.best is not None]
    if not priced:
        return
    foot = (
        ("", "All layers", job.given.money(job.cents), "", "", "") if job.cents is not None else ()
    )
    yield Grid(
        title="Packs to buy",
        head=("Layer", "At least cost", "Cost", "Left over", "One size, one batch", "Cost"),
        rows=tuple(pack_row(job, layer) for layer in priced),
        numeric=(2, 3, 5),
        note="Colour differs a little from batch to batch: of one size you can ask for one batch "
        "number. Or mix all packs of a layer in one tub before you start.",
        foot=foot,
    )


def pack_row(job: Job, layer: Layer) -> tuple[str, ...]:
    assert layer.best is not None and layer.single is not None
    single = (counted(job, layer.single), job.given.money(layer.single.cents))
    if layer.best.counts == layer.single.counts:
        single = ("the same", "")
    return (
        layer.name,
        counted(job, layer.best),
        job.given.money(layer.best.cents),
        job.given.show(layer.best.surplus, "volume"),
        *single,
    )


def counted(job: Job, bought: Purchase) -> str:
    """“2 × 5 gal, 1 × 1 qt”."""
    pairs = zip(bought.counts, bought.packs, strict=True)
    return ", ".join(f"{n} × {pack_words(job, pack.size)}" for n, pack in pairs if n) or "nothing"


def pack_words(job: Job, size: float) -> str:
    """In the unit that gives a round number: a quart is no 0.25 gal."""
    units = {unit.symbol: unit.factor for unit in DIMENSIONS["volume"].units}
    for symbol in ("gal", "qt", "pt", "fl oz", "L", "mL"):
        number = size / units[symbol]
        if abs(number * 2 - round(number * 2)) < 1e-6 and (number >= 1 or symbol == "mL"):
            return f"{number:g} {symbol}"
    return job.given.show(size, "volume")
