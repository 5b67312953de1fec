"""The bar that is worth most at given prices of its pieces: a bounded knapsack for every stock."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd
from typing import Any

from worksheets.engine.cutting.problem import Problem

FINEST = 32768  # steps of the longest bar, at most


@dataclass(frozen=True, slots=True)
class Scale:
    """Weights and rooms in whole steps."""

    weights: tuple[int, ...]
    rooms: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Priced:
    """``worth`` is no less than any bar of this stock is worth; ``pieces`` always fit it."""

    stock: int
    worth: int
    pieces: tuple[int, ...]


class Pricing:
    """Exact where the lengths have a common step that is coarse enough.

    Otherwise weights are rounded down for the worth, which keeps every bound true, and up for
    the pieces where those rounded down do not fit.
    """

    def __init__(self, given: Problem, finest: int = FINEST) -> None:
        self.given = given
        exact, coarse = gcd(*given.weights), -(-max(given.rooms) // finest)
        step = exact if exact >= coarse else coarse
        rooms = tuple(max(0, room // step) for room in given.rooms)
        self.loose = Scale(tuple(weight // step for weight in given.weights), rooms)
        self.tight = Scale(tuple(-(-weight // step) for weight in given.weights), rooms)

    def best(self, prices: Sequence[int]) -> list[Priced]:
        """For every stock the most that a bar is worth, and a bar that (nearly) is."""
        table = Table(self.given, self.loose, prices)
        safe: Table | None = None
        found = []
        for stock, room in enumerate(self.loose.rooms):
            pieces = table.pieces(room)
            if self.given.taken(pieces) > self.given.room(stock):
                safe = safe or Table(self.given, self.tight, prices)
                pieces = safe.pieces(room)
            found.append(Priced(stock, table.worth(room), pieces))
        return found


class Table:
    """Dynamic programme over all rooms at once; a piece wanted many times is taken in powers."""

    def __init__(self, given: Problem, scale: Scale, prices: Sequence[int]) -> None:
        import numpy as np

        most = max(scale.rooms)
        best = np.zeros(most + 1, dtype=np.int64)
        self.taken: list[tuple[int, int, int, Any]] = []  # piece, copies, weight, where taken
        for piece, price in enumerate(prices):
            weight = scale.weights[piece]
            if price <= 0 or weight > most:
                continue
            for copies in powers(min(given.demand[piece], most // weight) if weight else 0):
                load = copies * weight
                with_it = best[: most + 1 - load] + copies * price
                self.taken.append((piece, copies, load, with_it > best[load:]))
                np.maximum(best[load:], with_it, out=best[load:])
        self.best = best

    def worth(self, room: int) -> int:
        return int(self.best[room])

    def pieces(self, room: int) -> tuple[int, ...]:
        found: list[int] = []
        for piece, copies, load, better in reversed(self.taken):
            if room >= load and better[room - load]:
                found += [piece] * copies
                room -= load
        return tuple(sorted(found))


def powers(count: int) -> list[int]:
    """Numbers whose sums give everything up to a count.

    >>> powers(10)
    [1, 2, 4, 3]
    """
    found, size = [], 1
    while count > 0:
        found.append(min(size, count))
        count -= found[-1]
        size *= 2
    return found
