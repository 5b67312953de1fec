"""Working time: snapping, adding, counting. Common practice, no source, unless named."""

from datetime import date

import pytest

from schedules.engine import (
    Calendar,
    NoWorkingTime,
    day_that_begins,
    day_that_ends,
    instant,
    moment,
)

from .networks import ALWAYS, CREW, DAY, HOURS, at

LUNCH = ((480, 720), (780, 1020))
SHOP = Calendar(
    key="shop",
    week=(LUNCH,) * 5 + ((), ()),
    exceptions={date(2031, 6, 19): (), date(2031, 6, 21): ((540, 600),)},
)


def test_an_instant_and_its_moment_are_one() -> None:
    assert moment(instant(date(2031, 6, 14))).isoformat() == "2031-06-14T00:00:00"


def test_midnight_closes_one_day_and_opens_the_next() -> None:
    midnight = at("2031-06-17")
    assert day_that_begins(midnight) == date(2031, 6, 17)
    assert day_that_ends(midnight) == date(2031, 6, 16)


def test_ten_days_from_a_monday_end_on_the_second_friday() -> None:
    """Contractor's pocket scheduling guide (2012), section 2.2: inclusive dates."""
    finish = CREW.add(at("2012-07-02"), 10 * DAY)
    assert day_that_ends(finish) == date(2012, 7, 13)
    assert day_that_begins(CREW.snap(finish)) == date(2012, 7, 16)


def test_work_pauses_over_lunch_and_goes_on_after() -> None:
    assert SHOP.add(at("2031-06-16T11:00"), 120) == at("2031-06-16T14:00")
    assert SHOP.sub(at("2031-06-16T14:00"), 120) == at("2031-06-16T11:00")


def test_a_day_off_is_skipped_and_an_extra_day_is_worked() -> None:
    assert SHOP.snap(at("2031-06-19T09:00")) == at("2031-06-20T08:00")
    assert SHOP.snap(at("2031-06-20T17:00")) == at("2031-06-21T09:00")
    assert SHOP.between(at("2031-06-19"), at("2031-06-22")) == 480 + 60


def test_work_can_end_where_the_day_ends_and_begin_where_it_begins() -> None:
    assert SHOP.snap(at("2031-06-16T17:00")) == at("2031-06-17T08:00")
    assert SHOP.snap_back(at("2031-06-17T08:00")) == at("2031-06-16T17:00")
    assert SHOP.snap_back(at("2031-06-16T12:30")) == at("2031-06-16T12:00")


def test_counting_backwards_gives_a_negative_number() -> None:
    assert CREW.between(at("2031-06-17"), at("2031-06-16")) == -DAY


def test_round_the_clock_every_minute_counts() -> None:
    assert ALWAYS.add(at("2031-06-14T23:00"), 120) == at("2031-06-15T01:00")
    assert ALWAYS.day_minutes == 1440


def test_a_night_shift_runs_through_midnight() -> None:
    night = Calendar(key="night", week=(((0, 360), (1320, 1440)),) * 7)
    assert night.add(at("2031-06-16T23:00"), 120) == at("2031-06-17T01:00")
    assert night.snap_back(at("2031-06-17")) == at("2031-06-17")


def test_spans_out_of_order_or_overlapping_count_once() -> None:
    mixed = Calendar(key="mixed", week=(((780, 1020), (480, 800)),) * 7)
    assert mixed.between(at("2031-06-16"), at("2031-06-17")) == 540


def test_the_table_grows_far_ahead_and_far_back() -> None:
    years = 40 * 260 * DAY
    far = CREW.add(at("2031-06-16"), years)
    assert CREW.between(at("2031-06-16"), far) == years
    assert CREW.sub(far, years) == at("2031-06-16T08:00")
    assert CREW.snap(at("1971-06-12")) == at("1971-06-14T08:00")


def test_marks_stay_when_the_table_grows() -> None:
    fresh = Calendar(key="fresh", week=CREW.week)
    line = fresh.line(at("2031-06-16"))
    before = line.mark(at("2031-06-20"))
    line.mark(at("1990-01-01")), line.mark(at("2060-01-01"))
    assert line.mark(at("2031-06-20")) == before == 4 * DAY


@pytest.mark.parametrize("exceptions", [{}, {date(2031, 6, 14): HOURS}])
def test_a_calendar_without_enough_working_time_says_so(exceptions: dict) -> None:
    empty = Calendar(key="closed", week=((),) * 7, exceptions=exceptions)
    with pytest.raises(NoWorkingTime) as refused:
        empty.add(at("2031-06-01"), DAY + 1)
    assert refused.value.calendar == "closed"


def test_a_day_is_as_long_as_the_longest_normal_day() -> None:
    assert Calendar(key="k", week=(HOURS, LUNCH, (), (), (), (), ())).day_minutes == 540
    only_extra = Calendar(key="k", week=((),) * 7, exceptions={date(2031, 6, 14): ((0, 60),)})
    assert only_extra.day_minutes == 60
