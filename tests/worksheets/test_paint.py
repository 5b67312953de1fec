"""The worksheet on paint: the wall, its layers, packs, and what it hands on."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box
from shapely.ops import unary_union

from worksheets.engine.dimensions import FOOT, GALLON, System
from worksheets.engine.given import Fact
from worksheets.engine.result import Impossible, Standing, ToCare, ToLine, ToRequest
from worksheets.sheets.paint import SHEET

PLAIN: dict[str, Any] = {
    "width": "24 ft", "height": "12 ft", "keep_back": "0 %", "areas": [], "films": [], "packs": [],
    "openings": [],
    "layers": [{"name": "Blue", "kind": "colour", "coats": "2", "rate": "350 ft²/gal",
                "loss": "10 %"}],
}  # fmt: skip
DOOR = {"name": "Door", "width": "3 ft", "height": "7 ft", "left": "4 ft", "low": "0 ft"}


def paint(**typed: Any) -> Any:
    return SHEET.work(PLAIN | typed)


def square_feet(text: str) -> float:
    return float(text.split(" ft²")[0].replace(",", ""))


def areas(result: Any) -> dict[str, float]:
    return {row[0]: square_feet(row[1]) for row in result.grids[0].rows}


def refused(**typed: Any) -> Impossible:
    with pytest.raises(Impossible) as caught:
        paint(**typed)
    assert str(caught.value).endswith(".")
    return caught.value


def test_the_size_is_the_parts_then_the_walls() -> None:
    wall = {"site.width": Fact(7.62, "the wall’s width"), "site.height": Fact(6.4, "the wall’s")}
    part = {"part.width": Fact(7.3152, "the width"), "part.height": Fact(3.6576, "the height")}
    sizes = {**PLAIN, "width": "", "height": ""}
    on_wall = SHEET.work(sizes, facts=wall).figure("gross").value
    assert on_wall == pytest.approx(7.62 * 6.4)
    assert SHEET.work(sizes, facts=wall | part).figure("gross").value == pytest.approx(
        288 * FOOT**2
    )


def test_a_band_covers_the_wall_below_its_height_without_the_openings_in_it() -> None:
    window = {"name": "Window", "width": "4 ft", "height": "4 ft", "left": "12 ft", "low": "7 ft"}
    found = paint(
        openings=[DOOR, window],
        layers=[
            {"name": "Blue", "kind": "colour", "coats": "1", "rate": "350 ft²/gal"},
            {"name": "Clear", "kind": "clear", "coats": "1", "rate": "350 ft²/gal"},
        ],
        areas=[{"layer": "clear", "up_to": "9 ft"}],
    )
    assert areas(found) == {"Blue": 251, "Clear": 24 * 9 - 21 - 4 * 2}
    assert "Clear" in found.pictures[0].svg


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 7), st.integers(0, 10), st.integers(1, 20)), max_size=4),
    st.integers(1, 120),
)
def test_the_band_is_the_area_that_a_geometry_library_finds(
    spots: list[tuple[int, int, int]], tenths: int
) -> None:
    """Openings a foot apart from each other, 2 ft wide, in columns of 3 ft."""
    places = {left: (low, min(12 - low, high)) for left, low, high in spots}
    openings = [
        {"width": "2 ft", "height": f"{high} ft", "left": f"{3 * left} ft", "low": f"{low} ft"}
        for left, (low, high) in places.items()
    ]
    found = paint(
        openings=openings, areas=[{"layer": "Blue", "up_to": f"{tenths / 10} ft"}],
        layers=[{"name": "Blue", "kind": "colour", "coats": "1", "rate": "1 m²/L", "loss": "0"}],
    )  # fmt: skip
    holes = unary_union(
        [box(3 * left, low, 3 * left + 2, low + high) for left, (low, high) in places.items()]
    )
    expected = box(0, 0, 24, tenths / 10).difference(holes).area
    assert found.figure("need").value * 1000 == pytest.approx(expected * FOOT**2)


def test_a_height_counts_from_the_ground_and_not_from_the_field() -> None:
    found = paint(bottom="3 ft", areas=[{"layer": "Blue", "up_to": "9 ft"}])
    assert areas(found)["Blue"] == 24 * 6


def test_every_layer_has_its_own_area_coats_and_loss() -> None:
    found = paint(
        layers=[
            {"name": "Ground", "kind": "primer", "coats": "1", "rate": "250 ft²/gal", "loss": "0"},
            {"name": "Ember", "kind": "colour", "coats": "3", "rate": "300 ft²/gal",
             "loss": "20 %"},
        ],
        areas=[{"layer": "Ember", "area": "100 ft²", "factor": "1.2"}],
    )  # fmt: skip
    gallons = 288 / 250 + 120 * 3 / (300 * 0.8)
    assert found.figure("need").value == pytest.approx(gallons * GALLON)


def test_a_film_gives_the_rate_where_none_was_entered() -> None:
    layer = {"name": "Blue", "kind": "colour", "coats": "1", "loss": "0"}
    film = {"layer": "Blue", "solids": "40 %", "dry": "50 µm"}
    found = SHEET.work(PLAIN | {"layers": [layer], "films": [film]}, system=System.METRIC)
    assert "8 m²/L (326 ft²/gal)" in found.grids[1].rows[0]
    assert found.figure("need").value == pytest.approx(288 * FOOT**2 / 8000)


def test_the_comb_reads_the_film_with_its_thinner() -> None:
    film = {"layer": "Blue", "solids": "35 %", "dry": "125 µm", "thinner": "10 %"}
    layer = {"name": "Blue", "kind": "colour", "coats": "2"}
    found = SHEET.work(PLAIN | {"layers": [layer], "films": [film]}, system=System.METRIC)
    row = found.grids[1].rows[0]
    assert row[2].startswith("392.9 µm")
    assert row[3].startswith("125 µm")
    assert row[4].startswith("250 µm")
    assert found.figure("thinner").value == pytest.approx(found.figure("need").value * 0.1)


def test_a_rate_too_great_for_the_film_that_is_asked_for_is_said() -> None:
    film = {"layer": "Blue", "solids": "38 %", "dry": "3 mil"}
    found = [each for each in paint(films=[film]).findings if each.part == "Blue"]
    assert found[0].standing == Standing.NEAR
    assert "203 ft²/gal" in found[0].says


def test_a_common_rate_that_stands_in_is_said_with_its_source() -> None:
    layer = {"name": "Blue", "kind": "colour", "coats": "1"}
    found = paint(layers=[layer], surface="stucco")
    assert "250 ft²/gal" in found.findings[0].says
    assert "estimator’s tip" in found.findings[0].rule
    assert "200 ft²/gal" in paint(layers=[layer | {"kind": "primer"}]).findings[0].says


def test_brick_has_no_common_rate() -> None:
    layer = {"name": "Blue", "kind": "colour", "coats": "1"}
    assert refused(layers=[layer], surface="brick").at == "layers-0-rate"


def test_spray_loses_more_than_brush_and_roller() -> None:
    layer = {"name": "Blue", "kind": "colour", "coats": "1", "rate": "350 ft²/gal"}
    needs = [
        paint(layers=[layer], tool=tool).figure("need").value for tool in ("brush", "spray", "wind")
    ]
    assert needs == sorted(needs)
    assert needs[1] == pytest.approx(288 / (350 * 0.7) * GALLON)


def test_packs_are_bought_for_each_layer_at_least_cost_and_in_one_size() -> None:
    packs = [
        {"layer": "", "size": "5 gal", "price": "150"},
        {"layer": "blue", "size": "1 gal", "price": "38"},
        {"layer": "Blue", "size": "1 qt", "price": "15"},
    ]
    layer = {"name": "Blue", "kind": "colour", "coats": "1", "rate": "25.486725 ft²/gal",
             "loss": "0"}  # fmt: skip
    found = paint(packs=packs, layers=[layer])
    assert found.figure("need").value == pytest.approx(11.3 * GALLON, rel=1e-6)
    assert found.figure("cost").value == 36800
    assert found.grids[2].rows[0][1:3] == ("2 × 5 gal, 1 × 1 gal, 2 × 1 qt", "$368")
    assert found.grids[2].rows[0][4:] == ("3 × 5 gal", "$450")


def test_there_is_no_cost_while_a_layer_has_no_price() -> None:
    layers = [*PLAIN["layers"], PLAIN["layers"][0] | {"name": "Red"}]
    found = paint(layers=layers, packs=[{"layer": "Red", "size": "1 gal", "price": "50"}])
    assert "cost" not in {figure.key for figure in found.figures}
    lines = {hand.label: hand.cents for hand in found.hands if isinstance(hand, ToLine)}
    assert lines["Paint, all layers"] is None
    assert lines["Blue"] is None
    assert lines["Red"] == 10000


def test_it_hands_on_lines_a_purchase_list_and_care() -> None:
    found = SHEET.work({})
    lines = [hand for hand in found.hands if isinstance(hand, ToLine)]
    assert lines[0].cents == sum(line.cents or 0 for line in lines[1:])
    assert lines[0].cents == found.figure("cost").value
    assert lines[0].quantity == pytest.approx(sum(line.quantity for line in lines[1:]))
    listed = next(hand for hand in found.hands if isinstance(hand, ToRequest))
    assert listed.items[0].startswith("Primer: 2 × 1 gal (at least ")
    care = [hand.text for hand in found.hands if isinstance(hand, ToCare)]
    assert "comes off with the tags" in care[0]
    assert all(re.fullmatch(r"[a-z0-9-]+", hand.key) for hand in found.hands)


def test_only_a_coat_that_comes_off_is_renewed_each_year() -> None:
    layer = {"name": "Coat", "kind": "sacrificial", "coats": "2", "rate": "300 ft²/gal",
             "loss": "10 %"}  # fmt: skip
    once = paint(layers=[layer], cleanings="1").figure("yearly").value
    assert paint(layers=[layer], cleanings="3").figure("yearly").value == pytest.approx(3 * once)
    kept = paint(layers=[layer | {"kind": "permanent"}])
    assert "yearly" not in {figure.key for figure in kept.figures}


@pytest.mark.parametrize(
    ("typed", "at", "said"),
    [
        ({"openings": [{"width": "30 ft", "height": "3 ft"}]}, "openings-0-width",
         "larger than the wall"),
        ({"openings": [{"width": "20 ft", "height": "9 ft"}] * 2}, "openings",
         "larger than the wall"),
        ({"openings": [DOOR | {"left": "22 ft"}]}, "openings-0-left", "beyond the wall"),
        ({"openings": [DOOR | {"low": "6 ft"}]}, "openings-0-low", "from 0 in to 12 ft"),
        ({"openings": [DOOR | {"low": ""}]}, "openings-0-low", "both places"),
        ({"openings": [DOOR, DOOR]}, "openings-1-left", "opening of row 1"),
        ({"areas": [{"layer": "Blue", "up_to": "13 ft"}]}, "areas-0-up_to", "a height between"),
        ({"areas": [{"layer": "Blue", "area": "300 ft²"}]}, "areas-0-area", "288 ft²"),
        ({"areas": [{"layer": "Blue", "area": "30 ft²", "up_to": "9 ft"}]}, "areas-0-area",
         "not both"),
        ({"areas": [{"layer": "Blue", "up_to": "9 ft"}] * 2}, "areas-1-layer", "Row 1"),
        ({"films": [{"layer": "Bleu", "solids": "40 %"}]}, "films-0-layer", "“Bleu”"),
        ({"packs": [{"layer": "Red", "size": "1 gal", "price": "4"}]}, "packs-0-layer", "“Red”"),
        ({"layers": PLAIN["layers"] * 2}, "layers-0-name", "Two layers"),
    ],
)  # fmt: skip
def test_what_cannot_go_together_is_refused_beside_its_field(
    typed: dict[str, Any], at: str, said: str
) -> None:
    wrong = refused(**typed)
    assert wrong.at == at
    assert said in str(wrong)


def test_the_drawing_is_to_scale() -> None:
    svg = paint(openings=[DOOR]).pictures[0].svg
    rects = re.findall(r'<rect x="[\d.]+" y="[\d.]+" width="([\d.]+)" height="([\d.]+)"', svg)
    field, door = [(float(wide), float(high)) for wide, high in rects[1:3]]
    assert field[0] / field[1] == pytest.approx(2, rel=1e-3)
    assert door[0] / field[0] == pytest.approx(3 / 24, rel=1e-3)
    assert door[1] / field[1] == pytest.approx(7 / 12, rel=1e-3)
