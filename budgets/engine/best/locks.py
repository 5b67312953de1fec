"""What claims hold already: constants of the problem, by expense, payer and award.

Places are those of the expenses that take part and of the sources; a payer of -1 is own money, or
nobody for a gift.
"""

from collections import Counter
from dataclasses import dataclass, field

from budgets.engine.best.problem import Finding, Problem
from budgets.engine.money import dollars, largest_remainder
from budgets.engine.payers import pool_of

NOBODY = -1


@dataclass(slots=True)
class Locks:
    """Cents paid by expense and payer; cents counted by expense and payer, then award."""

    shares: Counter[tuple[int, int]] = field(default_factory=Counter)
    match: dict[tuple[int, int], Counter[int]] = field(default_factory=dict)
    payer_keys: dict[tuple[int, int, int], str] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    totals: Counter[int] = field(default_factory=Counter)

    def pieces(self) -> list[tuple[int, int, int]]:
        """Expense, payer and cents, in order."""
        return [(place, payer, cents) for (place, payer), cents in sorted(self.shares.items())]

    def held(self, place: int) -> int:
        return self.totals[place]

    def paid(self, place: int, payer: int) -> int:
        return self.shares[place, payer]

    def counted(self, place: int, payer: int) -> Counter[int]:
        return self.match.get((place, payer), Counter())


def locks_of(problem: Problem) -> Locks:
    locks = Locks()
    places = {item.key: place for place, item in enumerate(problem.taking_part)}
    funds = {fund.key: place for place, fund in enumerate(problem.sources)}
    for share in problem.locked:
        place = places.get(share.expense.key)
        if place is None:
            locks.findings.append(gone(problem, share.expense.key, share.fund, share.cents))
        elif share.cents:
            locks.shares[place, funds.get(share.fund, NOBODY)] += share.cents
    for row in problem.locked_match:
        place, award = places.get(row.expense.key), funds.get(row.fund)
        if place is not None and award is not None and row.cents:
            payer = funds.get(row.payer, NOBODY)
            locks.match.setdefault((place, payer), Counter())[award] += row.cents
            locks.payer_keys[place, payer, award] = row.payer
    settle(problem, locks)
    return locks


def settle(problem: Problem, locks: Locks) -> None:
    """What counts as match was paid, and nothing is more than its expense."""
    expenses = problem.taking_part
    for (place, payer), counted in locks.match.items():
        if not expenses[place].in_kind:
            most = max(by_pool(problem, counted).values())
            locks.shares[place, payer] = max(locks.shares[place, payer], most)
    locks.shares = +locks.shares
    for (place, _), cents in locks.shares.items():
        locks.totals[place] += cents
    for place in sorted(locks.totals):
        if locks.totals[place] > expenses[place].amount:
            shrink(problem, locks, place)
    for key in locks.match:
        narrow(problem, locks, key)


def shrink(problem: Problem, locks: Locks, place: int) -> None:
    """A refund came after the claim: every piece gives back its part, by largest remainder."""
    item = problem.taking_part[place]
    keys = sorted(key for key in locks.shares if key[0] == place)
    parts = largest_remainder(item.amount, [locks.shares[key] for key in keys])
    over = locks.totals[place] - item.amount
    first = next((payer for _, payer in keys if payer != NOBODY), NOBODY)
    fund = problem.sources[first].key if first != NOBODY else ""
    locks.findings.append(gone(problem, item.key, fund, over))
    locks.shares.update(
        {key: part - locks.shares[key] for key, part in zip(keys, parts, strict=True)}
    )
    locks.totals[place] = item.amount


def narrow(problem: Problem, locks: Locks, key: tuple[int, int]) -> None:
    """No pool counts more than was paid."""
    item, counted = problem.taking_part[key[0]], locks.match[key]
    paid = item.amount if item.in_kind else locks.shares[key]
    for pool, cents in by_pool(problem, counted).items():
        if cents > paid:
            awards = [award for award in sorted(counted) if pool_name(problem, award) == pool]
            parts = largest_remainder(paid, [counted[award] for award in awards])
            counted.update({a: part - counted[a] for a, part in zip(awards, parts, strict=True)})
            name = problem.sources[awards[0]]
            words = f"{dollars(cents - paid, problem.symbol)} counts twice as match, or is not paid"
            locks.findings.append(
                Finding(
                    code="counted_once",
                    sentence=f"{name.name}: {words}, in what is claimed.",
                    fund=name.key,
                    expense=item.key,
                    cents=cents - paid,
                )
            )


def by_pool(problem: Problem, counted: Counter[int]) -> Counter[str]:
    found = Counter[str]()
    for award, cents in counted.items():
        found[pool_name(problem, award)] += cents
    return found


def pool_name(problem: Problem, award: int) -> str:
    return "all" if problem.policy.strict_pools else pool_of(problem.sources[award])


def gone(problem: Problem, expense: str, fund: str, cents: int) -> Finding:
    names = {one.key: one.name for one in problem.funds}
    words = f"{dollars(cents, problem.symbol)} that is claimed is more than its expense now costs"
    who = names.get(fund, "Own money")
    return Finding(
        code="more_than_expense",
        sentence=f"{who}: {words}: correct the claim.",
        fund=fund,
        expense=expense,
        cents=cents,
    )
