"""The cut lists of a frame, one for each section, and what is kept of a longer search."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from worksheets.engine.cutting import (
    LONGEST,
    Cut,
    Found,
    Problem,
    at_once,
    cost,
    faults,
    problem,
    search,
    whole,
)
from worksheets.engine.frame import Frame, Piece, Profile
from worksheets.engine.given import Given

FEW = 14  # different lengths up to which fewer different cuts can be looked for


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    """One section: its problem, and the best plan known. ``counts`` is what a bar counts."""

    profile: Profile
    pieces: tuple[Piece, ...]
    problem: Problem
    found: Found
    counts: str  # “money”, “bars” or “length”
    tries: int = 0

    @property
    def name(self) -> str:
        return self.profile.name

    @property
    def bars(self) -> int:
        return sum(cut.times for cut in self.found.plan)

    @property
    def settled(self) -> bool:
        """Neither a cheaper plan is possible nor one with fewer different cuts."""
        return self.found.proven and (self.found.fewest or len(self.found.plan) == 1)

    @property
    def open(self) -> bool:
        """A longer search may still find something: better, or as good with fewer cuts."""
        simpler = not self.settled and not self.tries and len(self.problem.lengths) <= FEW
        return not self.found.proven or simpler

    @property
    def metres(self) -> float:
        """Length of the pieces."""
        return sum(piece.length * piece.count for piece in self.pieces)

    @property
    def cents(self) -> int | None:
        """What the bars cost, where every length has its price."""
        if not self.profile.priced:
            return None
        return sum((self.profile.bars[cut.stock][1] or 0) * cut.times for cut in self.found.plan)


def counted(profile: Profile, aim: str) -> tuple[str, list[int]]:
    """What one bar of each length counts: its price, one, or its length in mm."""
    if aim == "bars":
        return "bars", [1 for _ in profile.bars]
    if profile.priced:
        return "money", [cents or 0 for _, cents in profile.bars]
    return "length", [round(length * 1000) for length, _ in profile.bars]


def cut_lists(given: Given, frame: Frame) -> list[CutList]:
    """What was found by an earlier search of the same pieces and bars, else the first answer."""
    return [
        cut_list(given, profile, frame.of(number))
        for number, profile in enumerate(frame.profiles)
        if frame.of(number)
    ]


def cut_list(given: Given, profile: Profile, pieces: Sequence[Piece]) -> CutList:
    counts, prices = counted(profile, given.choice("aim"))
    lengths = [whole(length) for length, _ in profile.bars]
    made = problem(
        list(zip(lengths, prices, strict=True)),
        [(whole(piece.length), piece.count) for piece in pieces],
        kerf=whole(given["kerf"]),
        trim=whole(given["trim"]),
        useful=whole(given["useful"]),
    )
    known = given.kept.get(mark_of(made))
    found = recalled(made, known) if known else None
    return CutList(
        profile=profile,
        pieces=tuple(pieces),
        problem=made,
        found=found or at_once(made),
        counts=counts,
        tries=int(known["tries"]) if known and found else 0,
    )


def mark_of(made: Problem) -> str:
    """The same for the same pieces, bars and saw, and for nothing else."""
    return hashlib.sha256(repr(made).encode()).hexdigest()[:24]


def kept(lists: Sequence[CutList]) -> dict[str, Any]:
    """Plans as plain lists, each under the mark of its problem."""
    return {
        mark_of(each.problem): {
            "plan": [[cut.stock, list(cut.pieces), cut.times] for cut in each.found.plan],
            "least": each.found.least,
            "fewest": each.found.fewest,
            "tries": each.tries,
        }
        for each in lists
    }


def recalled(made: Problem, known: Mapping[str, Any]) -> Found | None:
    """A kept plan, unless it does not hold."""
    plan = tuple(Cut(stock, tuple(pieces), times) for stock, pieces, times in known["plan"])
    if faults(made, plan):
        return None
    return Found(plan, cost(made, plan), int(known["least"]), bool(known["fewest"]))


def improved(
    lists: Sequence[CutList],
    tell: Callable[[float, list[CutList]], bool],
    seconds: float = LONGEST,
) -> list[CutList]:
    """Search on for every section that is open; each has its part of the time."""
    found = list(lists)
    open_ones = [number for number, each in enumerate(found) if each.open]
    for turn, number in enumerate(open_ones):
        each = found[number]
        going = Going(tell, found, number, turn, len(open_ones))
        best = search(
            each.problem,
            each.found.plan,
            tell=going.hear,
            seconds=seconds / len(open_ones),
            seed=each.tries * 1000,
        )
        least = max(best.least, each.found.least)
        found[number] = replace(each, found=replace(best, least=least), tries=each.tries + 1)
        if going.stopped:
            break
    return found


class Going:
    """Passes on how far it has come, but no more often than there is something to see."""

    def __init__(
        self,
        tell: Callable[[float, list[CutList]], bool],
        lists: list[CutList],
        number: int,
        turn: int,
        turns: int,
    ) -> None:
        self.tell, self.lists, self.number = tell, lists, number
        self.turn, self.turns, self.told, self.stopped = turn, turns, -1.0, False

    def hear(self, share: float, best: Found) -> bool:
        if share - self.told >= 0.02 and not self.stopped:
            self.told = share
            now = list(self.lists)
            now[self.number] = replace(now[self.number], found=best)
            self.stopped = not self.tell((self.turn + share) / self.turns, now)
        return not self.stopped


@dataclass(frozen=True, slots=True)
class MarkedBar:
    """So many bars with the same pieces of the same marks."""

    times: int
    stock: int
    pieces: tuple[tuple[int, str, str], ...]  # place in the lengths, mark, end cuts


def marked(each: CutList) -> list[MarkedBar]:
    """The plan with a mark on every piece; bars with equal marks folded together."""
    waiting: dict[int, Iterator[tuple[str, str]]] = {
        place: marks(each.pieces, length) for place, length in enumerate(each.problem.lengths)
    }
    counts: Counter[tuple[int, tuple[tuple[int, str, str], ...]]] = Counter()
    for cut in each.found.plan:
        for _ in range(cut.times):
            counts[cut.stock, tuple((p, *next(waiting[p])) for p in cut.pieces)] += 1
    return [MarkedBar(times, stock, pieces) for (stock, pieces), times in counts.items()]


def marks(pieces: Sequence[Piece], length: int) -> Iterator[tuple[str, str]]:
    """The mark and end cuts of every piece of one length, one after the other."""
    return (
        (piece.mark, piece.ends)
        for piece in pieces
        if whole(piece.length) == length
        for _ in range(piece.count)
    )
