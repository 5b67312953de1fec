"""Write the rules of a fund."""

from __future__ import annotations

from datetime import date
from typing import Any, TypedDict

from django.db import transaction

from budgets.engine.dated import Dated
from budgets.fit import MATCH, match_value, rule_value
from budgets.models import Fund, FundRule
from budgets.selectors.patterns import UNCHECKED, Pattern
from budgets.services.lines import Who, say


class RuleValues(TypedDict):
    """A rule as it is stored."""

    code: str
    params: dict[str, Any]
    starts_on: date | None
    ends_on: date | None
    clause: str


@transaction.atomic
def save_rule(*, rule: FundRule, values: RuleValues, sentence: str, user: Who) -> FundRule:
    """Save a rule of a fund; raises the engine's BadRule for a senseless one."""
    new = rule.pk is None
    for name, value in values.items():
        setattr(rule, name, value)
    judged(rule)
    rule.save()
    if rule.code == MATCH:  # a fund has one
        rule.fund.rules.filter(code=MATCH).exclude(pk=rule.pk).delete()
    verb = "Added a rule to" if new else "Changed a rule of"
    say(rule.fund.project, user, f"{verb} “{rule.fund.name}”: {sentence}")
    return rule


@transaction.atomic
def delete_rule(*, rule: FundRule, sentence: str, user: Who) -> None:
    say(rule.fund.project, user, f"Took a rule off “{rule.fund.name}”: {sentence}")
    rule.delete()


def add_pattern(
    fund: Fund, pattern: Pattern, known: tuple[Dated, ...], day: date
) -> list[FundRule]:
    """Give a new fund the rules of a pattern, with the facts of the day its award was issued."""
    rows = [
        FundRule(fund=fund, code=rule.code, params=rule.params_on(known, day), clause=UNCHECKED)
        for rule in pattern.rules
    ]
    for row in rows:
        judged(row)
    return FundRule.objects.bulk_create(rows)


def judged(rule: FundRule) -> None:
    if rule.code == MATCH:
        match_value(rule)
    else:
        rule_value(rule)
