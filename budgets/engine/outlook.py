"""What it will all have cost: the estimate at completion, exact to the cent."""

from dataclasses import dataclass
from fractions import Fraction

from budgets.engine.money import MoneyError


class NothingEarned(MoneyError):
    """Work that has cost money and earned nothing has no rate to go on by."""

    code = "nothing_earned"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """A budget line or all of them, in cents.

    `committed` is ordered and not yet billed, so that a deposit is in `actual` alone; `remaining`
    is what is still to be ordered or bought.
    """

    budget: int
    actual: int
    committed: int
    remaining: int

    @property
    def completion(self) -> int:
        """The estimate at completion.

        >>> Outlook(budget=2_000_00, actual=154_50, committed=0, remaining=1_371_90).completion
        152640
        """
        return self.actual + self.committed + self.remaining

    @property
    def variance(self) -> int:
        """Budget less estimate: below zero when it will cost more."""
        return self.budget - self.completion


def at_this_rate(budget: int, actual: int, earned: int) -> int:
    """The estimate at completion when the rest costs as much for its worth as the work so far.

    Exact: the cost performance index is never rounded on the way. Half a cent goes up. Raises
    NothingEarned. Source of the formula: Project Management Institute, Practice Standard for
    Earned Value Management: actual + (budget - earned) / (earned / actual).

    >>> at_this_rate(500_000_00, 162_000_00, 150_000_00)
    54000000
    """
    return at_rate(budget, actual, earned, index(actual, earned))


def index(actual: int, earned: int) -> Fraction:
    """The cost performance index: what was earned for each cent spent."""
    if actual <= 0 or earned <= 0:
        raise NothingEarned("There is no rate before anything was spent and earned.")
    return Fraction(earned, actual)


def at_rate(budget: int, actual: int, earned: int, rate: Fraction) -> int:
    """The same with a rate that somebody printed, such as one rounded to two places.

    >>> at_rate(500_000_00, 162_000_00, 150_000_00, Fraction(93, 100))
    53834409
    """
    exact = actual + (budget - earned) / rate
    return int((2 * exact + 1) // 2)
