"""What each fund still has, what a share may be, and what is left to the artist's own money.

A share belongs to an expense; the same cents are never charged twice. Nothing here depends on the
order in which expenses and shares are given.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from budgets.engine.bars import bars, in_force
from budgets.engine.limits import indirect_of, warnings
from budgets.engine.match import cash_needed, match_needed
from budgets.engine.model import Cap, Charge, Counted, Expense, Fund, Now, Refusal, Rule, Share
from budgets.engine.money import dollars
from budgets.engine.payers import match_found, match_of
from budgets.engine.standing import OpenOnly, every_rule


@dataclass(frozen=True, slots=True, kw_only=True)
class CapState:
    """One cap of a fund, in cents: `used` of `limit`; `left` is never below zero."""

    code: str
    sentence: str
    categories: frozenset[str]
    limit: int
    used: int
    left: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FundState:
    """A fund in cents. `left` is None when the award has no stated end; overdrawn is below zero.

    `cash_needed` is the part of `match_needed` that must be cash, `cash_found` the cash found.
    """

    charged: int
    left: int | None
    match_needed: int
    match_found: int
    cash_needed: int
    cash_found: int
    cap_states: tuple[CapState, ...]
    refusals: tuple[Refusal, ...]
    warnings: tuple[Refusal, ...] = ()
    indirect: int = 0  # the most overhead that may be charged beside


@dataclass(slots=True)
class _Tally:
    """Running sums for one fund while shares are added one by one."""

    fund: str
    charged: int = 0
    by_category: Counter[str] = field(default_factory=Counter)
    by_expense: Counter[str] = field(default_factory=Counter)
    charges: list[Share] = field(default_factory=list)

    def add(self, share: Share) -> None:
        self.by_expense[share.expense.key] += share.cents
        if share.fund == self.fund:
            self.charged += share.cents
            self.by_category[share.expense.category] += share.cents
            self.charges.append(share)


def judge_share(
    fund: Fund,
    expense: Expense,
    shares: Iterable[Share],
    cents: int,
    *,
    symbol: str = "$",
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
    tally = _tally(fund, shares)
    charge = _charge(fund, expense, tally, cents, symbol, project_total)
    return _judge(charge, every_rule(fund))


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
    charge = _charge(fund, expense, _tally(fund, shares), 0, "$", project_total)
    rooms = [rule.room(charge) for rule in every_rule(fund) if in_force(rule, expense)]
    free = expense.amount - charge.shared
    return max(0, min([free, *(most for most in rooms if most is not None)]))


def fund_state(
    fund: Fund,
    expenses: Sequence[Expense],
    shares: Sequence[Share],
    *,
    symbol: str = "$",
    counted: Iterable[Counted] | None = None,
    funds: Iterable[Fund] = (),
    project_total: int | None = None,
    claimed: int = 0,
    today: date = date.min,
) -> FundState:
    """What a fund pays and has left, its match, its caps, and the shares that break a rule.

    `shares` are those of all funds; `counted` and `funds` say how match is counted, as in
    `match_found`. `claimed` cents and `today` are for the warnings.
    """
    tally = _tally(fund, shares)
    found, cash = match_found(fund, expenses, shares, counted=counted, funds=funds)
    match = match_of(fund, project_total)
    state = FundState(
        charged=tally.charged,
        left=None if fund.award is None else fund.award - tally.charged,
        match_needed=match_needed(match, tally.charged),
        match_found=found,
        cash_needed=cash_needed(match, tally.charged),
        cash_found=cash,
        cap_states=_cap_states(fund, tally, symbol, project_total),
        refusals=_audit(fund, shares, symbol, project_total),
        indirect=_indirect(fund, tally),
    )
    now = Now(
        today=today,
        project_total=project_total or 0,
        charged=tally.charged,
        claimed=claimed,
        match=0 if counted is None else found,
        match_needed=state.match_needed,
        by_category=tally.by_category,
        symbol=symbol,
    )
    return replace(state, warnings=warnings(fund, now))


def unassigned(expenses: Iterable[Expense], shares: Iterable[Share]) -> dict[str, int]:
    """Cents of each expense that no fund pays, by its key; gifts in kind have no bill.

    >>> from datetime import date
    >>> lamp = Expense(key="lamp", amount=300_00, day=date(2031, 6, 14), category="materials")
    >>> unassigned([lamp], [Share(expense=lamp, fund="ward", cents=120_00)])
    {'lamp': 18000}
    """
    shared: Counter[str] = Counter()
    for share in shares:
        shared[share.expense.key] += share.cents
    left = {item.key: item.amount - shared[item.key] for item in expenses if not item.in_kind}
    return {key: cents for key, cents in left.items() if cents > 0}


def _tally(fund: Fund, shares: Iterable[Share]) -> _Tally:
    tally = _Tally(fund.key)
    for share in shares:
        tally.add(share)
    return tally


def _charge(
    fund: Fund,
    expense: Expense,
    tally: _Tally,
    cents: int,
    symbol: str,
    project_total: int | None,
) -> Charge:
    return Charge(
        fund=fund,
        expense=expense,
        cents=cents,
        charged=tally.charged,
        by_category=tally.by_category,
        charges=tuple(tally.charges),
        shared=tally.by_expense[expense.key],
        symbol=symbol,
        project_total=project_total,
    )


def _judge(charge: Charge, rules: Iterable[Rule]) -> tuple[Refusal, ...]:
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


def _audit(
    fund: Fund, shares: Iterable[Share], symbol: str, project_total: int | None
) -> tuple[Refusal, ...]:
    """Judge the shares a fund has, by day; that it closed later is no fault of theirs."""
    rules = [rule for rule in every_rule(fund) if not isinstance(rule, OpenOnly)]
    tally = _Tally(fund.key)
    refusals: list[Refusal] = []
    for share in sorted(shares, key=_by_day):
        if share.fund == fund.key and share.cents:
            charge = _charge(fund, share.expense, tally, share.cents, symbol, project_total)
            refusals += _judge(charge, rules)
        tally.add(share)
    return tuple(refusals)


def _by_day(share: Share) -> tuple[date, str, str, int]:
    return share.expense.day, share.expense.key, share.fund, share.cents


def _cap_states(
    fund: Fund, tally: _Tally, symbol: str, project_total: int | None
) -> tuple[CapState, ...]:
    return tuple(
        _cap_state(rule, cap, tally, symbol)
        for rule in fund.rules
        for cap in rule.caps(fund, project_total)
    )


def _cap_state(rule: Rule, cap: Cap, tally: _Tally, symbol: str) -> CapState:
    used = sum(
        share.cents
        for share in tally.charges
        if share.expense.category in cap.categories and rule.holds_for(share.expense)
    )
    return CapState(
        code=rule.code,
        sentence=rule.sentence(symbol),
        categories=cap.categories,
        limit=cap.limit,
        used=used,
        left=max(0, cap.limit - used),
    )


def _indirect(fund: Fund, tally: _Tally) -> int:
    rate = indirect_of(fund)
    return rate.most(tally.charges, fund.award) if rate else 0
