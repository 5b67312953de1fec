"""Published dates as calls of the code for recurrence, holidays, calendars and elapsed lags."""

import re
from collections.abc import Callable
from datetime import date
from itertools import islice
from typing import Any
from zoneinfo import ZoneInfo

from schedules.engine import (
    Activity,
    Calendar,
    LagClock,
    Link,
    Network,
    Zone,
    day_that_ends,
    instant,
    solve,
)
from schedules.holidays import holidays_between, on_workdays
from schedules.recurrence import instances
from tests.published.row_words import MINUTES, Row, calendar, exact, when

# Names in the law beside the names in the library, where they differ.
IN_LAW = {"Martin Luther King Jr. Day": "Birthday of Martin Luther King, Jr."}
COUNTRIES = {"uk": "GB"}


def recurring(row: Row) -> Row:
    """Instances of a rule; of an endless one as many as the source prints."""
    zone = ZoneInfo(row["tzid"]) if row.get("tzid") else None
    start = when(row["dtstart"]).replace(tzinfo=zone)
    excluded = [when(text) for text in row.get("exdate") or ()]
    added = [when(text) for text in row.get("rdate") or ()]
    found = instances(row["rrule"], start, excluded=excluded, added=added)
    printed = len(row["expected_dates"])
    moments = list(islice(found, None if row.get("expected_is_complete") else printed))
    return {
        "expected_dates": [moment.date().isoformat() for moment in moments],
        "expected_datetimes": [moment.isoformat() for moment in moments],
        "expected_local_time": f"{moments[0]:%H:%M}" if moments else None,
        "zone_abbreviations": [moment.tzname() for moment in moments],
    }


def holiday_list(row: Row) -> Row:
    """A year's public holidays by name, and the days off that they make on weekdays."""
    prefix = row["id"].split("-")[0].lower()
    country = row.get("country") or COUNTRIES.get(prefix, prefix.upper())
    year = int(row.get("year") or listed_year(row))
    first, last = date(year, 1, 1), date(year, 12, 31)
    named = holidays_between(country, first, last, observed=False)
    off = on_workdays(holidays_between(country, first, last))
    return {
        "nominal": {IN_LAW.get(name, name): day.isoformat() for day, name in named.items()},
        "observed_weekdays": [day.isoformat() for day in off],
    }


def listed_year(row: Row) -> str:
    found = re.search(r"\d{4}", row["id"])
    return found[0] if found else min(row["nominal"].values()).split("-")[0]


def workday_count(row: Row) -> Row:
    """Working days of a year, or from one day to another with both counted."""
    kept = calendar(row["calendar"], row)
    first, last = span(row)
    minutes = kept.between(instant(first), instant(last))
    return {"expected": minutes // kept.day_minutes}


def span(row: Row) -> tuple[date, date]:
    """First day, and the day after the last."""
    if "year" in row:
        return date(row["year"], 1, 1), date(row["year"] + 1, 1, 1)
    last = row.get("end") or row.get("to")
    return when(row.get("start") or row["from"]), date.fromordinal(when(last).toordinal() + 1)


def workday_add(row: Row) -> Row:
    """The last working day of a duration that begins on a day."""
    kept = calendar(row["calendar"], row)
    minutes = int(exact(row["duration_workdays"]) * kept.day_minutes)
    return {
        "expected_finish_inclusive": day_that_ends(
            kept.add(instant(when(row["start"])), minutes)
        ).isoformat()
    }


def elapsed_lag(row: Row) -> Row:
    """When an elapsed lag is over, and when work on a calendar may go on."""
    zone = Zone(row["tzid"])
    finish = instant(when(row["finish"]))
    lag = int(exact(row["lag_elapsed_hours"]) * MINUTES)
    start = solve(waiting(row, finish, lag), data_date=finish).dates["after"].early_start
    return {
        "ready_at": zone.aware(finish, lag).isoformat(),
        "successor_may_start": zone.aware(start).isoformat(),
    }


def waiting(row: Row, finish: int, lag: int) -> Network:
    kept = calendar(row["calendar"], row)
    day_and_night = Calendar.always("day and night")
    return Network(
        activities=(
            Activity(key="before", duration=1, calendar=day_and_night.key, actual_finish=finish),
            Activity(key="after", duration=1, calendar=kept.key),
        ),
        links=(Link(key="wait", before="before", after="after", lag=lag, clock=LagClock.ELAPSED),),
        calendars={kept.key: kept, day_and_night.key: day_and_night},
        zone=row["tzid"],
        project_calendar=kept.key,
    )


CALENDAR_ADAPTERS: dict[str, Callable[[Row], Any]] = {
    "calendar:rrule": recurring,
    "calendar:rrule_derived": recurring,
    "calendar:holiday_list": holiday_list,
    "calendar:workday_count": workday_count,
    "calendar:workday_add": workday_add,
    "calendar:elapsed_lag": elapsed_lag,
}
