"""Which expense which fund may pay or count, for many at once.

A rule is a pure function of the expense. So whatever an answer was made of (the facts that the rule
looked at) gives the same answer for every other expense that is alike in them, and the rule is
asked once for all of these. Sets of expenses are whole numbers, one bit an expense.
"""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from operator import attrgetter, ge, gt, le, lt
from typing import Any, cast

from budgets.engine.bars import eligible, judged
from budgets.engine.limits import asked_matches
from budgets.engine.model import Expense, Fund, Rule
from budgets.engine.rules.ceilings import RateCeiling
from budgets.engine.standing import every_rule

ANYTHING = ""  # the key of an expense decides nothing
Bits = int
Fact = tuple[str, Callable[[int, int], bool] | None, int]  # a field, or its comparison
Compared = Callable[[int, int], bool]


class Weighed:
    """Stands for an amount that is only compared: what was asked is the fact, not the amount."""

    def __init__(self, cents: int, seen: dict[Fact, Hashable]) -> None:
        self._cents, self._seen = cents, seen

    def _compare(self, way: Compared, other: int) -> bool:
        answer = self._seen["amount", way, other] = way(self._cents, other)
        return answer

    def __lt__(self, other: int) -> bool:
        return self._compare(lt, other)

    def __le__(self, other: int) -> bool:
        return self._compare(le, other)

    def __gt__(self, other: int) -> bool:
        return self._compare(gt, other)

    def __ge__(self, other: int) -> bool:
        return self._compare(ge, other)


class Watched:
    """Stands for an expense and writes down the facts that are looked at."""

    def __init__(self, expense: Expense, weighed: bool) -> None:
        self._expense, self._weighed, self.key = expense, weighed, ANYTHING
        self.seen: dict[Fact, Hashable] = {}

    def __getattr__(self, name: str) -> Any:
        value = getattr(self._expense, name)
        if name == "amount" and self._weighed:
            return Weighed(value, self.seen)
        self.seen[name, None, 0] = value
        return value


class Sieve:
    """Sorts expenses by what rules answer about them."""

    def __init__(self, expenses: Sequence[Expense]) -> None:
        self.expenses, self.everyone = expenses, (1 << len(expenses)) - 1
        self.known: dict[Fact, dict[Hashable, Bits]] = {}

    def having(self, fact: Fact, value: Hashable) -> Bits:
        """The expenses in which a fact has a value."""
        if fact not in self.known:
            self.known[fact] = self._sorted(fact)
        return self.known[fact].get(value, 0)

    def _sorted(self, fact: Fact) -> dict[Hashable, Bits]:
        name, way, other = fact
        places: dict[Hashable, list[int]] = defaultdict(list)
        values = map(attrgetter(name), self.expenses)
        for place, value in enumerate(values):
            places[value if way is None else way(value, other)].append(place)
        return {value: bits_of(found, len(self.expenses)) for value, found in places.items()}

    def sift(self, ask: Callable[[Expense], bool]) -> Bits:
        """The expenses of which something is true, asked once for all that are alike."""
        try:
            return self._sift(ask, weighed=True)
        except TypeError:  # the amount is more than compared
            return self._sift(ask, weighed=False)

    def _sift(self, ask: Callable[[Expense], bool], weighed: bool) -> Bits:
        left, found = self.everyone, 0
        while left:
            watched = Watched(self.expenses[(left & -left).bit_length() - 1], weighed)
            answer, alike = ask(cast("Expense", watched)), left
            for fact, value in watched.seen.items():
                alike &= self.having(fact, value)
            found |= alike if answer else 0
            left &= ~alike
        return found


@dataclass(frozen=True, slots=True)
class Standings:
    """By fund: the expenses that may be charged, and those that may be match for it.

    `partly` holds, by fund, the expenses with a ceiling below their amount, and the ceiling.
    """

    charge: list[Bits]
    match: list[Bits]
    partly: list[dict[int, int]]

    def with_one(self, place: int, alone: "Standings") -> "Standings":
        """With the bars of the expense in a place as they are in `alone`, where it is the first."""
        charge, match = (
            [bits & ~(1 << place) | (one & 1) << place for bits, one in zip(*pair, strict=True)]
            for pair in ((self.charge, alone.charge), (self.match, alone.match))
        )
        return Standings(charge, match, self.partly)


def standings(expenses: Sequence[Expense], funds: Sequence[Fund]) -> Standings:
    sieve, charge, match, partly = Sieve(expenses), [], [], []
    gifts = sieve.having(("in_kind", None, 0), True)
    for fund in funds:
        barred = [(rule, sifted(sieve, rule, fund)) for rule in every_rule(fund)]
        static = together(bits for rule, bits in barred if rule.static)
        binding = together(bits for rule, bits in barred if rule.binds_match)
        no_gifts = any(not asked.in_kind for asked in asked_matches(fund))
        held = ceilings(sieve, fund)
        nothing = bits_of([place for place, cents in held.items() if not cents], len(expenses))
        charge.append(sieve.everyone & ~(static | gifts | nothing))
        match.append(sieve.everyone & ~(binding | (gifts if no_gifts else 0)))
        partly.append(held)
    return Standings(charge, match, partly)


def sifted(sieve: Sieve, rule: Rule, fund: Fund) -> Bits:
    if not rule.static and not rule.binds_match:
        return 0
    return sieve.sift(lambda expense: bool(judged((rule,), fund, expense)))


def ceilings(sieve: Sieve, fund: Fund) -> dict[int, int]:
    """The expenses of which a fund pays a part at most, and how much."""
    rules = [rule for rule in fund.rules if isinstance(rule, RateCeiling)]
    units = {rule.unit for rule in rules}
    asked = together(sieve.having(("unit", None, 0), unit) for unit in units)
    most = {place: eligible(fund, sieve.expenses[place]) for place in places_in(asked)}
    return {place: cents for place, cents in most.items() if cents < sieve.expenses[place].amount}


def bits_of(places: Iterable[int], count: int) -> Bits:
    """A set of places as one number.

    >>> bits_of([0, 2], 3)
    5
    """
    found = bytearray(count // 8 + 1)
    for place in places:
        found[place >> 3] |= 1 << (place & 7)
    return int.from_bytes(found, "little")


def places_in(bits: Bits) -> Iterator[int]:
    """The places of a set, in order.

    >>> list(places_in(5))
    [0, 2]
    """
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low


def together(sets: Iterable[Bits]) -> Bits:
    found = 0
    for bits in sets:
        found |= bits
    return found
