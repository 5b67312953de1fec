"""The forward pass of all draws at once.

Rows that are the same in every draw keep the dates of the plain pass; every other row has
an array, one entry a draw. Each rule is that of passes.py and crossing.py, whose words on
it hold here too; only outdoor work is placed by a rule of its own (weather.py).
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from ..board import Board, Marks
from ..crossing import WORK, crosses, met
from ..crossing import reached as reached_plainly
from ..network import LagClock, LinkKind
from .elapsed import Elapsed
from .ruler import Clock, Measure, Ruler
from .spread import Ints
from .weather import Sky

FROM_FINISH = (LinkKind.FS, LinkKind.FF)
TO_FINISH = (LinkKind.FF, LinkKind.SF)
CLOCK = Clock()


@dataclass(slots=True, kw_only=True)
class Walk:
    """What the pass reads, and what it finds for the rows that differ from draw to draw."""

    board: Board
    plain: Marks  # of the plain forward pass
    end_row: int
    needed: list[bool]  # the rows that lead to the end
    length: dict[int, Ints]  # minutes to place, where they differ
    outdoor: dict[int, Ruler]  # the calendar of each row that stands still on wet days
    own: list[Measure]  # the calendar of every row
    project: Measure  # the calendar of the project
    elapsed: Elapsed
    sky: Sky | None
    bound: dict[int, Ints] = field(default_factory=dict)  # the start mark that the bounds allow
    mark: dict[int, Ints] = field(default_factory=dict)  # the mark of the start
    end: dict[int, Ints] = field(default_factory=dict)  # the mark of the finish
    start: dict[int, Ints] = field(default_factory=dict)  # only where a link counts from it
    finish: dict[int, Ints] = field(default_factory=dict)

    def run(self) -> None:
        """Place every row that is not the same in all draws. May raise Beyond."""
        board = self.board
        for row in board.order:
            if row in board.finished or not self.needed[row]:
                continue
            waits = any(board.first[number] in self.mark for number in board.into[row])
            if waits or row in self.length or row in self.outdoor:
                self._place(row)

    def line(self, row: int) -> Measure:
        """Where a row lives: points and events by the wall clock, the others by their own."""
        board = self.board
        return CLOCK if row in board.points or row in board.events else self.own[row]

    def finish_of(self, row: int) -> Ints:
        """The finish of any row."""
        return self.finish[row] if row in self.finish else np.asarray(self.plain.finish[row])

    def minutes(self, row: int) -> Ints:
        """The minutes to place of any row."""
        return self.length[row] if row in self.length else np.asarray(self.board.length[row])

    def _place(self, row: int) -> None:
        board, line = self.board, self.line(row)
        others = board.other_into.get(row, ())
        at = np.asarray(board.ready[row])
        for number in board.into[row]:
            if number not in others:
                at = np.maximum(at, self.finish_of(board.first[number]))
        mark = line.mark(at)
        for number in others:
            if not met(board, number):
                mark = np.maximum(mark, self.ahead(number))
        self.bound[row] = mark
        if row in board.points:
            mark = settle(board, self.own[row], row, mark)
            self.mark[row] = self.end[row] = self.start[row] = self.finish[row] = mark
        elif self.sky and row in self.outdoor:
            ruler = self.outdoor[row]
            self._work(row, ruler, *self.sky.place(ruler, mark, self.minutes(row)))
        else:
            self._work(row, line, mark, mark + self.minutes(row))

    def _work(self, row: int, line: Measure, mark: Ints, end: Ints) -> None:
        board = self.board
        self.mark[row], self.end[row] = mark, end
        self.finish[row] = line.ends(end)
        if any(board.links[n].kind not in FROM_FINISH for n in board.other_out.get(row, ())):
            self.start[row] = line.begins(mark)

    def ahead(self, number: int) -> Ints:
        """The least start mark that a link leaves its successor."""
        board = self.board
        link, row, after = board.links[number], board.first[number], board.second[number]
        shift = self.minutes(after) if link.kind in TO_FINISH else np.asarray(0)
        if row in self.mark and not crosses(board, number):
            source = self.end[row] if link.kind in FROM_FINISH else self.mark[row]
            return source + link.lag - shift
        at, line = self.reached(number), self.line(after)
        if link.kind in TO_FINISH and (link.lag or link.kind is LinkKind.FF):
            return line.reach(at) - shift
        return line.mark(at) - shift

    def reached(self, number: int) -> Ints:
        """The instant that a link gives its successor's start or finish, lag included."""
        board = self.board
        link, row = board.links[number], board.first[number]
        from_start = link.kind not in FROM_FINISH
        if row not in self.mark or (from_start and row in board.started):
            return np.asarray(reached_plainly(board, self.plain, number))
        at = self.start[row] if from_start else self.finish[row]
        if not link.lag:
            return at
        if link.clock is LagClock.ELAPSED:
            return self.elapsed.after(at, link.lag)
        on = self.project
        if link.clock is not LagClock.PROJECT:
            on = self.own[row if link.clock is WORK else board.second[number]]
        return on.ends(on.mark(at) + link.lag)

    def binds(self, row: int, number: int) -> NDArray[np.bool_]:
        """In which draws a link holds a row where it is."""
        board = self.board
        if met(board, number):
            return np.asarray(False)
        plain = number not in board.other_into.get(row, ())
        if row in board.points:
            at = self.finish_of(board.first[number]) if plain else self.ahead(number)
            return np.asarray(settle(board, self.own[row], row, at) == self.mark[row])
        if plain:
            return self.finish_of(board.first[number]) >= self.line(row).ends(self.bound[row])
        return np.asarray(self.ahead(number) == self.bound[row])


def settle(board: Board, own: Measure, row: int, at: Ints) -> Ints:
    """The first instants, not before `at`, at which a milestone may fall."""
    if row in board.events:
        return at
    mark, activity = own.mark(at), board.activities[row]
    begins = own.begins(mark)
    if activity.finish_milestone or activity.duration:
        return np.where(own.ends(mark) == at, at, begins)
    return begins
