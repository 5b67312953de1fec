"""Tiny projects in plain numbers, and their optimum by trying every cent with every payer.

Written from the rules as sentences, apart from the engine: nothing is imported from it. Counting
less match than one could never helps, so every cent counts wherever its pool lets it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product

CATEGORIES = ("design", "labour", "materials")
OWN = -1


@dataclass(frozen=True)
class TinyFund:
    award: int
    federal: bool = False
    pool: str = ""
    steady: bool = False
    allowed: frozenset[str] = frozenset(CATEGORIES)
    barred: frozenset[str] = frozenset()  # from charges and from match
    match_only: frozenset[str] = frozenset()
    papers: bool = False
    match: tuple[int, int] | None = None  # numerator, denominator
    kind: bool = True
    cash: int = 0  # basis points of the required match
    kind_most: int = 10_000  # basis points of the required match
    caps: tuple[tuple[frozenset[str], int], ...] = ()
    claimed_caps: tuple[tuple[str, int], ...] = ()  # basis points of what is claimed
    floors: tuple[tuple[str, int], ...] = ()
    total_cap: tuple[str, int] | None = None  # basis points of the whole project
    budget: tuple[int, ...] = ()  # by category
    tolerance: tuple[str, int] = ("total", 0)
    overhead: int = 0  # basis points
    no_overhead: frozenset[str] = frozenset()
    partner_most: int | None = None
    per_hour: int | None = None  # cents

    def takes(self, item: "TinyExpense") -> bool:
        papers = item.papers or not self.papers
        return (
            item.category in self.allowed - self.barred - self.match_only
            and papers
            and not item.kind
        )

    def counts(self, item: "TinyExpense") -> bool:
        papers = item.papers or not self.papers
        gift = self.kind or not item.kind
        return item.category in self.allowed - self.barred and papers and gift


@dataclass(frozen=True)
class TinyExpense:
    cents: int
    category: str
    kind: bool = False
    papers: bool = True
    hours: int = 0
    partner: str = ""


@dataclass(frozen=True)
class Tiny:
    expenses: tuple[TinyExpense, ...]
    funds: tuple[TinyFund, ...]
    strict: bool = False
    whole: bool = False
    own_is_match: bool = True
    names: tuple[str, ...] = field(default=CATEGORIES)

    def pool(self, fund: int) -> str:
        if self.strict:
            return "all"
        own = self.funds[fund].pool or str(fund)
        return "federal" if self.funds[fund].federal else own

    def may_match(self, award: int, payer: int) -> bool:
        if self.funds[award].match is None or award == payer:
            return False
        if payer == OWN:
            return self.own_is_match
        return not (self.funds[award].federal and self.funds[payer].federal)


Key = tuple[str, str]  # category, partner
State = tuple[tuple[tuple[int, Key, int], ...], tuple[int, ...], tuple[int, ...]]


def optimum(tiny: Tiny) -> tuple[int, int]:
    """The most money that lapses, then the most that does not, in cents."""
    zero = (0,) * len(tiny.funds)
    states: set[State] = {((), zero, zero)}
    for item in tiny.expenses:
        options = set(ways(tiny, item))
        states = {joined(state, way) for state in states for way in options}
    return max(value for value in (worth(tiny, state) for state in states) if value)


def size(tiny: Tiny) -> int:
    """How many ways there are, about."""
    found = 1
    for item in tiny.expenses:
        found *= len(set(ways(tiny, item)))
    return found


def joined(state: State, way: State) -> State:
    charged = {(fund, key): cents for fund, key, cents in state[0]}
    for fund, key, cents in way[0]:
        charged[fund, key] = charged.get((fund, key), 0) + cents
    rows = tuple(sorted((fund, key, cents) for (fund, key), cents in charged.items()))
    cash = tuple(a + b for a, b in zip(state[1], way[1], strict=True))
    return rows, cash, tuple(a + b for a, b in zip(state[2], way[2], strict=True))


def ways(tiny: Tiny, item: TinyExpense) -> Iterator[State]:
    """Every way to pay one expense and to count it."""
    payers = [OWN] + [n for n, fund in enumerate(tiny.funds) if fund.takes(item)]
    zero = (0,) * len(tiny.funds)
    for split in compositions(item.cents, len(payers)):
        paid = dict(zip(payers, split, strict=True))
        if not allowed(tiny, item, paid):
            continue
        key = (item.category, item.partner)
        rows = tuple((n, key, cents) for n, cents in paid.items() if n != OWN and cents)
        for match in matches(tiny, item, paid):
            yield (rows, zero, match) if item.kind else (rows, match, zero)


def allowed(tiny: Tiny, item: TinyExpense, paid: dict[int, int]) -> bool:
    for fund, cents in paid.items():
        if fund != OWN and cents:
            rate = tiny.funds[fund].per_hour
            most = item.cents
            if rate is not None and item.hours:
                most = min(most, rate * item.hours)
            if cents > most or (tiny.whole and cents != most):
                return False
    payers = [fund for fund, cents in paid.items() if fund != OWN and cents]
    return not tiny.whole or len(payers) <= 1


def matches(tiny: Tiny, item: TinyExpense, paid: dict[int, int]) -> Iterator[tuple[int, ...]]:
    """Every way to count an expense that is paid so; no cent twice inside a pool."""
    pools: dict[str, set[tuple[tuple[int, int], ...]]] = {}
    for pool in sorted({tiny.pool(n) for n in range(len(tiny.funds))}):
        sums: set[tuple[tuple[int, int], ...]] = {()}
        for payer, cents in paid.items():
            awards = [
                n
                for n, fund in enumerate(tiny.funds)
                if tiny.pool(n) == pool
                and fund.counts(item)
                and (fund.match is not None if item.kind else tiny.may_match(n, payer))
            ]
            if awards and cents:
                splits = list(compositions(cents, len(awards)))
                sums = {added(one, awards, split) for one in sums for split in splits}
        pools[pool] = sums
    for choice in product(*pools.values()):
        found = [0] * len(tiny.funds)
        for one in choice:
            for award, cents in one:
                found[award] = cents
        yield tuple(found)


def added(
    one: tuple[tuple[int, int], ...], awards: list[int], split: tuple[int, ...]
) -> tuple[tuple[int, int], ...]:
    found = dict(one)
    for award, cents in zip(awards, split, strict=True):
        found[award] = found.get(award, 0) + cents
    return tuple(sorted(found.items()))


def compositions(cents: int, parts: int) -> Iterator[tuple[int, ...]]:
    if parts == 1:
        yield (cents,)
        return
    for first in range(cents + 1):
        for rest in compositions(cents - first, parts - 1):
            yield first, *rest


def worth(tiny: Tiny, state: State) -> tuple[int, int] | None:
    found = [0, 0]
    for number, fund in enumerate(tiny.funds):
        rows = {key: cents for n, key, cents in state[0] if n == number}
        most = most_claimed(tiny, fund, rows, state[1][number], state[2][number])
        if most is None:
            return None
        found[fund.steady] += most
    return found[0], found[1]


def most_claimed(
    tiny: Tiny, fund: TinyFund, rows: dict[Key, int], cash: int, kind: int
) -> int | None:
    """The most that a fund that pays these cents pays with its overhead; None breaks a rule."""
    by = dict.fromkeys(CATEGORIES, 0)
    for (name, _), cents in rows.items():
        by[name] += cents
    if not fixed_limits(tiny, fund, by):
        return None
    direct = sum(by.values())
    overhead = fund.overhead * overhead_base(fund, rows) // 10_000
    fits = [
        direct + more for more in range(overhead + 1) if keeps(fund, by, direct + more, cash, kind)
    ]
    return max(fits, default=None)


def overhead_base(fund: TinyFund, rows: dict[Key, int]) -> int:
    direct, partners = 0, dict[str, int]()
    for (name, partner), cents in rows.items():
        if name not in fund.no_overhead:
            if partner and fund.partner_most is not None:
                partners[partner] = partners.get(partner, 0) + cents
            else:
                direct += cents
    return direct + sum(min(cents, fund.partner_most or 0) for cents in partners.values())


def fixed_limits(tiny: Tiny, fund: TinyFund, by: dict[str, int]) -> bool:
    total = sum(item.cents for item in tiny.expenses)
    for names, most in fund.caps:
        if sum(by[name] for name in names) > most:
            return False
    if fund.total_cap and 10_000 * by[fund.total_cap[0]] > fund.total_cap[1] * total:
        return False
    if fund.budget:
        agreed = dict(zip(CATEGORIES, fund.budget, strict=True))
        way, bp = fund.tolerance
        if way == "line":
            return all(10_000 * (by[n] - agreed[n]) <= bp * agreed[n] for n in CATEGORIES)
        over = sum(max(0, by[n] - agreed[n]) for n in CATEGORIES)
        return 10_000 * over <= bp * sum(agreed.values())
    return True


def keeps(fund: TinyFund, by: dict[str, int], claimed: int, cash: int, kind: int) -> bool:
    if claimed > fund.award:
        return False
    if any(10_000 * by[name] > bp * claimed for name, bp in fund.claimed_caps):
        return False
    if any(10_000 * by[name] < bp * claimed for name, bp in fund.floors):
        return False
    if fund.match is None:
        return True
    numerator, denominator = fund.match
    if fund.kind_most < 10_000:
        kind = min(kind, fund.kind_most * numerator * claimed // (10_000 * denominator))
    enough = denominator * (cash + kind) >= numerator * claimed
    return enough and 10_000 * denominator * cash >= fund.cash * numerator * claimed
