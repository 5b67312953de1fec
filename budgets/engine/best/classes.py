"""Expenses that are alike, as one: splits are allowed, so only their sum matters.

Two expenses are alike when the same funds may pay them and count them as match, and every sum of
the funds that may takes both in or neither. What is locked is a constant and no part of them.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from budgets.engine.best.locks import Locks, locks_of
from budgets.engine.best.problem import KIND, OWN, Problem
from budgets.engine.best.static import Bits, Standings, bits_of, places_in, standings
from budgets.engine.best.terms import Asked, Patterns, asked_of
from budgets.engine.model import Expense, Fund
from budgets.engine.payers import may_pay_match, pool_of

NOBODY = -1  # own money, or nobody for a gift
Places = tuple[int, ...]  # of funds among the sources
Key = tuple[object, ...]


@dataclass(slots=True)
class Bucket:
    """Cash that is alike: `funds` may pay it. `items` are places of expenses and their cents."""

    funds: Places
    awards: Places
    patterns: tuple[int, ...]
    partner: str
    forecast: bool
    items: list[tuple[int, int]] = field(default_factory=list)
    ceilings: dict[int, dict[int, int]] = field(default_factory=dict)  # by fund, then expense
    total: int = 0

    def most(self, fund: int) -> int:
        held = self.ceilings.get(fund)
        return self.total if held is None else min(self.total, sum(held.values()))


@dataclass(slots=True)
class Flow:
    """Cents of one payer that may be match for the same `awards`.

    They are `fixed`, and whatever `buckets` has the payer pay. `locked` counts already, by pool.
    """

    payer: int
    kind: bool
    awards: Places
    patterns: tuple[int, ...]
    forecast: bool
    fixed: int = 0
    buckets: list[int] = field(default_factory=list)
    locked: Counter[str] = field(default_factory=Counter)
    places: dict[int, int] = field(default_factory=dict)  # fixed cents by expense


@dataclass(frozen=True)
class Classes:
    problem: Problem
    expenses: tuple[Expense, ...]
    asked: tuple[Asked, ...]
    standings: Standings
    locks: Locks
    buckets: list[Bucket]
    flows: list[Flow]

    @cached_property
    def funds(self) -> tuple[Fund, ...]:
        return tuple(one.fund for one in self.asked)

    @cached_property
    def pools(self) -> tuple[str, ...]:
        strict = self.problem.policy.strict_pools
        return tuple("all" if strict else pool_of(fund) for fund in self.funds)

    def with_mended(self, expense: Expense) -> "Classes":
        """With other papers, quotes or another reason of one expense: only its bars are anew."""
        keys = [item.key for item in self.expenses]
        if expense.key not in keys:
            return self  # it takes no part
        place = keys.index(expense.key)
        expenses = (*self.expenses[:place], expense, *self.expenses[place + 1 :])
        alone = standings((expense,), self.funds)
        standing = self.standings.with_one(place, alone)
        maker = Maker(self.problem, expenses, self.asked, standing, self.locks)
        buckets = maker.buckets()
        return replace(
            self,
            expenses=expenses,
            standings=standing,
            buckets=buckets,
            flows=maker.flows(buckets),
        )


def classify(problem: Problem) -> Classes:
    """Sort the expenses into buckets, and their payers into flows of match."""
    expenses, funds = problem.taking_part, problem.sources
    asked = tuple(asked_of(fund, problem.total) for fund in funds)
    standing, locks = standings(expenses, funds), locks_of(problem)
    maker = Maker(problem, expenses, asked, standing, locks)
    buckets = maker.buckets()
    return Classes(
        problem=problem,
        expenses=expenses,
        asked=asked,
        standings=standing,
        locks=locks,
        buckets=buckets,
        flows=maker.flows(buckets),
    )


class Maker:
    def __init__(
        self,
        problem: Problem,
        expenses: tuple[Expense, ...],
        asked: tuple[Asked, ...],
        standing: Standings,
        locks: Locks,
    ) -> None:
        self.expenses, self.asked, self.locks = expenses, asked, locks
        self.standing, self.whole = standing, problem.policy.whole_expenses
        self.patterns, self.told = Patterns(asked), dict[Key, tuple[int, ...]]()
        self.by_partner = any(
            one.indirect is not None and one.indirect.partner_cents is not None for one in asked
        )
        self.payers = payers_of(problem, [one.fund for one in asked], asked)
        self.awards = [place for place, one in enumerate(asked) if one.wants_match]
        self.pools = ["all" if problem.policy.strict_pools else pool_of(one.fund) for one in asked]

    def buckets(self) -> list[Bucket]:
        """An expense with a ceiling, or one that stays whole, is looked at alone."""
        found: dict[Key, Bucket] = {}
        alone = {place for held in self.standing.partly for place in held}
        for funds, awards, bits in self._groups():
            near: dict[Key, Bucket] = {}
            for place in places_in(bits):
                item = self.expenses[place]
                free = item.amount - self.locks.totals.get(place, 0)
                partner = item.partner if self.by_partner else ""
                key = (item.category, self.patterns.cell(item.day), partner, item.forecast)
                bucket = near.get(key)
                if bucket is None or self.whole or place in alone:
                    bucket = self._bucket(found, place, funds, awards)
                    if not (self.whole or place in alone):
                        near[key] = bucket
                bucket.items.append((place, free))
                bucket.total += free
        for bucket in found.values():
            bucket.items = [item for item in bucket.items if item[1]]
        return [bucket for bucket in found.values() if bucket.total]

    def _groups(self) -> list[tuple[Places, Places, Bits]]:
        """Cash by the funds that may pay it and the awards that may count it."""
        cash = [place for place, item in enumerate(self.expenses) if not item.in_kind]
        groups: list[tuple[Places, Places, Bits]] = [((), (), bits_of(cash, len(self.expenses)))]
        for fund, charge in enumerate(self.standing.charge):
            groups = [
                (funds + ((fund,) if side else ()), (), part)
                for funds, _, bits in groups
                for side, part in ((True, bits & charge), (False, bits & ~charge))
                if part
            ]
        for award in self.awards:
            match = self.standing.match[award]
            groups = [
                (funds, awards + ((award,) if side else ()), part)
                for funds, awards, bits in groups
                for side, part in ((True, bits & match), (False, bits & ~match))
                if part
            ]
        return groups

    def _bucket(
        self, found: dict[Key, Bucket], place: int, funds: Places, awards: Places
    ) -> Bucket:
        item = self.expenses[place]
        patterns = self.patterns.of(item.category, item.day)
        partner = item.partner if self.by_partner else ""
        held = tuple(fund for fund in funds if place in self.standing.partly[fund])
        alone = place if len(held) > 1 or self.whole else NOBODY
        told = self._told(patterns, funds, awards)
        key = (funds, awards, told, partner, held, alone, item.forecast)
        bucket = found.get(key)
        if bucket is None:
            bucket = found[key] = Bucket(funds, awards, patterns, partner, item.forecast)
        for fund in held:
            left = self.standing.partly[fund][place] - self.locks.paid(place, fund)
            bucket.ceilings.setdefault(fund, {})[place] = max(0, left)
        return bucket

    def _told(self, patterns: tuple[int, ...], funds: Places, awards: Places) -> tuple[int, ...]:
        """The bits that the funds can tell, by whether they may pay or count the expense."""
        key = (patterns, funds, awards)
        found = self.told.get(key)
        if found is None:
            pays = [patterns[fund] & self.asked[fund].of_charges for fund in funds]
            counts = [patterns[award] & self.asked[award].matches for award in awards]
            found = self.told[key] = (*pays, *counts)
        return found

    def _awards(self, place: int) -> Places:
        """The awards that may count an expense as match."""
        return tuple(award for award in self.awards if self.standing.match[award] >> place & 1)

    def flows(self, buckets: Sequence[Bucket]) -> list[Flow]:
        found: dict[Key, Flow] = {}
        for number, bucket in enumerate(buckets):
            for payer in (NOBODY, *bucket.funds):
                flow = self._flow(
                    found, payer, False, bucket.awards, bucket.patterns, bucket.forecast
                )
                if flow is not None:
                    flow.buckets.append(number)
        for place, payer, cents in self._fixed():
            item = self.expenses[place]
            pattern = self.patterns.of(item.category, item.day)
            awards = self._awards(place)
            flow = self._flow(found, payer, item.in_kind, awards, pattern, item.forecast)
            if flow is not None:
                flow.fixed += cents
                flow.places[place] = flow.places.get(place, 0) + cents
                for award, counted in self.locks.counted(place, payer).items():
                    flow.locked[self.pools[award]] += counted
        return list(found.values())

    def _fixed(self) -> list[tuple[int, int, int]]:
        """Place, payer and cents of what no choice moves: gifts, and what is locked."""
        rows = [
            (place, NOBODY, item.amount) for place, item in enumerate(self.expenses) if item.in_kind
        ]
        return rows + [
            (place, payer, cents)
            for place, payer, cents in self.locks.pieces()
            if not self.expenses[place].in_kind
        ]

    def _flow(
        self,
        found: dict[Key, Flow],
        payer: int,
        kind: bool,
        awards: Places,
        patterns: tuple[int, ...],
        forecast: bool,
    ) -> Flow | None:
        fits = tuple(award for award in awards if kind or award in self.payers[payer])
        fits = fits if not kind or self.payers.get(-2) else ()
        if not fits:
            return None
        told = tuple(patterns[award] & self.asked[award].matches for award in fits)
        made = Flow(payer, kind, fits, patterns, forecast)
        return found.setdefault((payer, kind, fits, told, forecast), made)


def payers_of(
    problem: Problem, funds: Sequence[Fund], asked: Sequence[Asked]
) -> Mapping[int, frozenset[int]]:
    """By payer, the awards that its cents may match; -2 stands for gifts."""
    allowed = problem.policy.match_from
    awards = [place for place, one in enumerate(asked) if one.wants_match]
    found = {}
    for payer in (NOBODY, *range(len(funds))):
        fund = None if payer == NOBODY else funds[payer]
        kind = OWN if fund is None else fund.kind
        may = allowed is None or kind in allowed
        fits = [award for award in awards if may and may_pay_match(funds[award], fund)]
        found[payer] = frozenset(fits)
    gifts = allowed is None or KIND in allowed
    return {**found, -2: frozenset(awards if gifts else ())}
