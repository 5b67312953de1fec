"""A good plan at once: bar after bar, the fullest cut of what is still wanted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import gcd

from worksheets.engine.cutting.problem import Cut, Plan, Problem, cost, fold, merit

FINEST = 8192  # steps of the longest bar, at most, in which sums of lengths are listed


@dataclass(frozen=True, slots=True)
class Grid:
    """Weights and rooms in whole steps; rounded so that what fits here fits the bar."""

    weights: tuple[int, ...]
    rooms: tuple[int, ...]


def grid(given: Problem, finest: int = FINEST) -> Grid:
    """Exact where all lengths are multiples of one step that is coarse enough."""
    exact, coarse = gcd(*given.weights), -(-max(given.rooms) // finest)
    step = exact if exact >= coarse else coarse
    return Grid(
        tuple(-(-weight // step) for weight in given.weights),
        tuple(max(0, room // step) for room in given.rooms),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How a plan is grown: the longest piece in every bar, or not; bars alike at once, or not."""

    longest: bool
    alike: bool
    stocks: tuple[int, ...]


def ways(given: Problem) -> Iterator[Way]:
    """With all stocks, then with each alone that is long enough."""
    every = tuple(range(len(given.stocks)))
    alone = [(stock,) for stock in every] if len(every) > 1 else []
    both = (True, False) if max(given.demand) > 1 else (False,)
    for stocks in [every, *alone]:
        if given.lengths[0] + given.kerf <= max(given.room(stock) for stock in stocks):
            for alike in both:
                for longest in (True, False):
                    yield Way(longest=longest, alike=alike, stocks=stocks)


def by_length(given: Problem, stocks: Sequence[int], taken: int) -> float:
    """What pieces cost at least if bars could be bought by the length."""
    return taken * min(
        given.stocks[stock].price / given.room(stock) for stock in stocks if given.room(stock) > 0
    )


def first_plan(given: Problem) -> Plan:
    """The best of a few plans that are grown bar by bar; milliseconds for 200 pieces.

    >>> from worksheets.engine.cutting.problem import bars, problem
    >>> boards = problem([(17, 1)], [(3, 25), (5, 20), (9, 15)])
    >>> bars(first_plan(boards))
    19
    """
    steps = grid(given)
    best: Plan | None = None
    for way in ways(given):
        most = None if best is None else cost(given, best)
        plan = Grower(given, steps, way).plan(most)
        if plan is not None:
            plan = smaller(given, plan)
            best = plan if best is None else min(best, plan, key=lambda one: merit(given, one))
    assert best is not None  # the first way always ends
    return best


class Grower:
    def __init__(self, given: Problem, steps: Grid, way: Way) -> None:
        self.given, self.steps, self.way = given, steps, way
        self.left = list(given.demand)
        self.cuts: list[Cut] = []
        self.paid, self.longest = 0, max(given.room(stock) for stock in way.stocks)
        self.taken = sum(w * d for w, d in zip(given.weights, given.demand, strict=True))
        self.mask = (1 << (max(steps.rooms[stock] for stock in way.stocks) + 1)) - 1

    def plan(self, most: int | None = None) -> Plan | None:
        """Cut until nothing is left; wherever one bar could take all the rest, see if that pays.

        Gives up with None as soon as the plan is sure to cost more than ``most``.
        """
        ends: list[tuple[Cut, ...]] = []
        while self.taken:
            if most is not None and self.hopeless(most):
                break
            if end := self.at_once():
                ends.append((*self.cuts, end))
            self.next()
        else:
            ends.append(tuple(self.cuts))
        return fold(min(ends, key=lambda cuts: cost(self.given, cuts))) if ends else None

    def hopeless(self, most: int) -> bool:
        return self.paid + by_length(self.given, self.way.stocks, self.taken) > most + 1e-6

    def at_once(self) -> Cut | None:
        """The cheapest bar that takes everything left."""
        if self.taken > self.longest:
            return None
        rest = tuple(n for n, count in enumerate(self.left) for _ in range(count))
        return cheapest(self.given, rest, self.way.stocks)

    def next(self) -> None:
        """One more bar, or as many of the same as are wanted."""
        stock, pieces = self.fullest()
        wanted = {piece: pieces.count(piece) for piece in pieces}
        times = min(self.left[piece] // count for piece, count in wanted.items())
        times = times if self.way.alike else 1
        for piece in pieces:
            self.left[piece] -= times
        self.taken -= self.given.taken(pieces) * times
        self.paid += self.given.stocks[stock].price * times
        self.cuts.append(Cut(stock, tuple(sorted(pieces)), times))

    def fullest(self) -> tuple[int, list[int]]:
        """The bar that costs least for the length it fills."""
        start: list[int] = []
        left = self.left
        if self.way.longest:
            longest = next(n for n, count in enumerate(left) if count)
            start, left = [longest], [c - (n == longest) for n, c in enumerate(left)]
        base = sum(self.steps.weights[piece] for piece in start)
        before, sums = self.sums(left, base)
        best: tuple[int, int, int] | None = None
        for stock in self.way.stocks:
            fill = (sums & ((2 << self.steps.rooms[stock]) - 1)).bit_length() - 1
            price = self.given.stocks[stock].price
            if fill > 0 and (best is None or (price * best[2], -fill) < (best[1] * fill, -best[2])):
                best = (stock, price, fill)
        if best is None:
            return self.single()
        return best[0], start + self.back(before, best[2])

    def single(self) -> tuple[int, list[int]]:
        """The longest piece by itself: it fits, but in whole steps it does not seem to."""
        longest = next(n for n, count in enumerate(self.left) if count)
        cut = cheapest(self.given, (longest,), self.way.stocks)
        assert cut is not None  # a way has a stock that takes the longest piece
        return cut.stock, [longest]

    def sums(self, left: Sequence[int], base: int) -> tuple[list[tuple[int, int]], int]:
        """Bit n is set where some of the pieces add up to n; and the sums before each piece."""
        bits, before = 1 << base, []
        limit = self.mask.bit_length() - base
        for piece in range(len(left) - 1, -1, -1):
            weight = self.steps.weights[piece]
            for _ in range(min(left[piece], limit // weight)):
                before.append((piece, bits))
                bits |= (bits << weight) & self.mask
        return before, bits

    def back(self, before: list[tuple[int, int]], fill: int) -> list[int]:
        """The pieces that add up to a sum, long ones first."""
        found = []
        for piece, bits in reversed(before):
            rest = fill - self.steps.weights[piece]
            if rest >= 0 and bits >> rest & 1:
                found.append(piece)
                fill = rest
        return found


def cheapest(given: Problem, pieces: tuple[int, ...], stocks: Sequence[int]) -> Cut | None:
    """The cheapest bar that holds these pieces; the shortest of equals."""
    taken = given.taken(pieces)
    fit = [stock for stock in stocks if taken <= given.room(stock)]
    if not fit:
        return None
    order = given.stocks
    return Cut(min(fit, key=lambda stock: (order[stock].price, order[stock].length)), pieces)


def smaller(given: Problem, plan: Plan) -> Plan:
    """Every bar as cheap as its pieces allow."""
    every = range(len(given.stocks))
    cuts = []
    for cut in plan:
        found = cheapest(given, cut.pieces, every) or cut
        cuts.append(Cut(found.stock, cut.pieces, cut.times))
    return fold(cuts)
