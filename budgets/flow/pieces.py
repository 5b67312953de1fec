"""The flows by what they hang on: other terms of one thing move only what hangs on it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from budgets.engine.cash import Flow
from budgets.flow.asked import AS_AGREED, Asked
from budgets.flow.coming import came, fund_flows, part
from budgets.flow.going import bills, order_flows, refunds, rests
from budgets.flow.ground import Ground
from budgets.models import FundStatus

Rows = Mapping[int, tuple[Flow, ...]]


@dataclass(frozen=True, kw_only=True)
class Pieces:
    """`fixed` hangs on nobody's terms; the others are by the order, fund and milestone."""

    ground: Ground
    fixed: tuple[Flow, ...]
    orders: Rows
    funds: Rows
    milestones: Rows

    def flows(self, asked: Asked = AS_AGREED) -> Iterator[Flow]:
        other = self.moved(asked)
        yield from self.fixed
        for mine, theirs in zip((self.orders, self.funds, self.milestones), other, strict=True):
            for pk, rows in mine.items():
                yield from theirs.get(pk, rows)

    def after(self, today: date) -> Pieces:
        """What is fixed and past left out."""
        return replace(self, fixed=tuple(flow for flow in self.fixed if flow.day > today))

    def moved(self, asked: Asked) -> tuple[Rows, Rows, Rows]:
        """What other terms make anew: an order also the claims of the funds that pay it."""
        ground = self.ground
        paying = ground.planned.get(f"order-{asked.order}", {})
        touched = {asked.fund, *(pk for pk, cents in paying.items() if cents)}
        orders = [row for row in ground.orders if row.pk == asked.order]
        funds = [row for row in ground.books.funds if row.pk in touched]
        milestones = [row for row in ground.milestones if row.pk == asked.milestone]
        return (
            {row.pk: tuple(order_flows(ground, row, asked)) for row in orders},
            {row.pk: tuple(fund_flows(ground, row, asked)) for row in funds},
            {row.pk: tuple(part(ground, row, asked)) for row in milestones},
        )


def pieces_of(ground: Ground) -> Pieces:
    signed = [fund for fund in ground.books.funds if fund.status == FundStatus.SIGNED]
    return Pieces(
        ground=ground,
        fixed=(*bills(ground), *refunds(ground), *rests(ground), *came(ground)),
        orders={row.pk: tuple(order_flows(ground, row, AS_AGREED)) for row in ground.orders},
        funds={row.pk: tuple(fund_flows(ground, row, AS_AGREED)) for row in signed},
        milestones={row.pk: tuple(part(ground, row, AS_AGREED)) for row in ground.milestones},
    )
