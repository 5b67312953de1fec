"""What is left of a problem once some bars are cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from worksheets.engine.cutting.bound import Column
from worksheets.engine.cutting.problem import Cut, Plan, Problem, fold


class Part:
    """The pieces still wanted, with their places in the whole problem."""

    def __init__(self, given: Problem, left: Sequence[int]) -> None:
        self.places = [place for place, count in enumerate(left) if count > 0]
        self.here = {place: number for number, place in enumerate(self.places)}
        self.left = left
        self.problem = replace(
            given,
            lengths=tuple(given.lengths[place] for place in self.places),
            demand=tuple(left[place] for place in self.places),
        )

    def inward(self, columns: Iterable[Column]) -> list[Column]:
        """Those cuts of the whole that are still wanted, as cuts of the part."""
        found = []
        for stock, pieces in columns:
            wanted = Counter(pieces)
            if all(self.left[piece] >= count for piece, count in wanted.items()):
                found.append((stock, tuple(self.here[piece] for piece in pieces)))
        return found

    def outward(self, pieces: Iterable[int]) -> tuple[int, ...]:
        return tuple(self.places[piece] for piece in pieces)


def exactly(given: Problem, plan: Iterable[Cut]) -> Plan:
    """A plan without the pieces that it cuts beyond what is wanted."""
    left, cuts = list(given.demand), []
    for cut in plan:
        for _ in range(cut.times):
            kept = []
            for piece in cut.pieces:
                if left[piece] > 0:
                    left[piece] -= 1
                    kept.append(piece)
            if kept:
                cuts.append(Cut(cut.stock, tuple(kept)))
    return fold(cuts)
