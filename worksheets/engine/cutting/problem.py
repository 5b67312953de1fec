"""Bars, pieces, saw and plan of a cut list, in whole nanometres, so that sums are exact."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, gcd

NANOMETRES = 1_000_000_000  # a metre; an inch in 128ths is still whole to the nanometre


class CuttingError(ValueError):
    """Pieces and bars that cannot go together; ``length`` is the piece, where one is meant."""

    def __init__(self, says: str, length: int | None = None) -> None:
        super().__init__(says)
        self.length = length


def whole(metres: float) -> int:
    """Metres as whole nanometres.

    >>> whole(0.0254 / 64)
    396875
    """
    return round(metres * NANOMETRES)


@dataclass(frozen=True, slots=True)
class Stock:
    """A length that can be bought, and what one bar counts: cents, or 1, or its length."""

    length: int
    price: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """``lengths`` are all different, the longest first, with ``demand`` pieces of each.

    ``trim`` is cut away at both ends of every bar; an off-cut of at least ``useful`` is kept.
    """

    stocks: tuple[Stock, ...]
    lengths: tuple[int, ...]
    demand: tuple[int, ...]
    kerf: int = 0
    trim: int = 0
    useful: int = 0

    def room(self, stock: int) -> int:
        """What a bar holds of pieces that each bring their kerf: the last one needs none."""
        return self.stocks[stock].length - 2 * self.trim + self.kerf

    @property
    def rooms(self) -> tuple[int, ...]:
        return tuple(map(self.room, range(len(self.stocks))))

    @property
    def weights(self) -> tuple[int, ...]:
        """Each length with one kerf."""
        return tuple(length + self.kerf for length in self.lengths)

    def taken(self, pieces: Iterable[int]) -> int:
        """The pieces of one bar, each with its kerf."""
        return sum(self.lengths[piece] + self.kerf for piece in pieces)

    def rest(self, stock: int, pieces: Sequence[int]) -> int:
        """The off-cut of a bar: what is left behind the cut after the last piece."""
        usable = self.stocks[stock].length - 2 * self.trim
        return max(0, usable - self.taken(pieces))

    @property
    def step(self) -> int:
        """Every cost is a multiple of it."""
        return gcd(*(stock.price for stock in self.stocks)) or 1


def problem(
    stocks: Sequence[tuple[int, int]],
    pieces: Iterable[tuple[int, int]],
    *,
    kerf: int = 0,
    trim: int = 0,
    useful: int = 0,
) -> Problem:
    """A problem from (length, price) of stocks and (length, count) of pieces, in nanometres.

    Equal lengths are put together. Raises CuttingError where a piece is longer than every bar
    allows, where there is nothing to cut or to cut from, or where a number is out of range.

    >>> problem([(6000, 1)], [(1000, 2), (2500, 1), (1000, 1)]).demand
    (1, 3)
    """
    demand: Counter[int] = Counter()
    for length, count in pieces:
        demand[length] += count
    lengths = tuple(sorted((length for length in demand if demand[length]), reverse=True))
    found = Problem(
        stocks=tuple(Stock(*stock) for stock in stocks),
        lengths=lengths,
        demand=tuple(demand[length] for length in lengths),
        kerf=kerf,
        trim=trim,
        useful=useful,
    )
    refuse(found)
    return found


def refuse(given: Problem) -> None:
    """Raise CuttingError for what cannot be cut."""
    if not given.stocks:
        raise CuttingError("There is no bar to cut from.")
    if not given.lengths:
        raise CuttingError("There is no piece to cut.")
    if min(given.kerf, given.trim, *(stock.price for stock in given.stocks)) < 0:
        raise CuttingError("Kerf, trim and prices are 0 or more.")
    if min(given.lengths) <= 0 or min(given.demand) < 0:
        raise CuttingError("A piece has a length of more than 0.")
    if given.lengths[0] + given.kerf > max(given.rooms):
        raise CuttingError("A piece is longer than every bar.", given.lengths[0])


@dataclass(frozen=True, slots=True)
class Cut:
    """``times`` bars of one stock cut alike; ``pieces`` are places in the problem's lengths."""

    stock: int
    pieces: tuple[int, ...]
    times: int = 1


Plan = tuple[Cut, ...]


def fold(cuts: Iterable[Cut]) -> Plan:
    """Bars cut alike put together, the most of them first."""
    counts: Counter[tuple[int, tuple[int, ...]]] = Counter()
    for cut in cuts:
        counts[cut.stock, tuple(sorted(cut.pieces))] += cut.times
    order = sorted(counts.items(), key=lambda item: (-item[1], item[0][1], item[0][0]))
    return tuple(Cut(stock, pieces, times) for (stock, pieces), times in order if times)


def cost(given: Problem, plan: Iterable[Cut]) -> int:
    return sum(given.stocks[cut.stock].price * cut.times for cut in plan)


def bars(plan: Plan) -> int:
    return sum(cut.times for cut in plan)


def bought(given: Problem, plan: Plan) -> int:
    """Length of all the bars."""
    return sum(given.stocks[cut.stock].length * cut.times for cut in plan)


def useful(given: Problem, plan: Plan) -> list[int]:
    """Off-cuts long enough to keep, the longest first."""
    rests = (given.rest(cut.stock, cut.pieces) for cut in plan for _ in range(cut.times))
    return sorted((rest for rest in rests if rest and rest >= given.useful), reverse=True)


def waste(given: Problem, plan: Plan) -> int:
    """Length that is neither a piece nor a useful off-cut: saw dust, trim and short ends."""
    pieces = sum(length * count for length, count in zip(given.lengths, given.demand, strict=True))
    return bought(given, plan) - pieces - sum(useful(given, plan))


def merit(given: Problem, plan: Plan) -> tuple[int, int, int]:
    """The smaller the better: cost, then different bars, then the longest useful off-cut."""
    return cost(given, plan), len(plan), -max(useful(given, plan), default=0)


def up(given: Problem, bound: float) -> int:
    """The least cost of whole bars that is not under a bound."""
    return ceil((bound - 1e-9) / given.step) * given.step
