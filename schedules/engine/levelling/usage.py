"""How much of one lane is taken, from instant to instant."""

from bisect import bisect_left, bisect_right

from ..board import FAR


class Usage:
    """A step function of time."""

    __slots__ = ("_times", "_used")

    def __init__(self) -> None:
        self._times, self._used = [-FAR, FAR], [0, 0]

    def take(self, start: int, finish: int, amount: int) -> None:
        if start < finish:
            for step in range(self._cut(start), self._cut(finish)):
                self._used[step] += amount

    def blocked(self, start: int, finish: int, room: int) -> int | None:
        """When the first stretch ends in which more than `room` is taken, None without one."""
        times, used = self._times, self._used
        step = bisect_right(times, start) - 1
        while times[step] < finish:
            if used[step] > room:
                return times[step + 1]
            step += 1
        return None

    def blocked_back(self, start: int, finish: int, room: int) -> int | None:
        """When the last stretch begins in which more than `room` is taken."""
        times, used = self._times, self._used
        step = bisect_left(times, finish) - 1
        while step >= 0 and times[step + 1] > start:
            if used[step] > room:
                return times[step]
            step -= 1
        return None

    def above(self, room: int) -> list[tuple[int, int, int]]:
        """Every stretch in which more than `room` is taken: start, finish, how much."""
        steps = zip(self._times, self._times[1:], self._used, strict=False)
        return [step for step in steps if step[2] > room]

    def _cut(self, at: int) -> int:
        step = bisect_left(self._times, at)
        if self._times[step] != at:
            self._times.insert(step, at)
            self._used.insert(step, self._used[step - 1])
        return step
