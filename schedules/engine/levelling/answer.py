"""The whole of levelling: a first answer at once, a better one with more effort."""

from dataclasses import dataclass, replace

from ..board import Marks, lay
from ..joins import join
from ..network import Network
from ..passes import forward
from ..plan import Plan
from ..solve import solve
from .checking import broken
from .hands import Hands
from .order import OrderLink, order_links, with_order
from .problem import CannotPart, Problem, Score, date_of, read, score
from .search import improve
from .serial import serial


@dataclass(frozen=True, slots=True, kw_only=True)
class Levelled:
    """A plan that overbooks nobody, and the order links that make it so.

    `network` holds the links, `plan` is its solution. `date` is the instant at which all
    before the chosen end is done, else the last finish; `bound` is the instant that no
    levelled plan can beat, so `proven` means that none is done earlier. `worth` is the date and
    the sum of all finishes, by which two such plans are compared. `searched` tells
    whether the better search found it. `forced` are activities that nobody can put off:
    where these alone overbook a lane, they still do. `aside` were begun ahead of work that
    shares their hands, and are left out.

    >>> Levelled.__slots__[0]
    'order'
    """

    order: tuple[OrderLink, ...]
    network: Network
    plan: Plan
    date: int
    bound: int
    worth: Score
    searched: bool
    forced: frozenset[str]
    aside: frozenset[str]

    @property
    def proven(self) -> bool:
        return self.date <= self.bound


def level(network: Network, hands: Hands, *, data_date: int, effort: float = 0.0) -> Levelled:
    """Part the tasks that share hands: the date first, then all finishes as early as can be.

    Without `effort` by serial placing, in a fraction of a second; with it by a search of at
    most so many seconds of deterministic time that starts from there and is never worse. The
    same input gives the same answer. Work in progress stays where it is. Raises a
    ScheduleError, TooFewHands when an activity alone takes more than there is.

    Kolisch (1996), Journal of Operations Management 14:179-192 (serial scheme, minimum
    latest finish); validated on the library of Kolisch and Sprecher (1997), European Journal
    of Operational Research 96:205-216.

    >>> from .. import Activity, Calendar
    >>> two = tuple(Activity(key=k, duration=60, calendar="always") for k in ("a", "b"))
    >>> network = Network(activities=two, links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")})
    >>> hands = Hands(capacity={"artist": 1}, needs={"a": {"artist": 1}, "b": {"artist": 1}})
    >>> found = level(network, hands, data_date=0)
    >>> [(o.before, o.after) for o in found.order], found.date
    ([('a', 'b')], 120)
    """
    problem = read(network, hands, data_date)
    hands = _without(hands, problem)
    first = serial(problem)
    least = date_of(problem, problem.early)
    best = _made(network, hands, problem, first, least, data_date)
    if not effort or not best.order:
        return best
    found = improve(problem, first, effort)
    if found is None:
        return best
    marks, bound = found
    best = replace(best, bound=max(best.bound, bound))
    other = _made(network, hands, problem, marks, best.bound, data_date)
    better = other.worth < best.worth
    return replace(other, searched=True) if better else best


def _without(hands: Hands, problem: Problem) -> Hands:
    aside = {problem.board.activities[row].key for row in problem.aside}
    return replace(hands, needs={k: v for k, v in hands.needs.items() if k not in aside})


def _worth(joined: Network, problem: Problem, data_date: int) -> Score:
    """By the links that were there before: an order link into the end is not the work's."""
    board = lay(joined, data_date)
    join(board)
    return score(problem, forward(board))


def _made(
    network: Network, hands: Hands, problem: Problem, marks: Marks, bound: int, data_date: int
) -> Levelled:
    """The schedule as order links, solved anew and checked; with all links, should few not do."""
    activities = problem.board.activities
    forced = frozenset(activities[row].key for row in problem.fixed)
    aside = frozenset(activities[row].key for row in problem.aside)
    for every in (False, True):
        order = order_links(network, problem, marks, data_date=data_date, every=every)
        joined = with_order(network, order)
        plan = solve(joined, data_date=data_date)
        if not broken(joined, hands, plan, data_date=data_date, forced=forced):
            break
    else:
        raise CannotPart(())
    worth = _worth(joined, problem, data_date)
    return Levelled(
        order=order, network=joined, plan=plan, date=worth[0], bound=bound, worth=worth,
        searched=False,
        forced=forced, aside=aside,
    )  # fmt: skip
