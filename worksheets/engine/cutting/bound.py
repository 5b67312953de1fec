"""The least that a plan can cost: a linear programme over cuts, with new cuts as they pay."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from worksheets.engine.cutting.pricing import Priced, Pricing
from worksheets.engine.cutting.problem import Problem

Column = tuple[int, tuple[int, ...]]  # stock and pieces
EXACT = 1 << 48  # prices of pieces are whole numbers of this share of the dearest bar
ROUNDS, FURTHER = 2000, 10
NEAR = 1e-9


@dataclass(frozen=True, slots=True)
class Bound:
    """``least`` is proven; ``relaxed`` is the value of the programme over the cuts found."""

    least: Fraction
    relaxed: float
    columns: tuple[Column, ...]
    shares: Mapping[Column, float]  # how many bars of a cut the programme uses
    closed: bool  # no cut that would pay is left
    worth: tuple[int, ...]  # of each piece, when the bound was found
    most: tuple[int, ...]  # what a bar of each stock is worth at most with these


class Master:
    """The programme over the cuts found so far; each piece alone is one, so it always ends."""

    def __init__(self, given: Problem, columns: Iterable[Column]) -> None:
        from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

        self.given, self.engine = given, pywraplp.Solver.CreateSolver("GLOP")
        self.unit = max(stock.price for stock in given.stocks) or 1
        endless = self.engine.infinity()
        self.rows = [self.engine.Constraint(wanted, endless) for wanted in given.demand]
        self.aim = self.engine.Objective()
        self.aim.SetMinimization()
        self.columns: dict[Column, Any] = {}
        self.worth: list[int] = []
        self.shares: dict[Column, float] = {}
        for column in [*alone(given), *columns]:
            self.add(column)

    def add(self, column: Column) -> bool:
        """Take a cut in; False when it is there already."""
        if column in self.columns:
            return False
        stock, pieces = column
        bars = self.engine.NumVar(0, self.engine.infinity(), "")
        self.aim.SetCoefficient(bars, self.given.stocks[stock].price / self.unit)
        for piece in set(pieces):
            self.rows[piece].SetCoefficient(bars, pieces.count(piece))
        self.columns[column] = bars
        return True

    def take(self, bars: Iterable[Priced]) -> int:
        """Take in what is worth more than it costs, beyond what rounding does; how many."""
        paying = [(bar.stock, bar.pieces) for bar in bars if self.pays(bar)]
        return sum([self.add(column) for column in paying])

    def pays(self, bar: Priced) -> bool:
        worth = sum(self.worth[piece] for piece in bar.pieces)
        return worth * self.unit > self.given.stocks[bar.stock].price * EXACT * (1 + NEAR)

    def solve(self) -> float:
        """The least over these cuts; values are read at once, a new cut would make them void."""
        self.engine.Solve()
        self.worth = [max(0, int(row.dual_value() * EXACT)) for row in self.rows]
        used = [(column, bars.solution_value()) for column, bars in self.columns.items()]
        self.shares = {column: float(value) for column, value in used if value > NEAR}
        return float(self.aim.Value()) * self.unit


def alone(given: Problem) -> list[Column]:
    """Each piece by itself, as often as it goes into the cheapest bar that takes it."""
    found = []
    for piece, length in enumerate(given.lengths):
        fit = [s for s, room in enumerate(given.rooms) if length + given.kerf <= room]
        stock = min(fit, key=lambda s: given.stocks[s].price)
        times = min(given.demand[piece], given.room(stock) // (length + given.kerf))
        found.append((stock, (piece,) * times))
    return found


def lower_bound(
    given: Problem,
    columns: Iterable[Column] = (),
    *,
    rounds: int = ROUNDS,
    go_on: Callable[[Fraction], bool] = lambda least: True,
    to_the_end: bool = False,
) -> Bound:
    """Column generation (Gilmore and Gomory 1961, from memory); stops when ``go_on`` says no.

    It ends as soon as no further round could raise the cost of whole bars, unless it is to go
    ``to_the_end``, where ``least`` is the value of the linear programme itself.

    The bound holds at every stop (Farley 1990, from memory): the prices, made smaller until no
    bar is worth more than it costs, times what is wanted. All of it in whole numbers.

    >>> from worksheets.engine.cutting.problem import problem
    >>> boards = problem([(17, 1)], [(3, 25), (5, 20), (9, 15)])
    >>> lower_bound(boards).least >= Fraction(18333, 1000)
    True
    """
    master, pricing = Master(given, columns), Pricing(given)
    least, relaxed, closed = Fraction(0), 0.0, False
    worth: tuple[int, ...] = (0,) * len(given.demand)
    most: tuple[int, ...] = (0,) * len(given.stocks)
    for _ in range(rounds):
        relaxed = master.solve()
        prices = master.worth
        bars = pricing.best(prices)
        bound = farley(given, master.unit, prices, bars)
        if bound > least:
            least, worth, most = bound, tuple(prices), tuple(bar.worth for bar in bars)
        closed = not master.take(bars) or (not to_the_end and settled(given, least, relaxed))
        if closed or not go_on(least):
            break
        more(master, pricing, prices, bars)
    columns = tuple(master.columns)
    return Bound(least, relaxed, columns, master.shares, closed, worth, most)


def settled(given: Problem, least: Fraction, relaxed: float) -> bool:
    """Both round up to the same cost."""
    return attainable(given, least) >= attainable(given, Fraction(relaxed * (1 - NEAR)))


def more(master: Master, pricing: Pricing, prices: Sequence[int], bars: Sequence[Priced]) -> None:
    """Further cuts that pay, of the pieces that those before left out: fewer rounds are needed."""
    left = list(prices)
    for _ in range(FURTHER):
        for piece in {piece for bar in bars for piece in bar.pieces}:
            left[piece] = 0
        bars = pricing.best(left) if any(left) else ()
        if not master.take(bars):
            break


def farley(given: Problem, unit: int, prices: Sequence[int], bars: Sequence[Priced]) -> Fraction:
    wanted = sum(price * count for price, count in zip(prices, given.demand, strict=True))
    worth = Fraction(wanted * unit, EXACT)
    for bar in bars:
        price = given.stocks[bar.stock].price * EXACT
        if bar.worth * unit > price:
            worth = min(worth, Fraction(wanted * unit, EXACT) * Fraction(price, bar.worth * unit))
    return worth


def attainable(given: Problem, least: Fraction) -> int:
    """The smallest sum of whole bars' prices that is not under a bound.

    >>> from worksheets.engine.cutting.problem import problem
    >>> timber = problem([(96, 2057), (120, 2997)], [(40, 5)])
    >>> attainable(timber, Fraction(5500))
    5994
    """
    step = given.step
    start = -(-least.numerator // (least.denominator * step))
    prices = {stock.price // step for stock in given.stocks}
    if 0 in prices or 1 in prices or start > LONGEST:
        return start * step
    top = start + max(prices)
    sums, all_of = 1, (1 << (top + 1)) - 1
    for price in prices:
        shift = price
        while shift <= top:
            sums |= (sums << shift) & all_of
            shift *= 2
    above = sums >> start
    return (start + (above & -above).bit_length() - 1) * step


LONGEST = 4_000_000  # sums that are listed at most
