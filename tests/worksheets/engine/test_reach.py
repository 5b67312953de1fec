"""Reach, projection, head room, clear width and floor space, against the rule tables."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine import reach
from worksheets.engine.dimensions import INCH, POUND_FORCE
from worksheets.engine.rules import rule_set, rule_sets

US = rule_set("reach", "us-2010")
EUROPE = rule_set("reach", "iso-21542")
GROUPS = (reach.ADULT, "3-4", "5-8", "9-12")
heights = st.floats(0, 5)
depths = st.floats(0, 1)


def test_a_standing_height_out_of_a_seated_reach_is_high() -> None:
    assert reach.reach(US, reach.ADULT, 54 * INCH).fault == "high"


def test_below_the_low_reach_is_low() -> None:
    assert reach.reach(US, reach.ADULT, 14 * INCH).fault == "low"


def test_a_limit_itself_is_within_reach_at_both_ends() -> None:
    assert reach.reach(US, reach.ADULT, 48 * INCH).ok
    assert reach.reach(US, reach.ADULT, 15 * INCH).ok


def test_sizes_kept_in_whole_millimetres_do_not_fail_by_rounding() -> None:
    assert reach.reach(US, reach.ADULT, 0.381).ok
    assert reach.sticks_out(US, 0.686, 0.5).ok  # 27 in is kept as 686 mm
    assert not reach.sticks_out(US, 0.687, 0.5).ok


def test_forward_over_more_than_twenty_inches_the_limit_falls_to_44() -> None:
    assert reach.reach(US, reach.ADULT, 46 * INCH, depth=20 * INCH).ok
    found = reach.reach(US, reach.ADULT, 46 * INCH, depth=21 * INCH)
    assert found.fault == "high" and found.most == pytest.approx(44 * INCH)
    assert "308.2.2" in found.clause


def test_nobody_reaches_forward_over_more_than_25_inches() -> None:
    assert reach.reach(US, reach.ADULT, 40 * INCH, depth=26 * INCH).fault == "deep"


def test_a_side_reach_over_a_counter_taller_than_34_inches_is_refused() -> None:
    more = {"approach": "side", "depth": 12 * INCH}
    assert reach.reach(US, reach.ADULT, 45 * INCH, obstruction=34 * INCH, **more).ok
    tall = reach.reach(US, reach.ADULT, 45 * INCH, obstruction=35 * INCH, **more)
    assert tall.fault == "obstruction"


def test_an_obstruction_without_depth_is_not_reached_over() -> None:
    assert reach.reach(US, reach.ADULT, 1.0, approach="side", obstruction=1.2).ok


def test_a_small_child_reaches_neither_as_high_nor_as_low_as_an_adult() -> None:
    assert reach.reach(US, "3-4", 37 * INCH).fault == "high"
    assert reach.reach(US, "3-4", 19 * INCH).fault == "low"
    assert reach.reach(US, "9-12", 44 * INCH).ok


def test_one_thing_for_everybody_hangs_between_20_and_36_inches() -> None:
    low, high = reach.common_band(US, GROUPS) or (0, 0)
    assert (low / INCH, high / INCH) == (pytest.approx(20), pytest.approx(36))


def test_where_reaching_is_too_deep_no_height_serves() -> None:
    assert reach.common_band(US, GROUPS, depth=0.7) is None


def test_the_european_set_gives_no_reach_for_children() -> None:
    with pytest.raises(reach.ReachError, match="ages 5-8"):
        reach.reach(EUROPE, "5-8", 1.0)


def test_the_two_jurisdictions_are_kept_apart() -> None:
    at = 48 * INCH
    assert reach.reach(US, reach.ADULT, at).ok
    assert not reach.reach(EUROPE, reach.ADULT, at).ok
    assert not set(US.clauses.values()) & set(EUROPE.clauses.values())


def test_every_clause_of_the_european_set_says_that_it_is_from_memory() -> None:
    assert EUROPE.status == "from memory"
    assert all("memory" in says or "no figure" in says for says in EUROPE.clauses.values())


def test_a_limit_names_its_section() -> None:
    assert all("ADA Standards" in says for says in US.clauses.values())


def test_a_cane_finds_an_edge_at_27_inches_but_not_above() -> None:
    assert reach.sticks_out(US, 27 * INCH, 1.0).ok
    assert reach.sticks_out(US, 28 * INCH, 5 * INCH).fault == "sticks"
    assert reach.sticks_out(US, 28 * INCH, 4 * INCH).ok


def test_at_80_inches_a_thing_may_still_be_walked_into_and_above_it_may_not() -> None:
    assert not reach.sticks_out(US, 80 * INCH, 0.5).ok
    assert reach.sticks_out(US, 80.1 * INCH, 0.5).ok


def test_on_a_post_a_thing_may_stick_out_12_inches() -> None:
    assert reach.sticks_out(US, 1.0, 12 * INCH, post=True).ok
    assert not reach.sticks_out(US, 1.0, 13 * INCH, post=True).ok
    assert "307.3" in reach.sticks_out(US, 1.0, 0.1, post=True).clause


def test_head_room_below_80_inches_needs_a_barrier_that_a_cane_finds() -> None:
    assert reach.head_room(US, 79 * INCH).fault == "head"
    assert reach.head_room(US, 79 * INCH, barrier=27 * INCH).ok
    assert reach.head_room(US, 79 * INCH, barrier=30 * INCH).fault == "head"


def test_what_stands_on_the_verge_takes_nothing_from_the_path() -> None:
    assert reach.path_left(2.0, begins=1.2, out=1.2) == 2.0
    assert reach.path_left(2.0, begins=1.2, out=1.5) == pytest.approx(1.7)
    assert reach.path_left(1.0, begins=0.0, out=3.0) == 0.0


def test_a_path_may_be_32_inches_wide_for_no_more_than_24() -> None:
    assert reach.clear_width(US, 33 * INCH, along=24 * INCH).ok
    assert not reach.clear_width(US, 33 * INCH, along=25 * INCH).ok
    assert not reach.clear_width(US, 33 * INCH).ok


def test_an_alcove_deeper_than_24_inches_is_36_wide_for_going_in_forward() -> None:
    wide, _ = reach.floor_space(US, 32 * INCH, 48 * INCH, alcove=26 * INCH)
    assert wide.fault == "narrow"
    wide, long = reach.floor_space(US, 32 * INCH, 48 * INCH, alcove=24 * INCH)
    assert wide.ok and long.ok


def test_an_alcove_deeper_than_15_inches_is_60_wide_for_coming_alongside() -> None:
    wide, _ = reach.floor_space(US, 59 * INCH, 30 * INCH, approach="side", alcove=16 * INCH)
    assert wide.least == pytest.approx(60 * INCH) and not wide.ok
    wide, _ = reach.floor_space(US, 48 * INCH, 30 * INCH, approach="side", alcove=15 * INCH)
    assert wide.ok


def test_coming_alongside_the_length_of_the_chair_lies_along_the_wall() -> None:
    sides = reach.floor_space(US, 48 * INCH, 30 * INCH, approach="side")
    assert all(side.ok for side in sides)
    assert not all(side.ok for side in reach.floor_space(US, 48 * INCH, 30 * INCH))


def test_knees_need_27_inches_below_and_toes_17_deep() -> None:
    below = reach.room_below(US, 27 * INCH, 17 * INCH, 30 * INCH)
    assert all(each.ok for each in below)
    assert not all(j.ok for j in reach.room_below(US, 26 * INCH, 17 * INCH, 30 * INCH))
    deep = reach.room_below(US, 27 * INCH, 17 * INCH, 30 * INCH, needed=20 * INCH)
    assert [each.fault for each in deep] == ["", "short", ""]


def test_room_below_counts_no_deeper_than_25_inches() -> None:
    below = reach.room_below(US, 0.7, 3.0, 1.0)
    assert below[1].value == pytest.approx(25 * INCH)


def test_five_pounds_of_force_is_within_and_more_is_not() -> None:
    assert reach.operable(US, 5 * POUND_FORCE).ok  # type: ignore[union-attr]
    assert reach.operable(US, 22.4).fault == "hard"  # type: ignore[union-attr]
    assert reach.operable(EUROPE, 5) is None


@pytest.mark.parametrize("value", [-0.1, float("nan"), float("inf"), 1000])
def test_a_length_out_of_range_is_refused_with_the_range(value: float) -> None:
    with pytest.raises(reach.ReachError, match="0 to 1000"):
        reach.reach(US, reach.ADULT, value)
    with pytest.raises(reach.ReachError, match="0 to 1000"):
        reach.sticks_out(US, value, 0.1)


@given(heights, st.sampled_from(GROUPS), depths, st.sampled_from(["forward", "side"]))
def test_a_height_is_reached_exactly_when_it_lies_in_the_band(
    height: float, who: str, depth: float, approach: str
) -> None:
    found = reach.reach(US, who, height, approach=approach, depth=depth)
    low, high = reach.band(US, who, approach, depth)
    if high is None:
        assert found.fault == "deep"
    else:
        assert found.ok == (low - height <= 0.000501 and height - high <= 0.000501)


@given(depths, depths, st.sampled_from(["forward", "side"]))
def test_reaching_deeper_never_reaches_higher(one: float, other: float, approach: str) -> None:
    near, far = sorted((one, other))
    highs = [reach.band(US, reach.ADULT, approach, at)[1] or 0.0 for at in (near, far)]
    assert highs[1] <= highs[0]


@given(st.lists(st.sampled_from(GROUPS), min_size=1, unique=True), heights)
def test_what_all_reach_each_of_them_reaches(groups: list[str], height: float) -> None:
    found = reach.common_band(US, groups)
    each = [reach.band(US, who) for who in groups]
    shared = all(low <= height <= (high or 0) for low, high in each)
    assert shared == (found is not None and found[0] <= height <= found[1])


@given(heights, st.floats(0, 2), st.floats(0, 2))
def test_sticking_out_less_is_never_worse(edge: float, one: float, other: float) -> None:
    less, more = sorted((one, other))
    if reach.sticks_out(US, edge, more).ok:
        assert reach.sticks_out(US, edge, less).ok


@given(st.floats(0, 5), st.floats(0, 3), st.floats(0, 5))
def test_a_path_is_never_left_wider_than_it_is(width: float, begins: float, out: float) -> None:
    assert 0 <= reach.path_left(width, begins, out) <= width


def test_every_set_has_the_same_questions() -> None:
    first, *others = rule_sets("reach").values()
    for other in others:
        assert set(other.values) == set(first.values)
        assert set(other.clauses) == set(first.clauses)
