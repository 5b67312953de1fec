"""Sections: areas and masses against published tables and plain geometry."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine.dimensions import FOOT, INCH, POUND
from worksheets.engine.rules import rule_sets
from worksheets.engine.sections import (
    Section,
    SectionError,
    angle,
    corner_radius,
    flat,
    round_bar,
    round_tube,
    tube,
)

STEEL = 490 * POUND / FOOT**3
POUND_A_FOOT = POUND / FOOT
walls = st.floats(0.001, 0.006)
sides = st.floats(0.025, 0.2)

# Steel supplier's table, commercial-quality square tube: side in, wall in, lb per foot.
SUPPLIER = [
    (1, 0.1, 1.14), (1.5, 0.1, 1.82), (2, 0.125, 3.06), (2, 0.25, 5.41), (4, 0.25, 12.21),
    (4, 0.375, 17.27),
]  # fmt: skip


def square(side: float, wall: float, radius: float) -> float:
    """lb per foot of a steel tube with sizes in inches."""
    made = Section(shape="tube", width=side * INCH, wall=wall * INCH, radius=radius * INCH,
                   density=STEEL)  # fmt: skip
    return made.line_mass / POUND_A_FOOT


@pytest.mark.parametrize(("side", "wall", "published"), SUPPLIER)
def test_tube_weight_takes_the_rounded_corners_into_account(side, wall, published):
    assert square(side, wall, 2 * wall) == pytest.approx(published, abs=0.012)


@pytest.mark.parametrize(("side", "wall", "published"), SUPPLIER)
def test_tube_weight_with_sharp_corners_is_two_to_ten_per_cent_too_heavy(side, wall, published):
    assert 1.02 < square(side, wall, 0) / published < 1.11


def test_the_table_of_each_body_gives_its_own_corner():
    us, en = rule_sets("metal")["us-tables"], rule_sets("metal")["en-tables"]
    assert corner_radius(0.008, us.values["corner"]) == pytest.approx(0.016)
    assert corner_radius(0.006, en.values["corner"]) == pytest.approx(0.012)
    assert corner_radius(0.008, en.values["corner"]) == pytest.approx(0.020)
    assert corner_radius(0.012, en.values["corner"]) == pytest.approx(0.036)


@given(side=sides, wall=walls)
def test_a_tube_is_what_four_flats_and_four_corners_make(side, wall):
    """The other way round: straight sides, and a quarter ring in each corner."""
    radius = 2 * wall
    straight = 4 * (side - 2 * radius) * wall
    corners = math.pi * (radius**2 - (radius - wall) ** 2)
    assert tube(side, side, wall, radius) == pytest.approx(straight + corners, rel=1e-9)


@given(wall=walls, diameter=sides)
def test_a_round_tube_is_a_bar_less_its_bore(diameter, wall):
    bore = round_bar(diameter - 2 * wall)
    assert round_tube(diameter, wall) == pytest.approx(round_bar(diameter) - bore, rel=1e-9)


@given(one=sides, other=sides, wall=walls)
def test_an_angle_is_two_flats_that_share_a_corner(one, other, wall):
    assert angle(one, other, wall) == pytest.approx(flat(one, wall) + flat(other - wall, wall))


@pytest.mark.parametrize("wall", [0.5, 0.6])
def test_a_wall_of_half_the_side_leaves_nothing_hollow(wall):
    with pytest.raises(SectionError, match="hollow") as refused:
        tube(1.0, 2.0, wall, 0.0)
    assert refused.value.size == "wall"
    with pytest.raises(SectionError, match="hollow"):
        round_tube(1.0, wall)


def test_corners_that_meet_are_refused():
    with pytest.raises(SectionError, match="radius"):
        tube(1.0, 2.0, 0.1, 0.51)


def test_an_angle_as_thick_as_its_leg_is_refused():
    with pytest.raises(SectionError, match="thickness"):
        angle(1.0, 2.0, 1.0)


def test_aluminium_weighs_a_third_of_steel():
    metals = rule_sets("metal")["us-tables"].values
    assert metals["aluminium"] / metals["steel"] == pytest.approx(170 / 490)
