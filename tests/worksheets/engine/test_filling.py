"""Concrete, adhesive, grout, tiles and soil, as geometry."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from worksheets.engine import filling, soil
from worksheets.engine.filling import FillError
from worksheets.engine.soil import SoilError

sides = st.floats(0.01, 1.0)
joints = st.floats(0.001, 0.02)
depths = st.floats(0.001, 0.05)


def test_half_filling_a_hole_takes_about_2_4_times_the_gap_round_its_rod() -> None:
    half = filling.dispensed(0.018, 0.125, 0.5)
    assert half / filling.annulus(0.018, 0.016, 0.125) == pytest.approx(2.4, abs=0.05)


@given(sides, st.floats(0.1, 0.9), depths)
def test_hole_less_rod_is_the_gap(hole: float, share: float, depth: float) -> None:
    rod = hole * share
    gap = filling.annulus(hole, rod, depth)
    assert gap + filling.disc(rod) * depth == pytest.approx(filling.disc(hole) * depth)


@given(sides, sides, joints, depths)
def test_tile_and_joint_together_cover_the_whole_area(
    long: float, short: float, joint: float, depth: float
) -> None:
    """Tiles of a square metre and the grout between them fill it to the joint’s depth."""
    solid = filling.tiles(1.0, long, short, joint) * long * short * depth
    grout = filling.joint_exact(long, short, joint, depth)
    assert solid + grout == pytest.approx(depth)


@given(sides, sides, joints, depths)
def test_the_trades_rule_for_grout_never_falls_short(
    long: float, short: float, joint: float, depth: float
) -> None:
    rule = filling.joint_rule(long, short, joint, depth)
    assert rule >= filling.joint_exact(long, short, joint, depth)
    assert rule == filling.joint_rule(short, long, joint, depth)


def test_the_rule_counts_13_percent_too_much_for_a_mosaic_of_20_mm() -> None:
    sizes = (0.02, 0.02, 0.002, 0.004)
    assert filling.joint_exact(*sizes) / filling.joint_rule(*sizes) == pytest.approx(0.87, abs=0.01)


@given(st.floats(0.01, 100.0), st.floats(0.01, 2.0))
def test_whole_packs_hold_the_need_and_one_less_does_not(need: float, each: float) -> None:
    count = filling.whole(need, each)
    assert count * each >= need * (1 - 1e-6)
    assert (count - 1) * each < need


def test_a_bag_that_is_just_filled_is_not_bought_twice() -> None:
    assert filling.whole(0.1 + 0.2, 0.1) == 3
    assert filling.whole(1.000001, 1.0) == 2


@given(sides, sides, st.floats(0.1, 2.0), st.floats(0.1, 1.0))
def test_a_tapered_box_is_the_sum_of_its_slices(
    long: float, short: float, depth: float, share: float
) -> None:
    def slice_at(height: float) -> float:
        grown = share + (1 - share) * height / depth
        return long * short * grown**2

    area = long * short
    expected, _ = quad(slice_at, 0, depth)
    assert soil.tapered(area, area * share**2, depth) == pytest.approx(expected)


def test_the_mean_of_the_areas_would_be_too_much_soil() -> None:
    top, bottom, depth = 24.0**2, 18.0**2, 20.0
    assert soil.tapered(top, bottom, depth) == pytest.approx(8880)
    assert (top + bottom) / 2 * depth == pytest.approx(9000)


@given(st.floats(100.0, 2000.0), st.floats(2.1, 3.2))
def test_soaked_soil_lies_between_water_and_grains(dry: float, gravity: float) -> None:
    pores = soil.porosity(dry, gravity)
    assert 0 < pores < 1
    assert max(dry, soil.WATER) < soil.saturated(dry, gravity) < gravity * soil.WATER


@pytest.mark.parametrize(
    ("call", "error", "said"),
    [
        (lambda: filling.annulus(0.016, 0.016, 0.1), FillError, "wider than its rod"),
        (lambda: filling.poured(0.1, 1.0, 0.1), FillError, "fills the whole hole"),
        (lambda: filling.dispensed(0.02, 0.1, 1.5), FillError, "up to 100"),
        (lambda: filling.joint_rule(0.0, 0.1, 0.002, 0.01), FillError, "above nothing"),
        (lambda: filling.joint_share(1.0, 0.01), FillError, "below 100"),
        (lambda: filling.whole(1.0, 0.0), FillError, "more than nothing"),
        (lambda: soil.porosity(2700.0, 2.6), SoilError, "lighter than its grains"),
    ],
)
def test_sizes_that_cannot_be_are_refused(
    call: object, error: type[ValueError], said: str
) -> None:  # fmt: skip
    with pytest.raises(error, match=said):
        call()  # type: ignore[operator]
