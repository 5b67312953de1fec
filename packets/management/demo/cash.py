"""What the demo's account held when the balance begins."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from budgets.models import CashBook
from packets.management.demo.days import Days
from projects.models import Project

Row = Mapping[str, Any]


def tell(project: Project, data: Row, days: Days) -> None:
    numbers = {name: value for name, value in data.items() if name != "opening_on"}
    CashBook.objects.create(project=project, opening_on=days.worked(data["opening_on"]), **numbers)
