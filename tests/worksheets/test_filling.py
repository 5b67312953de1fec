"""The worksheets on concrete, adhesive, tiles and planters."""

from __future__ import annotations

import re
from typing import Any

import pytest

from worksheets.engine.dimensions import FOOT, System
from worksheets.engine.result import Impossible, Standing, ToLine, ToPart, ToRequest
from worksheets.sheets import adhesive, concrete, planters, tiles

BOX = {"count": "1", "length": "4 ft", "width": "2 ft", "depth": "18 in", "container": "0 lb",
       "plants": "0 lb"}  # fmt: skip


def refused(module: Any, **typed: Any) -> Impossible:
    with pytest.raises(Impossible) as caught:
        module.SHEET.work(typed)
    assert str(caught.value).endswith(".")
    return caught.value


def cubic_feet(result: Any, key: str) -> float:
    return result.figure(key).value / FOOT**3


def handed(result: Any, kind: type) -> Any:
    return next(hand for hand in result.hands if isinstance(hand, kind))


def test_a_post_takes_its_place_in_the_concrete() -> None:
    hole = {"shape": "box", "across": "1 ft", "depth": "3 ft", "count": "2"}
    full = concrete.SHEET.work(hole)
    posted = concrete.SHEET.work(hole | {"post": "square", "post_size": "6 in"})
    assert cubic_feet(full, "volume") == pytest.approx(6)
    assert cubic_feet(posted, "volume") == pytest.approx(2 * (3 - 0.25 * 3))
    short = concrete.SHEET.work(
        hole | {"post": "square", "post_size": "6 in", "post_depth": "2 ft"}
    )
    assert cubic_feet(short, "volume") == pytest.approx(2 * (3 - 0.25 * 2))


def test_bags_are_mixed_at_least_cost() -> None:
    """For 2.38 ft³ eight small bags at 3 cost less than four large ones at 7."""
    bags = [
        {"name": "40 lb", "makes": "0.30 ft³", "price": "3"},
        {"name": "80 lb", "makes": "0.60 ft³", "price": "7"},
    ]
    found = concrete.SHEET.work({"bags": bags})
    assert found.figure("cost").value == 2400
    assert found.figure("cost").note == "8 × 40 lb"
    line = handed(found, ToLine)
    assert (line.quantity, line.cents) == (8, 2400)
    assert "8 × 40 lb" in handed(found, ToRequest).items[0]


def test_a_great_footing_is_to_be_ordered_ready_mixed() -> None:
    big = {"shape": "box", "across": "2.33 ft", "along": "5.5 ft", "depth": "4 ft"}
    assert "ready-mixed" in concrete.SHEET.work(big).findings[0].says
    assert len(concrete.SHEET.work({}).findings) == 1


@pytest.mark.parametrize(
    ("typed", "at"),
    [
        ({"post": "round", "post_size": "12 in"}, "post_size"),
        ({"post": "square", "post_size": "9 in"}, "post_size"),
        ({"post": "round", "post_depth": "40 in"}, "post_depth"),
    ],
)
def test_a_post_that_does_not_go_into_its_hole_is_refused(typed: dict[str, str], at: str) -> None:
    assert refused(concrete, **typed).at == at


def test_cartridges_are_bought_by_the_filled_hole_and_not_by_the_gap() -> None:
    typed = {"count": "40", "hole": "18 mm", "rod": "16 mm", "depth": "125 mm", "share": "0.5",
             "cartridge": "280 mL", "strokes": "10 mL", "waste": "0", "price": "30"}  # fmt: skip
    found = adhesive.SHEET.work(typed, system=System.METRIC)
    assert found.figure("times").value == pytest.approx(2.38, abs=0.01)
    assert found.figure("cartridges").value == 3  # 636 mL at 270 mL each; the gaps alone take one
    assert 40 * found.figure("annulus").value < 270e-6
    assert handed(found, ToLine).cents == 9000


def test_a_hole_too_wide_for_its_rod_would_not_be_filled() -> None:
    wrong = refused(adhesive, hole="20 mm", rod="10 mm", share="0.6")
    assert wrong.at == "hole"
    assert refused(adhesive, hole="16 mm", rod="16 mm").at == "rod"
    assert refused(adhesive, strokes="10 fl oz", cartridge="9.5 fl oz").at == "strokes"


def test_hollow_block_needs_screens() -> None:
    assert "screens" in adhesive.SHEET.work({"wall": "hollow"}).findings[0].says


def test_tiles_are_bought_with_waste_and_in_whole_boxes() -> None:
    typed = {"area": "10 m²", "long": "100 mm", "short": "100 mm", "joint": "3 mm", "box": "44",
             "box_price": "20", "bag_price": "12"}  # fmt: skip
    found = tiles.SHEET.work(typed, system=System.METRIC)
    assert found.figure("net").value == pytest.approx(942.6, abs=0.05)
    assert found.figure("tiles").value == 1037
    assert found.figure("boxes").value == 24
    assert found.figure("cost").value == 24 * 2000 + found.figure("bags").value * 1200


def test_mosaic_and_broken_pieces_waste_more_than_a_grid() -> None:
    shares = [tiles.SHEET.work({"laid": laid}).assumptions[1][:4] for laid in
              ("grid", "mosaic", "pieces")]  # fmt: skip
    assert shares == ["10 %", "15 %", "20 %"]


def test_broken_pieces_are_bought_by_area_and_grouted_by_the_joints_share() -> None:
    typed = {"laid": "pieces", "area": "10 m²", "share": "25 %", "depth": "6 mm", "waste": "20 %",
             "density": "1.6 kg/L", "spilt": "0"}  # fmt: skip
    found = tiles.SHEET.work(typed, system=System.METRIC)
    assert found.figure("cover").value == pytest.approx(10 * 0.75 * 1.2)
    assert found.figure("grout").value == pytest.approx(10 * 0.25 * 0.006 * 1600)
    assert handed(found, ToLine).unit == "m²"


def test_all_water_in_a_planter_is_counted() -> None:
    found = planters.SHEET.work(BOX | {"mix": "bark", "reservoir": "10 gal", "drain": "2 in"})
    pounds = found.figure("wet").value / 0.45359237
    gravel = 4 * 2 * (2 / 12) * 1600 / 16.018463
    assert pounds == pytest.approx(456 + 83.45 + gravel, rel=1e-4)
    assert found.figure("water").value / 0.45359237 == pytest.approx(288 + 83.45, rel=1e-4)
    assert handed(found, ToPart).mass == pytest.approx(found.figure("all").value)


def test_a_mix_without_a_dry_density_tells_no_dry_mass() -> None:
    for soil in ({"mix": "heavy"}, {"dry": "", "wet": "78 lb/ft³"}):
        found = planters.SHEET.work(BOX | soil)
        assert found.figure("soil_wet").value / 0.45359237 == pytest.approx(12 * 78, rel=1e-4)
        assert not {figure.key for figure in found.figures} & {"soil_dry", "water"}


@pytest.mark.parametrize("carries", ["", "20 psf", "2000 psf"])
def test_off_the_ground_nothing_is_ever_shown_as_holding(carries: str) -> None:
    found = planters.SHEET.work(BOX | {"stands": "raised", "carries": carries})
    marks = {each.standing for each in (*found.figures, *found.findings)}
    assert found.says.startswith("Screening estimate")
    assert "licensed engineer" in found.findings[-1].says
    assert Standing.WITHIN not in marks
    assert (Standing.OVER in marks) == (carries == "20 psf")
    assert not re.search(r"\bsafe", " ".join(each.says for each in found.findings))


def test_the_footprint_presses_with_the_wet_mass() -> None:
    """456 lb of soil and 80 lb of container on 8 ft² are 67 psf."""
    bark = BOX | {"mix": "bark", "stands": "raised", "container": "80 lb"}
    found = planters.SHEET.work(bark | {"carries": "67.1 psf"})
    assert "67 psf" in found.findings[0].says
    assert "within the entered limit" in found.findings[0].says
    lower = planters.SHEET.work(bark | {"carries": "66.9 psf"})
    assert "over the entered limit" in lower.findings[0].says


def test_on_the_ground_no_support_is_judged() -> None:
    found = planters.SHEET.work(BOX | {"carries": "20 psf"})
    assert {each.standing for each in (*found.figures, *found.findings)} == {Standing.NOTE}


@pytest.mark.parametrize(
    ("typed", "at"),
    [
        ({"wet": "60 lb/ft³"}, "wet"),
        ({"dry": "130 lb/ft³", "gravity": "0.5"}, "gravity"),
        ({"width": ""}, "width"),
        ({"dry": ""}, "dry"),
    ],
)
def test_soils_and_boxes_that_cannot_be_are_refused(typed: dict[str, str], at: str) -> None:
    assert refused(planters, **typed).at == at
