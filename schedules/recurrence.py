"""Recurring dates by the rules of RFC 5545 (iCalendar, 2009), through python-dateutil."""

import re
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime, tzinfo

from dateutil.rrule import rrule, rruleset, rrulestr

_NO_STEP = re.compile(r"INTERVAL=0+(?!\d)", re.IGNORECASE)
_UNTIL = re.compile(r"UNTIL=(\d{8})(T\d{6})?(Z)?", re.IGNORECASE)


class BadRule(ValueError):
    """A recurrence rule that RFC 5545 does not allow."""


def instances(
    rule: str,
    start: datetime,
    *,
    excluded: Iterable[datetime] = (),
    added: Iterable[datetime] = (),
) -> Iterator[datetime]:
    """The instances of an RRULE in order, endless if the rule is: take what you need.

    `start` is DTSTART: with a time zone, every instance keeps its local time in that
    zone over clock changes; a time that the clock skips is read with the offset before
    the change (section 3.3.5). `excluded` are EXDATEs, `added` RDATEs, in the same zone.
    Dates that do not exist are left out, not moved (section 3.3.10): a rule "monthly on
    the 31st" loses months; write BYMONTHDAY=-1. A rule knows no holidays. Raises BadRule.

    >>> [d.day for d in instances("FREQ=MONTHLY;BYMONTHDAY=-1;COUNT=3", datetime(2031, 1, 31))]
    [31, 28, 31]
    """
    dates = rruleset()
    dates.rrule(_parsed(rule, start))
    for moment in added:
        dates.rdate(moment.replace(tzinfo=None))
    for moment in excluded:
        dates.exdate(moment.replace(tzinfo=None))
    return (_placed(moment, start.tzinfo) for moment in dates)


def _parsed(rule: str, start: datetime) -> rrule:
    """The rule on the wall clock; UNTIL, which is UTC, is brought to that clock."""
    if _NO_STEP.search(rule):  # an interval is positive: section 3.3.10
        raise BadRule(f"{rule} never moves on.")
    text = _UNTIL.sub(lambda found: _local_until(found, start.tzinfo), rule)
    try:
        parsed = rrulestr(text, dtstart=start.replace(tzinfo=None))
    except (ValueError, TypeError, KeyError) as error:
        raise BadRule(f"{rule} is not a recurrence rule of RFC 5545.") from error
    if not isinstance(parsed, rrule):
        raise BadRule(f"{rule} is more than one recurrence rule.")
    return parsed


def _local_until(found: re.Match[str], zone: tzinfo | None) -> str:
    day, time, utc = found.groups()
    if not time:
        return f"UNTIL={day}T235959"
    if utc and zone:
        moment = datetime.fromisoformat(day + time).replace(tzinfo=UTC).astimezone(zone)
        return f"UNTIL={moment:%Y%m%dT%H%M%S}"
    return f"UNTIL={day}{time}"


def _placed(moment: datetime, zone: tzinfo | None) -> datetime:
    """The instance in its zone, moved on if its clock skips that time."""
    if zone is None:
        return moment
    return moment.replace(tzinfo=zone).astimezone(UTC).astimezone(zone)
