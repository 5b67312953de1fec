"""Energy, battery, panel, crank and wire, against a battery that is run night by night."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from worksheets.engine import lights
from worksheets.engine.dimensions import FOOT
from worksheets.engine.result import Impossible, Result, Standing, ToLine
from worksheets.engine.rules import rule_set
from worksheets.sheets import sheets

SHEET = sheets()["lights"]
COPPER = rule_set("wires", "copper").values
ROWS = rule_set("wires", "awg-75").values["ohm_per_kft"]
KFT = 1000 * FOOT
needs = st.floats(1, 2000)
shares = st.floats(0.1, 1)


def says(result: Result) -> str:
    return " ".join([result.says, *(finding.says for finding in result.findings)])


def nights_until_the_floor(room: float, floor: float, need: float, keeps: float) -> int:
    """A battery run night by night, with no charge: whole nights it lasts."""
    held, nights = room, 0
    while held - need / keeps >= floor - 1e-9 * room:
        held, nights = held - need / keeps, nights + 1
    return nights


@settings(deadline=None, max_examples=60)
@given(needs, st.integers(1, 30), shares, shares)
def test_a_battery_lasts_the_days_it_was_sized_for_and_no_more(
    need: float, days: int, depth: float, keeps: float
) -> None:
    bank = lights.battery(need, days, depth, 12.0, keeps)
    assert nights_until_the_floor(bank.room, bank.room * (1 - depth), need, keeps) == days
    assert lights.days_held(bank.room, depth, keeps, need) == pytest.approx(days)


@settings(deadline=None, max_examples=60)
@given(needs, st.integers(1, 10), shares, shares)
def test_what_is_kept_back_falls_to_the_floor_and_not_below(
    need: float, days: int, depth: float, keeps: float
) -> None:
    bank = lights.battery(need, days, depth, 12.0, keeps)
    left = lights.kept_back(bank.room, depth, need, keeps, days + 3)
    assert list(left) == sorted(left, reverse=True)
    assert left[days - 1] == pytest.approx(bank.room * (1 - depth))
    assert min(left) >= bank.room * (1 - depth) - 1e-9 * bank.room


@settings(deadline=None, max_examples=60)
@given(needs, st.floats(0.5, 8), shares)
def test_a_panel_brings_in_a_day_what_a_night_takes(need: float, sun: float, keeps: float) -> None:
    assert lights.array(need, sun, keeps) * sun * keeps == pytest.approx(need)


@settings(deadline=None, max_examples=60)
@given(needs, st.floats(5, 100), shares)
def test_turning_brings_what_a_night_takes(need: float, arm: float, keeps: float) -> None:
    assert lights.crank_hours(need, arm, keeps) * arm * keeps == pytest.approx(need)


@settings(deadline=None, max_examples=60)
@given(st.floats(0.01, 20), st.floats(1, 100), st.floats(1e-4, 0.05), st.floats(5, 48))
def test_the_current_runs_out_and_back(
    current: float, length: float, ohm: float, supply: float
) -> None:
    """Each metre of each of two wires by Ohm’s law, added up."""
    pieces = 50
    walked = sum(current * ohm * length / pieces for _ in range(2 * pieces))
    assert lights.drop(current, length, ohm, supply).volts == pytest.approx(walked)


def test_cold_copper_loses_less_than_the_table_for_75_degrees() -> None:
    """12 AWG, 3.31 mm²: the table’s 1.93 ohm/kft at 75 °C against IACS copper at 20 °C."""
    cold = lights.resistance_of(3.31e-6, COPPER["resistivity"])
    table = ROWS["12"]["solid"] / KFT
    assert 1 - cold / table == pytest.approx(0.18, abs=0.01)
    warm = lights.resistance_of(
        3.31e-6, COPPER["resistivity"], at=COPPER["at"], now=75.0, growth=COPPER["growth"]
    )
    assert warm == pytest.approx(table, rel=0.01)


def test_solid_and_stranded_wire_are_two_rows_two_or_three_per_cent_apart() -> None:
    pairs = [row for row in ROWS.values() if "solid" in row]
    assert len(pairs) == 6
    for row in pairs:
        assert 1.015 < row["stranded"] / row["solid"] < 1.03


def test_each_gauge_up_has_less_resistance() -> None:
    told = [row["stranded"] for row in ROWS.values()]
    assert told == sorted(told, reverse=True)
    for row, smaller in pairwise(told):
        assert row / smaller == pytest.approx(1.59, abs=0.03)  # two gauges, 2^(2/3)


def test_the_longest_night_is_twelve_hours_at_the_equator_and_longer_poleward() -> None:
    assert lights.longest_night(0) == pytest.approx(11.87, abs=0.03)  # refraction shortens it
    told = [lights.longest_night(place) for place in range(0, 90, 5)]
    assert told == sorted(told) and told[-1] == 24
    assert lights.longest_night(-42) == lights.longest_night(42)


def test_the_longest_night_agrees_with_a_library_of_the_sun() -> None:
    import pandas
    import pvlib

    day = pandas.DatetimeIndex(["2031-12-21"], tz="Etc/GMT+5")
    found = pvlib.solarposition.sun_rise_set_transit_spa(day, 42.0, -72.5)
    lit = (found["sunset"] - found["sunrise"]).iloc[0].total_seconds() / 3600 % 24
    assert lights.longest_night(42.0) == pytest.approx(24 - lit, abs=0.05)


def test_what_cannot_be_is_refused_with_its_range() -> None:
    for words, call in {
        "at most 100 %": lambda: lights.battery(100, 3, 1.2, 12),
        "more than 0": lambda: lights.battery(100, 3, 0.5, 0),
        "1 or more": lambda: lights.energy([(1, 1)], 0.9),
        "-90": lambda: lights.longest_night(95),
        "0 or more": lambda: lights.drop(-1, 1, 1, 12),
    }.items():
        with pytest.raises(lights.LightsError, match=words):
            call()


# The worksheet.

CRANK = {"charge": "crank", "visitors": "40", "turning": "1 min"}


def test_half_of_a_lead_battery_is_kept_back() -> None:
    lithium, lead = (SHEET.work({"battery": kind}) for kind in ("lithium", "lead"))
    assert lead.figure("charge").value == pytest.approx(lithium.figure("charge").value * 0.8 / 0.5)


def test_three_days_and_not_as_many_seconds() -> None:
    result = SHEET.work({})
    room = result.figure("room").value / 3600
    assert room == pytest.approx(10 * 1.1 * 3 / (0.8 * 0.97))
    assert "3 days" in result.says


def test_hours_left_empty_are_the_longest_night_of_the_site() -> None:
    loads = [{"name": "Strip", "watts": "10 W", "count": "2", "hours": ""}]
    result = SHEET.work({"loads": loads})
    assert result.figure("used").value / 3600 == pytest.approx(20 * lights.longest_night(42))
    typed = SHEET.work({"loads": loads, "night": "10 h"})
    assert typed.figure("used").value / 3600 == pytest.approx(200)


def test_without_night_and_latitude_the_night_is_asked_for() -> None:
    with pytest.raises(Impossible, match="longest night"):
        SHEET.work({"latitude": ""})


def test_a_day_has_24_hours() -> None:
    loads = [{"watts": "1 W", "count": "1", "hours": "1 d"}]
    assert SHEET.work({"loads": loads}).figures
    with pytest.raises(ValueError, match="24 h"):
        SHEET.work({"loads": [{"watts": "1 W", "count": "1", "hours": "25 h"}]})


def test_forty_visitors_turn_enough_and_ten_do_not() -> None:
    assert "Your visitors bring" in says(SHEET.work(CRANK))
    assert SHEET.work(CRANK).worst != Standing.OVER
    few = SHEET.work(CRANK | {"visitors": "10"})
    assert few.worst == Standing.OVER


def test_one_visitor_who_turns_for_the_time_named_brings_just_enough() -> None:
    minutes = SHEET.work(CRANK).figure("turning").value * 60
    alone = CRANK | {"visitors": "1"}
    assert SHEET.work(alone | {"turning": f"{minutes * 1.001} min"}).worst != Standing.OVER
    assert SHEET.work(alone | {"turning": f"{minutes * 0.999} min"}).worst == Standing.OVER


def test_visitors_without_minutes_ask_for_them() -> None:
    with pytest.raises(Impossible) as caught:
        SHEET.work({"charge": "crank", "visitors": "40"})
    assert caught.value.name == "turning"


def test_a_minute_of_turning_gives_as_much_light_as_the_balance_says() -> None:
    result = SHEET.work(CRANK)
    lit = result.figure("ratio").value * result.figure("turning").value
    assert lit == pytest.approx(5)  # hours of light a night


def test_what_a_panel_brings_is_held_against_the_night() -> None:
    need = SHEET.work({}).figure("panel").value
    assert SHEET.work({"panel": f"{need * 1.01} W"}).worst != Standing.OVER
    assert SHEET.work({"panel": f"{need * 0.99} W"}).worst == Standing.OVER


def test_three_and_five_per_cent_are_advice_and_said_so() -> None:
    typed = {"gauge": "18", "current": "1 A"}
    told = []
    for length in ("20 ft", "28 ft", "60 ft"):
        finding = next(f for f in SHEET.work({**typed, "run": length}).findings if "NEC" in f.rule)
        told.append(finding.standing)
        assert "advice" in finding.rule
    assert told == [Standing.WITHIN, Standing.NEAR, Standing.OVER]


def test_drop_is_not_ampacity_is_always_said() -> None:
    assert "Drop is not ampacity" in says(SHEET.work({}))


def test_a_solid_row_that_does_not_exist_is_not_made_up() -> None:
    with pytest.raises(Impossible, match="stranded"):
        SHEET.work({"gauge": "6", "strand": "solid"})


def test_wire_by_area_is_warm_unless_said_otherwise() -> None:
    warm = SHEET.work({"wire": "area", "area": "3.31 mm²"}).figure("drop").value
    cold = SHEET.work({"wire": "area", "area": "3.31 mm²", "warm": "20 °C"}).figure("drop").value
    assert warm / cold == pytest.approx(1.216, abs=0.001)


@pytest.mark.parametrize(
    "typed",
    [
        {"volts": "61 V"},
        {"volts": "51 V", "current_kind": "ac"},
        {"charge": "mains"},
        {"public": "yes"},
    ],
)
def test_beyond_extra_low_voltage_it_is_a_screening_for_an_electrician(
    typed: dict[str, str],
) -> None:
    result = SHEET.work(typed)
    assert result.says.startswith("Screening estimate")
    assert "licensed electrician" in says(result)
    assert "safe" not in says(result).lower()
    assert not SHEET.work({"volts": "60 V"}).says.startswith("Screening")


def test_a_battery_too_small_goes_out_in_the_drawing() -> None:
    result = SHEET.work({"owned": "2 Ah", "days": "3"})
    assert "goes out" in result.pictures[0].svg
    assert result.worst == Standing.OVER
    assert "goes out" not in SHEET.work({}).pictures[0].svg


def test_a_wire_that_eats_the_whole_voltage_is_refused() -> None:
    with pytest.raises(Impossible, match="no voltage") as caught:
        SHEET.work({"current": "20 A", "run": "500 ft"})
    assert caught.value.name == "run"


def test_battery_panel_and_wire_are_handed_to_the_budget() -> None:
    lines = [hand for hand in SHEET.work({}).hands if isinstance(hand, ToLine)]
    assert [line.key for line in lines] == ["battery", "panel", "wire"]
    assert lines[2].quantity == pytest.approx(20)
