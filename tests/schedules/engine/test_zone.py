"""Elapsed lags over clock changes. Changes are those of the public time zone database."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.engine import UnknownZone, Zone, moment

from .networks import MONDAY, WEEKEND, at, cure, plan, task
from .strategies import laws

PLACES = {
    "America/New_York": ("2026-03-08", "2026-11-01"),
    "Europe/Dublin": ("2026-03-29", "2026-10-25"),
    "Australia/Lord_Howe": ("2026-04-05", "2026-10-04"),  # moves by half an hour
}
HOUR = 60


def test_a_day_is_an_hour_short_in_spring_and_an_hour_long_in_autumn() -> None:
    new_york = Zone("America/New_York")
    assert new_york.after(at("2026-03-07T16:00"), 24 * HOUR) == at("2026-03-08T17:00")
    assert new_york.after(at("2026-10-31T16:00"), 24 * HOUR) == at("2026-11-01T15:00")


def test_going_back_meets_the_same_clock_change() -> None:
    new_york = Zone("America/New_York")
    assert new_york.before(at("2026-03-08T17:00"), 24 * HOUR) == at("2026-03-07T16:00")
    assert new_york.before(at("2026-11-01T15:00"), 24 * HOUR) == at("2026-10-31T16:00")


def test_a_time_the_clock_skips_stands_for_the_change() -> None:
    new_york = Zone("America/New_York")
    assert new_york.after(at("2026-03-08T02:30"), HOUR) == at("2026-03-08T04:00")


def test_a_time_shown_twice_is_the_first_and_a_bound_between_waits_for_the_second() -> None:
    new_york = Zone("America/New_York")
    assert new_york.after(at("2026-11-01T01:30"), 2 * HOUR) == at("2026-11-01T02:30")
    assert new_york.after(at("2026-11-01T00:30"), 2 * HOUR) == at("2026-11-01T02:00")
    assert new_york.before(at("2026-11-01T01:30"), HOUR) == at("2026-11-01T00:30")


def test_without_a_zone_clocks_never_change() -> None:
    assert Zone(None).after(10, 5) == 15
    assert Zone(None).before(15, 5) == 10
    assert Zone(None).aware(0, 90).isoformat() == "2000-01-01T01:30:00+00:00"


@pytest.mark.parametrize("name", ["Nowhere/Land", "", "../etc"])
def test_an_unknown_zone_is_named(name: str) -> None:
    with pytest.raises(UnknownZone) as refused:
        Zone(name)
    assert refused.value.zone == name


def shown(zone: Zone, wall: int) -> bool:
    """Whether a wall clock ever shows this time."""
    return zone.aware(wall).replace(tzinfo=None) == moment(wall)


@laws
@given(st.data())
def test_ahead_and_back_agree_to_the_minute_around_every_change(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(sorted(PLACES)))
    zone, change = Zone(name), at(data.draw(st.sampled_from(PLACES[name])))
    start = data.draw(st.integers(change - 3 * HOUR, change + 6 * HOUR))
    lag = data.draw(st.integers(-5 * HOUR, 5 * HOUR))
    limit = start + lag + data.draw(st.integers(-70, 70))
    if shown(zone, limit):
        assert (zone.after(start, lag) <= limit) == (start <= zone.before(limit, lag))


@laws
@given(st.sampled_from(sorted(PLACES)), st.integers(-(10**6), 10**7), st.integers(-9999, 9999))
def test_elapsed_time_is_the_difference_in_utc(name: str, start: int, lag: int) -> None:
    zone = Zone(name)
    gone = zone.aware(start, lag) - zone.aware(start)
    utc = zone.aware(start, lag).utcoffset(), zone.aware(start).utcoffset()
    assert gone - utc[0] + utc[1] == moment(lag) - moment(0)


def test_concrete_cures_over_the_weekend_of_the_change() -> None:
    """72 elapsed hours from Friday 16:00: Monday 17:00 by the wall clock, so Tuesday's work."""
    found = plan(
        task("pour", 8 * HOUR),
        task("load"),
        cure("pour FS load", 72),
        data_date=at("2026-03-06"),
        zone="America/New_York",
    )
    assert found.dates["pour"].early_finish == at("2026-03-06T16:00")
    assert found.dates["load"].drivers[0].at == at("2026-03-09T17:00")
    assert found.dates["load"].early_start == at("2026-03-10T08:00")
    assert found.dates["pour"].free_float == HOUR  # at 18:00 it is still Tuesday's work


def test_a_plan_far_from_a_change_needs_no_zone() -> None:
    parts = (task("pour"), task("load"), cure("pour FS load", 72))
    assert plan(*parts, zone="Europe/Dublin") == plan(*parts)
    assert WEEKEND.snap(MONDAY) == at("2031-06-21T08:00")
