"""Why a fund may not pay a share of an expense, and the most that it may.

A share belongs to an expense; the same cents are never charged twice.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from budgets.engine.bars import bars, in_force
from budgets.engine.model import Charge, Expense, Fund, Refusal, Rule, Share
from budgets.engine.money import dollars
from budgets.engine.standing import asking, every_rule


@dataclass(slots=True)
class Tally:
    """Running sums of one fund while its shares are added one by one."""

    charged: int = 0
    by_category: Counter[str] = field(default_factory=Counter)
    charges: list[Share] = field(default_factory=list)

    def add(self, share: Share) -> None:
        self.charged += share.cents
        self.by_category[share.expense.category] += share.cents
        self.charges.append(share)


def judge_share(
    fund: Fund,
    expense: Expense,
    shares: Iterable[Share],
    cents: int,
    *,
    project_total: int | None = None,
) -> tuple[Refusal, ...]:
    """Every reason why `fund` may not pay `cents` of `expense`, given the shares so far.

    Empty when it may. `shares` are those of all funds, without the one being judged or changed.
    What only the sum of all charges tells (match, a share of what is claimed) is a warning of
    `fund_state`. Caps on the whole project's cost need `project_total`, in cents.

    >>> from datetime import date
    >>> lamp = Expense(key="lamp", amount=300_00, day=date(2031, 6, 14), category="materials")
    >>> grant = Fund(key="ward", name="Ward fund", award=200_00)
    >>> judge_share(grant, lamp, [], 250_00)[0].sentence
    'Ward fund pays at most $200.00 in all: $200.00 of it is left, this share is $250.00.'
    >>> judge_share(grant, lamp, [], 200_00)
    ()
    """
    charge = charge_beside(fund, expense, shares, cents, project_total)
    return judge(charge, asking(fund))


def room(
    fund: Fund, expense: Expense, shares: Iterable[Share], *, project_total: int | None = None
) -> int:
    """The most cents of `expense` that `fund` may still pay; zero when a rule bars it.

    >>> from datetime import date
    >>> lamp = Expense(key="lamp", amount=300_00, day=date(2031, 6, 14), category="materials")
    >>> room(Fund(key="ward", name="Riverside Ward improvement fund", award=200_00), lamp, [])
    20000
    """
    if bars(fund, expense):
        return 0
    charge = charge_beside(fund, expense, shares, 0, project_total)
    rooms = [rule.room(charge) for rule in every_rule(fund) if in_force(rule, expense)]
    free = expense.amount - charge.shared
    return max(0, min([free, *(most for most in rooms if most is not None)]))


def charge_beside(
    fund: Fund,
    expense: Expense,
    shares: Iterable[Share],
    cents: int,
    project_total: int | None,
) -> Charge:
    tally, shared = Tally(), 0
    for share in shares:
        if share.fund == fund.key:
            tally.add(share)
        if share.expense.key == expense.key:
            shared += share.cents
    return charge_of(fund, expense, tally, cents, shared, project_total)


def charge_of(
    fund: Fund,
    expense: Expense,
    tally: Tally,
    cents: int,
    shared: int,
    project_total: int | None,
) -> Charge:
    return Charge(
        fund=fund,
        expense=expense,
        cents=cents,
        charged=tally.charged,
        by_category=tally.by_category,
        charges=tally.charges,
        shared=shared,
        project_total=project_total,
    )


def judge(charge: Charge, rules: Iterable[Rule]) -> tuple[Refusal, ...]:
    if type(charge.cents) is not int or charge.cents <= 0:
        return (_not_whole(charge),)
    over = _over_the_expense(charge)
    asked = [rule for rule in rules if in_force(rule, charge.expense)]
    refusals = [refusal for rule in asked if (refusal := rule.check(charge))]
    return (over, *refusals) if over else tuple(refusals)


def _not_whole(charge: Charge) -> Refusal:
    return Refusal(
        code="whole_cents",
        rule="A share is whole cents, one at least.",
        sentence="A share must be whole cents, one at least.",
        limit=1,
        expense=charge.expense.key,
    )


def _over_the_expense(charge: Charge) -> Refusal | None:
    amount, wanted = charge.expense.amount, charge.shared + charge.cents
    if wanted <= amount:
        return None
    free = dollars(max(0, amount - charge.shared), charge.symbol)
    full, share = dollars(amount, charge.symbol), dollars(charge.cents, charge.symbol)
    return Refusal(
        code="expense",
        rule="The shares of an expense never exceed it.",
        sentence=f"{free} of this expense of {full} is left, this share is {share}.",
        limit=amount,
        actual=wanted,
        expense=charge.expense.key,
    )
