"""Write funds and their rules."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any, TypedDict

from django.db import transaction
from django.db.models import Max

from budgets.fit import MATCH, rule_value
from budgets.models import Fund, FundRule
from budgets.services.lines import Who, say


class RuleValues(TypedDict):
    """A rule as it is stored."""

    code: str
    params: dict[str, Any]


@transaction.atomic
def save_fund(
    *, fund: Fund, values: dict[str, Any], rules: Iterable[RuleValues], user: Who
) -> Fund:
    """Save a fund and make its rules those given; raises the engine's BadRule for a bad one."""
    new = fund.pk is None
    for name, value in values.items():
        setattr(fund, name, value)
    if new:
        last = Fund.objects.filter(project=fund.project).aggregate(Max("position"))
        fund.position = (last["position__max"] or 0) + 1
    fund.save()
    changed = save_rules(fund, rules)
    verb = "Added" if new else "Changed"
    tail = " and its rules" if changed and not new else ""
    say(fund.project, user, f"{verb} the fund “{fund.name}”{tail}.")
    return fund


def save_rules(fund: Fund, wanted: Iterable[RuleValues]) -> bool:
    """Keep what stays as it is (with the clause it was taken from), replace the rest."""
    old = {signature(rule_values(row)): row for row in fund.rules.all()}
    new = {signature(values): values for values in wanted}
    gone = [row.pk for key, row in old.items() if key not in new]
    made = [FundRule(fund=fund, **values) for key, values in new.items() if key not in old]
    for row in made:
        if row.code != MATCH:
            rule_value(row)
    FundRule.objects.filter(pk__in=gone).delete()
    FundRule.objects.bulk_create(made)
    return bool(gone or made)


def rule_values(row: FundRule) -> RuleValues:
    return RuleValues(code=row.code, params=row.params)


def signature(values: RuleValues) -> str:
    """The same for two rules that say the same."""
    kept = {name: value for name, value in values["params"].items() if value not in (None, [])}
    lists = {k: sorted(v) if isinstance(v, list) else v for k, v in kept.items()}
    return json.dumps([values["code"], lists], sort_keys=True)


@transaction.atomic
def delete_fund(*, fund: Fund, user: Who) -> None:
    """What it paid is nobody's again."""
    count = fund.shares.count()
    tail = f" {count} expenses lost the share it paid." if count else ""
    say(fund.project, user, f"Deleted the fund “{fund.name}”.{tail}")
    fund.delete()
