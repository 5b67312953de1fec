"""The starts of all rows as whole numbers, and their instants where these are needed."""

from __future__ import annotations

from functools import reduce
from math import gcd
from typing import TYPE_CHECKING, Any

from ..board import Marks
from ..crossing import FF, FS, lag_line
from ..ends import reaches
from ..table import ALWAYS, Line
from .problem import Problem
from .serial import unmoved
from .spans import Spans, spans_of

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    Expr = cp_model.LinearExprT


class Rows:
    """Marks and instants count from the data date, in units that divide all there is."""

    def __init__(self, problem: Problem, first: Marks) -> None:
        from ortools.sat.python import cp_model

        self.cp = cp_model.CpModel()
        self.problem, self.board, self.first = problem, problem.board, first
        self.fixed = self.board.finished | unmoved(problem, first, problem.fixed)
        self.zero = self.board.data_date
        self.last = self._horizon()
        self.rows = [row for row in range(len(self.board.activities)) if row not in self.fixed]
        lags = (lag_line(self.board, number) for number in range(len(self.board.links)))
        counting = (line for line in lags if line is not None)
        self.lines = {id(a): a for a in (*self.board.line, *self.board.own, *counting)}
        self.base = {key: line.mark(self.zero) for key, line in self.lines.items()}
        self.spans: dict[int, Spans] = {}
        self.unit = self._unit()
        self.mark: dict[int, Any] = {row: self._start(row) for row in self.rows}
        self._known: dict[tuple[int, int, bool], tuple[Any, Any, Any]] = {}

    def _horizon(self) -> int:
        """No row need be later: the first date, and what does not lead to it one by one after."""
        board, last = self.board, max(self.first.finish, default=self.zero)
        leads = reaches(board, self.problem.end)
        for row in range(len(board.activities)):
            out = [n for n in self.problem.links_out[row] if board.links[n].kind in (FS, FF)]
            tied = self.problem.end is None or any(leads[board.second[n]] for n in out)
            if not tied and row not in self.fixed and board.length[row]:
                last = board.line[row].place(last, board.length[row])[2]
                last += sum(abs(board.links[n].lag) for n in self.problem.links_out[row])
        return last

    def _unit(self) -> int:
        board, problem = self.board, self.problem
        found = [board.length[row] for row in self.rows]
        found += [link.lag for link in board.links]
        for row in self.rows:
            line = board.line[row]
            found.append(line.mark(board.ready[row]) - self.base[id(line)])
            found.append(problem.early.mark[row] - self.base[id(line)])
        for key, line in self.lines.items():
            if line is not ALWAYS:
                self.spans[key] = spans_of(line, self.zero, self.last)
                found += self.spans[key].sizes(self.zero)
        for row in self.fixed - board.finished:
            found += [problem.early.start[row] - self.zero, problem.early.finish[row] - self.zero]
        for row in board.points - board.finished:
            found.append(self.first.mark[row] - self.zero)
        return reduce(gcd, found, 0) or 1

    def _count(self, row: int, mark: int) -> int:
        return (mark - self.base[id(self.board.line[row])]) // self.unit

    def _start(self, row: int) -> Any:
        """The start mark: never before the early one, a milestone only where it may fall."""
        from ortools.sat.python import cp_model

        line, least = self.board.line[row], self._count(row, self.problem.early.mark[row])
        most = max(least, self._count(row, line.mark(self.last) - self.board.length[row]))
        own = self.spans.get(id(self.board.own[row]))
        if row in self.board.points and row not in self.board.events and own:
            ends = bool(
                self.board.activities[row].finish_milestone or self.board.activities[row].duration
            )
            places = [
                [(b - self.zero) // self.unit, (e - self.zero) // self.unit - (not ends)]
                for b, e in zip(own.begin, own.end, strict=True)
            ]
            domain = cp_model.Domain.from_intervals(places)
            within = cp_model.Domain(least, most)
            return self.cp.new_int_var_from_domain(domain.intersection_with(within), f"s{row}")
        return self.cp.new_int_var(least, most, f"s{row}")

    # Instants

    def instant(self, row: int, *, finish: bool) -> Any:
        """Where the row starts or is finished."""
        early, board = self.problem.early, self.board
        if row in self.fixed:
            at = early.finish[row] if finish else early.start[row]
            return (at - self.zero) // self.unit
        return self._instant(row, board.length[row] if finish else 0, finish)[0]

    def _instant(self, row: int, beyond: int, ends: bool) -> tuple[Any, Any, Any]:
        """The instant of a mark so many minutes beyond the start, and its span."""
        line = self.board.line[row]
        mark = self.mark[row] + beyond // self.unit
        if line is ALWAYS:
            return mark, None, None
        key = (row, beyond, ends)
        if key not in self._known:
            self._known[key] = self._through(self.spans[id(line)], line, mark, ends)
        return self._known[key]

    def _through(self, spans: Spans, line: Line, mark: Any, ends: bool) -> tuple[Any, Any, Spans]:
        """A mark as an instant: its span, its place in the span, and where that span begins."""
        unit, count = self.unit, len(spans.begin)
        begins = [(b - self.zero) // unit for b in spans.begin]
        before = [(m - self.base[id(line)]) // unit for m in spans.mark]
        longs = [(e - b) // unit for b, e in zip(spans.begin, spans.end, strict=True)]
        low, high = (1, 0) if ends else (0, -1)
        which = self.cp.new_int_var(0, count - 1, "")
        offset = self.cp.new_int_var(low, max(longs) + high, "")
        begin = self._element(which, begins)
        if len(set(longs)) == 1:
            self.cp.add(mark == which * longs[0] + offset + before[0])
        else:
            self.cp.add(mark == self._element(which, before) + offset)
            self.cp.add(offset <= self._element(which, longs) + high)
        at = self.cp.new_int_var(begins[0] + low, begins[-1] + longs[-1], "")
        self.cp.add(at == begin + offset)
        return at, which, spans

    def _element(self, which: Any, values: list[int]) -> Any:
        found = self.cp.new_int_var(min(values), max(values), "")
        self.cp.add_element(which, values, found)
        return found
