"""Funds and expenses of Hearthlight with fixed values, for the tests of the money engine."""

from datetime import date
from typing import Any

from budgets.engine import Expense, Fund, Share, rule_from

OPENING = date(2031, 6, 14)


def expense(key: str = "lantern steel", cents: int = 300_00, **given: Any) -> Expense:
    values: dict[str, Any] = {"day": OPENING, "category": "materials"}
    return Expense(key=key, amount=cents, **(values | given))


def fund(*rules: tuple[str, dict[str, Any]], **given: Any) -> Fund:
    values: dict[str, Any] = {
        "key": "ward",
        "name": "Riverside Ward improvement fund",
        "award": 5000_00,
    }
    made = tuple(rule_from(code, params) for code, params in rules)
    return Fund(rules=made, **(values | given))


def share(item: Expense, cents: int, source: str = "ward") -> Share:
    return Share(expense=item, fund=source, cents=cents)
