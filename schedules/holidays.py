"""Public holidays as data with the year, through the holidays library."""

from collections.abc import Iterable
from datetime import date

import holidays as library


class UnknownCountry(ValueError):
    """A country, or a part of it, that the library does not know."""


def holidays_between(
    country: str, first: date, last: date, *, part: str | None = None, observed: bool = True
) -> dict[date, str]:
    """Public holidays from `first` to `last`, both included, in order, with their names.

    `country` is its two-letter code (ISO 3166-1), `part` a code the library knows for a
    state or region. With `observed`, days kept in place of a holiday on a weekend are
    added. Such a day can fall in the year before its holiday: 1 January 2028 is kept
    on 31 December 2027 by the United States government (5 U.S.C. 6103(b)).
    Raises UnknownCountry.

    >>> holidays_between("US", date(2027, 12, 30), date(2027, 12, 31))
    {datetime.date(2027, 12, 31): "New Year's Day (observed)"}
    """
    years = range(first.year - 1, last.year + 2)
    try:
        found = library.country_holidays(country, subdiv=part, years=years, observed=observed)
    except NotImplementedError as error:
        raise UnknownCountry(f"No holidays are known for {country} {part or ''}".strip()) from error
    return {day: found[day] for day in sorted(found) if first <= day <= last}


def on_workdays(days: Iterable[date], weekdays: Iterable[int] = range(5)) -> list[date]:
    """The days that fall on one of `weekdays` (Monday is 0).

    >>> on_workdays([date(2027, 12, 31), date(2028, 1, 1)])
    [datetime.date(2027, 12, 31)]
    """
    kept = set(weekdays)
    return [day for day in days if day.weekday() in kept]
