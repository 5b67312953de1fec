"""Cut panels, cloth to buy, thread."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine.dimensions import YARD
from worksheets.engine.sewing import (
    Allowances,
    PatternError,
    fewest_columns,
    metres,
    patterns,
    thread,
    to_buy,
    yards,
)
from worksheets.engine.skin import Ring, chord, skin

LANTERN = skin(6, [Ring(0.25, 1.52), Ring(0.61, 1.12), Ring(0.61, 0.4), Ring(0.35, 0.0)])
SHARES = Allowances(seam=0.015, overlap=0.01, top=0.05, bottom=0.04)


def test_hems_are_only_at_the_top_and_the_bottom_and_overlaps_between():
    found = patterns(LANTERN, SHARES)
    told = [(each.allowances["top"], each.allowances["bottom"]) for each in found]
    assert told == [(0.05, 0.01), (0.01, 0.01), (0.01, 0.04)]
    assert all(each.allowances["side"] == 0.015 for each in found)
    assert [each.letter for each in found] == ["A", "B", "C"]


def test_a_single_ring_of_panels_has_both_hems():
    only = patterns(skin(6, [Ring(0.3, 1.0), Ring(0.5, 0.0)]), SHARES)[0]
    assert (only.allowances["top"], only.allowances["bottom"]) == (0.05, 0.04)


def test_the_cut_panel_is_higher_by_its_hems_and_wider_by_its_seams():
    middle = patterns(LANTERN, SHARES)[1]
    assert middle.cut.size[0] == pytest.approx(0.61 + 0.03)
    assert middle.cut.size[1] == pytest.approx(0.72 + 0.02)


@given(st.floats(0.0, 1.2), st.floats(0.0, 1.2), st.floats(0.2, 2.0), st.integers(3, 12))
def test_the_trapezoid_to_lay_holds_the_whole_cut_panel(upper, lower, drop, count):
    if max(upper, lower) < 0.1:
        return
    try:
        each = patterns(skin(count, [Ring(upper, drop), Ring(lower, 0.0)]), SHARES)[0]
    except PatternError:
        return
    shape = each.shape()
    low = min(y for _, y in each.cut.points)
    for x, y in each.cut.points:
        share = (y - low) / shape.height
        half = (shape.bottom + (shape.top - shape.bottom) * share) / 2
        assert abs(x) <= half + 1e-9
    assert shape.area >= each.cut.area - 1e-9


def test_cloth_that_is_pulled_taut_is_cut_smaller_by_its_share():
    plain, taut = patterns(LANTERN, SHARES)[1], patterns(LANTERN, SHARES, 0.02)[1]
    assert taut.panel.slant == pytest.approx(plain.panel.slant * 0.98)
    assert taut.allowances == plain.allowances


def test_a_hem_too_deep_for_its_panel_is_named_with_its_panel():
    deep = Allowances(seam=0.0, overlap=0.0, top=0.4, bottom=0.0)
    with pytest.raises(PatternError) as caught:
        patterns(LANTERN, deep)
    assert (caught.value.number, caught.value.edge) == (0, "top")
    assert "panel A" in str(caught.value)


def test_a_point_keeps_room_for_its_seams_and_is_cut_off():
    spire = skin(12, [Ring(0.0, 2.0), Ring(0.5, 0.0)])
    each = patterns(spire, SHARES)[0]
    assert each.cut.bevelled == (2,)
    assert each.shape().top == pytest.approx(2 * max(x for x, y in each.cut.points if y > 2.0))


def test_cloth_that_shrinks_is_divided_by_what_is_left():
    assert to_buy(9.0, repeat=0.0, panels=1, shrink=0.1, spare=0.0) == pytest.approx(10.0)


def test_a_repeat_is_added_for_each_panel_and_spare_on_top():
    assert to_buy(4.0, repeat=0.5, panels=6, shrink=0.0, spare=0.1) == pytest.approx(7.7)


@pytest.mark.parametrize(
    ("inches", "found"), [(144, 4.0), (144.01, 4.125), (4.5, 0.125), (4.6, 0.25), (0, 0)]
)
def test_yards_go_up_to_the_next_eighth(inches, found):
    assert yards(inches * YARD / 36) == found


def test_metres_go_up_to_the_next_tenth():
    assert [metres(each) for each in (5.54, 5.5, 0.01)] == [5.6, 5.5, 0.1]
    assert metres(0.1 + 0.2) == 0.3  # a hair over, by the way numbers are kept


def test_thread_grows_with_rows_of_stitching_and_waste():
    assert thread(10, 2, per_seam=2.5, spare=0.15) == pytest.approx(57.5)


def test_the_fewest_columns_that_fit_are_the_fewest():
    count = fewest_columns([0.4, 1.5], 0.05, 1.2)
    assert chord(1.5, count) + 0.05 <= 1.2 < chord(1.5, count - 1) + 0.05
    assert fewest_columns([1000.0], 0.05, 1.0, most=20) == 0
    assert math.isfinite(count)
