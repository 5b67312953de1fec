"""Ladders, falls, dust and wind against the clauses, and the prompts of the worksheet."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from worksheets.engine import working
from worksheets.engine.dimensions import FOOT, MILE, System
from worksheets.engine.result import Impossible, Result, Standing
from worksheets.engine.rules import rule_set, rule_sets
from worksheets.sheets import sheets

US = rule_set("working", "us-osha")
EN = rule_set("working", "en-280")
TRADE = rule_set("working", "trade")
SHEET = sheets()["working"]
MPH = MILE / 3600


def says(result: Result) -> str:
    return " ".join([result.says, *(finding.says for finding in result.findings)])


def test_a_quarter_of_the_length_is_not_a_quarter_of_the_height() -> None:
    angle = working.ladder_angle(0.25)
    assert angle == pytest.approx(75.52, abs=0.01)
    assert math.degrees(math.atan(4)) == pytest.approx(75.96, abs=0.01)
    assert angle < math.degrees(math.atan(4))


def test_the_rails_end_three_feet_above_the_landing_measured_upright() -> None:
    found = working.ladder_to(14 * FOOT, 3 * FOOT, 0.25)
    assert found.top == pytest.approx(17 * FOOT)
    assert found.length > 17 * FOOT


@settings(deadline=None, max_examples=60)
@given(st.floats(0.3, 15), st.floats(0, 2), st.floats(0.1, 0.5))
def test_foot_wall_and_rails_make_a_right_triangle(
    support: float, extension: float, share: float
) -> None:
    found = working.ladder_to(support, extension, share)
    assert math.hypot(found.base, support) == pytest.approx(found.working)
    assert working.support_of(found.working, share) == pytest.approx(support)
    assert found.length / found.working == pytest.approx((support + extension) / support)


def test_a_ladder_to_no_height_is_refused() -> None:
    with pytest.raises(working.WorkingError, match="above the ground"):
        working.ladder_to(0, 1, 0.25)
    with pytest.raises(working.WorkingError, match="between 0 and 1"):
        working.ladder_angle(1.0)


def test_at_six_feet_an_open_edge_is_protected_and_at_ten_a_scaffold_is_not_yet() -> None:
    assert working.fall_protection("edge", 6 * FOOT, US)
    assert not working.fall_protection("edge", 5.9 * FOOT, US)
    assert not working.fall_protection("scaffold", 10 * FOOT, US)
    assert working.fall_protection("scaffold", 10.1 * FOOT, US)


def test_in_a_boom_everybody_is_tied_off_at_any_height() -> None:
    assert working.fall_protection("boom", 0.0, US)


def test_heights_kept_in_whole_millimetres_do_not_fail_by_rounding() -> None:
    assert working.fall_protection("edge", 1.8288 - 1e-9, US)


@settings(deadline=None, max_examples=60)
@given(st.sampled_from(["edge", "scaffold", "scissor", "boom"]), st.floats(0, 30), st.floats(0, 5))
def test_going_higher_never_takes_a_duty_away(place: str, height: float, more: float) -> None:
    if working.fall_protection(place, height, US):
        assert working.fall_protection(place, height + more, US)


def test_the_european_set_knows_wind_only_and_is_never_filled_from_the_american() -> None:
    assert working.fall_protection("edge", 30.0, EN) is None
    assert working.tips(10.0, 1.0, EN) is None
    assert set(EN.values) == {"outdoor_wind", "indoor_wind"}
    assert EN.jurisdiction != US.jurisdiction
    assert {each.jurisdiction for each in rule_sets("working").values()} == {
        "US", "Europe (CEN)", "any",
    }  # fmt: skip


def test_a_drill_in_brick_wants_shroud_and_vacuum_but_none_in_wood() -> None:
    bare = {"shroud": False, "vacuum": False}
    assert working.dust("hammer_drill", "brick", bare, US).missing == ("shroud", "vacuum")
    assert not working.dust("hammer_drill", "wood", bare, US).silica


def test_a_grinder_has_a_row_of_its_own_that_is_not_guessed() -> None:
    found = working.dust("other", "concrete", {"shroud": True, "vacuum": True}, US)
    assert found.silica and not found.known


def test_wind_grows_with_height_by_half_at_most() -> None:
    assert working.wind_aloft(10, 0, TRADE) == 10
    assert working.wind_aloft(10, 10, TRADE) == pytest.approx(12.5)
    assert working.wind_aloft(10, 80, TRADE) == pytest.approx(15)


# The worksheet.


def test_a_platform_without_its_plate_is_refused_beside_that_field() -> None:
    with pytest.raises(Impossible, match="plate") as caught:
        SHEET.work({"place": "boom", "held": "tied"})
    assert caught.value.name == "plate"


def test_a_gust_over_the_plate_stops_the_work() -> None:
    typed = {"place": "boom", "held": "tied", "plate": "28 mph"}
    assert not SHEET.work(typed | {"gust": "20 mph"}).says.startswith("Stop")
    over = SHEET.work(typed | {"gust": "29 mph"})
    assert over.says.startswith("Stop") and over.worst == Standing.OVER


def test_a_gust_from_a_forecast_is_raised_before_it_meets_the_plate() -> None:
    typed = {"place": "boom", "held": "tied", "plate": "28 mph", "gust": "20 mph",
             "height": "20 m"}  # fmt: skip
    assert not SHEET.work(typed).says.startswith("Stop")
    aloft = SHEET.work(typed | {"gust_from": "forecast"})
    assert aloft.says.startswith("Stop")
    assert aloft.figure("gust").value == pytest.approx(30 * MPH)


def test_a_platform_for_indoors_stands_no_wind_at_all() -> None:
    typed = {"place": "scissor", "indoor": "yes", "gust": "0 mph"}
    assert "indoors only" in says(SHEET.work(typed))
    assert SHEET.work(typed).says.startswith("Stop")


def test_guard_rails_do_not_stand_in_for_the_harness_in_a_boom() -> None:
    typed = {"place": "boom", "plate": "28 mph", "height": "4 ft"}
    assert SHEET.work(typed | {"held": "rails"}).says.startswith("Stop")
    assert not SHEET.work(typed | {"held": "tied"}).says.startswith("Stop")


def test_a_hoisted_platform_has_a_limit_besides_its_plate() -> None:
    typed = {"place": "hoisted", "held": "tied", "plate": "30 mph"}
    assert SHEET.work(typed | {"gust": "21 mph"}).says.startswith("Stop")
    assert not SHEET.work(typed | {"gust": "19 mph"}).says.startswith("Stop")


def test_carried_panels_lower_the_wind_at_which_work_stops() -> None:
    assert not SHEET.work({"gust": "35 mph"}).says.startswith("Stop")
    assert SHEET.work({"gust": "35 mph", "sheets": "yes"}).says.startswith("Stop")


def test_drilling_brick_without_a_shroud_stops() -> None:
    assert "shroud" in says(SHEET.work({"tool": "hammer_drill"}))
    both = {"tool": "hammer_drill", "shroud": "yes", "vacuum": "yes"}
    assert "no respirator" in says(SHEET.work(both))


def test_a_ladder_shorter_than_needed_stops() -> None:
    assert "too short" in says(SHEET.work({"landing": "14 ft", "owned": "16 ft"}))
    assert "too short" not in says(SHEET.work({"landing": "14 ft", "owned": "18 ft"}))


def test_rails_that_end_at_the_landing_stop() -> None:
    assert SHEET.work({"extension": "1 ft"}).says.startswith("Stop")


def test_a_tall_narrow_scaffold_is_held() -> None:
    typed = {"place": "scaffold", "height": "21 ft"}
    assert "can tip" in says(SHEET.work(typed | {"scaffold_base": "5 ft"}))
    assert "can tip" not in says(SHEET.work(typed | {"scaffold_base": "6 ft"}))


def test_under_the_european_set_no_american_clause_is_named() -> None:
    typed = {"rules": "en-280", "place": "boom", "held": "none", "plate": "12.5 m/s",
             "tool": "hammer_drill"}  # fmt: skip
    result = SHEET.work(typed, system=System.METRIC)
    rules = " ".join(finding.rule for finding in result.findings)
    assert "CFR" not in rules and "EN 280" in rules
    assert "the rules of your country apply" in says(result)


def test_air_without_humidity_asks_for_it() -> None:
    with pytest.raises(Impossible, match="humidity"):
        SHEET.work({"air": "90 °F"})


def test_heat_of_the_danger_band_stops() -> None:
    hot = SHEET.work({"air": "96 °F", "humidity": "60 %"})
    assert hot.says.startswith("Stop") and "full sun can add 15" in says(hot)


def test_every_prompt_stands_in_the_method_statement_with_its_clause() -> None:
    result = SHEET.work({"tool": "hammer_drill", "air": "96 °F", "humidity": "60 %"})
    method = result.grids[0]
    assert len(method.rows) == len(result.findings)
    rules = [finding.rule for finding in result.findings]
    assert all(rule and rule in row[0] for rule, row in zip(rules, method.rows, strict=True))


def test_nothing_to_stop_still_leaves_the_decision_on_site() -> None:
    result = SHEET.work({})
    assert "competent person on site decides" in result.says
    assert "safe" not in says(result).lower()


def test_the_drawing_shows_foot_and_rails() -> None:
    svg = SHEET.work({}).pictures[0].svg
    assert "Foot out" in svg and "Rails 3 ft above" in svg and "10 ft" in svg
