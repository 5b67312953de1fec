"""Water of plants: the paper's chain of examples, traps of published filings, and the year."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine import water
from worksheets.engine.dimensions import System
from worksheets.engine.result import Impossible, Standing
from worksheets.engine.rules import rule_set
from worksheets.engine.water import Planting, Weather, week_litres
from worksheets.engine.water_told import about
from worksheets.engine.water_year import Climate, MonthNeed, Planter, month_need, season_words
from worksheets.sheets.watering import SHEET

POT = Planting(area=0.8, factor=0.5, rain_share=0.6, efficiency=0.9)
BRUSSELS = Weather(high=21.5, low=12.3, damp_most=0.84, damp_least=0.63, wind=2.078,
                   sunshine=9.25, elevation=100)  # fmt: skip


def test_evaporation_is_shown_with_one_decimal_and_the_word_about() -> None:
    """Hargreaves gives 5.0 where the paper's own route gives 4.6: no more digits are known."""
    assert about(4.9632) == "about 5.0 mm a day"
    result = SHEET.work(SHEET.recipe.typed)
    assert result.figure("et0").text == "about 5.0 mm a day"
    for row in result.grids[0].rows:
        assert re.fullmatch(r"about \d+\.\d mm a day", row[1])
    assert "30 %" in " ".join(result.assumptions)


def test_a_filing_is_never_copied_as_a_formula() -> None:
    """A filed worksheet took 0.55 of the special area; the ordinance takes 1 - 0.55 of it."""
    filed, ordinance = 35968.34, 43 * 0.62 * (0.55 * 2385 + 0.45 * 68)
    assert water.allowance(43, 0.55, 2385, 68, per=0.62) == pytest.approx(ordinance)
    assert abs(ordinance - filed) > 100


def test_brussels_on_the_sixth_of_july_step_by_step() -> None:
    """FAO paper 56, example 18: ea 1.409 kPa, Ra 41.09, Rn 13.28 MJ/m² a day, 3.9 mm."""
    assert BRUSSELS.vapour == pytest.approx(1.409, abs=0.001)
    assert water.extraterrestrial(50.8, 187) == pytest.approx(41.09, abs=0.02)
    assert water.net_radiation(BRUSSELS, 50.8, 187) == pytest.approx(13.28, abs=0.02)
    assert water.penman_monteith(BRUSSELS, 50.8, 187) == pytest.approx(3.88, abs=0.01)


def test_the_days_pressure_is_the_mean_of_both_ends_and_not_that_at_the_mean() -> None:
    mean = water.mean_vapour_pressure(24.5, 15.0)
    assert mean == pytest.approx(2.39, abs=0.002)
    assert water.vapour_pressure(19.75) < mean - 0.05


def test_beyond_the_polar_circle_and_upside_down_days_are_refused() -> None:
    with pytest.raises(ValueError, match="-66° to 66°"):
        water.extraterrestrial(67, 172)
    with pytest.raises(ValueError, match="below the lowest"):
        water.hargreaves(10, 12, 42, 172)


@given(st.floats(0, 12), st.floats(0, 12), st.floats(0, 60))
def test_a_hotter_day_never_needs_less_and_rain_never_adds(
    evaporation: float, more: float, rain: float
) -> None:
    need = week_litres(POT, evaporation, rain)
    assert 0 <= need <= week_litres(POT, evaporation + more, rain)
    assert need <= week_litres(POT, evaporation, 0)


@given(st.floats(0.1, 10), st.floats(0.1, 3))
def test_one_millimetre_on_a_square_metre_is_a_litre(evaporation: float, area: float) -> None:
    bare = Planting(area=area, factor=1.0, rain_share=0.0, efficiency=1.0)
    assert week_litres(bare, evaporation, 0) == pytest.approx(7 * evaporation * area)


@given(st.floats(-60, 60), st.integers(1, 365))
def test_the_two_half_years_mirror_each_other_across_the_equator(latitude: float, day: int) -> None:
    """Half a year on, the other half of the earth has this sun, but for the earth's distance."""
    here = water.extraterrestrial(latitude, day) / water.sun_distance(day)
    other = (day + 182) % 365 + 1
    there = water.extraterrestrial(-latitude, other) / water.sun_distance(other)
    assert here == pytest.approx(there, abs=1.6)


def test_what_misses_the_roots_is_brought_too() -> None:
    assert water.used(10, 1, 1, 0.5) == 20


def test_a_can_that_is_just_full_is_not_two() -> None:
    assert water.cans(18.0, 9.0) == 2
    assert water.cans(18.01, 9.0) == 3


def need(month: int, dry: float) -> MonthNeed:
    return MonthNeed(month=month, evaporation=1, rain=0, litres=dry, dry=dry, held=None)


@pytest.mark.parametrize(
    ("months", "words"),
    [((4, 5, 6), "April to June"), ((11, 12, 1, 2), "November to February"), ((7,), "July"),
     ((), "no month"), ((3, 6, 7), "March, June to July"),
     (tuple(range(1, 13)), "January to December")],
)  # fmt: skip
def test_the_season_runs_over_the_turn_of_the_year(months: tuple[int, ...], words: str) -> None:
    assert season_words([need(m, 1.0 if m in months else 0.0) for m in range(1, 13)]) == words


def test_a_month_of_frost_rests() -> None:
    cold = Climate(month=1, high=4.0, low=-2.0)
    pots = [Planter(name="trough", count=2, planting=POT, soil=80)]
    found = month_need(cold, pots, 42.0, soil_share=0.15, rest_below=5.0)
    assert found.rests
    assert found.dry == found.litres == 0
    assert found.evaporation > 0


def test_the_smallest_pot_decides_how_often() -> None:
    pots = [Planter(name="trough", count=1, planting=POT, soil=80),
            Planter(name="pot", count=1, planting=POT, soil=8)]  # fmt: skip
    hot = Climate(month=7, known=3.0)
    found = month_need(hot, pots, 42.0, soil_share=0.15, rest_below=5.0)
    assert found.driest == "pot"
    assert found.held == pytest.approx(1.0)
    assert found.visits == 7


JULY = {"month": "7", "et0": "3 mm/day", "rain": "0 mm"}
TUB = {"name": "Tub", "count": "1", "area": "0.8 m²", "need": "moderate"}
PLAIN = {"pot": "1", "latitude": "42°", "climate": [JULY], "planters": [TUB], "can": "9 L"}


def test_a_known_evaporation_goes_before_the_temperatures() -> None:
    result = SHEET.work(PLAIN)
    assert result.figure("et0").text == "about 3.0 mm a day"
    assert result.figure("dry").value == pytest.approx(7 * 3 * 0.5 * 0.8 / 0.85 / 1000)
    assert result.figure("cans").value == 2


def test_humidity_wind_and_sun_make_it_penman_monteith() -> None:
    row = {"month": "7", "high": "21.5 °C", "low": "12.3 °C", "rain": "0 mm"}
    more = {"month": "7", "damp_most": "84 %", "damp_least": "63 %", "wind": "2.078 m/s",
            "sunshine": "9.25"}  # fmt: skip
    typed = {**PLAIN, "climate": [row], "latitude": "50.8°", "elevation": "100 m"}
    assert SHEET.work({**typed, "more": [more]}).figure("et0").text == "about 3.8 mm a day"
    assert SHEET.work(typed).figure("et0").text == "about 4.0 mm a day"


def test_a_small_pot_in_july_is_watered_twice_a_day() -> None:
    result = SHEET.work({**PLAIN, "planters": [{**TUB, "soil": "5 L"}]})
    said = next(f for f in result.findings if "lasts only" in f.says)
    assert said.standing == Standing.NEAR
    assert "twice a day" in said.says


def test_the_care_plan_is_told_the_cans_of_each_month() -> None:
    (hand,) = SHEET.work(PLAIN, system=System.METRIC).hands
    assert "from July" in hand.text
    assert "July 2 (2 without rain)" in hand.text
    assert "9 L" in hand.text


def test_an_ordinances_share_is_held_against_the_need() -> None:
    low = {**PLAIN, "planters": [{**TUB, "need": "low"}], "allowance": "55 %"}
    assert SHEET.work(low).worst == Standing.WITHIN
    high = {**PLAIN, "planters": [{**TUB, "need": "high"}], "allowance": "55 %"}
    assert SHEET.work(high).worst == Standing.OVER


@pytest.mark.parametrize(
    ("changes", "column", "says"),
    [
        ({"climate": [JULY, JULY]}, "month", "stands here twice"),
        ({"climate": [{"month": "7", "high": "20 °C"}]}, "low", "both temperatures"),
        ({"climate": [{"month": "7", "high": "10 °C", "low": "12 °C"}]}, "low", "below the lowest"),
    ],
)
def test_a_climate_that_cannot_be_is_said(changes: dict[str, Any], column: str, says: str) -> None:
    with pytest.raises(Impossible, match=says) as wrong:
        SHEET.work({**PLAIN, **changes})
    assert (wrong.value.name, wrong.value.column) == ("climate", column)


def test_every_factor_of_plants_says_where_it_stands() -> None:
    rules = rule_set("plants", "landscape")
    assert set(rules.values) == set(rules.clauses)
    assert rules.url
