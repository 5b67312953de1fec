"""One row, one value of the engine."""

from __future__ import annotations

from collections.abc import Iterable

from budgets import engine
from budgets.engine.money import WHOLE
from budgets.models import OURS, Expense, Fund, FundKind, FundRule, Paper, PaperKind

MATCH = "match"  # the rule that is a part of the engine's fund, not one of its rules


def fund_value(fund: Fund, symbol: str = "$") -> engine.Fund:
    rows = list(fund.rules.all())
    open_ended = fund.kind in OURS and not fund.award_cents
    return engine.Fund(
        key=str(fund.pk),
        name=fund.name,
        award=None if open_ended else fund.award_cents,
        status=engine.Status(fund.status),
        period_start=fund.period_start,
        period_end=fund.period_end,
        rules=tuple(rule_value(row) for row in rows if row.code != MATCH),
        gifts=fund.kind == FundKind.IN_KIND,
        match=next((match_value(row) for row in rows if row.code == MATCH), None),
        kind=fund.kind,
        federal=fund.federal_money,
        pool=fund.pool,
        issued=fund.issued_on,
        budget=dict(fund.approved or {}),
        symbol=symbol,
    )


def rule_value(row: FundRule) -> engine.Rule:
    return engine.rule_from(
        row.code, row.params, starts_on=row.starts_on, ends_on=row.ends_on, clause=row.clause
    )


def match_value(row: FundRule) -> engine.Match:
    """A match whose every cent must be cash takes no gifts in kind."""
    cash = row["basis_points"] or 0
    return engine.Match(
        numerator=row["numerator"] or 0,
        denominator=row["denominator"] or 1,
        in_kind=cash < WHOLE and row["in_kind"] is not False,
        cash_basis_points=cash,
        kind_basis_points=WHOLE if row["kind_basis_points"] is None else row["kind_basis_points"],
        payers=frozenset(row["payers"] or ()),
    )


def expense_value(
    row: Expense, papers: Iterable[Paper], *, credited: int = 0, quotes: int = 0
) -> engine.Expense:
    """Net of what came back. `quotes` are those received for its order."""
    kinds = [paper.kind for paper in papers]
    return engine.Expense(
        key=str(row.pk),
        amount=max(0, row.cents - credited),
        day=row.day,
        category=row.line.category,
        in_kind=row.in_kind,
        papers=frozenset(kinds),
        ordered=row.ordered_on,
        delivered=row.delivered_on,
        paid=row.paid_on,
        place=row.place,
        relation=row.relation,
        quotes=max(quotes, kinds.count(PaperKind.QUOTE)),
        reasoned=bool(row.need.strip()),
        units=row.quantity_hundredths or 0,
        unit=row.unit,
        gift=row.gift_kind,
        partner=row.partner,
    )
