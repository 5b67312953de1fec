"""The heat index with its adjustments, its bands, and the wet bulb globe temperature."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from worksheets.engine import heat
from worksheets.engine.result import Impossible, Standing
from worksheets.engine.rules import rule_set
from worksheets.sheets import sheets

NWS, OTM = rule_set("heat", "us-nws"), rule_set("heat", "us-otm")
SHEET = sheets()["heat"]


def index(air: float, humidity: float) -> float:
    return heat.fahrenheit(heat.heat_index(heat.celsius(air), humidity / 100))


def test_old_printed_charts_lack_the_two_adjustments_of_the_heat_index() -> None:
    """Chart 100 at 84 °F and 95 %, and 87 at 80 °F and 100 %; the present method has more."""
    assert index(84, 95) == pytest.approx(100.9, abs=0.05)
    assert index(80, 100) == pytest.approx(89.3, abs=0.05)
    assert heat.regression(84, 95) == pytest.approx(100.3, abs=0.05)
    assert heat.regression(80, 100) == pytest.approx(87, abs=0.8)
    assert index(100, 10) == pytest.approx(94.12, abs=0.02)


@settings(deadline=None, max_examples=60)
@given(st.floats(80, 110), st.floats(13, 85))
def test_between_the_two_adjustments_the_chart_holds(air: float, damp: float) -> None:
    assert heat.adjustment(air, damp) == 0


@settings(deadline=None, max_examples=60)
@given(st.floats(80, 112), st.floats(0, 12.9))
def test_dry_air_only_ever_takes_off(air: float, damp: float) -> None:
    assert heat.adjustment(air, damp) <= 0


@settings(deadline=None, max_examples=60)
@given(st.floats(80, 87), st.floats(85.1, 100))
def test_damp_air_only_ever_adds(air: float, damp: float) -> None:
    assert heat.adjustment(air, damp) >= 0


def test_below_eighty_the_simple_value_is_taken() -> None:
    assert index(70, 50) == pytest.approx((0.5 * (70 + 61 + 2.4 + 4.7) + 70) / 2)


@settings(deadline=None, max_examples=60)
@given(st.floats(85, 110), st.floats(0.45, 0.8), st.floats(0.01, 0.05))
def test_damper_air_feels_hotter(air: float, damp: float, more: float) -> None:
    warm = heat.celsius(air)
    assert heat.heat_index(warm, damp + more) > heat.heat_index(warm, damp)


def test_out_of_range_says_the_range() -> None:
    with pytest.raises(heat.HeatError, match="50 to 125"):
        heat.heat_index(60.0, 0.5)
    with pytest.raises(heat.HeatError, match="0 to 100 %"):
        heat.heat_index(30.0, 1.5)


def test_a_band_begins_at_its_own_temperature() -> None:
    assert heat.band(heat.celsius(79.9), NWS) is None
    named = {80: "Caution", 90: "Extreme caution", 105: "Danger", 130: "Extreme danger"}
    for start, name in named.items():
        found = heat.band(heat.celsius(start), NWS)
        assert found is not None and found[0] == name


def test_the_globe_weighs_a_fifth_and_the_wet_bulb_seven_tenths() -> None:
    weights = OTM.values["weights"]
    assert sum(weights) == pytest.approx(1)
    assert heat.wbgt_outdoor(22, 35, 28, weights) == pytest.approx(25.2)


def test_harder_work_and_newcomers_are_allowed_less() -> None:
    for key in ("used", "new"):
        for row in OTM.values[key]:
            told = [limit for limit in row if limit is not None]
            assert told == sorted(told, reverse=True)
    pairs = zip(OTM.values["used"], OTM.values["new"], strict=True)
    both = [(u, n) for used, new in pairs for u, n in zip(used, new, strict=True) if u]
    assert all(used > new for used, new in both)


def test_less_work_in_the_hour_is_allowed_in_more_heat() -> None:
    for key in ("used", "new"):
        for column in zip(*OTM.values[key], strict=True):
            told = [limit for limit in column if limit is not None]
            assert told == sorted(told)


def test_the_table_gives_the_largest_share_that_is_not_passed() -> None:
    table, names = OTM.values["used"], OTM.values["work"]
    assert heat.work_allowed(28.0, "moderate", table, names) == 0
    assert heat.work_allowed(28.1, "moderate", table, names) == 1
    assert heat.work_allowed(27.0, "heavy", table, names) == 1
    assert heat.work_allowed(33.0, "light", table, names) is None


# The worksheet.


def test_full_sun_adds_fifteen_degrees_fahrenheit() -> None:
    shade = SHEET.work({"air": "88 °F", "humidity": "60 %"})
    sun = SHEET.work({"air": "88 °F", "humidity": "60 %", "sun": "yes"})
    assert sun.figure("sun").value == pytest.approx(shade.figure("index").value + 15 * 5 / 9)
    assert shade.worst == Standing.NEAR and sun.worst == Standing.OVER


def test_two_of_three_thermometers_ask_for_the_third() -> None:
    with pytest.raises(Impossible, match="All three") as caught:
        SHEET.work({"wet": "25 °C", "dry": "30 °C"})
    assert caught.value.name == "globe"


def test_a_wet_bulb_warmer_than_all_else_is_refused() -> None:
    with pytest.raises(Impossible, match="wet bulb"):
        SHEET.work({"wet": "40 °C", "globe": "35 °C", "dry": "30 °C"})


def test_the_wbgt_is_shown_with_its_whole_table() -> None:
    result = SHEET.work({"wet": "22 °C", "globe": "35 °C", "dry": "28 °C", "used": "used"})
    assert result.figure("wbgt").value == pytest.approx(25.2)
    assert len(result.grids[0].rows) == 4 and len(result.grids[0].rows[0]) == 5
    assert any("75 to 100 %" in finding.says for finding in result.findings)


def test_too_hot_for_any_work_stops() -> None:
    result = SHEET.work({"wet": "32 °C", "globe": "45 °C", "dry": "36 °C"})
    assert any(finding.says.startswith("Stop: at") for finding in result.findings)


def test_below_the_first_band_it_says_so() -> None:
    assert "below the bands" in SHEET.work({"air": "68 °F", "humidity": "50 %"}).says
