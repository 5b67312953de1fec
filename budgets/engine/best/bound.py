"""A bound that trusts no solver: any prices of zero or more give one, in whole numbers."""

from collections.abc import Sequence
from fractions import Fraction

from budgets.engine.best.program import Program

SMALL = 10**7  # denominators up to this are tried: prices of true rows are simple fractions
FINE = 1 << 80  # prices are whole numbers of so many to the cent
TINY = 1e-12


def bound(program: Program, prices: Sequence[float]) -> int:
    """The most cents that the first objective can reach, rounded down.

    Weak duality: with prices of zero or more, sum of price x limit, plus what each unknown could
    still add beyond its price, up to its own end. The prices come from the solver, in floating
    point; whatever they are, the bound holds, because it is added up in whole numbers. Two
    roundings of the prices are tried and the lower bound is taken.
    """
    plain = [Fraction(price) if price > TINY else Fraction(0) for price in prices]
    simple = [price.limit_denominator(SMALL) if price else price for price in plain]
    return min(certified(program, fine(simple)), certified(program, fine(plain)))


def fine(prices: Sequence[Fraction]) -> list[int]:
    return [price.numerator * FINE // price.denominator for price in prices]


def certified(program: Program, prices: Sequence[int]) -> int:
    """The bound of some exact prices."""
    left = {unknown: weight * FINE for unknown, weight in program.objectives[0].items()}
    total = 0
    for limit, price in zip(program.limits, prices, strict=True):
        if price:
            total += price * limit.most
            for unknown, weight in limit.parts.items():
                left[unknown] = left.get(unknown, 0) - price * weight
    beyond = (cost * program.upper[unknown] for unknown, cost in left.items() if cost > 0)
    return (total + sum(beyond)) // FINE
