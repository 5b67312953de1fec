"""Sun events against almanacs; sun on walls against closed forms and an oracle's minute count."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from schedules.engine.sun import daylight
from worksheets.engine import sun
from worksheets.engine.given import Fact
from worksheets.engine.result import Impossible
from worksheets.engine.sun import Obstruction, Place, Wall, wall_hours
from worksheets.engine.sun_year import Scene, compass, season, sun_day, sun_year
from worksheets.sheets.sun import SHEET

GOLDEN = Place(39.742476, -105.1786)
MOUNTAIN = timezone(timedelta(hours=-7))
TILTS = st.floats(-23.4, 23.4)
LATITUDES = st.floats(-60, 60)


def clock(moment: datetime | None) -> str:
    assert moment is not None
    return f"{moment.astimezone(MOUNTAIN):%Y-%m-%d %H:%M:%S}"


def close(moment: datetime | None, text: str, seconds: float = 30) -> bool:
    told = datetime.strptime(text, "%Y-%m-%d %H:%M:%S").replace(tzinfo=MOUNTAIN)
    assert moment is not None
    return abs((moment - told).total_seconds()) <= seconds


def test_the_sunset_of_a_day_is_not_that_of_the_day_before() -> None:
    """West of Greenwich a published page gives 19:13:58, the sunset of 1 August; the altitude of
    the sun itself gives 19:12:53. And 17:18:51, not 17:20:19, on 17 October 2003."""
    found = sun.events(date(2015, 8, 2), GOLDEN).set
    assert close(found, "2015-08-02 19:12:53")
    assert not close(found, "2015-08-02 19:13:58")
    assert close(sun.events(date(2003, 10, 17), GOLDEN).set, "2003-10-17 17:18:51")


@given(LATITUDES, st.floats(-180, 180), st.dates(date(2015, 1, 1), date(2045, 12, 31)))
@settings(deadline=None)
def test_rise_noon_and_set_belong_to_one_day(latitude: float, longitude: float, day: date) -> None:
    found = sun.events(day, Place(latitude, longitude))
    assert found.rise and found.set and found.dawn and found.dusk
    assert found.dawn < found.rise < found.noon < found.set < found.dusk
    assert found.set - found.rise < timedelta(hours=24)
    local = found.noon + timedelta(minutes=4 * longitude)
    assert local.date() == day
    assert abs((found.noon - found.rise) - (found.set - found.noon)) < timedelta(minutes=6)


@given(LATITUDES, st.floats(-180, 180), st.dates(date(2020, 1, 1), date(2040, 12, 31)))
@settings(deadline=None)
def test_at_sunrise_the_sun_stands_on_the_horizon(
    latitude: float, longitude: float, day: date
) -> None:
    found = sun.events(day, Place(latitude, longitude))
    assert found.rise and found.dusk
    for moment, zenith in ((found.rise, 90.83), (found.dusk, 96.0)):
        turned = (moment - datetime.combine(moment.date(), datetime.min.time(), UTC)).seconds / 60
        angle = (turned + 4 * longitude + sun.equation_of_time(moment)) / 4 - 180
        stands = sun.position(latitude, sun.declination(moment), angle)[0]
        assert stands == pytest.approx(zenith, abs=0.12)


def test_the_sunset_is_that_of_the_plans_daylight() -> None:
    spans = daylight(42.0, -72.5, "America/New_York", 2031)[date(2031, 10, 18)]
    found = sun.events(date(2031, 10, 18), Place(42.0, -72.5)).set
    assert found is not None
    here = found.astimezone(ZoneInfo("America/New_York"))
    assert here.hour * 60 + here.minute == spans[0][1]


def test_near_the_polar_circle_the_sun_may_not_set() -> None:
    found = sun.events(date(2031, 6, 21), Place(66.0, 25.0))
    assert found.set is None
    assert found.length is None
    assert SHEET.work({"latitude": "66°", "longitude": "25°", "zone": "Europe/Helsinki"}).says
    with pytest.raises(ValueError, match="-66° to 66°"):
        Place(67.0, 0.0)


@pytest.mark.parametrize(
    ("declination", "bearing", "hours"),
    [(23.44, 0, 7.10), (23.44, 45, 6.37), (23.44, 90, 7.47), (23.44, 135, 8.57), (23.44, 180, 7.85),
     (-23.44, 180, 9.27), (-23.44, 135, 7.90), (-23.44, 90, 4.63), (-23.44, 45, 1.37),
     (-23.44, 0, 0.0)],
)  # fmt: skip
def test_sun_on_a_wall_agrees_with_pvlib_minute_by_minute(
    declination: float, bearing: float, hours: float
) -> None:
    """pvlib at 40° N 105° W on 21 June and 21 December 2025; refraction adds a few minutes."""
    assert wall_hours(40.0, declination, Wall(bearing=bearing)) == pytest.approx(hours, abs=0.15)


def test_a_building_takes_the_hours_that_pvlib_counts_behind_it() -> None:
    """A wall to 150° with 20° of building from 100° to 160°: 8.98 h in June, 6.70 in December."""
    row = [Obstruction(100, 160, 20)]
    assert wall_hours(40, 23.44, Wall(bearing=150), row) == pytest.approx(8.98, abs=0.15)
    assert wall_hours(40, -23.44, Wall(bearing=150), row) == pytest.approx(6.70, abs=0.15)


def day_hours(latitude: float, declination: float) -> float:
    share = -math.tan(math.radians(latitude)) * math.tan(math.radians(declination))
    return 2 / 15 * math.degrees(math.acos(share))


@given(LATITUDES, TILTS, st.floats(0, 360))
@settings(deadline=None, max_examples=40)
def test_a_wall_and_the_wall_behind_it_share_the_day(
    latitude: float, declination: float, bearing: float
) -> None:
    assume(abs(declination) > 0.1)  # on the equator at equinox the sun only grazes a north wall
    front = wall_hours(latitude, declination, Wall(bearing=bearing))
    back = wall_hours(latitude, declination, Wall(bearing=bearing + 180))
    assert front + back == pytest.approx(day_hours(latitude, declination), abs=0.1)


@given(LATITUDES, TILTS)
@settings(deadline=None, max_examples=40)
def test_an_east_wall_has_half_the_day_and_a_roof_all_of_it(
    latitude: float, declination: float
) -> None:
    whole = day_hours(latitude, declination)
    assert wall_hours(latitude, declination, Wall(bearing=90)) == pytest.approx(whole / 2, abs=0.07)
    flat = wall_hours(latitude, declination, Wall(bearing=0, tilt=0))
    assert flat == pytest.approx(whole, abs=0.07)


@given(LATITUDES, TILTS, st.floats(0, 359), st.floats(1, 120), st.floats(0, 90))
@settings(deadline=None, max_examples=40)
def test_what_stands_in_the_way_never_adds_sun(
    latitude: float, declination: float, start: float, across: float, altitude: float
) -> None:
    wall = Wall(bearing=180)
    row = [Obstruction(start, (start + across) % 360, altitude)]
    free = wall_hours(latitude, declination, wall)
    assert wall_hours(latitude, declination, wall, row) <= free


@given(LATITUDES, TILTS, st.floats(-180, 180), st.floats(0, 180), st.floats(-180, 180))
def test_incidence_is_the_angle_between_two_directions(
    latitude: float, declination: float, hour: float, tilt: float, azimuth: float
) -> None:
    """The long formula against the dot product of the sun's direction and the wall's normal."""
    zenith, turn = map(math.radians, sun.position(latitude, declination, hour))
    beta, gamma = math.radians(tilt), math.radians(azimuth)
    dot = math.cos(zenith) * math.cos(beta)
    dot += math.sin(zenith) * math.sin(beta) * math.cos(turn - gamma)
    found = math.cos(math.radians(sun.incidence(latitude, declination, hour, tilt, azimuth)))
    assert found == pytest.approx(dot, abs=1e-6)


def test_an_obstruction_goes_clockwise_and_over_north() -> None:
    over_north = Obstruction(350, 20, 10)
    assert over_north.hides(5, 9)
    assert over_north.hides(355, 9)
    assert not over_north.hides(180, 9)
    assert not over_north.hides(5, 11)


def test_daylight_saving_moves_the_clock_and_not_the_sun() -> None:
    scene = Scene(
        place=Place(42.0, -72.5), wall=Wall(bearing=180), zone=ZoneInfo("America/New_York")
    )
    before, after = (sun_day(scene, date(2031, 3, day)) for day in (8, 9))
    assert before.events.set and after.events.set
    ahead = scene.clock(after.events.set, after.day) - scene.clock(before.events.set, before.day)
    assert ahead == pytest.approx(61, abs=1)


def test_the_growing_season_is_the_other_half_of_the_year_in_the_south() -> None:
    scene = Scene(place=Place(-35, 149), wall=Wall(bearing=0), zone=ZoneInfo("UTC"))
    year = sun_year(scene, 2031)
    assert season(year, -35) < season(year, 35)
    assert len(year) == 12


def test_compass_words_turn_with_the_bearing() -> None:
    assert [compass(each) for each in (0, 22, 23, 90, 359, 200)] == [
        "north", "north", "north-east", "east", "north", "south",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "name"),
    [({"zone": "Nowhere/At all"}, "zone"),
     ({"horizon": [{"start": "90", "end": "450", "altitude": "10"}]}, "horizon"),
     ({"horizon": [{"start": "90", "end": "90", "altitude": "10"}]}, "horizon")],
)  # fmt: skip
def test_what_cannot_be_of_the_sun_is_said(typed: dict[str, Any], name: str) -> None:
    with pytest.raises((Impossible, ValueError)) as wrong:
        SHEET.work(typed)
    told = wrong.value.name if isinstance(wrong.value, Impossible) else str(wrong.value)
    assert name in told


def test_the_sheet_says_sunset_and_the_end_of_twilight_of_the_public_day() -> None:
    facts = {"project.public_on": Fact(date(2031, 10, 18), "the key date “Lantern Walk”")}
    result = SHEET.work({}, facts=facts)
    assert result.figure("set").text == "18:04"
    assert result.figure("dusk").text == "18:32"
    assert len(result.grids[0].rows) == 12
