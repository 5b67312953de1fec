"""Whose cents count as match for a fund, and how many have been found."""

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction

from budgets.engine.bars import match_bars
from budgets.engine.model import Counted, Expense, Fund, Match, Refusal, Share
from budgets.engine.money import dollars

FEDERAL = "federal"


def match_of(fund: Fund, project_total: int | None = None) -> Match | None:
    """The match that a fund asks for, whichever way its rules say it: the largest of them."""
    said = [rule.asked_match(project_total) for rule in fund.rules]
    asked = [match for match in (fund.match, *said) if match]
    return max(asked, key=lambda match: Fraction(match.numerator, match.denominator), default=None)


def may_pay_match(award: Fund, payer: Fund | None) -> bool:
    """Whether cents paid by `payer` (None: own money) may count as match for `award`.

    Never a fund for itself, never federal money for a federal award (2 CFR 200.306(b)(5)), nor
    whoever the match rule leaves out.

    >>> nation = Fund(key="nation", name="National arts award", federal=True, match=Match())
    >>> regrant = Fund(key="state", name="State regrant", federal=True)
    >>> may_pay_match(nation, regrant), may_pay_match(nation, None)
    (False, True)
    """
    match = match_of(award)
    if match is None:
        return False
    kind = "own" if payer is None else payer.kind
    if match.payers and kind not in match.payers:
        return False
    if payer is None:
        return True
    both_federal = award.federal and payer.federal
    barred = payer.key in match.never_from or payer.key == award.key or payer.gifts
    return not (both_federal or barred)


def pool_of(fund: Fund) -> str:
    """Inside a pool, a cent is match at most once; all federal awards share one.

    >>> pool_of(Fund(key="7", name="National arts award", federal=True))
    'federal'
    """
    return FEDERAL if fund.federal else fund.pool or f"fund {fund.key}"


def match_found(
    fund: Fund,
    expenses: Iterable[Expense],
    shares: Iterable[Share],
    *,
    counted: Iterable[Counted] | None = None,
    funds: Iterable[Fund] = (),
) -> tuple[int, int]:
    """Cents of match found for a fund, and the cents of it that are cash.

    With `counted`, what is written down as match for it. Without, what there could be: the cents of
    every eligible expense that this fund does not pay (own money, other funds, gifts in kind if
    accepted), without those of payers that may not match it. An expense is eligible when no rule
    that binds match bars it: category, period, papers.
    """
    match = match_of(fund)
    if match is None:
        return 0, 0
    if counted is not None:
        rows = [row for row in counted if row.fund == fund.key]
        return sum(row.cents for row in rows), sum(
            row.cents for row in rows if not row.expense.in_kind
        )
    free = _free(fund, expenses, shares, match, funds)
    cash = sum(cents for item, cents in free if not item.in_kind)
    return sum(cents for _, cents in free), cash


def _free(
    fund: Fund,
    expenses: Iterable[Expense],
    shares: Iterable[Share],
    match: Match,
    funds: Iterable[Fund],
) -> list[tuple[Expense, int]]:
    """The cents of each eligible expense that could count as match."""
    never = {other.key for other in funds if not may_pay_match(fund, other)}
    never |= {fund.key, *match.never_from}
    taken, others = Counter[str](), Counter[str]()
    for share in shares:
        (taken if share.fund in never else others)[share.expense.key] += share.cents
    own = may_pay_match(fund, None)
    found = []
    for item in {item.key: item for item in expenses}.values():
        if not match_bars(fund, item):
            free = item.amount - taken[item.key] if own or item.in_kind else others[item.key]
            found.append((item, max(0, free)))
    return found


def may_match(fund: Fund, expense: Expense) -> bool:
    """Whether an expense may count as match for a fund: no rule that binds match bars it."""
    return not match_bars(fund, expense)


def judge_match(
    fund: Fund,
    expense: Expense,
    payer: Fund | None,
    cents: int,
    *,
    paid: int,
    counted: int = 0,
) -> tuple[Refusal, ...]:
    """Every reason why `cents` of an expense, paid by `payer`, may not count as match for `fund`.

    `payer` None is own money, or nobody for a gift. `paid` are the cents of the expense that it
    pays (all of a gift), `counted` those of them that already count inside the pool of the fund.
    """
    reasons = list(match_bars(fund, expense))
    if not expense.in_kind and not may_pay_match(fund, payer):
        reasons.append(_no_payer(fund, expense, payer))
    free = max(0, paid - counted)
    if type(cents) is not int or cents <= 0 or cents > free:
        left, wanted = dollars(free, fund.symbol), dollars(cents, fund.symbol)
        reasons.append(
            Refusal(
                code="counted_once",
                rule="A cent counts as match once at most among the funds that share a pool.",
                sentence=f"{left} of it can still count for {fund.name}: this is {wanted}.",
                limit=free,
                actual=cents,
                expense=expense.key,
            )
        )
    return tuple(reasons)


def _no_payer(fund: Fund, expense: Expense, payer: Fund | None) -> Refusal:
    name = payer.name if payer else "Your own money"
    both = payer is not None and payer.federal and fund.federal
    words = "Federal money is no match for a federal award" if both else f"{name} does not count"
    return Refusal(
        code="match_payer",
        rule="Who may pay what counts as match, the fund says.",
        sentence=f"{words}: {name} is no match for {fund.name}.",
        expense=expense.key,
    )
