"""Elapsed time across clock changes.

Wall time is counted in UTC and read back on the wall clock. Two kinds of wall time
have no single UTC time: those skipped in spring stand for the change itself, and
those shown twice in autumn stand for the first showing. That keeps `after` and
`before` in step: `after(t, lag) <= limit` exactly when `t <= before(limit, lag)`.
"""

from datetime import UTC, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from .errors import UnknownZone
from .instants import DAY, EPOCH, instant, moment

_MINUTE = timedelta(minutes=1)
_EPOCH_UTC = EPOCH.replace(tzinfo=UTC)
_FAR = 146_097 * DAY  # clocks are taken as unchanging before 1600 and after 2400


class Zone:
    """The wall clock of one place; None is a place whose clocks never change."""

    __slots__ = ("_steady", "_zone")

    def __init__(self, name: str | None) -> None:
        self._zone: ZoneInfo | None = None
        self._steady: dict[int, int | None] = {}
        if name is not None:
            try:
                self._zone = ZoneInfo(name)
            except (ValueError, OSError, LookupError) as error:
                raise UnknownZone(name) from error

    def after(self, at: int, minutes: int) -> int:
        """The first wall time that is `minutes` of elapsed time after `at`, or later.

        >>> evening = instant(datetime(2026, 3, 7, 16))
        >>> moment(Zone("America/New_York").after(evening, 24 * 60)).hour
        17
        """
        if self._zone is None or self._as_steady(at, at + minutes):
            return at + minutes
        utc = self._utc(at) + minutes
        steady = self._steady_offset(utc)
        return utc + steady if steady is not None else self._first_wall(utc)

    def before(self, limit: int, minutes: int) -> int:
        """The last wall time from which `minutes` of elapsed time end by `limit`.

        >>> evening = instant(datetime(2026, 3, 8, 17))
        >>> moment(Zone("America/New_York").before(evening, 24 * 60)).hour
        16
        """
        if self._zone is None or self._as_steady(limit, limit - minutes):
            return limit - minutes
        utc = self._utc(limit) - minutes
        steady = self._steady_offset(utc)
        return utc + steady if steady is not None else self._last_wall(utc)

    def aware(self, at: int, minutes: int = 0) -> datetime:
        """The exact time, with its UTC offset, `minutes` of elapsed time after `at`.

        >>> Zone("America/New_York").aware(instant(datetime(2026, 10, 31, 16)), 600).isoformat()
        '2026-11-01T01:00:00-05:00'
        """
        utc = _EPOCH_UTC + (self._utc(at) + minutes) * _MINUTE
        return utc.astimezone(self._zone or UTC)

    def _as_steady(self, at: int, other: int) -> bool:
        """Whether one offset is in force around both, so that wall time adds up."""
        offset = self._steady_offset(at)
        return offset is not None and offset == self._steady_offset(other)

    def _utc(self, at: int) -> int:
        steady = self._steady_offset(at)
        if steady is not None:
            return at - steady
        wall = moment(at)
        early, late = (at - self._wall_offset(wall.replace(fold=fold)) for fold in (0, 1))
        return early if early <= late else self._change(late, early)

    def _steady_offset(self, at: int) -> int | None:
        """The offset in minutes, None if the clock changes within a day of `at`."""
        day = at // DAY
        try:
            return self._steady[day]
        except KeyError:
            first, last = (self._offset((day + step) * DAY) for step in (-1, 2))
            self._steady[day] = first if first == last else None
            return self._steady[day]

    def _offset(self, utc: int) -> int:
        """The offset in force at a UTC minute."""
        if self._zone is None:
            return 0
        utc = min(max(utc, -_FAR), _FAR)
        shift = (_EPOCH_UTC + utc * _MINUTE).astimezone(self._zone).utcoffset()
        return (shift or timedelta()) // _MINUTE

    def _wall_offset(self, wall: datetime) -> int:
        shift = self._zone.utcoffset(wall) if self._zone else None
        return (shift or timedelta()) // _MINUTE

    def _change(self, low: int, high: int) -> int:
        """The first minute after `low`, up to `high`, with another offset than `low`."""
        old = self._offset(low)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self._offset(middle) == old else (low, middle)
        return high

    def _first_wall(self, utc: int) -> int:
        wall = (_EPOCH_UTC + utc * _MINUTE).astimezone(self._zone)
        at = instant(wall.replace(tzinfo=None))
        if wall.fold == 0:
            return at
        first = self._utc(at)
        return self._change(first, utc) + self._offset(first)

    def _last_wall(self, utc: int) -> int:
        at = self._first_wall(utc)
        return at if self._utc(at) <= utc else at - 1


@lru_cache(maxsize=8)
def zone_named(name: str | None) -> Zone:
    """The zone of a name, with what it has learnt of its clock changes.

    >>> zone_named(None).after(0, 60)
    60
    """
    return Zone(name)
