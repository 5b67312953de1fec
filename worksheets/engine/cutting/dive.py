"""From shares of bars to whole bars: settle the surest cuts, solve for the rest, and so on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from random import Random

from worksheets.engine.cutting.bound import Column, lower_bound
from worksheets.engine.cutting.first import first_plan, smaller
from worksheets.engine.cutting.part import Part
from worksheets.engine.cutting.problem import Cut, Plan, Problem, cost, fold, merit

SURE = 0.7  # a share from which a cut is taken as a whole bar
ROUNDS = 4  # of new cuts, each time
SHAKE = 0.3  # by how much chance may change the order of shares


class Dive:
    """Each dive with another seed takes another way; ``columns`` grow from dive to dive."""

    def __init__(self, given: Problem, columns: Iterable[Column]) -> None:
        self.given, self.columns = given, dict.fromkeys(columns)

    def down(self, seed: int, go_on: Callable[[], bool], enough: int = 0) -> Plan | None:
        """The best of the plans met on the way; None if it had to stop before the first.

        After every step the rest is finished at once, which also gives a plan. It stops early
        when a plan costs no more than ``enough``.
        """
        chance = Random(seed)
        left, cuts = list(self.given.demand), list[Cut]()
        best: Plan | None = None
        while any(left) and go_on():
            self.settle(left, cuts, chance if seed else None)
            plan = smaller(self.given, self.finished(left, cuts))
            best = plan if best is None else min(best, plan, key=lambda p: merit(self.given, p))
            if cost(self.given, best) <= enough:
                break
        return best

    def settle(self, left: list[int], cuts: list[Cut], chance: Random | None) -> None:
        """Take the cuts whose shares are whole or nearly; at least the one with the largest."""
        part = Part(self.given, left)
        found = lower_bound(part.problem, part.inward(self.columns), rounds=ROUNDS)
        self.columns |= dict.fromkeys((s, part.outward(p)) for s, p in found.columns)
        shares = [(share * shaken(chance), column) for column, share in found.shares.items()]
        taken = 0
        for share, (stock, inside) in sorted(shares, key=lambda pair: -pair[0]):
            pieces = part.outward(inside)
            wanted = max(int(share + 1e-6), int(share >= SURE or not taken))
            times = min(wanted, *(left[piece] // pieces.count(piece) for piece in set(pieces)))
            if times > 0:
                taken += times
                cuts.append(Cut(stock, pieces, times))
                for piece in pieces:
                    left[piece] -= times

    def finished(self, left: list[int], cuts: list[Cut]) -> Plan:
        if not any(left):
            return fold(cuts)
        part = Part(self.given, left)
        rest = first_plan(part.problem)
        return fold([*cuts, *(Cut(c.stock, part.outward(c.pieces), c.times) for c in rest)])


def shaken(chance: Random | None) -> float:
    return 1.0 if chance is None else 1 + SHAKE * (chance.random() - 0.5)
