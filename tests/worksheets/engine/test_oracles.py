"""Air, sun and seam allowances against independent libraries."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime, timedelta
from typing import Any

import psychrolib
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from worksheets.engine import air, outline, sun, water

psychrolib.SetUnitSystem(psychrolib.SI)
AZIMUTH = {"north": 0, "north-east": 45, "east": 90, "south-east": 135, "south": 180}


@given(st.floats(1, 45), st.floats(0.1, 0.99))
def test_the_dew_point_is_that_of_the_ashrae_formulas(temperature: float, share: float) -> None:
    found = air.dew_point(temperature, share)
    assume(found > 0.5)  # below freezing the library gives the frost point over ice
    expected = psychrolib.GetTDewPointFromRelHum(temperature, share)
    assert found == pytest.approx(expected, abs=0.12)


@given(st.floats(5, 40), st.floats(0, 15))
def test_humidity_from_a_wet_bulb_is_that_of_the_ashrae_formulas(dry: float, spread: float) -> None:
    wet = dry - spread
    assume(wet > 1)
    expected = psychrolib.GetRelHumFromTWetBulb(dry, wet, 101325) if spread else 1.0
    assume(expected > 0.06)
    assert air.humidity_from_wet_bulb(dry, wet) == pytest.approx(expected, abs=0.012)


def pvlib_sun(day: date, latitude: float, longitude: float) -> Any:
    """The sun each minute of a local day, by another algorithm (NREL)."""
    import pandas
    from pvlib import solarposition

    start = datetime(day.year, day.month, day.day, tzinfo=UTC) - timedelta(hours=longitude / 15)
    moments = pandas.date_range(start, periods=1440, freq="min")
    return solarposition.get_solarposition(moments, latitude, longitude, temperature=12)


@pytest.mark.parametrize("day", [date(2025, 6, 21), date(2025, 12, 21), date(2025, 3, 5)])
@pytest.mark.parametrize("facing", AZIMUTH)
def test_hours_of_sun_on_a_wall_are_those_of_a_look_every_minute(day: date, facing: str) -> None:
    from pvlib import irradiance

    place = pvlib_sun(day, 40.0, -105.0)
    angle = irradiance.aoi(90, AZIMUTH[facing], place["zenith"], place["azimuth"])
    expected = ((place["zenith"] < 90) & (angle < 90)).sum() / 60
    middle = sun.noon(day, sun.Place(40.0, -105.0))
    wall = sun.Wall(bearing=AZIMUTH[facing])
    assert sun.wall_hours(40.0, sun.declination(middle), wall) == pytest.approx(expected, abs=0.15)


@pytest.mark.parametrize("longitude", [-105.0, 0.0, 116.4])
@pytest.mark.parametrize("month", range(1, 13))
def test_sunrise_and_sunset_fall_where_the_sun_crosses_the_horizon(
    month: int, longitude: float
) -> None:
    """Not on the sunset of the day before, which some tables print west of Greenwich."""
    day = date(2025, month, 17)
    place = pvlib_sun(day, 42.0, longitude)
    up = place.index[place["apparent_elevation"] > -0.2667]  # the upper edge, with refraction
    found = sun.events(day, sun.Place(42.0, longitude))
    assert found.rise is not None
    assert found.set is not None
    assert abs(found.rise - up[0].to_pydatetime()) < timedelta(minutes=2)
    assert abs(found.set - up[-1].to_pydatetime()) < timedelta(minutes=2)


@pytest.mark.parametrize("latitude", [-35.0, 0.0, 42.0, 55.0])
def test_radiation_above_the_air_is_that_of_a_sum_over_the_day(latitude: float) -> None:
    """The published formula against minute by minute."""
    from pvlib import irradiance

    day = date(2025, 7, 6)
    place = pvlib_sun(day, latitude, 0.0)
    above = irradiance.get_extra_radiation(187, solar_constant=1366.67)
    share = place["zenith"].map(lambda angle: max(0.0, math.cos(math.radians(angle))))
    expected = above * share.sum() * 60 / 1e6
    assert water.extraterrestrial(latitude, 187) == pytest.approx(expected, rel=0.01)


@settings(deadline=None)
@given(
    st.integers(3, 9),
    st.floats(0.2, 3.0),
    st.lists(st.floats(0.7, 1.3), min_size=9, max_size=9),
    st.floats(0.005, 0.06),
)
def test_an_even_seam_allowance_is_that_of_an_independent_offset(
    corners: int, size: float, stretch: list[float], allowance: float
) -> None:
    angles = [2 * math.pi * n / corners for n in range(corners)]
    points = [
        (size * stretch[0] * math.cos(angle), size * stretch[1] * math.sin(angle))
        for angle in angles
    ]
    found = outline.cut_line(points, [allowance] * corners)
    assume(not found.bevelled)
    expected = Polygon(points).buffer(allowance, join_style="mitre", mitre_limit=100)
    assert found.area == pytest.approx(expected.area, rel=1e-9)
    assert Polygon(found.points).symmetric_difference(expected).area < 1e-9
