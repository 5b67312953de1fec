"""Write funds."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db import transaction
from django.db.models import Max, ProtectedError

from budgets.facts import all_of
from budgets.models import Fund
from budgets.selectors.patterns import Pattern
from budgets.services.lines import Who, say
from budgets.services.rules import add_pattern
from projects.meanwhile import Overtaken


class FundClaimed(Exception):
    """Claims were made on the fund, or count its money as match."""


@transaction.atomic
def save_fund(
    *,
    fund: Fund,
    values: dict[str, Any],
    user: Who,
    pattern: Pattern | None = None,
    today: date,
) -> Fund:
    """Save a fund, a new one with the rules of a pattern.

    Raises Overtaken when somebody saved it since it was read.
    """
    new = fund.pk is None
    if not new:
        next_version(fund)
    for name, value in values.items():
        setattr(fund, name, value)
    if new:
        last = Fund.objects.filter(project=fund.project).aggregate(Max("position"))
        fund.position = (last["position__max"] or 0) + 1
    fund.save()
    tail = ""
    if new and pattern and pattern.rules:
        add_pattern(fund, pattern, all_of(fund.project), fund.issued_on or today)
        tail = f", with the rules of “{pattern.name}”"
    say(fund.project, user, f"{'Added' if new else 'Changed'} the fund “{fund.name}”{tail}.")
    return fund


def next_version(fund: Fund) -> None:
    """One more, unless another was quicker: only one of two saves finds the version it read."""
    mine = Fund.objects.filter(pk=fund.pk, version=fund.version)
    if not mine.update(version=fund.version + 1):
        raise Overtaken
    fund.version += 1


@transaction.atomic
def delete_fund(*, fund: Fund, user: Who) -> None:
    """What it paid is nobody's again. Raises FundClaimed when claims were made on it."""
    count = fund.shares.count()
    tail = f" {count} expenses lost the share it paid." if count else ""
    try:
        with transaction.atomic():
            name, project = fund.name, fund.project
            fund.delete()
    except ProtectedError as error:
        raise FundClaimed from error
    say(project, user, f"Deleted the fund “{name}”.{tail}")
