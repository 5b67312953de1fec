"""Friction, heads, crossing curves and siphons, against a solver and against other formulas."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from worksheets.engine import pump
from worksheets.engine.dimensions import GALLON, GRAVITY, INCH
from worksheets.engine.result import Impossible, Standing
from worksheets.engine.rules import rule_set
from worksheets.sheets import sheets

SHEET = sheets()["pump"]
GPM = GALLON / 60
LIMITS = pump.Limits()
turbulent = st.floats(2301, 1e7)
rough = st.floats(0, 0.05)
FALLING = ((0.0, 4.0), (2e-4, 3.4), (5e-4, 2.0), (8e-4, 0.5))


def colebrook(reynolds: float, relative: float) -> float:
    """Solved for f itself, the way the equation is printed, by another method."""

    def gap(f: float) -> float:
        return 1 / math.sqrt(f) + 2 * math.log10(relative / 3.7 + 2.51 / (reynolds * math.sqrt(f)))

    return float(brentq(gap, 1e-4, 1.0, xtol=1e-14))


@settings(deadline=None, max_examples=60)
@given(turbulent, rough)
def test_the_friction_factor_solves_colebrook(reynolds: float, relative: float) -> None:
    found = pump.friction_factor(reynolds, relative)
    assert found == pytest.approx(colebrook(reynolds, relative), rel=1e-9)


def test_slow_water_is_smooth_and_its_roughness_does_not_matter() -> None:
    assert pump.friction_factor(1000, 0.0) == pump.friction_factor(1000, 0.05) == 0.064


@settings(deadline=None, max_examples=60)
@given(st.floats(1e-6, 3e-5), st.floats(0.01, 0.05))
def test_laminar_flow_loses_what_poiseuille_found(flow: float, bore: float) -> None:
    water = pump.water_at(15.0)
    found = pump.darcy_weisbach(flow, bore, 10.0, 0.0, water)
    if found.reynolds <= pump.LAMINAR_TO:
        exact = 128 * water.viscosity * 10.0 * flow / (math.pi * bore**4)
        assert found.pressure == pytest.approx(exact, rel=1e-9)


@settings(deadline=None, max_examples=60)
@given(st.floats(5, 60), st.sampled_from([1.049, 1.38, 1.61, 2.067]))
def test_both_forms_of_hazen_williams_agree_within_two_per_cent(flow: float, bore: float) -> None:
    metres = bore * INCH
    metric = 10.67 * 100 * (flow * GPM) ** 1.852 / (150**1.852 * metres**4.8704)
    assert pump.hazen_williams(flow * GPM, metres, 100, 150) == pytest.approx(metric, rel=0.02)


@settings(deadline=None, max_examples=60)
@given(st.floats(0.5, 2.5), st.sampled_from([1.049, 1.38, 1.61, 2.067]))
def test_smooth_pipe_loses_the_same_within_a_sixth_by_either_formula(
    speed: float, bore: float
) -> None:
    metres = bore * INCH
    flow = speed * math.pi / 4 * metres**2
    exact = pump.darcy_weisbach(flow, metres, 100, 1.5e-6, pump.water_at(15.0)).head
    assert pump.hazen_williams(flow, metres, 100, 150) == pytest.approx(exact, rel=0.16)


def test_hazen_williams_is_refused_where_it_was_not_measured() -> None:
    for words, numbers in {
        "100 to 150": (1e-3, 0.04, 160),
        "1/2 in": (5e-5, 0.010, 150),
        "3 m/s": (5e-3, 0.04, 150),
        "not turbulent": (1e-5, 0.04, 150),
    }.items():
        flow, bore, smooth = numbers
        with pytest.raises(pump.PumpError, match=words):
            pump.hazen_williams_checked(flow, bore, 10.0, smooth, LIMITS)


def test_water_is_that_of_the_tables() -> None:
    """Density and viscosity at 5, 20 and 40 °C, usual table values (from memory)."""
    for warm, density, viscosity in ((5, 1000.0, 1.519e-3), (20, 998.2, 1.002e-3),
                                     (40, 992.2, 0.653e-3)):  # fmt: skip
        found = pump.water_at(float(warm))
        assert found.density == pytest.approx(density, rel=1e-3)
        assert found.viscosity == pytest.approx(viscosity, rel=0.025)


@settings(deadline=None, max_examples=60)
@example(5e-324, 1.0, 0.004)  # next to nothing once lost what is no number
@given(st.floats(0, 5e-3), st.floats(0.001, 1), st.floats(1e-6, 5e-3))
def test_more_flow_never_loses_less(flow: float, length: float, more: float) -> None:
    water = pump.water_at(15.0)

    def lost(at: float) -> float:
        return pump.darcy_weisbach(at, 0.04, length, 1e-5, water).head

    assert lost(flow + more) > lost(flow)


@settings(deadline=None, max_examples=60)
@given(st.floats(0, 3.5), st.floats(1e3, 1e7))
def test_at_the_crossing_the_pump_makes_what_the_pipe_asks(lift: float, steep: float) -> None:
    def asks(flow: float) -> float:
        return lift + steep * flow**2

    found = pump.crossing(FALLING, asks)
    if found is None:
        assert pump.on_curve(FALLING, FALLING[-1][0]) > asks(FALLING[-1][0])
        return
    assert pump.on_curve(FALLING, found) == pytest.approx(asks(found), rel=1e-6)
    other = brentq(lambda flow: pump.on_curve(FALLING, flow) - asks(flow), 0, 8e-4)
    assert found == pytest.approx(other, rel=1e-6)


def test_a_lift_above_the_first_point_has_no_crossing() -> None:
    assert pump.crossing(FALLING, lambda flow: 4.1) is None


def test_a_fitting_counts_as_many_bores_of_pipe() -> None:
    assert pump.equivalent_length([(2, 30), (1, 60)], 0.02) == pytest.approx(2.4)


def test_a_weaker_efficiency_draws_more_power() -> None:
    assert pump.power(1e-3, 10, 1000, 0.5) == 2 * pump.power(1e-3, 10, 1000)
    with pytest.raises(pump.PumpError, match="at most 100 %"):
        pump.power(1e-3, 10, 1000, 1.2)


@settings(deadline=None, max_examples=60)
@given(st.floats(0, 4000), st.floats(1, 900))
def test_higher_up_a_siphon_lifts_less(altitude: float, more: float) -> None:
    low, high = pump.air_pressure(altitude), pump.air_pressure(altitude + more)
    assert pump.siphon_crest(high) < pump.siphon_crest(low) <= 101_325 / (1000 * GRAVITY)


def test_warm_water_boils_at_a_lower_crest() -> None:
    assert pump.siphon_crest(101_325, 7_400) < pump.siphon_crest(101_325, 1_200)


def test_plastic_pipe_is_narrower_than_its_nominal_size() -> None:
    steel, plastic = (rule_set("pipes", key).values["inside"] for key in ("steel-40", "plastic-40"))
    assert set(steel) == set(plastic)
    assert all(plastic[size] < steel[size] for size in steel)


# The worksheet.

PLAIN: dict[str, Any] = {"fittings": [], "allowance": "0 %", "curve": []}


def test_the_head_is_lift_friction_and_outlet_and_nothing_else() -> None:
    result = SHEET.work({"outlet": "5 psi", "curve": []})
    told = sum(result.figure(key).value for key in ("lift", "pipe", "fittings", "outlet"))
    assert result.figure("head").value == pytest.approx(told)
    assert result.figure("outlet").value == pytest.approx(5 * 2.31 * 0.3048, rel=2e-3)


def test_fittings_and_allowance_raise_the_head() -> None:
    bare = SHEET.work(PLAIN).figure("head").value
    fitted = SHEET.work({"allowance": "0 %", "curve": []}).figure("head").value
    assert bare < fitted < SHEET.work({"curve": []}).figure("head").value


def test_what_the_pump_delivers_is_read_at_the_crossing() -> None:
    result = SHEET.work({})
    assert "this pump delivers" in result.says
    assert result.figure("flow").value > 6 * GPM
    assert "They meet here" in result.pictures[0].svg


def test_a_pump_that_cannot_lift_says_so() -> None:
    result = SHEET.work({"lift": "13 ft"})
    assert result.worst == Standing.OVER
    assert any("cannot lift" in finding.says for finding in result.findings)


def test_a_curve_that_ends_above_the_pipe_asks_for_more_points() -> None:
    typed = [{"flow": "0 gpm", "head": "12 ft"}, {"flow": "2 gpm", "head": "11.9 ft"}]
    result = SHEET.work({"curve": typed})
    assert any("more points" in finding.says for finding in result.findings)


def test_points_out_of_order_are_named() -> None:
    typed = [{"flow": "5 gpm", "head": "12 ft"}, {"flow": "2 gpm", "head": "10 ft"}]
    with pytest.raises(Impossible, match="in order") as caught:
        SHEET.work({"curve": typed})
    assert caught.value.at == "curve-1-flow"


def test_a_head_that_rises_with_the_flow_is_named() -> None:
    typed = [{"flow": "0 gpm", "head": "10 ft"}, {"flow": "2 gpm", "head": "12 ft"}]
    with pytest.raises(Impossible, match="does not rise") as caught:
        SHEET.work({"curve": typed})
    assert caught.value.at == "curve-1-head"


def test_hazen_williams_out_of_its_range_points_to_the_other_formula() -> None:
    for typed in ({"flow": "40 gpm"}, {"temperature": "35 °C"}, {"flow": "0.2 gpm"}):
        with pytest.raises(Impossible, match="Choose Darcy") as caught:
            SHEET.work({"method": "hazen", **typed})
        assert caught.value.name == "method"


def test_another_bore_must_be_written() -> None:
    with pytest.raises(Impossible, match="inside diameter"):
        SHEET.work({"pipe": "other"})
    assert SHEET.work({"pipe": "other", "bore": "1 in"}).figures


def test_a_siphon_is_judged_by_what_works_not_by_theory() -> None:
    standings = {crest: SHEET.work({"crest": crest}).findings[-1].standing
                 for crest in ("4 m", "6 m", "9 m")}  # fmt: skip
    assert list(standings.values()) == [Standing.WITHIN, Standing.NEAR, Standing.OVER]


def test_the_mains_at_water_call_an_electrician() -> None:
    result = SHEET.work({"supply": "mains"})
    assert any("licensed electrician" in finding.says for finding in result.findings)
