"""The least that whole bars cost when each covers so much, and so much is to be covered."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from worksheets.engine.cutting.problem import Problem

NODES = 4000


def covering(given: Problem, covers: Sequence[int], wanted: int, floor: int = 0) -> int:
    """No plan costs less, if no bar of stock s can do more than ``covers[s]`` of what is wanted.

    ``floor`` is a bound known already. A depth-first search over how many bars of each stock;
    where it grows too long, the floor stands. 0 when no bar covers anything.

    >>> from worksheets.engine.cutting.problem import problem
    >>> bars = problem([(20, 46), (24, 57), (8, 20)], [(8, 1)])
    >>> covering(bars, [20, 24, 8], 43)  # 20 and 24
    103
    """
    search = Covering(given, covers, wanted, floor)
    return search.least()


class Covering:
    def __init__(self, given: Problem, covers: Sequence[int], wanted: int, floor: int) -> None:
        pairs = [(s.price, c) for s, c in zip(given.stocks, covers, strict=True) if c > 0]
        self.bars = sorted(pairs, key=lambda pair: (Fraction(*pair), -pair[1]))
        self.wanted, self.step, self.nodes = wanted, given.step, 0
        self.floor = max(floor, self.rest(0, wanted))
        self.best: int | None = None

    def rest(self, place: int, wanted: int) -> int:
        """What the rest costs at least, by the share of a bar, up to a whole step."""
        if wanted <= 0 or place >= len(self.bars):
            return 0
        price, cover = self.bars[place]
        return ceil(Fraction(price * wanted, cover * self.step)) * self.step

    def least(self) -> int:
        if not self.bars:
            return self.floor
        self.visit(0, self.wanted, 0)
        return self.floor if self.best is None or self.nodes > NODES else max(self.floor, self.best)

    def visit(self, place: int, wanted: int, paid: int) -> None:
        """As many as are needed of the cheapest by length first, then fewer and fewer."""
        self.nodes += 1
        if wanted <= 0:
            self.best = paid if self.best is None else min(self.best, paid)
        if wanted <= 0 or place == len(self.bars):
            return
        price, cover = self.bars[place]
        for count in range(-(-wanted // cover), -1, -1):
            if self.enough() or self.nodes > NODES:
                return
            left = wanted - count * cover
            at_least = paid + count * price + self.rest(place + 1, left)
            if self.best is None or at_least < self.best:
                self.visit(place + 1, left, paid + count * price)
            elif left > 0:
                return  # fewer of the cheapest only cost more

    def enough(self) -> bool:
        return self.best is not None and self.best <= self.floor
