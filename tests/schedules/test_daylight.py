"""Sunrise and sunset against published times, and work that stops at dusk."""

from __future__ import annotations

from datetime import date, time, timedelta
from decimal import Decimal

import pytest

from projects.models import Site
from schedules.engine import moment
from schedules.engine.sun import daylight
from schedules.models import Calendar, Task
from schedules.plan import read, recompute
from tests import factories

GOLDEN = (39.742476, -105.1786)
TOLERANCE = 1.5  # minutes: ours are cut to whole minutes, inwards

# Minutes after local midnight without summer time (UTC−7), Golden, Colorado.
# 2 January and 2 August 2015: sunrise of the solar position calculator page of the National
# Renewable Energy Laboratory, sunset of the US Naval Observatory, as quoted in the tests of
# pvlib-python. 17 October 2003: the worked point of Reda and Andreas, Solar Position
# Algorithm for Solar Radiation Applications, NREL/TP-560-34302 (2003).
PUBLISHED = [
    (date(2015, 1, 2), 441.917, 1007.717),
    (date(2015, 8, 2), 300.45, 1153.0),
    (date(2003, 10, 17), 372.717, 1038.85),
]


@pytest.mark.parametrize(("day", "rise", "sunset"), PUBLISHED)
def test_the_sun_rises_and_sets_when_the_tables_say(day, rise, sunset):
    ((opens, closes),) = daylight(*GOLDEN, "America/Phoenix", day.year)[day]
    assert rise <= opens <= rise + TOLERANCE
    assert sunset - TOLERANCE <= closes <= sunset + 0.5


def test_the_hour_of_sunrise_jumps_with_the_clock():
    """Clocks go on on 8 March 2026 in the United States: 15 U.S.C. 260a."""
    year = daylight(42.0, -72.5, "America/New_York", 2026)
    before, after = (year[day][0][0] for day in (date(2026, 3, 7), date(2026, 3, 8)))
    assert 57 <= after - before <= 60


@pytest.mark.parametrize("longitude", [-179.0, -100.0, 0.0, 95.0, 151.2, 179.0])
def test_every_day_has_one_sunrise_wherever_it_is(longitude):
    """At the equator the day lasts 12 hours and some 7 minutes: common practice, no source."""
    hours = daylight(0.0, longitude, "UTC", 2026)
    lit = [sum(b - a for a, b in spans) for spans in hours.values()]
    assert min(lit) >= 724 and max(lit) <= 730


def test_the_north_has_days_without_sun_and_days_without_night():
    """Longyearbyen: no sun from the end of October to mid February, from memory."""
    year = daylight(78.22, 15.65, "Europe/Oslo", 2026)
    assert year[date(2026, 12, 21)] == ()
    assert year[date(2026, 6, 21)] == ((0, 1440),)
    assert len(year) == 365


def test_a_bright_night_ends_after_midnight():
    year = daylight(66.0, 25.7, "Europe/Helsinki", 2026)
    spans = year[date(2026, 6, 17)]
    assert spans[0][0] == 0 and spans[-1][1] in range(1437, 1441)


@pytest.fixture
def outdoors(place):
    """One day of painting, from 06:00 to 20:00, early in March at 42° north."""
    place.project.calendars.update(opens=time(6), closes=time(20))
    Task.objects.filter(name__startswith="Weld").update(days=1, daylight=True)
    return place


def put_at(place, latitude, longitude):
    Site.objects.create(
        project=place.project, name="Pier", latitude=Decimal(latitude), longitude=Decimal(longitude)
    )


def of_weld(place):
    recompute(place.project, factories.TODAY)
    task = place.task("Weld")
    return moment(task.early_start), moment(task.early_finish)


def test_without_a_position_the_tick_changes_nothing(outdoors):
    start, finish = of_weld(outdoors)
    assert (start.hour, finish.hour, finish.date()) == (6, 20, factories.TODAY)


def test_paint_waits_for_sunrise_and_goes_on_the_next_morning(outdoors):
    put_at(outdoors, "42.0", "-72.5")
    start, finish = of_weld(outdoors)
    assert time(6, 15) < start.time() < time(6, 30)
    assert finish.date() == factories.TODAY + timedelta(days=1)


def test_other_tasks_on_the_same_calendar_work_after_dark(outdoors):
    put_at(outdoors, "42.0", "-72.5")
    of_weld(outdoors)
    permit = outdoors.task("Encroachment")
    assert moment(permit.early_finish).hour == 20


def test_in_the_polar_night_the_wall_waits_for_the_sun(outdoors):
    put_at(outdoors, "78.22", "15.65")
    outdoors.project.zone = "Europe/Oslo"
    outdoors.project.save()
    recompute(outdoors.project, date(2030, 11, 11))
    assert moment(outdoors.task("Weld").early_start).date() > date(2031, 2, 1)


def test_a_site_under_the_midnight_sun_works_its_hours(outdoors):
    put_at(outdoors, "78.22", "15.65")
    recompute(outdoors.project, date(2031, 6, 2))
    assert moment(outdoors.task("Weld").early_finish).hour == 20


def test_daylight_takes_one_query_more(outdoors, django_assert_num_queries):
    Calendar.objects.create(project=outdoors.project, name="Weekends", weekdays="0000011")
    with django_assert_num_queries(6):
        read(outdoors.project, factories.TODAY)
