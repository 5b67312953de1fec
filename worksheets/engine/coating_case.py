"""From what was typed to a wall with its openings and its layers of paint."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from worksheets.engine import paint
from worksheets.engine.coating import HAIR, Field, Film, Job, Layer, Opening, key, overlap
from worksheets.engine.given import Given, typed_rows
from worksheets.engine.packs import Pack, PackError, Purchase, least_cost, one_size
from worksheets.engine.result import Impossible
from worksheets.engine.rules import RuleSet, rule_set


def job(given: Given) -> Job:
    """Everything that is reckoned. Raises Impossible beside the field that is wrong."""
    rules = rule_set("paint", "trade")
    field = field_of(given)
    sheet = DataSheet(films=films_of(given), packs=tuple(packs_of(given)), rules=rules)
    covers = by_layer(given, "areas")
    layers = tuple(
        layer(row, number, given, sheet, covered(covers.get(key(row.words("name"))), field, given))
        for number, row in typed_rows(given.rows("layers"))
    )
    known_names(given, layers)
    return Job(given=given, field=field, layers=layers, rules=rules)


def field_of(given: Given) -> Field:
    found = Field(
        width=given["width"],
        height=given["height"],
        bottom=given["bottom"],
        openings=tuple(
            Opening(name=row.words("name") or f"Opening {number + 1}", width=row["width"],
                    height=row["height"], left=row.maybe("left"), low=row.maybe("low"))
            for number, row in typed_rows(given.rows("openings"))
        ),
    )  # fmt: skip
    check_openings(given, found)
    return found


def check_openings(given: Given, field: Field) -> None:
    rows = [number for number, _ in typed_rows(given.rows("openings"))]
    for row, each in zip(rows, field.openings, strict=True):
        check_one(given, field, each, row)
    taken = sum(each.area for each in field.openings)
    if taken > field.gross * (1 + HAIR):
        raise Impossible(
            "openings",
            f"The openings, {given.both(taken, 'area')}, are larger than the wall, "
            f"{given.both(field.gross, 'area')}. Make one of them smaller.",
        )
    for (first, one), (second, other) in combinations(zip(rows, field.openings, strict=True), 2):
        if overlap(one, other):
            raise Impossible(
                "openings", f"It lies over the opening of row {first + 1}.",
                row=second, column="left",
            )  # fmt: skip


def check_one(given: Given, field: Field, each: Opening, row: int) -> None:
    sides = (("width", each.width, field.width), ("height", each.height, field.height))
    for column, size, most in sides:
        if size > most * (1 + HAIR):
            raise Impossible(
                "openings",
                f"An opening {given.both(size, 'length')} in {column} is larger than the wall, "
                f"{given.both(most, 'length')}.",
                row=row,
                column=column,
            )
    if (each.left is None) != (each.low is None):
        column = "left" if each.left is None else "low"
        says = "Write both places of an opening, or leave both empty."
        raise Impossible("openings", says, row=row, column=column)
    if each.left is None or each.low is None:
        return
    if each.left + each.width > field.width + HAIR:
        says = "Its right edge lies beyond the wall. Move it, or make it narrower."
        raise Impossible("openings", says, row=row, column="left")
    if each.low < field.bottom - HAIR or each.low + each.height > field.top + HAIR:
        says = (
            f"It reaches beyond the field, which stands from {given.show(field.bottom, 'length')} "
            f"to {given.show(field.top, 'length')} above the ground."
        )
        raise Impossible("openings", says, row=row, column="low")


def by_layer(given: Given, table: str) -> dict[str, tuple[int, Given]]:
    """The rows of a table about layers, each with its place; one row for a layer."""
    found: dict[str, tuple[int, Given]] = {}
    for number, row in typed_rows(given.rows(table)):
        name = key(row.words("layer"))
        if name in found:
            says = f"Row {found[name][0] + 1} is about this layer already. Leave one of them out."
            raise Impossible(table, says, row=number, column="layer")
        found[name] = (number, row)
    return found


def films_of(given: Given) -> dict[str, Film]:
    return {
        name: Film(solids=row["solids"], dry=row.maybe("dry"), thinner=row.maybe("thinner") or 0.0)
        for name, (_, row) in by_layer(given, "films").items()
    }


def packs_of(given: Given) -> list[tuple[str, Pack]]:
    return [
        (key(row.words("layer")), Pack(row["size"], row.cents("price") or 0))
        for row in given.rows("packs")
    ]


def known_names(given: Given, layers: Sequence[Layer]) -> None:
    """A film or a pack of a layer that is not there is a slip of the pen."""
    names = [key(each.name) for each in layers]
    for number, row in typed_rows(given.rows("layers")):
        if names.count(key(row.words("name"))) > 1:
            says = "Two layers have this name. Give each its own, such as its colour."
            raise Impossible("layers", says, row=number, column="name")
    for table in ("areas", "films", "packs"):
        for number, row in typed_rows(given.rows(table)):
            name = row.words("layer")
            if name and key(name) not in names:
                says = f"There is no layer “{name[:40]}”. Write a name from the table of layers."
                raise Impossible(table, says, row=number, column="layer")


@dataclass(frozen=True, slots=True, kw_only=True)
class DataSheet:
    """What is known of the paints; packs by the key of their layer, empty for every layer."""

    films: Mapping[str, Film]
    packs: tuple[tuple[str, Pack], ...]
    rules: RuleSet


def layer(row: Given, number: int, given: Given, sheet: DataSheet, cover: Cover) -> Layer:
    name = row.words("name")
    film = sheet.films.get(key(name))
    rate, assumed = rate_of(row, number, given, sheet.rules, film)
    loss = row.maybe("loss")
    if loss is None:
        loss = float(sheet.rules.values["loss"][given.choice("tool")])
    area = cover.area * cover.factor
    need = paint.paint(area, rate, row.count("coats"), loss, given["keep_back"])
    offered = [pack for layer_name, pack in sheet.packs if layer_name in ("", key(name))]
    best, single = bought(need, offered)
    return Layer(
        row=number, name=name, kind=row.choice("kind"), area=area, up_to=cover.up_to,
        coats=row.count("coats"), rate=rate, loss=loss, assumed=assumed, film=film, need=need,
        best=best, single=single,
    )  # fmt: skip


def bought(need: float, offered: Sequence[Pack]) -> tuple[Purchase | None, Purchase | None]:
    if not offered:
        return None, None
    try:
        return least_cost(need, offered), one_size(need, offered)
    except PackError as error:
        raise Impossible("packs", str(error)) from None


def rate_of(
    row: Given, number: int, given: Given, rules: RuleSet, film: Film | None
) -> tuple[float, str]:
    """The layer’s own rate, that of its film, or the default of the surface with its source."""
    typed = row.maybe("rate")
    if typed is not None:
        return typed, ""
    if film is not None and film.dry is not None:
        return paint.film_rate(film.solids, film.dry), ""
    primer = row.choice("kind") == "primer"
    surface = given.choice("surface")
    found = rules.values["primer"] if primer else rules.values["spread"][surface]
    if found is None or (primer and rules.values["spread"][surface] is None):
        says = "Brick and block have no common rate. Write the one of the product sheet here."
        raise Impossible("layers", says, row=number, column="rate")
    return float(found), rules.clause("primer" if primer else f"spread-{surface}")


@dataclass(frozen=True, slots=True)
class Cover:
    """What a layer covers: m² on the drawing, and how much more surface a rough wall has."""

    area: float
    factor: float
    up_to: float | None = None


def covered(told: tuple[int, Given] | None, field: Field, given: Given) -> Cover:
    """The layer’s own area, the band up to its height, or the whole net area."""
    if told is None:
        return Cover(field.net, given["factor"])
    number, row = told
    own, height = row.maybe("area"), row.maybe("up_to")
    factor = row.maybe("factor") or given["factor"]
    if own is not None and height is not None:
        says = "Write an area or a height, not both."
        raise Impossible("areas", says, row=number, column="area")
    if own is not None and own > field.net * (1 + HAIR):
        says = f"It is larger than what there is to paint, {given.both(field.net, 'area')}."
        raise Impossible("areas", says, row=number, column="area")
    if height is not None:
        return Cover(band_of(height, number, field, given), factor, height)
    return Cover(field.net if own is None else own, factor)


def band_of(height: float, number: int, field: Field, given: Given) -> float:
    if not field.bottom < height <= field.top + HAIR:
        says = (
            f"The field stands from {given.show(field.bottom, 'length')} to "
            f"{given.show(field.top, 'length')} above the ground. Write a height between, or leave "
            "it empty for the whole field."
        )
        raise Impossible("areas", says, row=number, column="up_to")
    return field.below(height)
