"""A bound that trusts no solver: any prices of zero or more give one, in exact fractions."""

from collections.abc import Sequence
from fractions import Fraction

from budgets.engine.best.program import Parts, Program

SMALL = 10**7  # denominators up to this are tried: prices of true rows are simple fractions
TINY = 1e-12


def bound(program: Program, prices: Sequence[float]) -> int:
    """The most cents that the first objective can reach, rounded down.

    Weak duality: with prices of zero or more, sum of price x limit, plus what each unknown could
    still add beyond its price, up to its own end. The prices come from the solver, in floating
    point; whatever they are, the bound holds, because it is added up in fractions. Two roundings
    of the prices are tried and the lower bound is taken.
    """
    plain = [Fraction(price) if price > TINY else Fraction(0) for price in prices]
    simple = [price.limit_denominator(SMALL) if price else price for price in plain]
    return min(certified(program, simple), certified(program, plain))


def certified(program: Program, prices: Sequence[Fraction]) -> int:
    """The bound of some exact prices."""
    total, costs = Fraction(0), weights_left(program, prices)
    for limit, price in zip(program.limits, prices, strict=True):
        if price:
            total += price * limit.most
    total += sum(cost * program.upper[unknown] for unknown, cost in costs.items() if cost > 0)
    return total.numerator // total.denominator


def weights_left(program: Program, prices: Sequence[Fraction]) -> dict[int, Fraction]:
    """What a cent of each unknown adds beyond what it uses up."""
    objective: Parts = program.objectives[0]
    left = {unknown: Fraction(weight) for unknown, weight in objective.items()}
    for limit, price in zip(program.limits, prices, strict=True):
        if price:
            for unknown, weight in limit.parts.items():
                left[unknown] = left.get(unknown, Fraction(0)) - price * weight
    return left
