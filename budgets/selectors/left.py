"""What is left of the money that is sure to come: five queries, for the title block."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import Q, Sum

from budgets.fit import COMMITTED, still_to_pay
from budgets.models import AGREED, OURS, Credit, Expense, Fund, FundKind, FundStatus
from projects.models import Project
from suppliers.models import Order


@dataclass(frozen=True, kw_only=True)
class MoneyLeft:
    """In cents. `pot`: signed awards, own money put in, what closed funds paid."""

    pot: int
    spent: int
    committed: int

    @property
    def left(self) -> int:
        return self.pot - self.spent - self.committed


def money_left(project: Project) -> MoneyLeft:
    """Cash only: a gift in kind pays no bill."""
    cash = Expense.objects.filter(project=project, in_kind=False)
    orders = Order.objects.filter(supplier__project=project, state__in=COMMITTED)
    bills = Sum("expenses__cents", filter=Q(expenses__in_kind=False))
    return MoneyLeft(
        pot=sum(put_in(fund) for fund in cash_funds(project)),
        spent=(cash.aggregate(total=Sum("cents"))["total"] or 0) - came_back(project),
        committed=sum(
            still_to_pay(order, order.paid or 0)
            for order in orders.annotate(paid=bills).prefetch_related("changes")
        ),
    )


def came_back(project: Project) -> int:
    credits = Credit.objects.filter(expense__project=project, expense__in_kind=False)
    return credits.aggregate(total=Sum("cents"))["total"] or 0


def cash_funds(project: Project) -> list[Fund]:
    sure = Fund.objects.filter(project=project).exclude(kind=FundKind.IN_KIND)
    cash = Q(shares__expense__in_kind=False)
    return list(sure.filter(status__in=AGREED).annotate(charged=Sum("shares__cents", filter=cash)))


def put_in(fund: Fund) -> int:
    """An open-ended fund, or one that is closed, brings in what it pays."""
    charged: int = getattr(fund, "charged", 0) or 0
    if fund.status == FundStatus.CLOSED:
        return charged
    return fund.award_cents or (charged if fund.kind in OURS else 0)
