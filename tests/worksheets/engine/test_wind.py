"""Wind on a piece: the codes, statics by summing moments, and the sheet’s refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from worksheets.engine import wind
from worksheets.engine.dimensions import FOOT, GRAVITY, System
from worksheets.engine.example import RULE
from worksheets.engine.result import Impossible, Standing
from worksheets.engine.rules import rule_set, rule_sets
from worksheets.sheets.wind import SHEET

ASCE = rule_set("wind", "asce-7-16").values
EN = rule_set("wind", "en-1991-1-4").values
SITE = {"speed_from": "Map for category II", "speed": "115 mph"}
AMOUNT = st.floats(0.1, 1000)


def kz(feet: float, exposure: str = "C") -> float:
    return wind.exposure_coefficient(feet * FOOT, exposure, ASCE)


def test_below_fifteen_feet_kz_is_taken_at_fifteen_feet_and_says_so() -> None:
    assert kz(0) == kz(10) == kz(15)
    assert kz(15.1) > kz(15)
    low = SHEET.work({**SITE, "bottom": "1 ft", "height": "5 ft"})
    assert any("Kz is taken at that height" in says for says in low.assumptions)
    high = SHEET.work({**SITE, "bottom": "12 ft", "height": "5 ft"})
    assert not any("Kz is taken at that height" in says for says in high.assumptions)


def test_kz_above_the_gradient_height_is_refused_and_not_held_at_its_end() -> None:
    with pytest.raises(ValueError, match="from the ground to 274 m"):
        kz(901)


def test_below_its_least_height_the_european_code_takes_that_height() -> None:
    low = wind.gusts(26, 1.0, 0.3, EN, least=5.0)
    assert low.peak == wind.gusts(26, 5.0, 0.3, EN, least=5.0).peak


def test_the_2022_edition_is_left_to_the_engineer() -> None:
    with pytest.raises(Impossible, match="ask the engineer") as wrong:
        SHEET.work({**SITE, "code": "asce-7-22"})
    assert wrong.value.name == "code"


def test_the_code_has_to_be_chosen() -> None:
    said = SHEET.read({"code": ""}).problems["code"]
    assert said == "This is needed. Choose one of the list."


@pytest.mark.parametrize("said", ["weather report, noon", "the forecast", "a wind app"])
def test_a_weather_reports_speed_is_never_a_design_speed(said: str) -> None:
    with pytest.raises(Impossible, match="never a design speed") as wrong:
        SHEET.work({**SITE, "speed_from": said})
    assert wrong.value.name == "speed_from"


@pytest.mark.parametrize(
    ("code", "speed"), [("asce-7-10", "90 mph"), ("asce-7-16", "30 mph"), ("en-1991-1-4", "15 m/s")]
)
def test_a_speed_that_is_on_no_map_of_the_edition_is_refused_with_its_range(
    code: str, speed: str
) -> None:
    with pytest.raises(Impossible, match=r"is not on the map .* write a speed from"):
        SHEET.work({**SITE, "code": code, "speed": speed})


def test_the_2005_map_is_of_service_level_and_takes_the_importance_factor() -> None:
    typed = {**SITE, "code": "asce-7-05", "speed": "100 mph"}
    plain, raised = SHEET.work(typed), SHEET.work({**typed, "importance": "1.15"})
    assert plain.figure("service").value == plain.figure("force").value
    ratio = raised.figure("force").value / plain.figure("force").value
    assert ratio == pytest.approx(1.15)
    newer = {**typed, "code": "asce-7-16"}
    assert (
        SHEET.work({**newer, "importance": "1.15"}).figure("force").value
        == SHEET.work(newer).figure("force").value
    )


def test_us_and_european_rules_are_kept_apart() -> None:
    metric = {"speed_from": "National Annex map", "code": "en-1991-1-4", "speed": "26 m/s"}
    with pytest.raises(Impossible, match="kept apart from EN"):
        SHEET.work({**metric, "stands": "post"}, system=System.METRIC)
    by_exposure = [
        SHEET.work({**metric, "exposure": e}).figure("force").value for e in ("B", "C", "D")
    ]
    assert len(set(by_exposure)) == 1
    assert {rules.jurisdiction for rules in rule_sets("wind").values()} == {"US", "EN"}


def test_openings_ease_the_force_only_while_the_rule_for_them_holds() -> None:
    whole = SHEET.work(SITE).figure("force").value
    porous = SHEET.work({**SITE, "solidity": "70 %"}).figure("force").value
    assert porous / whole == pytest.approx(0.8357, abs=1e-4)
    with pytest.raises(Impossible, match="Below 70 % solid"):
        SHEET.work({**SITE, "solidity": "69 %"})
    with pytest.raises(Impossible, match="Below 80 % solid"):
        SHEET.work({**SITE, "code": "en-1991-1-4", "speed": "26 m/s", "solidity": "75 %"})


def test_sliding_may_be_over_where_tipping_is_within_and_both_are_said() -> None:
    typed = {**SITE, "mass": "2000 lb"}
    found = SHEET.work(typed)
    said = {f.says.split(" is ")[0]: f.standing for f in found.findings if " is w" in f.says
            or " is o" in f.says}  # fmt: skip
    assert said["Tipping"] == Standing.WITHIN
    assert said["Sliding"] == Standing.OVER
    assert found.figure("ballast").value > 0


def test_the_ballast_brings_the_worse_of_both_to_the_required_factor() -> None:
    found = SHEET.work({**SITE, "mass": "900 kg", "friction": "0.25"})
    more = 900 + found.figure("ballast").value
    after = SHEET.work({**SITE, "mass": f"{more} kg", "friction": "0.25"})
    worse = min(after.figure("by_overturning").value, after.figure("by_sliding").value)
    assert worse == pytest.approx(1.5)
    assert after.figure("ballast").value == pytest.approx(0, abs=1e-6)


def test_where_the_weight_falls_outside_the_base_no_pressure_is_given() -> None:
    found = SHEET.work({**SITE, "mass": "200 lb"})
    assert "outside the base" in found.figure("toe").text
    assert found.figure("toe").value is None


@settings(max_examples=60)
@given(AMOUNT, AMOUNT, AMOUNT, st.floats(0, 0.49))
@example(10.0, 2.0, 3.0, 0.1)
@example(10.0, 2.0, 3.0, 0.25)
@example(10.0, 2.0, 3.0, 0.4)
def test_the_pressure_below_the_base_carries_the_weight_and_its_moment(
    weight: float, width: float, length: float, off: float
) -> None:
    """Summed in strips: the pressures give back the weight, and the place where it acts."""
    e = off * width
    toe = wind.toe_pressure(weight, width, length, e)
    if e > width / 6:
        reach, heel = 3 * (width / 2 - e), 0.0
    else:
        reach, heel = width, 2 * weight / (width * length) - toe
    strips = 400
    step = reach / strips
    total = moment = 0.0
    for n in range(strips):
        at = (n + 0.5) * step  # from the toe
        force = (toe + (heel - toe) * at / reach) * step * length
        total += force
        moment += force * (width / 2 - at)
    assert total == pytest.approx(weight, rel=1e-4)
    assert moment == pytest.approx(weight * e, rel=1e-3, abs=weight * width * 1e-4)


def test_the_two_formulas_for_the_toe_meet_at_the_middle_third() -> None:
    inside = wind.toe_pressure(6.0, 3.0, 2.0, 0.5)
    outside = wind.toe_pressure(6.0, 3.0, 2.0, 0.5 + 1e-9)
    assert inside == pytest.approx(outside)
    assert math.isinf(wind.toe_pressure(6.0, 3.0, 2.0, 1.5))


@settings(max_examples=60)
@given(st.lists(st.tuples(AMOUNT, AMOUNT), min_size=1, max_size=6), AMOUNT)
def test_the_arm_gives_the_same_moment_as_every_face_by_itself(
    areas: list[tuple[float, float]], pressure: float
) -> None:
    faces = [wind.Face(area=a, centre=c) for a, c in areas]
    each = sum(pressure * a * c for a, c in areas)
    whole = pressure * sum(a for a, _ in areas) * wind.arm(faces)
    assert whole == pytest.approx(each)


@settings(max_examples=60)
@given(st.floats(10, 1e5), st.floats(0, 10), st.floats(1000, 1e5), st.floats(0.05, 3))
def test_the_post_goes_as_deep_as_the_soil_at_a_third_of_that_depth_asks(
    force: float, height: float, rate: float, width: float
) -> None:
    more = {"coefficient": 2.34, "lever": 4.36}
    depth = wind.embedment_in(force, height, rate, width, deepest=3.6576, **more)
    soil = rate * min(depth, 3.6576) / 3
    assert depth == pytest.approx(wind.embedment(force, height, soil, width, **more)[1], rel=1e-6)


def test_more_wind_never_asks_for_a_shallower_post() -> None:
    depths = [
        SHEET.work({**SITE, "stands": "post", "speed": f"{v} mph"}).figure("depth").value
        for v in (90, 120, 150)
    ]
    assert depths == sorted(depths)


def test_a_carried_panel_is_pushed_by_the_gust_of_the_day() -> None:
    typed = {**SITE, "width": "1 m", "height": "1.2 m", "carry": "15 m/s", "panel": "long"}
    found = SHEET.work({**typed, "push": "300 N"})
    assert found.figure("carry").value == pytest.approx(327.4, abs=0.1)
    assert [f.standing for f in found.findings if "Carried" in f.says] == [Standing.OVER]


def test_an_example_says_so_until_the_speeds_source_is_written() -> None:
    assert any(f.rule == RULE for f in SHEET.work({}).findings)
    assert SHEET.work({}).says.startswith("Example only")
    assert not any(f.rule == RULE for f in SHEET.work(SITE).findings)


def test_forces_on_a_wall_go_to_the_anchors() -> None:
    found = SHEET.work({**SITE, "stands": "wall"})
    assert found.worst == Standing.NOTE
    assert any("worksheet on anchors" in f.says for f in found.findings)


def test_the_weight_that_resists_is_the_mass_times_gravity() -> None:
    found = SHEET.work({**SITE, "mass": "1000 kg", "base": "2 m"})
    assert found.figure("resisting").value == pytest.approx(1000 * GRAVITY)
