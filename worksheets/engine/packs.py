"""Packs to buy: the least cost that covers a need, exactly, and one size of pack alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import gcd

GRAIN = 1e-16  # m³; every US and metric size is a whole number of these
HAIR = 1e-9  # of the need: a full pack is not bought for what is only rounding
MOST_STEPS = 300_000


class PackError(ValueError):
    """Packs that cannot be reckoned with; the message is the sentence to show."""


@dataclass(frozen=True, slots=True)
class Pack:
    """``size`` in m³, ``cents`` for one."""

    size: float
    cents: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """``counts`` are in the order of the packs that were offered."""

    packs: tuple[Pack, ...]
    counts: tuple[int, ...]
    need: float

    @property
    def cents(self) -> int:
        return sum(n * pack.cents for n, pack in zip(self.counts, self.packs, strict=True))

    @property
    def size(self) -> float:
        return sum(n * pack.size for n, pack in zip(self.counts, self.packs, strict=True))

    @property
    def surplus(self) -> float:
        return max(0.0, self.size - self.need)

    @property
    def sizes(self) -> int:
        return sum(1 for n in self.counts if n)


def least_cost(need: float, packs: Sequence[Pack]) -> Purchase:
    """Whole packs that hold at least ``need`` m³ for the least money, exactly.

    At the same cost the one with the least left over, then the one with the fewest packs.
    Raises PackError when there is no pack, or a size or price is not above zero and from zero on.
    Source: the problem is the knapsack of least cost; every count that could matter is tried.

    >>> found = least_cost(11.3, [Pack(5, 15000), Pack(1, 3800), Pack(0.25, 1500)])
    >>> found.counts, found.cents
    ((2, 1, 2), 36800)
    """
    checked(need, packs)
    target = grains(need * (1 - HAIR))
    return Purchase(packs=tuple(packs), counts=Search(target, packs).best(), need=need)


def one_size(need: float, packs: Sequence[Pack]) -> Purchase:
    """As ``least_cost`` with one size only, so that one batch number can be asked for.

    >>> one_size(11.3, [Pack(5, 15000), Pack(1, 3800), Pack(0.25, 1500)]).counts
    (3, 0, 0)
    """
    checked(need, packs)
    target = grains(need * (1 - HAIR))
    every = [
        Purchase(packs=tuple(packs), counts=alone(place, target, packs), need=need)
        for place in range(len(packs))
    ]
    return min(every, key=lambda found: (found.cents, found.size, sum(found.counts)))


def alone(place: int, target: int, packs: Sequence[Pack]) -> tuple[int, ...]:
    count = -(-target // grains(packs[place].size))
    return tuple(count if n == place else 0 for n in range(len(packs)))


def checked(need: float, packs: Sequence[Pack]) -> None:
    if not packs:
        raise PackError("Write at least one size of pack.")
    if need < 0 or any(pack.size <= 0 for pack in packs):
        raise PackError("A need is from 0 on, and a pack’s size is above 0.")
    if any(pack.cents < 0 for pack in packs):
        raise PackError("A pack’s price is from 0 on.")


def grains(size: float) -> int:
    return round(size / GRAIN)


class Search:
    """Counts are tried from the pack that is cheapest for its size to the dearest.

    Where ``a`` of one pack hold as much as whole packs of a cheaper kind, ``a`` or more of it are
    never needed; and a start is left when the rest at the cheapest rate costs too much already.
    """

    def __init__(self, target: int, packs: Sequence[Pack]) -> None:
        self.target = target
        order = sorted(
            range(len(packs)),
            key=lambda n: (packs[n].cents / packs[n].size, -packs[n].size),
        )
        self.order = tuple(order)
        self.size = [grains(packs[n].size) for n in order]
        self.cents = [packs[n].cents for n in order]
        self.enough = [self.most_of(kind) for kind in range(len(order))]
        self.steps = 0
        self.found: tuple[int, int, int] | None = None
        self.counts: tuple[int, ...] = ()

    def best(self) -> tuple[int, ...]:
        self.go(0, self.target, (0, 0, 0), ())
        told = [0] * len(self.order)
        for place, count in zip(self.order, self.counts, strict=True):
            told[place] = count
        return tuple(told)

    def go(
        self, kind: int, left: int, spent: tuple[int, int, int], counts: tuple[int, ...]
    ) -> None:
        """``spent`` is the cost, the size and the number of packs so far."""
        self.steps += 1
        if self.steps > MOST_STEPS:
            raise PackError("Too many sizes fit almost equally well. Leave out one or two of them.")
        if left <= 0:
            self.take(spent, counts)
            return
        if kind == len(self.size) or not self.hopeful(kind, left, spent):
            return
        for count in self.tried(kind, left):
            more = (count * self.cents[kind], count * self.size[kind], count)
            grown = (spent[0] + more[0], spent[1] + more[1], spent[2] + more[2])
            self.go(kind + 1, left - more[1], grown, (*counts, count))

    def take(self, spent: tuple[int, int, int], counts: tuple[int, ...]) -> None:
        if self.found is None or spent < self.found:
            self.found = spent
            self.counts = counts + (0,) * (len(self.size) - len(counts))

    def hopeful(self, kind: int, left: int, spent: tuple[int, int, int]) -> bool:
        """Whether the rest at this kind’s rate could still be as cheap.

        In whole numbers: cost + left · cents / size, not above the best.
        """
        if self.found is None:
            return True
        return (self.found[0] - spent[0]) * self.size[kind] >= left * self.cents[kind]

    def tried(self, kind: int, left: int) -> Iterator[int]:
        """From as many as fill what is left down to none."""
        most = -(-left // self.size[kind])
        return iter(range(min(most, self.enough[kind]), -1, -1))

    def most_of(self, kind: int) -> int:
        """As many of this kind as could not be swapped for whole packs of a cheaper one."""
        swaps = [
            self.size[other] // gcd(self.size[other], self.size[kind]) - 1 for other in range(kind)
        ]
        return min(swaps, default=self.target // self.size[kind] + 1)
