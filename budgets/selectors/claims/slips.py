"""What a slip does to money that waits for the work: parts of a fee, and reports that are owed."""

from __future__ import annotations

from collections.abc import Iterator

from django.urls import reverse

from budgets import fit
from budgets.engine.paying import report_dates
from budgets.models import AGREED, Fund
from budgets.selectors.claims.parts import Part, parts_of
from projects.hooks import Level, PlanDays, Ripple
from projects.models import Project
from projects.words import day, money


def claim_ripples(project: Project, before: PlanDays, after: PlanDays) -> Iterator[Ripple]:
    was, then = (parts_of(project, days, after.today) for days in (before, after))
    funds = project.funds.filter(status__in=AGREED).prefetch_related("rules")
    for fund in funds:
        for old, new in zip(was.get(fund.pk, []), then.get(fund.pk, []), strict=True):
            if moved := part_moved(fund, old, new):
                yield moved
        yield from reports_moved(fund, before, after)


def part_moved(fund: Fund, old: Part, new: Part) -> Ripple | None:
    """Nothing once it is invoiced: the money is on its way."""
    if old.on == new.on or not new.left or new.row.invoiced_on or not old.on or not new.on:
        return None
    amount = money(new.left, fund.project.currency)
    return Ripple(
        level=Level.NEAR if new.on > old.on else Level.HOLDS,
        subject=f"“{new.row.title}”, {fund.name}",
        says=f"would be done on {day(new.on)} instead of {day(old.on)}, and so its {amount}.",
        url=reverse("budgets:fund", args=[fund.project_id, fund.pk]),
    )


def reports_moved(fund: Fund, before: PlanDays, after: PlanDays) -> Iterator[Ripple]:
    value = fit.fund_value(fund, fit.symbol_of(fund.project))
    was = {due.what: due.on for due in report_dates(value, public_on=before.public_on)}
    for due in report_dates(value, public_on=after.public_on):
        if (old := was.get(due.what)) and old != due.on:
            yield Ripple(
                level=Level.HOLDS,
                subject=f"{due.what}, {fund.name}",
                says=f"would be due on {day(due.on)} instead of {day(old)}.",
                url=reverse("budgets:claims", args=[fund.project_id]),
            )
