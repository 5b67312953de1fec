"""Public holidays against the law: days of 5 U.S.C. 6103(a); a Saturday holiday is kept on Friday
by 6103(b), a Sunday one on Monday by Executive Order 11582, section 3(a)."""

from datetime import date, timedelta

import pytest

from schedules.holidays import UnknownCountry, holidays_between, on_workdays

MONTHLY = [(1, 0, 3), (2, 0, 3), (9, 0, 1), (10, 0, 2), (11, 3, 4)]  # month, weekday, which one
FIXED = [(1, 1), (6, 19), (7, 4), (11, 11), (12, 25)]


def nth(year: int, month: int, weekday: int, which: int) -> date:
    first = date(year, month, 1)
    return first + timedelta(days=(weekday - first.weekday()) % 7 + 7 * (which - 1))


def by_law(year: int) -> set[date]:
    last_monday_of_may = nth(year, 6, 0, 1) - timedelta(days=7)
    days = {nth(year, *rule) for rule in MONTHLY} | {last_monday_of_may}
    for month, day in FIXED:
        days.add(date(year, month, day))
    return days


def kept(day: date) -> date:
    return day + timedelta(days={5: -1, 6: 1}.get(day.weekday(), 0))


@pytest.mark.parametrize("year", range(2022, 2043))
def test_federal_holidays_are_kept_as_the_law_says(year: int) -> None:
    law = {kept(day) for near in (year, year + 1) for day in by_law(near)}
    found = on_workdays(holidays_between("US", date(year, 1, 1), date(year, 12, 31)))
    assert found == sorted(day for day in law if day.year == year)


def test_new_year_2028_is_kept_in_2027() -> None:
    assert date(2027, 12, 31) in holidays_between("US", date(2027, 12, 1), date(2027, 12, 31))
    assert not holidays_between("US", date(2028, 1, 2), date(2028, 1, 16))


def test_nominal_days_leave_out_the_days_kept_instead() -> None:
    july = date(2027, 7, 1), date(2027, 7, 31)
    assert list(holidays_between("US", *july, observed=False)) == [date(2027, 7, 4)]


def test_a_part_of_a_country_has_its_own_days() -> None:
    spring = date(2031, 1, 2), date(2031, 1, 2)
    assert not holidays_between("GB", *spring, part="ENG")
    assert holidays_between("GB", *spring, part="SCT")


@pytest.mark.parametrize(("country", "part"), [("XX", None), ("US", "ZZ"), ("", None)])
def test_an_unknown_country_is_refused(country: str, part: str | None) -> None:
    with pytest.raises(UnknownCountry):
        holidays_between(country, date(2031, 1, 1), date(2031, 12, 31), part=part)
