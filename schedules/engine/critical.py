"""The critical set by float, and what is near it."""

from collections.abc import Collection
from fractions import Fraction

from .network import Network
from .plan import Dates, Plan

NEAR_DAYS, NEAR_PERCENT = 3, 5  # common practice, no source


def critical(plan: Plan, *, within: int = 0, leave_out: Collection[str] = ()) -> tuple[str, ...]:
    """Unfinished activities whose total float is the least, or within so many minutes of it.

    The least float, not zero: a finish imposed early or late moves every float. Only
    activities with a path to the chosen end count. Leave out an event that stands at its
    own date: its float says nothing about the work before it. `plan.chain` is the longest path;
    with several calendars the two can differ.

    >>> critical(Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None))
    ()
    """
    total = {key: dates.total_float for key, dates in _counted(plan, leave_out).items()}
    least = min(total.values(), default=0)
    return tuple(key for key, minutes in total.items() if minutes - least <= within)


def near_critical(
    network: Network, plan: Plan, *, data_date: int, leave_out: Collection[str] = ()
) -> tuple[str, ...]:
    """Unfinished activities beside the critical ones whose float is little more than theirs.

    Floats are compared in working days of each activity's own calendar, so that a day of
    a short week counts like one round the clock. The same activities count as for `critical`.

    >>> from . import Activity, Calendar, solve
    >>> always = Calendar.always("always")
    >>> long = Activity(key="long", duration=9, calendar="always")
    >>> short = Activity(key="short", duration=8, calendar="always")
    >>> network = Network(activities=(long, short), links=(), calendars={"always": always},
    ...     project_calendar="always")
    >>> near_critical(network, solve(network, data_date=0), data_date=0)
    ('short',)
    """
    counted = _counted(plan, leave_out)
    calendar = {activity.key: activity.calendar for activity in network.activities}
    day = {key: each.day_minutes for key, each in network.calendars.items()}
    days = {k: Fraction(d.total_float, day[calendar[k]]) for k, d in counted.items()}
    band = Fraction(near_band(network, plan, data_date=data_date), day[network.project_calendar])
    most = min(days.values(), default=Fraction()) + band
    first = critical(plan, leave_out=leave_out)
    return tuple(key for key, float_days in days.items() if float_days <= most and key not in first)


def near_band(network: Network, plan: Plan, *, data_date: int) -> int:
    """How much float counts as near, in working minutes of the project's calendar.

    Three working days, or 5 % of what remains from the data date to the finish, whichever
    is more.

    >>> from . import Calendar
    >>> near_band(Network(activities=(), links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")}), Plan(dates={}, finish=144_000,
    ...     chain=(), chain_links=(), ready_at=None, in_hand=None), data_date=0)
    7200
    """
    calendar = network.calendars[network.project_calendar]
    remaining = calendar.between(data_date, plan.finish)
    return max(NEAR_DAYS * calendar.day_minutes, remaining * NEAR_PERCENT // 100)


def _counted(plan: Plan, leave_out: Collection[str]) -> dict[str, Dates]:
    return {
        key: dates
        for key, dates in plan.dates.items()
        if dates.to_end and not dates.finished and key not in leave_out
    }
