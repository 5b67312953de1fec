"""The critical set by float."""

from collections.abc import Collection

from .plan import Plan


def critical(plan: Plan, *, within: int = 0, leave_out: Collection[str] = ()) -> tuple[str, ...]:
    """Unfinished activities whose total float is the least, or within so many minutes of it.

    The least float, not zero: a finish imposed early or late moves every float. Only
    activities with a path to the chosen end count. Leave out an event that stands at its
    own date: its float says nothing about the work before it. `plan.chain` is the longest path;
    with several calendars the two can differ.

    >>> critical(Plan(dates={}, finish=0, chain=(), chain_links=(), ready_at=None, in_hand=None))
    ()
    """
    total = {
        key: dates.total_float
        for key, dates in plan.dates.items()
        if dates.to_end and not dates.finished and key not in leave_out
    }
    least = min(total.values(), default=0)
    return tuple(key for key, minutes in total.items() if minutes - least <= within)
