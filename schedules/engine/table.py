"""Working time as a line of marks.

A mark counts the working minutes since an anchor. Where work stops and goes on,
one mark has two instants (Friday 17:00 and Monday 08:00): `ends` gives the first,
`begins` the second. Every question costs one bisect.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Mapping
from itertools import accumulate
from operator import sub
from typing import Protocol

from .errors import NoWorkingTime
from .instants import DAY

Spans = tuple[tuple[int, int], ...]
Placed = tuple[int, int, int]  # mark of the start, instants of the start and the finish
FIRST_DAY, LAST_DAY = -146_097, 146_097  # the years 1600 and 2400
_SATURDAY = 5  # 1 January 2000


class Line(Protocol):
    """What the passes ask of working time."""

    def mark(self, at: int) -> int: ...
    def begins(self, mark: int) -> int: ...
    def ends(self, mark: int) -> int: ...
    def reach(self, at: int) -> int: ...
    def leave(self, at: int) -> int: ...
    def span(self, mark: int, length: int) -> Placed: ...
    def place(self, at: int, length: int) -> Placed: ...
    def place_back(self, limit: int, length: int) -> Placed: ...


class Always:
    """Work round the clock: a mark is the instant itself."""

    __slots__ = ()

    def mark(self, at: int) -> int:
        return at

    begins = ends = reach = leave = mark

    def span(self, mark: int, length: int) -> Placed:
        return mark, mark, mark + length

    def place(self, at: int, length: int) -> Placed:
        return at, at, at + length

    def place_back(self, limit: int, length: int) -> Placed:
        return limit - length, limit - length, limit


ALWAYS = Always()


class WorkTable:
    """The cumulative working minutes of one calendar, grown as far as asked.

    Of each span it keeps what turns its marks into instants (`_shift`), its end, the mark
    there, and where the next span begins.
    """

    __slots__ = (
        "_anchor",
        "_begin",
        "_done",
        "_ends",
        "_exceptions",
        "_first",
        "_from",
        "_key",
        "_last",
        "_shift",
        "_spans",
        "_to",
        "_week",
    )

    def __init__(
        self, key: str, week: tuple[Spans, ...], exceptions: Mapping[int, Spans], anchor: int
    ) -> None:
        self._key, self._week, self._exceptions, self._anchor = key, week, exceptions, anchor
        self._first = self._last = anchor // DAY + 1
        self._begin: list[int] = []
        self._ends: list[int] = []
        self._grow(anchor // DAY - 30, anchor // DAY + 330)

    def mark(self, at: int) -> int:
        """Working minutes from the anchor to `at`."""
        if not self._from <= at < self._to:
            self._cover(at)
        shift, end, done, _ = self._spans[bisect_right(self._begin, at) - 1]
        return at - shift if at < end else done

    def begins(self, mark: int) -> int:
        """The latest instant at `mark`: where the next working minute begins."""
        done = self._done
        if not done[0] <= mark < done[-1]:
            done = self._reach_out(mark, mark + 1)
        return mark + self._shift[bisect_right(done, mark) - 1]

    def ends(self, mark: int) -> int:
        """The earliest instant at `mark`: where the last working minute ends."""
        done = self._done
        if not done[0] < mark <= done[-1]:
            done = self._reach_out(mark - 1, mark)
        return mark + self._shift[bisect_left(done, mark) - 1]

    def reach(self, at: int) -> int:
        """The least mark that ends at `at` or later."""
        self._cover(at)
        shift, end, done, _ = self._spans[bisect_left(self._begin, at) - 1]
        return at - shift if at <= end else done + 1

    def leave(self, at: int) -> int:
        """The greatest mark that begins at `at` or earlier."""
        self._cover(at)
        shift, end, done, _ = self._spans[bisect_right(self._begin, at) - 1]
        return at - shift if at < end else done - 1

    def span(self, mark: int, length: int) -> Placed:
        """The work of `length` minutes, above zero, that begins at `mark`."""
        done, last = self._done, mark + length
        if mark < done[0] or last > done[-1]:
            done = self._reach_out(mark, last)
        begin = mark + self._shift[bisect_right(done, mark) - 1]
        return mark, begin, last + self._shift[bisect_left(done, last) - 1]

    def place(self, at: int, length: int) -> Placed:
        """The first work of `length` minutes, above zero, from `at` on."""
        if at < self._from:
            self._cover(at)
        shift, end, mark, start = self._spans[bisect_right(self._begin, at) - 1]
        if at < end:
            mark, start = at - shift, at
        last = mark + length
        if last > self._done[-1]:
            self._reach_out(mark, last)
            return self.place(at, length)
        return mark, start, last + self._shift[bisect_left(self._done, last) - 1]

    def place_back(self, limit: int, length: int) -> Placed:
        """The last work of `length` minutes, above zero, up to `limit`."""
        if not self._from <= limit < self._to:
            self._cover(limit)
        shift, end, _, _ = self._spans[bisect_left(self._begin, limit) - 1]
        finish = limit if limit < end else end
        mark = finish - shift - length
        if mark < self._done[0]:
            self._reach_out(mark, mark + length)
            return self.place_back(limit, length)
        return mark, mark + self._shift[bisect_right(self._done, mark) - 1], finish

    def _cover(self, at: int) -> None:
        while not self._from <= at < self._to:
            self._lengthen(before=at < self._from)

    def _reach_out(self, low: int, high: int) -> list[int]:
        while low < self._done[0] or high > self._done[-1]:
            self._lengthen(before=low < self._done[0])
        return self._done

    def _lengthen(self, *, before: bool) -> None:
        length = self._last - self._first
        first = max(self._first - length, FIRST_DAY) if before else self._first
        last = self._last if before else min(self._last + length, LAST_DAY)
        if (first, last) == (self._first, self._last):
            raise NoWorkingTime(self._key)
        self._grow(first, last)

    def _grow(self, first: int, last: int) -> None:
        if first < self._first:
            begin, ends = [first * DAY - 1], [first * DAY - 1]  # a span before every instant
            self._work(range(first, last), begin, ends)
        else:
            begin, ends = self._begin, self._ends
            self._work(range(self._last, last), begin, ends)
        self._first, self._last = first, last
        self._from, self._to = first * DAY, last * DAY
        self._begin, self._ends = begin, ends
        done = list(accumulate(map(sub, ends, begin), initial=0))
        span = bisect_left(begin, self._anchor) - 1
        before = done[span] + min(self._anchor, ends[span]) - begin[span]
        self._done = [minutes - before for minutes in done]
        self._shift: list[int] = list(map(sub, begin, self._done))
        onward = [*begin[1:], self._to]
        self._spans = list(zip(self._shift, ends, self._done[1:], onward, strict=True))

    def _work(self, days: range, begins: list[int], ends: list[int]) -> None:
        """Add the spans of some days, joined where they touch, as across midnight."""
        week, exceptions, latest = self._week, self._exceptions, ends[-1]
        for day in days:
            midnight = day * DAY
            for opens, closes in exceptions.get(day, week[(day + _SATURDAY) % 7]):
                begin, end = midnight + opens, midnight + closes
                if begin <= latest:
                    ends[-1] = latest = max(latest, end)
                elif begin < end:
                    begins.append(begin)
                    ends.append(end)
                    latest = end
