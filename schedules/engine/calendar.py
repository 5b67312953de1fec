"""A calendar: which minutes are worked."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from .errors import BadWeek
from .instants import DAY, instant
from .table import ALWAYS, Line, Spans, WorkTable

_WHOLE_DAY: Spans = ((0, DAY),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """Working spans of a week, Monday first, and the dates that differ.

    Spans are minutes of the day, such as ((480, 1020),) for 08:00 to 17:00; a day
    off has none. An exception replaces the spans of its date: a holiday is (),
    an extra day has spans.

    >>> office = Calendar(key="office", week=(((480, 1020),),) * 5 + ((), ()))
    >>> monday = instant(date(2031, 6, 16))
    >>> office.add(monday, 540) == monday + 1020
    True
    """

    key: str
    week: tuple[Spans, ...]
    exceptions: Mapping[date, Spans] = field(default_factory=dict)
    _line: list[Line] = field(default_factory=list, init=False, repr=False, compare=False)
    _day: list[int] = field(default_factory=list, init=False, repr=False, compare=False)

    @classmethod
    def always(cls, key: str) -> "Calendar":
        """A calendar that works round the clock.

        >>> Calendar.always("round the clock").add(0, 90)
        90
        """
        return cls(key=key, week=(_WHOLE_DAY,) * 7)

    @property
    def day_minutes(self) -> int:
        """Working minutes of the longest normal day; how minutes become days.

        >>> Calendar.always("round the clock").day_minutes
        1440
        """
        if not self._day:
            self._day.append(self._longest_day())
        return self._day[0]

    def _longest_day(self) -> int:
        normal = max((_minutes(spans) for spans in self.week), default=0)
        if normal:
            return normal
        return max((_minutes(spans) for spans in self.exceptions.values()), default=0) or DAY

    @property
    def endless(self) -> bool:
        """Whether its weeks hold working time, so that it never runs out.

        >>> Calendar(key="closed", week=((),) * 7).endless
        False
        """
        return any(_minutes(spans) for spans in self.week)

    def line(self, around: int = 0) -> Line:
        """The working time as marks; the table is first laid around an instant.

        >>> Calendar.always("round the clock").line().mark(75)
        75
        """
        if not self._line:
            self._line.append(self._lay(around))
        return self._line[0]

    def add(self, at: int, minutes: int) -> int:
        """The earliest instant by which so many working minutes have passed since `at`.

        `minutes` above zero. Raises NoWorkingTime.

        >>> Calendar.always("round the clock").add(60, 30)
        90
        """
        line = self.line(at)
        return line.ends(line.mark(at) + minutes)

    def sub(self, at: int, minutes: int) -> int:
        """The latest start from which so many working minutes fit in before `at`.

        `minutes` above zero. Raises NoWorkingTime.

        >>> Calendar.always("round the clock").sub(90, 30)
        60
        """
        line = self.line(at)
        return line.begins(line.mark(at) - minutes)

    def snap(self, at: int) -> int:
        """The next working instant, `at` itself if it is one. Raises NoWorkingTime.

        >>> office = Calendar(key="office", week=(((480, 1020),),) * 7)
        >>> office.snap(100), office.snap(500), office.snap(1020)
        (480, 500, 1920)
        """
        line = self.line(at)
        return line.begins(line.mark(at))

    def snap_back(self, at: int) -> int:
        """The last instant, not after `at`, at which work can end. Raises NoWorkingTime.

        >>> office = Calendar(key="office", week=(((480, 1020),),) * 7)
        >>> office.snap_back(1920), office.snap_back(500)
        (1020, 500)
        """
        line = self.line(at)
        return line.ends(line.mark(at))

    def between(self, first: int, last: int) -> int:
        """Working minutes from `first` to `last`; below zero when `last` is earlier.

        >>> office = Calendar(key="office", week=(((480, 1020),),) * 7)
        >>> office.between(0, 1440), office.between(1440, 0)
        (540, -540)
        """
        line = self.line(first)
        return line.mark(last) - line.mark(first)

    def _lay(self, around: int) -> Line:
        spans = (span for day in (*self.week, *self.exceptions.values()) for span in day)
        if len(self.week) != 7 or any(not 0 <= begin <= end <= DAY for begin, end in spans):
            raise BadWeek(self.key)
        if self.exceptions or any(spans != _WHOLE_DAY for spans in self.week):
            days = {instant(day) // DAY: _sorted(spans) for day, spans in self.exceptions.items()}
            return WorkTable(self.key, tuple(_sorted(spans) for spans in self.week), days, around)
        return ALWAYS


def _sorted(spans: Spans) -> Spans:
    return tuple(sorted(spans))


def _minutes(spans: Spans) -> int:
    return sum(end - begin for begin, end in spans)
