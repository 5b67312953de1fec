"""Dew point and humidity against charts, an oracle's values, and their own inverses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine.air import (
    dew_point,
    humidity_at,
    humidity_from_wet_bulb,
    least_surface,
    saturation_pressure,
)

warm = st.floats(-40, 50)
damp = st.floats(0.05, 1)


def test_below_freezing_the_dew_point_is_over_water_and_not_over_ice() -> None:
    """At -8 °C and 80 % the frost point over ice is -10.53 °C (psychrolib); over water, less."""
    over_water, over_ice = dew_point(-8.0, 0.8), -10.5276
    assert over_water == pytest.approx(-10.843, abs=0.01)
    assert 0.2 < over_ice - over_water < 1.2
    frost = -10.8451  # psychrolib at -5 °C and 60 %
    assert 0.2 < frost - dew_point(-5.0, 0.6) < 1.2


@pytest.mark.parametrize(
    ("air", "humidity", "dew"),
    [(15, 0.7, 9.5794), (25, 0.4, 10.4757), (35, 0.9, 33.1083), (45, 0.2, 16.8422)],
)
def test_the_dew_point_agrees_with_psychrolib_above_freezing(
    air: float, humidity: float, dew: float
) -> None:
    assert dew_point(air, humidity) == pytest.approx(dew, abs=0.06)


@pytest.mark.parametrize(
    ("dry", "wet", "humidity"),
    [(25, 18, 0.5068), (40, 20, 0.1398), (30, 25, 0.6695), (10, 6, 0.5487)],
)
def test_a_wet_bulb_gives_the_humidity_of_psychrolib(
    dry: float, wet: float, humidity: float
) -> None:
    assert humidity_from_wet_bulb(dry, wet) == pytest.approx(humidity, abs=0.004)


@pytest.mark.parametrize(("at", "pascals"), [(5, 872.6), (25, 3169.7), (50, 12351.3)])
def test_saturation_pressure_is_that_of_the_ashrae_table(at: float, pascals: float) -> None:
    """ASHRAE Fundamentals 2017, chapter 1, table 3, as quoted in psychrolib's tests."""
    assert saturation_pressure(at) == pytest.approx(pascals, rel=0.0035)


@given(warm, damp)
def test_the_dew_point_is_never_above_the_air_and_leads_back(air: float, humidity: float) -> None:
    dew = dew_point(air, humidity)
    assert dew <= air + 1e-9
    if dew >= -40:
        assert humidity_at(air, dew) == pytest.approx(humidity, rel=1e-6)


@given(warm, st.floats(0.05, 0.9), st.floats(0.01, 0.1))
def test_damper_air_has_a_higher_dew_point(air: float, humidity: float, more: float) -> None:
    assert dew_point(air, humidity + more) > dew_point(air, humidity)


def test_a_wall_five_fahrenheit_above_the_dew_point_is_warm_enough() -> None:
    assert least_surface(21.1, 0.65, 2.78) == pytest.approx(dew_point(21.1, 0.65) + 2.78)


def test_air_without_any_water_is_refused() -> None:
    with pytest.raises(ValueError, match="at most 100 %"):
        dew_point(20.0, 0.0)
    with pytest.raises(ValueError, match="-40 to 60"):
        dew_point(70.0, 0.5)


def test_a_wet_bulb_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="warmer than the air"):
        humidity_from_wet_bulb(20.0, 21.0)
    with pytest.raises(ValueError, match="So cold"):
        humidity_from_wet_bulb(45.0, 5.0)
    with pytest.raises(ValueError, match="ice"):
        humidity_from_wet_bulb(3.0, -1.0)
    assert humidity_from_wet_bulb(20.0, 20.0) == pytest.approx(1.0)
