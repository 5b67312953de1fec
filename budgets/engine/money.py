"""Exact money: integer cents, integer basis points (1 % = 100), four ways to round.

A cap is rounded down, a requirement up, a tax or a figure for display half up. Half to even is
for statistics alone.
"""

from collections.abc import Sequence
from enum import StrEnum

WHOLE = 10_000  # basis points in one
CENTS = 100  # cents in a dollar


class MoneyError(Exception):
    """Base of every refusal of this engine; `code` names the kind."""

    code = "money"


class NegativeMoney(MoneyError):
    """An amount below zero where only zero or more makes sense; `what` names it."""

    code = "negative_money"

    def __init__(self, what: str, cents: int) -> None:
        super().__init__(f"{what} is {figure(cents)}. It must be zero or more.")
        self.what, self.cents = what, cents


class NoWeights(MoneyError):
    """Money to split, but no weight above zero (or one below zero) to split it by."""

    code = "no_weights"

    def __init__(self, total: int, weights: Sequence[int]) -> None:
        super().__init__(
            f"{figure(total)} cannot be split: weights must be zero or more, and one above zero."
        )
        self.total, self.weights = total, tuple(weights)


class Rounding(StrEnum):
    FLOOR = "floor"
    CEIL = "ceil"
    HALF_UP = "half_up"
    HALF_EVEN = "half_even"


def portion(cents: int, numerator: int, denominator: int, rounding: Rounding) -> int:
    """`cents` times a fraction, rounded to a whole cent.

    Valid for amounts and numerators of zero or more and a denominator above zero.

    >>> [portion(1000, 1, 3, way) for way in Rounding]
    [333, 334, 333, 333]
    """
    if cents < 0 or numerator < 0:
        raise NegativeMoney("The amount" if cents < 0 else "The rate", min(cents, numerator))
    whole, rest = divmod(cents * numerator, denominator)
    if rounding is Rounding.CEIL:
        return whole + (rest > 0)
    if rounding is Rounding.HALF_UP:
        return whole + (2 * rest >= denominator)
    if rounding is Rounding.HALF_EVEN:
        return whole + (2 * rest + whole % 2 > denominator)
    return whole


def share_floor(cents: int, basis_points: int) -> int:
    """A percentage that is a cap, in cents, rounded down.

    >>> share_floor(99_99, 1500)
    1499
    """
    return portion(cents, basis_points, WHOLE, Rounding.FLOOR)


def share_ceil(cents: int, basis_points: int) -> int:
    """A percentage that is a requirement (match, hold-back), in cents, rounded up.

    >>> share_ceil(99_99, 1500)
    1500
    """
    return portion(cents, basis_points, WHOLE, Rounding.CEIL)


def share_half_up(cents: int, basis_points: int) -> int:
    """A percentage that is a tax or a figure for display, in cents, half a cent up.

    Source: Streamlined Sales and Use Tax Agreement, section 324 (third decimal above 4 goes up).

    >>> share_half_up(30_50, 700)
    214
    """
    return portion(cents, basis_points, WHOLE, Rounding.HALF_UP)


def lower_quotas(total: int, weights: Sequence[int]) -> tuple[int, ...]:
    """Each weight's share of `total`, rounded down; what is left over is not given out.

    >>> lower_quotas(100, (1, 1, 1))
    (33, 33, 33)
    """
    whole = sum(weights)
    if total < 0:
        raise NegativeMoney("The amount to split", total)
    if any(weight < 0 for weight in weights) or (total and not whole):
        raise NoWeights(total, weights)
    return tuple(total * weight // whole if whole else 0 for weight in weights)


def largest_remainder(total: int, weights: Sequence[int]) -> tuple[int, ...]:
    """Split `total` cents by weights so that the parts add up to it exactly.

    Each part is its share rounded down; the cents left over go one by one to the largest
    remainders, ties to the earlier place in the list. A refund (below zero) is split likewise.
    Source: Hamilton's method (1792); M. L. Balinski and H. P. Young, "Fair Representation", 1982.

    Raises NoWeights when there is money and no weight above zero, or a weight below zero.

    >>> largest_remainder(3333_33, (80, 20))
    (266666, 66667)
    >>> largest_remainder(-100, (1, 1, 1))
    (-34, -33, -33)
    """
    if total < 0:
        return tuple(-part for part in largest_remainder(-total, weights))
    parts = list(lower_quotas(total, weights))
    whole = sum(weights)
    by_remainder = sorted(
        range(len(parts)),
        key=lambda place: -(total * weights[place] % whole) if whole else 0,
    )
    for place in by_remainder[: total - sum(parts)]:
        parts[place] += 1
    return tuple(parts)


def dollars(cents: int, symbol: str = "$") -> str:
    """Money as it stands in a sentence.

    >>> dollars(1200_50), dollars(-5), dollars(7_00, symbol="£")
    ('$1,200.50', '−$0.05', '£7.00')
    """
    whole, rest = divmod(abs(cents), CENTS)
    return f"{'−' if cents < 0 else ''}{symbol}{whole:,}.{rest:02d}"


def figure(cents: int) -> str:
    """Money where no currency is known.

    >>> figure(1200_50)
    '1,200.50'
    """
    return dollars(cents, "")


def percent(basis_points: int) -> str:
    """A rate as it stands in a sentence.

    >>> percent(1500), percent(133), percent(1250)
    ('15 %', '1.33 %', '12.5 %')
    """
    whole, rest = divmod(basis_points, CENTS)
    return f"{whole}.{rest:02d}".rstrip("0").rstrip(".") + " %"
