"""Instants: whole minutes of local wall time since 1 January 2000, 00:00."""

from datetime import date, datetime, timedelta

EPOCH = datetime(2000, 1, 1)
DAY = 1440
_MINUTE = timedelta(minutes=1)


def instant(moment: datetime | date) -> int:
    """Minutes from EPOCH to a naive local time; a date means its 00:00.

    >>> instant(date(2000, 1, 2)), instant(datetime(2000, 1, 1, 8, 30))
    (1440, 510)
    """
    if not isinstance(moment, datetime):
        moment = datetime(moment.year, moment.month, moment.day)
    return (moment - EPOCH) // _MINUTE


def moment(instant: int) -> datetime:
    """The naive local time of an instant.

    >>> moment(510)
    datetime.datetime(2000, 1, 1, 8, 30)
    """
    return EPOCH + instant * _MINUTE


def day_that_begins(instant: int) -> date:
    """The date to show for a start: midnight belongs to the day it opens.

    >>> day_that_begins(1440)
    datetime.date(2000, 1, 2)
    """
    return moment(instant).date()


def day_that_ends(instant: int) -> date:
    """The date to show for a finish: midnight belongs to the day it closes.

    >>> day_that_ends(1440)
    datetime.date(2000, 1, 1)
    """
    return moment(instant - 1).date()
