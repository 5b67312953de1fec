"""The cut list: a good plan at once with a bound, and a longer search for the best."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from time import monotonic

from worksheets.engine.cutting.bound import Bound, Column, attainable, lower_bound
from worksheets.engine.cutting.checking import faults
from worksheets.engine.cutting.choosing import cheapest_of, every_cut, fewest_different
from worksheets.engine.cutting.covering import covering
from worksheets.engine.cutting.dive import Dive
from worksheets.engine.cutting.first import first_plan
from worksheets.engine.cutting.problem import Plan, Problem, cost, merit

LONGEST = 10.0  # seconds, at most
FEW = 24  # different lengths up to which the bound at once is that of the linear programme
FEW_CUTS = 400  # cuts up to which choosing among them is quick
CHOICE = 2.0  # seconds for one such choice
PROOF = 0.6  # of the time left, for the choice among every possible cut


@dataclass(frozen=True, slots=True)
class Found:
    """``least`` is proven: no plan costs less. ``fewest``: nor has any fewer different bars."""

    plan: Plan
    cost: int
    least: int
    fewest: bool = False

    @property
    def proven(self) -> bool:
        return self.cost <= self.least

    @property
    def gap(self) -> float:
        """By what share the plan may cost more than the least possible."""
        return (self.cost - self.least) / self.least if self.least else 0.0


Tell = Callable[[float, Found], bool]


def at_once(given: Problem, start: Plan | None = None) -> Found:
    """The first answer, with a bound that takes only milliseconds.

    >>> from worksheets.engine.cutting.problem import problem
    >>> at_once(problem([(17, 1)], [(3, 25), (5, 20), (9, 15)])).proven
    True
    """
    plan = first_plan(given)
    if start is not None and not faults(given, start):
        plan = min(plan, start, key=lambda one: merit(given, one))
    found = Found(plan, cost(given, plan), by_length(given))
    if found.proven or len(given.lengths) > FEW:
        return found
    bound = lower_bound(given, [(cut.stock, cut.pieces) for cut in plan])
    return replace(found, least=max(found.least, by_worth(given, bound)))


def by_length(given: Problem) -> int:
    """Bars bought must be as long together as the pieces with their kerfs."""
    taken = sum(w * count for w, count in zip(given.weights, given.demand, strict=True))
    return covering(given, given.rooms, taken)


def by_worth(given: Problem, bound: Bound) -> int:
    """Likewise with what pieces are worth in the linear programme instead of their length."""
    least = attainable(given, bound.least)
    wanted = sum(w * count for w, count in zip(bound.worth, given.demand, strict=True))
    return covering(given, bound.most, wanted, least) if wanted else least


def search(
    given: Problem,
    start: Plan | None = None,
    *,
    tell: Tell = lambda share, found: True,
    seconds: float = LONGEST,
    seed: int = 0,
    clock: Callable[[], float] = monotonic,
) -> Found:
    """Look on for a cheaper plan, or for the proof that there is none.

    ``tell`` hears how much of the time is gone and the best so far, and says whether to go on.
    From 0 to 10 seconds; ValueError beyond. A ``start`` that does not fit is passed over.
    """
    if not 0 <= seconds <= LONGEST:
        raise ValueError(f"The search takes from 0 to {LONGEST:g} seconds.")
    looking = Looking(given, at_once(given, start), tell, clock, seconds)
    if looking.go_on():
        looking.run(seed)
    return looking.found


class Looking:
    def __init__(
        self, given: Problem, found: Found, tell: Tell, clock: Callable[[], float], seconds: float
    ) -> None:
        self.given, self.found, self.tell, self.clock = given, found, tell, clock
        self.begun, self.seconds, self.stopped = clock(), seconds, False

    @property
    def left(self) -> float:
        return self.seconds - (self.clock() - self.begun)

    def go_on(self) -> bool:
        """Tell how far it has come; no further when told so, or when the time is over."""
        share = 1 - self.left / self.seconds if self.seconds else 1.0
        heard = self.tell(min(share, 1.0), self.found)
        self.stopped = self.stopped or not heard or self.left <= 0
        return not self.stopped

    def run(self, seed: int) -> None:
        if not self.found.proven:
            columns = [(cut.stock, cut.pieces) for cut in self.found.plan]
            bound = lower_bound(self.given, columns, go_on=lambda least: self.go_on())
            self.raise_to(by_worth(self.given, bound))
            dive = Dive(self.given, bound.columns)
            self.dive(dive, seed)
            self.exactly()
            self.dives(dive, seed + 1)
        if not self.stopped and self.found.proven and len(self.found.plan) > 1:
            plan, fewest = fewest_different(self.given, self.found.plan, self.left)
            self.found = replace(self.found, plan=plan, fewest=fewest)
        self.go_on()

    def dive(self, dive: Dive, seed: int) -> None:
        if not self.found.proven and self.go_on():
            self.better(dive.down(seed, self.go_on, self.found.least))

    def exactly(self) -> None:
        """Where every possible cut can be listed, the best choice among them is the best."""
        listed = None if self.found.proven or self.stopped else every_cut(self.given)
        if listed and self.choose(listed, self.left * PROOF):
            self.raise_to(self.found.cost)

    def dives(self, dive: Dive, seed: int) -> None:
        """Dive after dive; whenever the cuts met are few, choose the best of all of them."""
        met = 0
        while not self.found.proven and self.go_on():
            if met < len(dive.columns) <= FEW_CUTS:
                met = len(dive.columns)
                self.choose(list(dive.columns), min(CHOICE, self.left))
            self.dive(dive, seed)
            seed += 1

    def choose(self, columns: list[Column], seconds: float) -> bool:
        """Keep the cheapest plan of these cuts; True when it is known to be the cheapest."""
        plan, ended = cheapest_of(self.given, columns, seconds, self.found.least)
        self.better(plan)
        return ended and plan is not None

    def raise_to(self, least: int) -> None:
        self.found = replace(self.found, least=max(self.found.least, least))

    def better(self, plan: Plan | None) -> None:
        """Keep a plan that is cheaper, or as cheap and handier; one with faults never."""
        if plan is None or faults(self.given, plan):
            return
        if merit(self.given, plan) < merit(self.given, self.found.plan):
            self.found = replace(self.found, plan=plan, cost=cost(self.given, plan))
