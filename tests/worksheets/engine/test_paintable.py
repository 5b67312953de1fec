"""Hours that can be painted: each limit, the hours in which it dries, and the coats."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine.air import dew_point
from worksheets.engine.paintable import (
    HOUR,
    Hour,
    Limits,
    Mark,
    Offered,
    Why,
    by_hour,
    in_window,
    judge,
    with_surface,
)
from worksheets.engine.painting_days import lay_coats, stretches
from worksheets.engine.readings import Reading

START = datetime(2031, 6, 14, 8)
FINE = Reading(at=START, air=20.0, humidity=0.5, surface=20.0, wind=2.0, wet=False)
LIMITS = Limits(spread=3.0, humidity=0.85, surface=(10.0, 35.0), air=(10.0, 35.0), wind=6.7)


def whys(reading: Reading, limits: Limits = LIMITS) -> list[Why]:
    return [each.why for each in in_window(reading, limits)]


def day(*, hours: int = 12, **changes: dict[int, Any]) -> list[Reading]:
    """Fine hours from 8 on; ``surface={3: 9.0}`` changes the fourth."""
    found = []
    for n in range(hours):
        told = {name: values[n] for name, values in changes.items() if n in values}
        found.append(replace(FINE, at=START + n * HOUR, **told))
    return found


def judged(readings: list[Reading], limits: Limits, offered: Offered | None = None) -> list[Hour]:
    every = offered or Offered(opens=0, closes=24)
    return judge(by_hour(readings), limits, every)


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"surface": dew_point(20, 0.5) + 2.9}, [Why.WET_SURFACE]),
        ({"humidity": 0.86, "surface": 22.0}, [Why.HUMID]),
        ({"surface": 35.5}, [Why.HOT_SURFACE]),
        ({"surface": 9.9, "humidity": 0.2}, [Why.COLD_SURFACE]),
        ({"air": 9.9, "humidity": 0.2}, [Why.COLD_AIR]),
        ({"air": 35.1, "humidity": 0.2}, [Why.HOT_AIR]),
        ({"wind": 6.8}, [Why.WIND]),
        ({"wet": True}, [Why.RAIN]),
        ({"surface": None}, [Why.NO_SURFACE]),
        ({"wind": None}, [Why.NO_WIND]),
        ({"wet": None}, [Why.NO_RAIN]),
        ({}, []),
    ],
)
def test_each_limit_stops_an_hour_and_says_so(changes: dict[str, Any], why: list[Why]) -> None:
    assert whys(replace(FINE, **changes)) == why


def test_a_value_on_its_limit_is_allowed() -> None:
    at = replace(FINE, surface=dew_point(20, 0.5) + 3.0, wind=6.7)
    assert whys(at) == []
    assert whys(replace(FINE, humidity=0.85, surface=35.0)) == []


def test_the_margin_must_hold_until_the_paint_is_dry() -> None:
    readings = day(surface={6: 10.0})  # dew at 14:00
    hours = judged(readings, replace(LIMITS, drying=3.0))
    stopped = [h.at.hour for h in hours[:9] if any(a.why == Why.DEW_AFTER for a in h.against)]
    assert stopped == [11, 12, 13]
    assert [a.why for a in hours[6].against][:1] == [Why.WET_SURFACE]


def test_no_rain_may_fall_in_the_hours_after() -> None:
    hours = judged(day(wet={5: True}), replace(LIMITS, rain_free=2.0))
    assert [h.at.hour for h in hours if any(a.why == Why.RAIN_AFTER for a in h.against)] == [11, 12]
    assert hours[2].mark == Mark.PAINT


def test_after_the_last_reading_nothing_is_known() -> None:
    hours = judged(day(), replace(LIMITS, drying=2.0))
    assert [h.mark for h in hours[-3:]] == [Mark.PAINT, Mark.UNKNOWN, Mark.UNKNOWN]


def test_a_wall_that_nobody_measured_while_it_dries_is_not_known() -> None:
    hours = judged(day(surface={6: None}), replace(LIMITS, drying=2.0))
    assert [h.mark for h in hours[3:6]] == [Mark.PAINT, Mark.UNKNOWN, Mark.UNKNOWN]
    assert [a.why for a in hours[4].against] == [Why.NO_SURFACE]


def test_an_hour_without_a_reading_is_not_known_and_never_painted() -> None:
    readings = [r for n, r in enumerate(day()) if n != 4]
    assert judged(readings, LIMITS)[4].mark == Mark.UNKNOWN
    assert [a.why for a in judged(readings, LIMITS)[4].against] == [Why.NO_READING]


def test_cold_while_it_dries_counts_where_it_is_asked() -> None:
    hours = judged(day(air={6: 8.0}, humidity={6: 0.3}), replace(LIMITS, drying=2.0, dry_least=9.0))
    assert Why.COLD_AFTER in [a.why for a in hours[4].against]
    free = judged(day(air={6: 8.0}, humidity={6: 0.3}), replace(LIMITS, drying=2.0))
    assert free[4].mark == Mark.PAINT


def test_a_cooling_surface_counts_only_where_a_rising_one_is_asked() -> None:
    cooling = day(surface={5: 19.0})
    assert judged(cooling, LIMITS)[5].mark == Mark.PAINT
    found = judged(cooling, replace(LIMITS, rising=True))
    assert [h.at.hour for h in found if h.mark == Mark.STOP] == [13]


def test_a_reading_stands_until_the_next_and_no_longer_than_it_may() -> None:
    readings = [
        FINE,
        replace(FINE, at=START + 2 * HOUR, air=25.0),
        replace(FINE, at=START + 9 * HOUR),
    ]
    found = by_hour(readings, holds=3)
    assert [at.hour for at in found] == [8, 9, 10, 11, 12, 17, 18, 19]
    assert found[START + HOUR].air == 20.0
    assert found[START + 4 * HOUR].air == 25.0


def test_of_two_readings_in_an_hour_the_damper_stands_and_a_measured_one_before_both() -> None:
    half = replace(FINE, at=START + timedelta(minutes=30), humidity=0.8)
    assert by_hour([FINE, half])[START] == half
    assert by_hour([half, FINE])[START] == half
    seen = replace(FINE, at=START + timedelta(minutes=45), measured=True)
    assert by_hour([FINE, half, seen])[START] == seen


def test_the_surface_is_assumed_only_where_none_was_measured() -> None:
    found = with_surface([FINE, replace(FINE, surface=None)], -3.0)
    assert [each.surface for each in found] == [20.0, 17.0]


def test_hours_in_which_nobody_works_do_not_count() -> None:
    hours = judged(day(hours=30), LIMITS, Offered(opens=9, closes=12, weekdays=frozenset({6})))
    assert [(h.at.day, h.at.hour) for h in hours if h.counts] == [(15, 9), (15, 10), (15, 11)]


def test_the_next_coat_waits_for_the_one_before() -> None:
    hours = judged(day(hours=12), LIMITS)
    first, second = lay_coats(hours, 2, 2.0, 3.5)
    assert (first.start.hour, first.until.hour) == (8, 10)
    assert (second.start.hour, second.until.hour) == (14, 16)
    assert len(lay_coats(hours, 3, 2.0, 3.5)) == 2


def test_a_started_hour_is_used_up() -> None:
    (coat,) = lay_coats(judged(day(), LIMITS), 1, 2.25, 0)
    assert coat.until - coat.start == 3 * HOUR


def test_paintable_hours_that_follow_each_other_are_one_stretch() -> None:
    hours = judged(day(wet={3: True}), LIMITS)
    assert [(s.start.hour, s.until.hour, s.hours) for s in stretches(hours)] == [
        (8, 11, 3),
        (12, 20, 8),
    ]


@given(
    st.lists(st.floats(5, 40), min_size=4, max_size=30),
    st.floats(0, 10),
    st.floats(0, 6),
    st.floats(0, 6),
)
def test_a_stricter_paint_never_gains_an_hour(
    surfaces: list[float], spread: float, drying: float, more: float
) -> None:
    readings = day(hours=len(surfaces), surface=dict(enumerate(surfaces)))
    loose = judged(readings, replace(LIMITS, spread=spread, drying=drying))
    strict = judged(readings, replace(LIMITS, spread=spread + more, drying=drying + more))
    assert {h.at for h in strict if h.counts} <= {h.at for h in loose if h.counts}


@given(st.lists(st.booleans(), min_size=1, max_size=40), st.integers(1, 4), st.floats(0.5, 6),
       st.floats(0, 12))  # fmt: skip
def test_coats_take_hours_once_and_in_order(
    dry: list[bool], coats: int, each: float, recoat: float
) -> None:
    readings = day(hours=len(dry), wet={n: not ok for n, ok in enumerate(dry)})
    hours = judged(readings, LIMITS)
    found = lay_coats(hours, coats, each, recoat)
    for one, following in pairwise(found):
        assert following.start - one.until >= timedelta(hours=recoat)
    taken = sum((c.until - c.start) / HOUR >= each for c in found)
    assert taken == len(found) <= coats
