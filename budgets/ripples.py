"""What a slip does to the funds: may the work, and each bill, still be paid on its last day?"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.db.models import Q, Sum
from django.urls import reverse

from budgets import engine, fit, flow
from budgets.fit.forecast import order_ends
from budgets.fit.planned import value_to_come
from budgets.models import Fund, FundKind, FundStatus
from budgets.selectors.claims.slips import claim_ripples
from budgets.selectors.quotes.expiring import quote_ripples
from budgets.selectors.quotes.listing import request_rows
from projects import hooks
from projects.hooks import Level, Party, PlanDays, Ripple
from projects.models import Project
from projects.words import day, listed, money, plural, whose
from schedules.plan.once import once
from suppliers.models import Order
from suppliers.selectors import OPEN_ORDERS

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
    funds = [fund for fund in signed_funds(project) if fund.period_end]
    return [ripple(project, fund, max(ends), after) for fund in funds] if ends else []


def signed_funds(project: Project) -> list[Fund]:
    """Those whose period ends first before the others."""
    signed = [fund for fund in fit.funds_of(project) if fund.status == FundStatus.SIGNED]
    return sorted(signed, key=lambda fund: (fund.period_end or date.max, fund.position))


@hooks.ripples.register("budgets.bills", place=35)
def late_bills(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """What is still to be paid for work that would end after a fund's last day."""
    funds = [fund for fund in signed_funds(project) if fund.kind != FundKind.IN_KIND]
    bills = bills_to_come(project, after)
    values = {fund: fit.fund_value(fund) for fund in funds}
    return [r for fund in funds if fund.period_end and (r := late_ripple(fund, values, bills))]


@hooks.ripples.register("budgets.cash", place=38)
def lowest_cash(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """The lowest balance from today on, before and after; nothing when it stays what it is.

    Without a start nobody knows how low it is, only that it sinks.
    """
    ground = flow.read(project, after.today, before)
    was, then = flow.cash_of(ground.on(before)), flow.cash_of(ground.on(after))
    low = then.ahead.lowest
    if low is None or (then.low, low) == (was.low, was.ahead.lowest):
        return []
    currency = project.currency
    there = f"would be lowest on {day(low.day)}, {money(then.low, currency)}"
    says = f"{there} instead of {money(was.low, currency)}"
    if then.bridge:
        says += f": {money(then.bridge, currency)} to bridge"
    return [
        Ripple(
            level=cash_level(was, then),
            subject="Cash",
            says=f"{says}.",
            url=reverse("budgets:cash", args=[project.pk]),
        )
    ]


def cash_level(was: flow.Cash, then: flow.Cash) -> Level:
    if then.book.pk and then.bridge > was.bridge:
        return Level.BROKEN
    return Level.NEAR if then.bridge else Level.HOLDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """What an order still costs, and the last day of its work."""

    order: Order
    category: str
    cents: int
    on: date


def bills_to_come(project: Project, plan: PlanDays) -> list[Bill]:
    ends = order_ends(plan)
    return [
        Bill(
            order=row,
            category=row.commitment.line.category,
            cents=row.total_cents - (row.paid or 0),
            on=ends[row.pk],
        )
        for row in once(project, ("orders on lines", None), lambda: orders_on_lines(project))
        if row.pk in ends and row.total_cents > (row.paid or 0)
    ]


def orders_on_lines(project: Project) -> list[Any]:
    """The open orders that a budget line pays, each with what is paid of it."""
    orders = Order.objects.filter(commitment__line__project=project, state__in=OPEN_ORDERS)
    bills = Sum("expenses__cents", filter=Q(expenses__in_kind=False))
    found = orders.select_related("commitment__line").prefetch_related("changes")
    return list(found.annotate(paid=bills))


def late_ripple(fund: Fund, values: dict[Fund, engine.Fund], bills: list[Bill]) -> Ripple | None:
    """The bills that it could pay on its last day, and that come later."""
    last = fund.period_end
    late = [b for b in bills if last and b.on > last and may_pay(values[fund], b, last)]
    if last is None or not late:
        return None
    others = [value for other, value in values.items() if other != fund]
    paid = all(any(may_pay(value, bill, bill.on) for value in others) for bill in late)
    currency = fund.project.currency
    named = listed([f"“{b.order.title}” ({money(b.cents, currency)} still to pay)" for b in late])
    ends = f"would end after its last day, {day(last)}"
    return Ripple(
        level=Level.NEAR if paid else Level.BROKEN,
        subject=f"{whose(fund.name)} last bills",
        says=f"cannot all be paid from it: the work of {named} {ends}.",
        url=reverse("budgets:fund", args=[fund.project_id, fund.pk]),
    )


def may_pay(fund: engine.Fund, bill: Bill, on: date) -> bool:
    """Whether no rule bars it on a day; caps are left to the money sheet."""
    return not engine.bars(fund, value_to_come("bill", bill.cents, on, bill.category))


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


@hooks.ripples.register("budgets.quotes", place=37)
def quotes_that_end(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """Prices that end before the work which they are for would begin."""
    return quote_ripples(request_rows(project, after.today), before, after)


@hooks.ripples.register("budgets.claims", place=39)
def money_that_waits(project: Project, before: PlanDays, after: PlanDays) -> list[Ripple]:
    """Parts of a fee that would be due on another day, and reports that are owed."""
    return list(claim_ripples(project, before, after))
