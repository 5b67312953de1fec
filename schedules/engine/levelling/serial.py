"""Place one task after another, each as early as links, dates and hands allow.

Serial schedule generation with the minimum latest finish first; then the double
justification of Valls, Ballestín and Quintanilla (2005), European Journal of Operational
Research 165:375-386, on the real calendars; then the same with noisy priorities.
"""

import random
from collections.abc import Sequence
from heapq import heapify, heappop, heappush

from ..board import FAR, Board, Marks
from ..crossing import back
from ..passes import settle
from .problem import Problem, Score, bound, date_of, score
from .usage import Usage

PLACINGS = 4_500  # tasks placed by all samples together: the bound of the effort
NOISE = 0.12  # of the whole time, by which a latest finish may be wrong
SEED = 1


def serial(problem: Problem, *, samples: int | None = None) -> Marks:
    """The best of the plain rule and some noisy ones, each justified."""
    late = problem.late.finish
    best = _justified(problem, late)
    draw = random.Random(SEED)
    known = [finish for finish in late if finish < FAR >> 1]
    reach = NOISE * (max(known, default=0) - problem.board.data_date)
    count = PLACINGS // (1 + len(late)) if samples is None else samples
    least = date_of(problem, problem.early)
    for number in range(count):
        if best[0][0] <= least and number * 4 >= count:
            break  # the date is as early as can be, and the finishes had their turn
        noisy = [finish + draw.uniform(-reach, reach) for finish in late]
        best = min(best, _justified(problem, noisy), key=lambda found: found[0])
    return best[1]


def _justified(problem: Problem, priority: Sequence[float]) -> tuple[Score, Marks]:
    first = in_order(problem, priority)
    later = backward(problem, first)
    second = in_order(problem, later.start)
    return min(((score(problem, m), m) for m in (first, second)), key=lambda found: found[0])


def in_order(problem: Problem, priority: Sequence[float]) -> Marks:
    """Place the rows by priority, least first, as soon as all before them are placed."""
    fixed = problem.fixed
    while True:
        early = _attempt(problem, priority, fixed)
        kept = unmoved(problem, early, fixed)
        if kept == fixed:
            return early
        fixed = kept  # an event that cannot keep its date is placed like the others


def unmoved(problem: Problem, early: Marks, fixed: set[int]) -> set[int]:
    return {row for row in fixed if early.mark[row] == problem.early.mark[row]}


def _attempt(problem: Problem, priority: Sequence[float], fixed: set[int]) -> Marks:
    board = problem.board
    early = Marks.unbounded(len(board.activities))
    usage = _reserved(problem, fixed)
    waiting = [len(numbers) for numbers in board.into]
    eligible = [_entry(problem, priority, row) for row, count in enumerate(waiting) if not count]
    heapify(eligible)
    while eligible:
        row = heappop(eligible)[-1]
        _place(problem, early, usage, row, forced=row in fixed)
        for number in problem.links_out[row]:
            after = board.second[number]
            waiting[after] -= 1
            if not waiting[after]:
                heappush(eligible, _entry(problem, priority, after))
    return early


def _entry(problem: Problem, priority: Sequence[float], row: int) -> tuple[bool, float, int, int]:
    """What takes no hands goes first: it makes others eligible. Of equals the shorter one."""
    return bool(problem.needs[row]), priority[row], problem.board.length[row], row


def _reserved(problem: Problem, fixed: set[int]) -> list[Usage]:
    """The lanes with what cannot be put off."""
    usage = [Usage() for _ in problem.lanes]
    for row in fixed:
        begun = row in problem.board.started
        start = problem.board.data_date if begun else problem.early.start[row]
        for lane, need in problem.needs[row]:
            usage[lane].take(start, problem.early.finish[row], need)
    return usage


def _place(problem: Problem, early: Marks, usage: list[Usage], row: int, *, forced: bool) -> None:
    board = problem.board
    if row in board.finished:
        early.mark[row] = problem.early.mark[row]
        early.start[row], early.finish[row] = problem.early.start[row], problem.early.finish[row]
        return
    mark = bound(problem, early, row)
    if row in board.points:
        mark = settle(board, row, mark)
        early.mark[row] = early.start[row] = early.finish[row] = mark
        return
    free = bool(problem.needs[row]) and not forced
    placed = first_free(problem, usage, row, mark) if free else _at(board, row, mark)
    early.mark[row], early.start[row], early.finish[row] = placed
    if free:
        for lane, need in problem.needs[row]:
            usage[lane].take(placed[1], placed[2], need)


def _at(board: Board, row: int, mark: int) -> tuple[int, int, int]:
    line = board.line[row]
    return mark, line.begins(mark), line.ends(mark + board.length[row])


def first_free(problem: Problem, usage: list[Usage], row: int, mark: int) -> tuple[int, int, int]:
    """The first place from `mark` on where every lane that the row takes has room."""
    line, length = problem.board.line[row], problem.board.length[row]
    capacity = problem.capacity
    while True:
        start, finish = line.begins(mark), line.ends(mark + length)
        for lane, need in problem.needs[row]:
            until = usage[lane].blocked(start, finish, capacity[lane] - need)
            if until is not None:
                mark = line.mark(until)
                break
        else:
            return mark, start, finish


def backward(problem: Problem, early: Marks) -> Marks:
    """The same from the other side: as late as the date allows, the last finish first."""
    board, rows = problem.board, len(problem.board.activities)
    fixed = unmoved(problem, early, problem.fixed)
    late, usage = Marks.unbounded(rows), _reserved(problem, fixed)
    last, waiting = max(early.finish, default=0), [len(n) for n in problem.links_out]
    eligible = [(-early.finish[row], row) for row in range(rows) if not waiting[row]]
    heapify(eligible)
    while eligible:
        row = heappop(eligible)[1]
        if row in fixed or row == problem.end:
            _keep(problem, early, late, row)
        else:
            _place_back(problem, late, usage, row, last)
        for number in board.into[row]:
            before = board.first[number]
            waiting[before] -= 1
            if not waiting[before]:
                heappush(eligible, (-early.finish[before], before))
    return late


def _keep(problem: Problem, early: Marks, late: Marks, row: int) -> None:
    """What is fixed stays; the end counts from when everything before it is done."""
    late.mark[row], late.start[row] = early.mark[row], early.start[row]
    late.finish[row] = early.finish[row]
    if row == problem.end:
        at = date_of(problem, early)
        late.mark[row], late.start[row], late.finish[row] = problem.board.line[row].mark(at), at, at


def _place_back(problem: Problem, late: Marks, usage: list[Usage], row: int, last: int) -> None:
    board, line, length = problem.board, problem.board.line[row], problem.board.length[row]
    mark = line.mark(last) - length
    for number in problem.links_out[row]:
        mark = min(mark, back(board, late, number))
    placed = last_free(problem, usage, row, mark)
    late.mark[row], late.start[row], late.finish[row] = placed
    for lane, need in problem.needs[row]:
        usage[lane].take(placed[1], placed[2], need)


def last_free(problem: Problem, usage: list[Usage], row: int, mark: int) -> tuple[int, int, int]:
    line, length = problem.board.line[row], problem.board.length[row]
    while True:
        start, finish = line.begins(mark), line.ends(mark + length)
        for lane, need in problem.needs[row]:
            room = problem.capacity[lane] - need
            until = usage[lane].blocked_back(start, finish, room)
            if until is not None:
                mark = line.mark(until) - length
                break
        else:
            return mark, start, finish
