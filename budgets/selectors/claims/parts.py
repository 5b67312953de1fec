"""The parts of a fee or an award: when each falls due on the plan, is asked for, and comes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from budgets.flow.parts import falls_on
from budgets.models import Fund, FundKind, Milestone
from projects.hooks import Level, PlanDays
from projects.models import Project
from projects.words import money
from schedules import plan
from schedules.engine import ScheduleError


@dataclass(frozen=True, kw_only=True)
class Part:
    """One milestone, in cents; `on` is when it is done, none while nothing says so."""

    row: Milestone
    on: date | None
    received: int
    today: date

    @property
    def left(self) -> int:
        return max(0, self.row.cents - self.received)

    @property
    def pays_on(self) -> date | None:
        start = self.row.invoiced_on or self.on
        return start + timedelta(self.row.pay_days) if start else None

    @property
    def may_be_asked(self) -> bool:
        """Done, and no invoice is written yet."""
        done = self.on is not None and self.on <= self.today
        return done and bool(self.left) and not self.row.invoiced_on

    @property
    def late_days(self) -> int:
        if not self.row.invoiced_on or not self.left or self.pays_on is None:
            return 0
        return max(0, (self.today - self.pays_on).days)

    @property
    def level(self) -> Level:
        if not self.left:
            return Level.HOLDS
        if self.late_days:
            return Level.BROKEN
        return Level.NEAR if self.may_be_asked else Level.PLAIN

    @property
    def when(self) -> str:
        """What it waits for."""
        if self.row.task_id:
            return f"When “{self.row.task}” is done"
        return f"On “{self.row.key_date}”" if self.row.key_date_id else ""


def parts_of(project: Project, days: PlanDays | None, today: date) -> dict[int, list[Part]]:
    """By fund; two queries."""
    rows = Milestone.objects.filter(fund__project=project).select_related("task", "key_date")
    found: dict[int, list[Part]] = {}
    for row in rows.prefetch_related("income"):
        received = sum(came.cents for came in row.income.all())
        part = Part(row=row, on=falls_on(row, days), received=received, today=today)
        found.setdefault(row.fund_id, []).append(part)
    return found


@dataclass(frozen=True, kw_only=True)
class FundParts:
    """The parts of one fund; `wanted` where it pays by parts, also while it has none."""

    fund: Fund
    rows: list[Part]
    wanted: bool

    @property
    def cents(self) -> int:
        return sum(part.row.cents for part in self.rows)

    @property
    def received(self) -> int:
        return sum(part.received for part in self.rows)

    @property
    def gap(self) -> str:
        """What keeps the parts from coming to the award, to the cent."""
        left = self.fund.award_cents - self.cents
        if not self.rows or not left:
            return ""
        currency = self.fund.project.currency
        award = money(self.fund.award_cents, currency)
        if left > 0:
            return f"{money(left, currency)} of the {award} is in no part yet."
        return f"The parts come to {money(-left, currency)} more than the {award}."


def fund_parts(fund: Fund, today: date) -> FundParts:
    rows = parts_of(fund.project, plan_days(fund.project, today), today).get(fund.pk, [])
    rules = {rule.code for rule in fund.rules.all()}
    wanted = bool(rows) or fund.kind == FundKind.FEE or "paid_by_milestone" in rules
    return FundParts(fund=fund, rows=rows, wanted=wanted)


def plan_days(project: Project, today: date) -> PlanDays | None:
    try:
        return plan.look(project, today).days
    except ScheduleError:
        return None
