"""What each fund pays and still has, and what is left to the artist's own money.

Nothing here depends on the order in which expenses and shares are given.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from budgets.engine.judge import Tally, charge_of, judge
from budgets.engine.limits import indirect_of, warnings
from budgets.engine.match import cash_needed, match_needed
from budgets.engine.model import Cap, Counted, Expense, Fund, Now, Refusal, Rule, Share
from budgets.engine.payers import match_found, match_of
from budgets.engine.standing import OpenOnly, asking


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


_Beside = tuple[Share, int]  # a share, and the cents that its expense carries before it


def fund_state(
    fund: Fund,
    expenses: Sequence[Expense],
    shares: Iterable[Share],
    *,
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
    shares = tuple(shares)
    found = match_found(fund, expenses, shares, counted=counted, funds=funds)
    now = Now(today=today, claimed=claimed, match=found[0] if counted is not None else 0)
    return _state(fund, _by_fund(shares).get(fund.key, []), found, now, project_total)


def fund_states(
    funds: Sequence[Fund],
    expenses: Sequence[Expense],
    shares: Sequence[Share],
    *,
    counted: Iterable[Counted] = (),
    project_total: int | None = None,
    claimed: Mapping[str, int] | None = None,
) -> dict[str, FundState]:
    """The state of every fund, by its key, from one walk over the shares.

    Match is what is `counted` for a fund; where nothing is, what there could be. `claimed` cents
    are by fund.

    >>> from datetime import date
    >>> lamp = Expense(key="lamp", amount=300_00, day=date(2031, 6, 14), category="materials")
    >>> grant = Fund(key="ward", name="Ward fund", award=200_00)
    >>> fund_states([grant], [lamp], [Share(expense=lamp, fund="ward", cents=120_00)])["ward"].left
    8000
    """
    mine, written = _by_fund(shares), dict[str, list[Counted]]()
    for row in counted:
        written.setdefault(row.fund, []).append(row)
    states = {}
    for fund in funds:
        rows, cents = written.get(fund.key), (claimed or {}).get(fund.key, 0)
        found = match_found(fund, expenses, shares, counted=rows, funds=funds)
        now = Now(today=date.min, claimed=cents, match=found[0] if rows else 0)
        states[fund.key] = _state(fund, mine.get(fund.key, []), found, now, project_total)
    return states


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


def _by_fund(shares: Iterable[Share]) -> dict[str, list[_Beside]]:
    """The shares of each fund by day, walked once for all funds."""
    found: dict[str, list[_Beside]] = {}
    shared: Counter[str] = Counter()
    for share in sorted(shares, key=_by_day):
        found.setdefault(share.fund, []).append((share, shared[share.expense.key]))
        shared[share.expense.key] += share.cents
    return found


def _state(
    fund: Fund,
    rows: Sequence[_Beside],
    match: tuple[int, int],
    now: Now,
    project_total: int | None,
) -> FundState:
    """`match` is what was found and its cash; `now` is filled up with what is charged."""
    tally, refusals = _judged(fund, rows, project_total)
    asked = match_of(fund, project_total)
    needed = match_needed(asked, tally.charged)
    now = replace(
        now,
        project_total=project_total or 0,
        charged=tally.charged,
        match_needed=needed,
        by_category=tally.by_category,
        symbol=fund.symbol,
    )
    return FundState(
        charged=tally.charged,
        left=None if fund.award is None else fund.award - tally.charged,
        match_needed=needed,
        match_found=match[0],
        cash_needed=cash_needed(asked, tally.charged),
        cash_found=match[1],
        cap_states=_cap_states(fund, tally, project_total),
        refusals=refusals,
        warnings=warnings(fund, now),
        indirect=_indirect(fund, tally),
    )


def _judged(
    fund: Fund, rows: Sequence[_Beside], project_total: int | None
) -> tuple[Tally, tuple[Refusal, ...]]:
    """Judge the shares a fund has, by day; that it closed later is no fault of theirs."""
    rules = [rule for rule in asking(fund) if not isinstance(rule, OpenOnly)]
    tally = Tally()
    refusals: list[Refusal] = []
    for share, shared in rows:
        if share.cents:
            charge = charge_of(fund, share.expense, tally, share.cents, shared, project_total)
            refusals += judge(charge, rules)
        tally.add(share)
    return tally, tuple(refusals)


def _by_day(share: Share) -> tuple[date, str, str, int]:
    return share.expense.day, share.expense.key, share.fund, share.cents


def _cap_states(fund: Fund, tally: Tally, project_total: int | None) -> tuple[CapState, ...]:
    return tuple(
        _cap_state(rule, cap, tally, fund.symbol)
        for rule in fund.rules
        for cap in rule.caps(fund, project_total)
    )


def _cap_state(rule: Rule, cap: Cap, tally: Tally, symbol: str) -> CapState:
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


def _indirect(fund: Fund, tally: Tally) -> int:
    rate = indirect_of(fund)
    return rate.most(tally.charges, fund.award) if rate else 0
