"""A plan held against another. The frame of March is from memory of common practice; a copy that
never changes: GAO-16-89G (December 2015), practice 10."""

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.engine import Calendar
from schedules.engine.earned import BadAmount, Earned, Planned, earned_schedule, planned_at
from schedules.engine.earned import planned_by as due_by
from schedules.engine.variance import Fate, Span, days_between, variances

from .networks import CREW, DAY, WEEKEND, at

FRIDAY, TUESDAY = date(2026, 3, 13), date(2026, 3, 17)


def span(finish: date, days: int = 5, start: date = date(2026, 3, 9)) -> Span:
    return Span(start=start, finish=finish, days=Fraction(days))


def test_from_friday_to_tuesday_is_two_working_days_late() -> None:
    found = variances({"skin": span(FRIDAY)}, {"skin": span(TUESDAY, 7)}, {"skin": CREW})[0]
    assert (found.start, found.finish, found.days) == (0, 2, 2)


def test_the_way_back_is_as_long_with_the_other_sign() -> None:
    assert days_between(CREW, TUESDAY, FRIDAY) == -2


def test_a_volunteers_day_later_is_the_next_weekend_day() -> None:
    saturday = date(2026, 3, 14)
    assert days_between(WEEKEND, saturday, saturday + timedelta(days=1)) == 1
    assert days_between(WEEKEND, saturday, saturday + timedelta(days=7)) == 2


def test_a_start_moved_over_a_weekend_is_one_day_later() -> None:
    kept, now = span(TUESDAY, start=FRIDAY), span(TUESDAY, start=date(2026, 3, 16))
    assert variances({"a": kept}, {"a": now}, {"a": CREW})[0].start == 1


def test_a_start_on_a_sunday_instead_of_a_saturday_skips_the_saturday() -> None:
    """Volunteers work at weekends: from Friday's plan to Sunday, Saturday is lost."""
    kept, now = span(TUESDAY, start=FRIDAY), span(TUESDAY, start=date(2026, 3, 15))
    assert variances({"a": kept}, {"a": now}, {"a": WEEKEND})[0].start == 1


def test_a_holiday_is_no_day_of_slip() -> None:
    off = Calendar(key="crew", week=CREW.week, exceptions={date(2026, 3, 16): ()})
    assert days_between(off, FRIDAY, TUESDAY) == 1


def test_tasks_of_one_plan_alone_are_named_and_have_no_variance() -> None:
    found = variances({"fence": span(FRIDAY)}, {"visit": span(FRIDAY)}, {})
    assert [(v.key, v.fate, v.finish) for v in found] == [
        ("visit", Fate.ADDED, None), ("fence", Fate.DROPPED, None),
    ]  # fmt: skip
    assert all(v.moved for v in found)


@given(st.dates(date(2026, 1, 1), date(2026, 12, 31)), st.integers(0, 60), st.integers(0, 60))
def test_slips_one_after_the_other_add_up(first: date, one: int, two: int) -> None:
    middle, last = first + timedelta(days=one), first + timedelta(days=one + two)
    both = days_between(CREW, first, middle) + days_between(CREW, middle, last)
    assert days_between(CREW, first, last) == both


def test_work_is_due_in_the_working_hours_of_its_calendar() -> None:
    """Ten days from Monday: half by the end of Friday, and no more by Monday morning."""
    work = [Planned(amount=1000, start=at("2031-06-16T08:00"), finish=at("2031-06-27T17:00"),
                    calendar=CREW)]  # fmt: skip
    assert due_by(work, at("2031-06-20T17:00")) == due_by(work, at("2031-06-23")) == 500
    assert planned_at(work, Fraction(500)) == at("2031-06-20T17:00")
    assert planned_at(work, Fraction(1001)) is None


def test_a_milestone_is_due_when_its_moment_has_come() -> None:
    point = Planned(amount=5, start=DAY, finish=DAY, calendar=CREW)
    assert (point.by(DAY - 1), point.by(DAY)) == (0, 5)


def test_nothing_paid_or_done_yet_has_no_index() -> None:
    """Common practice, no source: an index without a divisor is left open."""
    nothing = Earned(bac=100, pv=0, ev=0, ac=0)
    assert (nothing.cpi, nothing.spi, nothing.eac_by_cost, nothing.eac_by_both) == (None,) * 4
    assert nothing.eac_at_budget == 100 and nothing.tcpi(100) == 1


def test_money_spent_to_the_last_cent_leaves_no_pace_to_reach() -> None:
    assert Earned(bac=100, pv=100, ev=50, ac=100).tcpi(100) is None


@pytest.mark.parametrize("name", ["bac", "pv", "ev", "ac"])
def test_no_amount_lies_below_zero(name: str) -> None:
    amounts = {"bac": 1, "pv": 1, "ev": 1, "ac": 1} | {name: -1}
    with pytest.raises(BadAmount) as refused:
        Earned(**amounts)
    assert refused.value.name == name


def test_earned_schedule_counts_whole_periods_and_a_part_of_the_next() -> None:
    """Lipke, "Schedule is different" (2003): N whole periods and I of the next; idle ones count."""
    planned = [50, 120, 120, 220]
    found = [earned_schedule(planned, earned) for earned in (0, 25, 50, 120, 170, 220, 999)]
    assert found == [0, Fraction(1, 2), 1, 3, Fraction(7, 2), 4, 4]


def test_a_plan_that_falls_is_refused() -> None:
    with pytest.raises(BadAmount):
        earned_schedule([100, 90], 50)
