"""The network and its hands as lists, and what a schedule of them is worth."""

from dataclasses import dataclass, field

from ..board import Board, Marks, lay
from ..crossing import ahead, met, reached
from ..ends import late_marks
from ..errors import ScheduleError
from ..joins import join
from ..network import Network
from ..passes import forward
from .hands import Hands, TooFewHands
from .points import ancestors, points, reaches_point

Score = tuple[int, int]  # the date, and the sum of all finishes


class CannotPart(ScheduleError):
    """Tasks that no order link can part: all four kinds of link join them already.

    >>> CannotPart(("paint", "wire")).activities
    ('paint', 'wire')
    """

    code = "cannot_part"

    def __init__(self, activities: tuple[str, ...]) -> None:
        self.activities = activities
        super().__init__(f"No link can part {' and '.join(activities) or 'these tasks'}.")


@dataclass(slots=True)
class Problem:
    """Rows are those of the board, lanes are numbers."""

    board: Board
    end: int | None
    lanes: list[str]
    capacity: list[int]
    needs: list[list[tuple[int, int]]]  # of each row: lane and how much
    early: Marks  # with as many hands as one likes
    late: Marks
    fixed: set[int] = field(default_factory=set)  # rows that nobody can put off
    links_out: list[list[int]] = field(default_factory=list)  # numbers, from each row
    follows: dict[int, list[int]] = field(default_factory=dict)  # may not start before these
    aside: set[int] = field(default_factory=set)  # begun ahead of work that shares its hands


def read(network: Network, hands: Hands, data_date: int) -> Problem:
    """Raises a ScheduleError, TooFewHands among them."""
    board = lay(network, data_date)
    end = None if network.end is None else board.index[network.end]
    join(board)
    early = forward(board)
    lanes = sorted(lane for lane in hands.capacity)
    problem = Problem(
        board=board,
        end=end,
        lanes=lanes,
        capacity=[hands.capacity[lane] for lane in lanes],
        needs=[],
        early=early,
        late=late_marks(board, early, end),
    )
    problem.needs = [_needs(problem, hands, row) for row in range(len(board.activities))]
    _put_in_order(problem)
    problem.fixed = board.finished | _begun(problem) | _timely(problem)
    problem.links_out = [[] for _ in board.activities]
    for number, row in enumerate(board.first):
        problem.links_out[row].append(number)
    _check(problem)
    return problem


def _needs(problem: Problem, hands: Hands, row: int) -> list[tuple[int, int]]:
    if row in problem.board.finished or row in problem.board.points:
        return []
    taken = hands.needs.get(problem.board.activities[row].key, {})
    return [(n, taken[lane]) for n, lane in enumerate(problem.lanes) if taken.get(lane, 0) > 0]


def _put_in_order(problem: Problem) -> None:
    """Links with a lead let a task go before the one it follows; an order link must not.

    It would close a loop. So of two tasks with hands the one that follows never starts first,
    and work that was begun ahead of such a task no longer counts.
    """
    board, taking = problem.board, {row for row, needs in enumerate(problem.needs) if needs}
    before, known = ancestors(board), points(board)
    begun = _begun(problem)
    for row in taking & begun:
        if before[row] & taking - begun:
            problem.aside.add(row)
            problem.needs[row] = []
    taking -= problem.aside
    for row in taking - begun:
        rows = [
            b
            for b in sorted(before[row] & taking)
            if not reaches_point(known, (b, False), (row, False))
        ]
        if rows:
            problem.follows[row] = rows


def _begun(problem: Problem) -> set[int]:
    """Work in progress that waits only for what cannot be put off either."""
    board, found = problem.board, set[int]()
    for row in board.order:
        if row in board.started and row not in board.finished:
            waits = [board.first[n] for n in board.into[row] if not met(board, n)]
            if all(before in board.finished or before in found for before in waits):
                found.add(row)
    return found


def _timely(problem: Problem) -> set[int]:
    """Events that take hands and happen on their date: the others go round them."""
    board, early = problem.board, problem.early
    taking = (row for row in board.events if problem.needs[row])
    return {row for row in taking if early.mark[row] == board.ready[row]}


def _check(problem: Problem) -> None:
    for row, needs in enumerate(problem.needs):
        for lane, need in needs:
            if need > problem.capacity[lane] and row not in problem.fixed:
                raise TooFewHands(problem.board.activities[row].key, problem.lanes[lane])


def bound(problem: Problem, early: Marks, row: int) -> int:
    """The least start mark that dates and links allow."""
    board = problem.board
    least = board.line[row].mark(board.ready[row])
    for before in problem.follows.get(row, ()):
        least = max(least, board.line[row].mark(early.start[before]))
    return max([least, *(ahead(board, early, number) for number in board.into[row])])


def score(problem: Problem, early: Marks) -> Score:
    """When everything before the end is done (else the last finish), then how early all is."""
    board = problem.board
    return date_of(problem, early), sum(
        finish for row, finish in enumerate(early.finish) if row not in board.finished
    )


def date_of(problem: Problem, early: Marks) -> int:
    if problem.end is None:
        return max(early.finish, default=problem.board.data_date)
    holds = end_links(problem)
    if not holds:
        return early.finish[problem.end]
    return max(reached(problem.board, early, number) for number in holds)


def end_links(problem: Problem) -> list[int]:
    """The links that hold the chosen end."""
    assert problem.end is not None
    into = problem.board.into[problem.end]
    return [number for number in into if not met(problem.board, number)]
