"""A new project's budget lines, still without amounts, and the artist's own money."""

from __future__ import annotations

from budgets.models import BudgetLine, Fund, FundKind, FundStatus
from projects import hooks
from projects.hooks import Beginning


@hooks.beginnings.register("budgets", place=40)
def budget(beginning: Beginning) -> None:
    BudgetLine.objects.bulk_create(
        BudgetLine(
            project=beginning.project,
            name=row["name"],
            category=row["category"],
            position=place,
        )
        for place, row in enumerate(beginning.plan.get("budget", ()), start=1)
    )
    Fund.objects.create(
        project=beginning.project,
        name="Own money",
        kind=FundKind.OWN,
        status=FundStatus.SIGNED,
    )
