"""What a slip does to the funds: may the work still be paid on its last day?"""

from __future__ import annotations

from datetime import date, timedelta

from django.urls import reverse

from budgets.models import Fund, FundKind, FundStatus
from projects import hooks
from projects.hooks import Level, Party, PlanDays, Ripple
from projects.models import Project
from projects.words import day, plural

NEAR_DAYS = 7
REPORTED_TO = (FundKind.GRANT, FundKind.FEE)  # they are told of a report that comes later, too
FUNDERS = (*REPORTED_TO, FundKind.SPONSOR)


@hooks.parties.register("budgets.funders", place=20)
def funders(project: Project) -> list[Party]:
    """Whoever pays from outside."""
    funds = Fund.objects.filter(project=project, status=FundStatus.SIGNED, kind__in=FUNDERS)
    reported = frozenset({"public", "due"})
    return [
        Party(name=fund.name, hears=reported if fund.kind in REPORTED_TO else frozenset({"public"}))
        for fund in funds
    ]


@hooks.ripples.register("budgets.funds", place=30)
def fund_periods(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """Each signed fund's last day against the public date and the work that leads to it."""
    ends = [end for end in (after.public_on, after.work_done_on) if end]
    funds = Fund.objects.filter(
        project=project, status=FundStatus.SIGNED, period_end__isnull=False
    ).order_by("period_end", "position")
    return [ripple(project, fund, max(ends), after) for fund in funds] if ends else []


def ripple(project: Project, fund: Fund, end: date, after: PlanDays) -> Ripple:
    level, says = judged(fund.period_end or end, end, after)
    url = reverse("budgets:fund", args=[project.pk, fund.pk])
    return Ripple(level=level, subject=fund.name, says=says, url=url)


def judged(last: date, end: date, after: PlanDays) -> tuple[Level, str]:
    start = f"may be spent until {last.day} {last:%b}"
    what = after.public_name if end == after.public_on and after.public_name else "the work"
    verb = "would end on" if what == "the work" else "would be on"
    if end > last:
        late = plural((end - last).days, "day")
        return Level.BROKEN, f"{start}, but {what} {verb} {day(end)}, {late} after it."
    if after.finish_on and after.finish_on > last:
        return Level.NEAR, f"{start}: the last task would end after it, on {day(after.finish_on)}."
    if end + timedelta(days=NEAR_DAYS) >= last:
        spare = plural((last - end).days, "day")
        return Level.NEAR, f"{start}, only {spare} after {what}."
    return Level.HOLDS, f"{start}: still inside."
