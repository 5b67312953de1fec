"""Three-point estimates and the chance of one path, by the classic formulas.

Durations may be ints, floats or Fractions, in any one unit; a Fraction stays exact.
Source: Malcolm, Roseboom, Clark and Fazar, Application of a Technique for Research and
Development Program Evaluation, Operations Research 7 (1959), 646-669.
"""

from collections.abc import Iterable, Mapping
from math import prod, sqrt
from statistics import NormalDist
from typing import TypeVar

from ..errors import ScheduleError
from ..network import Network
from ..plan import Plan, Reason

N = TypeVar("N", bound=float)


class SpreadOutOfOrder(ScheduleError):
    """Low, likely and high do not follow each other."""

    code = "spread_out_of_order"

    def __init__(self, activity: str) -> None:
        super().__init__(f"{activity}: low, likely and high are not in this order")
        self.activity = activity


def expected(low: N, likely: N, high: N) -> N:
    """The mean of three points, in their unit.

    >>> expected(5, 8, 17)
    9.0
    """
    return (low + 4 * likely + high) / 6  # type: ignore[return-value]


def variance(low: N, high: N) -> N:
    """The classic variance of three points, in their unit squared.

    It takes the range for six standard deviations; the beta distribution that is drawn
    from has `(mean - low) * (high - mean) / 7`, which differs a little.

    >>> variance(5, 17)
    4.0
    """
    return ((high - low) / 6) ** 2  # type: ignore[return-value]


def score(mean: float, spread: float, by: float) -> float:
    """How many standard deviations `by` lies above the mean; `spread` is the variance.

    Infinite without spread.

    >>> round(score(24, 5, 28), 2)
    1.79
    """
    if spread <= 0:
        return float("inf") if by >= mean else float("-inf")
    return float(by - mean) / sqrt(spread)


def chance_by(mean: float, spread: float, by: float) -> float:
    """The chance, 0 to 1, that a path is done by then, as a normal distribution has it.

    Optimistic wherever paths merge: all others are left out of it.

    >>> round(chance_by(24, 5, 28), 4)
    0.9632
    """
    return NormalDist().cdf(score(mean, spread, by))


def by_chance(mean: float, spread: float, chance: float) -> float:
    """When a path is done with this chance, above 0 and below 1.

    >>> round(by_chance(35, 8.22, 0.9), 1)
    38.7
    """
    return float(mean) + sqrt(spread) * NormalDist().inv_cdf(chance)


def chance_of_all(chances: Iterable[float]) -> float:
    """The chance that paths which share nothing are all done: the product.

    >>> chance_of_all([0.5, 0.5])
    0.25
    """
    return prod(chances)


def critical_path(network: Network, plan: Plan, variances: Mapping[str, N]) -> tuple[str, ...]:
    """The longest path, first to last; of several the one with the most variance.

    Only what is on it may be added up: the sum over all activities says nothing of the
    finish. `variances` are of all activities that have one. Of ends that finish together
    the path into any of them may be taken.

    >>> from .. import Activity, Calendar, solve
    >>> pair = tuple(Activity(key=k, duration=60, calendar="always") for k in "AB")
    >>> always = Network(activities=pair, links=(), project_calendar="always",
    ...     calendars={"always": Calendar.always("always")})
    >>> critical_path(always, solve(always, data_date=0), {"A": 1, "B": 4})
    ('B',)
    """
    before = {link.key: link.before for link in network.links}
    best: dict[str, tuple[float, tuple[str, ...]]] = {}
    for key in sorted(plan.dates, key=lambda k: plan.dates[k].early_start):
        _follow(key, plan, before, variances, best)
    ends = [network.end] if network.end else _last(plan)
    return max((best[key] for key in ends), key=lambda found: found[0])[1] if ends else ()


def _follow(
    key: str,
    plan: Plan,
    before: Mapping[str, str],
    variances: Mapping[str, N],
    best: dict[str, tuple[float, tuple[str, ...]]],
) -> None:
    """The path of most variance into an activity, and into those that hold it, found first."""
    waiting = [key]
    while waiting:
        at = waiting[-1]
        holds = [before[d.key or ""] for d in plan.dates[at].drivers if d.reason is Reason.LINK]
        missing = [other for other in holds if other not in best]
        if missing:
            waiting += missing
            continue
        so_far = max((best[other] for other in holds), key=lambda b: b[0], default=(0.0, ()))
        best[at] = so_far[0] + float(variances.get(at, 0)), (*so_far[1], at)
        waiting.pop()


def _last(plan: Plan) -> list[str]:
    return [key for key, dates in plan.dates.items() if dates.early_finish == plan.finish]
