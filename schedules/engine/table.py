"""Working time as a line of marks.

A mark counts the working minutes since an anchor. Where work stops and goes on,
one mark has two instants (Friday 17:00 and Monday 08:00): `ends` gives the first,
`begins` the second. Every question costs one bisect.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping
from itertools import accumulate
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
    def place(self, at: int, length: int) -> Placed: ...
    def place_back(self, limit: int, length: int) -> Placed: ...


class Always:
    """Work round the clock: a mark is the instant itself."""

    __slots__ = ()

    def mark(self, at: int) -> int:
        return at

    begins = ends = reach = leave = mark

    def place(self, at: int, length: int) -> Placed:
        return at, at, at + length

    def place_back(self, limit: int, length: int) -> Placed:
        return limit - length, limit - length, limit


ALWAYS = Always()


class WorkTable:
    """The cumulative working minutes of one calendar, grown as far as asked."""

    __slots__ = (
        "_anchor",
        "_begin",
        "_done",
        "_exceptions",
        "_first",
        "_from",
        "_key",
        "_last",
        "_shift",
        "_size",
        "_to",
        "_week",
    )

    def __init__(
        self, key: str, week: tuple[Spans, ...], exceptions: Mapping[int, Spans], anchor: int
    ) -> None:
        self._key, self._week, self._exceptions, self._anchor = key, week, exceptions, anchor
        self._grow(anchor // DAY - 60, anchor // DAY + 500)

    def mark(self, at: int) -> int:
        """Working minutes from the anchor to `at`."""
        if not self._from <= at < self._to:
            self._cover(at)
        span = bisect_right(self._begin, at) - 1
        gone, size = at - self._begin[span], self._size[span]
        return self._done[span] + (gone if gone < size else size)

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
        span = bisect_left(self._begin, at) - 1
        return self._done[span] + min(at - self._begin[span], self._size[span] + 1)

    def leave(self, at: int) -> int:
        """The greatest mark that begins at `at` or earlier."""
        self._cover(at)
        span = bisect_right(self._begin, at) - 1
        gone, size = at - self._begin[span], self._size[span]
        return self._done[span] + (gone if gone < size else size - 1)

    def place(self, at: int, length: int) -> Placed:
        """The first work of `length` minutes, above zero, from `at` on."""
        if not self._from <= at < self._to:
            self._cover(at)
        done, span = self._done, bisect_right(self._begin, at) - 1
        gone, size = at - self._begin[span], self._size[span]
        mark = done[span] + (gone if gone < size else size)
        last = mark + length
        if last > done[-1]:
            self._reach_out(mark, last)
            return self.place(at, length)
        start = at if gone < size else self._begin[span + 1]
        return mark, start, last + self._shift[bisect_left(done, last) - 1]

    def place_back(self, limit: int, length: int) -> Placed:
        """The last work of `length` minutes, above zero, up to `limit`."""
        if not self._from <= limit < self._to:
            self._cover(limit)
        done, span = self._done, bisect_left(self._begin, limit) - 1
        gone, size = limit - self._begin[span], self._size[span]
        mark = done[span] + (gone if gone < size else size) - length
        if mark < done[0]:
            self._reach_out(mark, mark + length)
            return self.place_back(limit, length)
        finish = limit if gone < size else self._begin[span] + size
        return mark, mark + self._shift[bisect_right(done, mark) - 1], finish

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
        self._first, self._last = first, last
        self._from, self._to = first * DAY, last * DAY
        empty = (self._from - 1, self._from - 1)  # so that every instant has a span before it
        spans = [empty, *_joined(self._spans())]
        before = sum(min(end, self._anchor) - begin for begin, end in spans if begin < self._anchor)
        self._begin = [begin for begin, _ in spans]
        self._size = [end - begin for begin, end in spans]
        self._done = list(accumulate(self._size, initial=-before))
        self._shift = [begin - done for begin, done in zip(self._begin, self._done, strict=False)]

    def _spans(self) -> Iterable[tuple[int, int]]:
        week, exceptions = self._week, self._exceptions
        for day in range(self._first, self._last):
            midnight = day * DAY
            for begin, end in exceptions.get(day, week[(day + _SATURDAY) % 7]):
                yield midnight + begin, midnight + end


def _joined(spans: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Join spans that touch or overlap, as across midnight; drop empty ones."""
    joined: list[tuple[int, int]] = []
    for begin, end in spans:
        if joined and begin <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        elif begin < end:
            joined.append((begin, end))
    return joined
