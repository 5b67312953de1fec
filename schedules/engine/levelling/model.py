"""The rows, links and lanes as a model of whole numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..board import Marks
from ..crossing import FF, FS, SF, SS, WORK, crosses, lag_line, met, reached
from ..instants import DAY
from ..table import ALWAYS, Line
from .problem import Problem, date_of, end_links
from .rows import Rows
from .usage import Usage

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    Expr = cp_model.LinearExprT


class Model(Rows):
    """Rows joined by links, sharing lanes, with the date that they lead to."""

    def __init__(self, problem: Problem, first: Marks) -> None:
        super().__init__(problem, first)
        for number in range(len(self.board.links)):
            self._join(number)
        for row, rows in problem.follows.items():
            for before in rows:
                self._follow(before, row)
        for lane in range(len(problem.lanes)):
            self._share(lane)
        self.date, self._date_line = self._ready()
        self.finishes: Any = sum(self.mark.values())
        for row in self.rows:
            self.cp.add_hint(self.mark[row], self._count(row, first.mark[row]))

    # What is asked of it

    def starts(self, solver: cp_model.CpSolver) -> list[int]:
        """The start of every row, as an instant."""
        found = self.first.start[:]
        for row in self.rows:
            line = self.board.line[row]
            mark = solver.value(self.mark[row]) * self.unit + self.base[id(line)]
            found[row] = line.begins(mark)
        return found

    def hint(self, solver: cp_model.CpSolver) -> None:
        found = {row: solver.value(self.mark[row]) for row in self.rows}
        self.cp.clear_hints()  # type: ignore[no-untyped-call]
        for row, mark in found.items():
            self.cp.add_hint(self.mark[row], mark)

    def keep_date(self, value: int) -> None:
        self.cp.add(self.date <= value)

    def date_at(self, value: int) -> int:
        """The instant of a value of `date`."""
        line = self._date_line
        if line is ALWAYS:
            return value * self.unit + self.zero
        return line.ends(value * self.unit + self.base[id(line)])

    @property
    def first_date(self) -> int:
        line, at = self._date_line, date_of(self.problem, self.first)
        start = self.zero if line is ALWAYS else self.base[id(line)]
        return (line.mark(at) - start) // self.unit

    # Links

    def _join(self, number: int) -> None:
        board = self.board
        row, after, link = board.first[number], board.second[number], board.links[number]
        if after in self.fixed or met(board, number):
            return
        if not crosses(board, number) and row not in self.fixed:
            source = board.length[row] if link.kind in (FS, FF) else 0
            target = board.length[after] if link.kind in (FF, SF) else 0
            shift = (source + link.lag - target) // self.unit
            self.cp.add(self.mark[after] >= self.mark[row] + shift)
            return
        at = self._reached(number)
        if at is None:
            return
        if link.kind in (FS, SS):
            self.cp.add(self.instant(after, finish=False) >= at)
        elif link.kind is SF and not link.lag:
            self.cp.add(self._instant(after, board.length[after], False)[0] >= at)
        else:
            self.cp.add(self.instant(after, finish=True) >= at)

    def _follow(self, before: int, row: int) -> None:
        line = self.board.line
        if row in self.fixed:
            return
        if before not in self.fixed and line[before] is line[row]:
            self.cp.add(self.mark[row] >= self.mark[before])
        else:
            start = self.instant(before, finish=False)
            self.cp.add(self.instant(row, finish=False) >= start)

    def _reached(self, number: int) -> Any:
        """The instant that a link gives, lag included; None when it is left out."""
        board, link = self.board, self.board.links[number]
        row, finish = board.first[number], link.kind in (FS, FF)
        if row in self.fixed or (row in board.started and not finish):
            return (reached(board, self.problem.early, number) - self.zero) // self.unit
        if not link.lag:
            return self.instant(row, finish=finish)
        line = lag_line(board, number)
        if line is None:
            return self._elapsed(number, finish)
        if link.clock is not WORK and line is not board.line[row]:
            return self._counted(row, finish, link.lag, line)
        if row in board.points and board.own[row] is not ALWAYS:
            return self.instant(row, finish=finish) if link.lag > 0 else None
        beyond = board.length[row] * finish + link.lag
        return self._instant(row, beyond, True)[0]

    def _counted(self, row: int, finish: bool, lag: int, line: Line) -> Any:
        """The end of a lag on a line where the row does not live; not bounded from above."""
        at = self.instant(row, finish=finish)
        if line is ALWAYS:
            return at + lag // self.unit
        spans = self.spans[id(line)]
        most = (spans.mark[-1] + spans.end[-1] - spans.begin[-1] - spans.mark[0]) // self.unit
        mark = self.cp.new_int_var(0, most, "")
        self.cp.add(at <= self._through(spans, line, mark, False)[0])
        if lag > 0:
            return self._through(spans, line, mark + lag // self.unit, True)[0]
        after = self.cp.new_int_var(1, most, "")
        ends = self.cp.new_int_var(0, (self.last - self.zero) // self.unit, "")
        past = self.cp.new_bool_var("")  # the lead reaches back to before the data date
        self.cp.add(mark + lag // self.unit <= 0).only_enforce_if(past)
        self.cp.add(after >= mark + lag // self.unit).only_enforce_if(~past)
        reached_at = self._through(spans, line, after, True)[0]
        self.cp.add(ends >= reached_at).only_enforce_if(~past)
        return ends

    def _elapsed(self, number: int, finish: bool) -> Any:
        """A lag on the wall clock, with what clock changes take from it in each span."""
        board, link = self.board, self.board.links[number]
        row, lag, after = board.first[number], link.lag, board.zone.after
        at, which, spans = self._instant(row, board.length[row] * finish, finish)
        if which is None:
            days = range(self.zero, self.last + DAY, DAY)
            least = min((after(day, lag) - day - lag for day in days), default=0)
            return at + (lag + min(0, least)) // self.unit
        ends = zip(spans.begin, spans.end, strict=True)
        takes = [min(after(b, lag) - b, after(e, lag) - e) - lag for b, e in ends]
        if not any(takes):
            return at + lag // self.unit
        return at + lag // self.unit + self._element(which, [t // self.unit for t in takes])

    # Lanes

    def _share(self, lane: int) -> None:
        """No more of a lane at once than there is, in marks where one line is shared."""
        problem, board = self.problem, self.board
        takers = [(r, need) for r in self.rows for n, need in problem.needs[r] if n == lane]
        if sum(need for _, need in takers) + self._held(lane) <= problem.capacity[lane]:
            return
        lines = {id(board.line[row]) for row, _ in takers}
        shared = self.lines[lines.pop()] if len(lines) == 1 else None
        intervals = [self._interval(row, shared is not None) for row, _ in takers]
        demands = [need for _, need in takers]
        for start, finish, used in self._taken(lane, shared or ALWAYS):
            intervals.append(self.cp.new_fixed_size_interval_var(start, finish - start, ""))
            demands.append(min(used, problem.capacity[lane]))
        if problem.capacity[lane] == 1:
            self.cp.add_no_overlap(intervals)
        else:
            self.cp.add_cumulative(intervals, demands, problem.capacity[lane])

    def _held(self, lane: int) -> int:
        rows = self.fixed - self.board.finished
        return sum(need for r in rows for n, need in self.problem.needs[r] if n == lane)

    def _interval(self, row: int, by_mark: bool) -> Any:
        length = self.board.length[row] // self.unit
        if by_mark or self.board.line[row] is ALWAYS:
            return self.cp.new_fixed_size_interval_var(self.mark[row], length, "")
        start, finish = self.instant(row, finish=False), self.instant(row, finish=True)
        size = self.cp.new_int_var(length, (self.last - self.zero) // self.unit + length, "")
        self.cp.add(size == finish - start)
        return self.cp.new_interval_var(start, size, finish, "")

    def _taken(self, lane: int, line: Line) -> list[tuple[int, int, int]]:
        """What work in progress and events hold, as steps on a line."""
        usage, early = Usage(), self.problem.early
        zero = self.zero if line is ALWAYS else self.base[id(line)]
        for row in self.fixed - self.board.finished:
            for number, need in self.problem.needs[row]:
                if number == lane:
                    begun = row in self.board.started
                    start = line.mark(self.zero if begun else early.start[row])
                    finish = line.mark(early.finish[row])
                    usage.take(start - zero, finish - zero, need)
        return [(s // self.unit, -(-f // self.unit), used) for s, f, used in usage.above(0)]

    # The date

    def _ready(self) -> tuple[Any, Line]:
        """When all before the end is done: in marks where one line says it, else an instant."""
        board, end = self.board, self.problem.end
        numbers = [] if end is None else end_links(self.problem)
        ends = [board.first[n] for n in numbers] or ([end] if end is not None else self._last())
        plain = all(board.links[n].kind is FS and not board.links[n].lag for n in numbers)
        lines = {id(board.line[row]) for row in ends}
        line = self.lines[lines.pop()] if plain and len(lines) == 1 else ALWAYS
        if line is ALWAYS:
            values = [self._reached(n) for n in numbers]
            values = values or [self.instant(row, finish=True) for row in ends]
        else:
            values = [self._mark_of_finish(row) for row in ends]
        date = self.cp.new_int_var(0, self._most(line), "date")
        for value in values:
            if value is not None:
                self.cp.add(date >= value)
        return date, line

    def _most(self, line: Line) -> int:
        at = date_of(self.problem, self.first)
        zero = self.zero if line is ALWAYS else self.base[id(line)]
        return max(0, -(-(line.mark(at) - zero) // self.unit))

    def _last(self) -> list[int]:
        """Rows after whose finish none need come."""
        out = self.problem.links_out
        kinds = {r: {self.board.links[n].kind for n in out[r]} for r in self.rows}
        return [row for row in self.rows if not kinds[row] & {FS, FF}]

    def _mark_of_finish(self, row: int) -> Any:
        if row in self.fixed:
            line, at = self.board.line[row], self.problem.early.finish[row]
            if line is ALWAYS:
                return (at - self.zero) // self.unit
            return (line.mark(at) - self.base[id(line)]) // self.unit
        return self.mark[row] + self.board.length[row] // self.unit
