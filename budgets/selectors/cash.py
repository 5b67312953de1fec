"""The cash page: how low it gets, what must be bridged, and what would help the most."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from budgets import flow
from budgets.engine.cash import Flow
from budgets.engine.levers import Effect
from budgets.models import Fund, FundKind, FundStatus
from budgets.selectors.balance import Balance, balance
from projects.hooks import Level
from projects.models import Project
from projects.words import day as in_words
from projects.words import listed, money

MOST_LEVERS = 8
PLACES = {
    "expense": "budgets:expense",
    "order": "budgets:order",
    "fund": "budgets:fund",
    "claim": "budgets:claims",
    "forecast": "budgets:forecast",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FlowRow:
    flow: Flow
    after: int  # the balance once it has moved
    url: str
    short: bool  # below the floor by then


@dataclass(frozen=True, slots=True, kw_only=True)
class CashSheet:
    cash: flow.Cash
    sentence: str
    level: Level
    plot: Balance | None
    rows: list[FlowRow]
    past: int  # flows before today, summed up in what is there now
    months: tuple[flow.Month, ...]
    levers: list[Effect]
    warnings: list[str]
    uncounted: list[Fund]

    @property
    def helps(self) -> bool:
        return any(effect.gain > 0 for effect in self.levers)


def cash_sheet(project: Project, today: date) -> CashSheet:
    found = flow.cash_of(flow.read(project, today))
    levers = [effect for effect in found.effects if effect.gain > 0] if found.bridge else []
    days = found.ground.days
    return CashSheet(
        cash=found,
        sentence=start(found) + sentence(found, levers),
        level=Level.BROKEN if found.bridge else Level.HOLDS,
        plot=balance(
            found.ahead,
            today,
            found.book.floor_cents,
            days.public_on if days else None,
            project.currency,
        ),
        rows=rows_of(found),
        past=sum(1 for row in found.flows if row.day <= today),
        months=found.months,
        levers=levers[:MOST_LEVERS],
        warnings=warnings(found),
        uncounted=uncounted(found),
    )


def sentence(found: flow.Cash, levers: list[Effect]) -> str:
    """“Cash is lowest on Mon 22 Feb: $9,300 short. To ask … would bring that down by $2,550.”"""
    currency = found.ground.project.currency
    if found.ahead.lowest is None:
        return f"{money(found.now, currency)} is there now, and nothing is known to come or to go."
    low = found.ahead.lowest
    when = f"Cash is lowest on {in_words(low.day)}"
    if not found.bridge:
        return f"{when}, with {money(low.low, currency)} left: no bridge is needed."
    words = f"{when}: {money(found.bridge, currency)} must be bridged."
    if levers:
        best = levers[0]
        words += f" What helps most: {best.lever.what}, {money(best.gain, currency)} less."
    return words


def start(found: flow.Cash) -> str:
    """Where nobody said what is in the account, the balance is only what comes and goes."""
    return "" if found.book.pk else "Counted from nothing today, as the account is not said yet. "


def uncounted(found: flow.Cash) -> list[Fund]:
    """Signed money that nobody knows when to expect: no rule says how it pays."""
    ground = found.ground
    with_parts = {row.fund_id for row in ground.milestones}
    return [
        fund
        for fund in ground.books.funds
        if fund.status == FundStatus.SIGNED
        and fund.kind not in (FundKind.OWN, FundKind.IN_KIND)
        and fund.pk not in with_parts
        and not flow.says_how_it_pays(ground, fund)
        and fund.award_cents > ground.received["fund", fund.pk]
    ]


def warnings(found: flow.Cash) -> list[str]:
    currency = found.ground.project.currency
    late = [f"{money(cents, currency)} from {fund.name}" for fund, cents in found.too_late]
    if not late:
        return []
    return [
        f"Paid after the last claim and so never paid back: {listed(late)}. "
        "Pay it before, or ask for a later claim."
    ]


def rows_of(found: flow.Cash) -> list[FlowRow]:
    """What is still to come and to go, with the balance after each."""
    project, floor, balance_now = found.ground.project, found.book.floor_cents, found.now
    rows = []
    for row in found.flows:
        if row.day <= found.ground.today:
            continue
        balance_now += row.cents
        url = place(project, row.key)
        rows.append(FlowRow(flow=row, after=balance_now, url=url, short=balance_now < floor))
    return rows


def place(project: Project, key: str) -> str:
    kind, _, pk = key.partition("-")
    if kind not in PLACES:
        return ""
    return reverse(PLACES[kind], args=[project.pk, *([int(pk)] if pk else [])])
