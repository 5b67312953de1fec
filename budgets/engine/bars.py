"""Why an expense may not be charged to a fund at all, or not be its match: rules one by one."""

from collections.abc import Iterable

from budgets.engine.model import Charge, Expense, Fund, Refusal, Rule
from budgets.engine.rules.ceilings import RateCeiling
from budgets.engine.standing import asking


def bars(fund: Fund, expense: Expense) -> tuple[Refusal, ...]:
    """Every reason why no cent of an expense may be charged to a fund, whatever else is.

    What is still to be spent is not asked for papers, quotes or reasons that come with it.

    >>> from datetime import date
    >>> tea = Expense(key="tea", amount=20_00, day=date(2031, 6, 14), category="food")
    >>> ward = Fund(key="ward", name="Ward fund", award=500_00, status="offered")
    >>> [reason.code for reason in bars(ward, tea)]
    ['not_signed']
    """
    rules = [rule for rule in asking(fund) if rule.static]
    return judged(rules, fund, expense)


def match_bars(fund: Fund, expense: Expense) -> tuple[Refusal, ...]:
    """Every reason why no cent of an expense may count as match for a fund, whoever pays it."""
    rules = [rule for rule in asking(fund) if rule.binds_match]
    found = judged(rules, fund, expense)
    return found + ((_no_gifts(fund, expense),) if _refuses_gifts(fund, expense) else ())


def judged(rules: Iterable[Rule], fund: Fund, expense: Expense) -> tuple[Refusal, ...]:
    charge = Charge(fund=fund, expense=expense, cents=0, by_category={})
    asked = [rule for rule in rules if in_force(rule, expense)]
    return tuple(refusal for rule in asked if (refusal := rule.check(charge)))


def in_force(rule: Rule, expense: Expense) -> bool:
    """Whether a rule judges this expense now: by its days, and by what a forecast can show."""
    return rule.holds_for(expense) and not (rule.mendable and expense.forecast)


def eligible(fund: Fund, expense: Expense) -> int:
    """The most cents of an expense that the fund's ceilings for a mile, night or hour let through.

    >>> from datetime import date
    >>> from budgets.engine import rule_from
    >>> trip = Expense(key="trip", amount=80_00, day=date(2031, 6, 14), category="transport",
    ...                units=100_00, unit="mile")
    >>> rule = rule_from("rate_ceiling", {"unit": "mile", "mills": 725})
    >>> eligible(Fund(key="ward", name="Ward fund", rules=(rule,)), trip)
    7250
    """
    limits = [rule.eligible(expense) for rule in fund.rules if isinstance(rule, RateCeiling)]
    return min([expense.amount, *(limit for limit in limits if limit is not None)])


def _refuses_gifts(fund: Fund, expense: Expense) -> bool:
    asked = [fund.match, *(rule.asked_match() for rule in fund.rules)]
    return expense.in_kind and any(match and not match.in_kind for match in asked)


def _no_gifts(fund: Fund, expense: Expense) -> Refusal:
    return Refusal(
        code="match_in_kind",
        rule="Gifts in kind do not count as match.",
        sentence=f"{fund.name} does not count gifts in kind as match.",
        limit="cash",
        actual="in kind",
        expense=expense.key,
    )
