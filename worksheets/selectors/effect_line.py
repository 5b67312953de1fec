"""What a quantity does to a budget line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from copy import copy
from typing import Any

from budgets import fit
from budgets.engine.categories import CATEGORIES
from budgets.engine.line import LineState
from budgets.engine.money import Rounding, portion
from budgets.models import BudgetLine
from budgets.selectors.lines import line_rows, orders_of
from budgets.services.draws import needed_words
from projects.words import money
from worksheets.selectors.desk import Change, Desk, Effect

HUNDREDTHS = 100


def costs(values: Mapping[str, Any]) -> int:
    """Cents of the quantity at its price, half a cent up."""
    quantity, price = values["quantity_hundredths"], values["unit_cents"]
    return portion(price, quantity, HUNDREDTHS, Rounding.HALF_UP)


def budget(values: Mapping[str, Any]) -> int:
    """As it was typed; else as it was, and for a new line what the quantity costs."""
    if values["planned_cents"] is not None:
        return int(values["planned_cents"])
    line = values["line"]
    return line.planned_cents if line else costs(values)


def on_line(desk: Desk, values: Mapping[str, Any]) -> Effect:
    line, currency = values["line"], desk.project.currency
    becomes = with_quantity(line or BudgetLine(project=desk.project), values)
    state = state_of(line) if line else LineState(planned=0, committed=0, spent=0, left=0)
    planned = state.planned + budget(values) - (line.planned_cents if line else 0)
    return Effect(
        where=f"the line “{line.name}”" if line else new_words(values),
        target=f"line-{line.pk}" if line else "line-new",
        changes=(
            Change(
                label="Still needed",
                was=still_needed(line) if line else "no such line yet",
                becomes=still_needed(becomes),
            ),
            Change(
                label="Budget",
                was=money(state.planned, currency) if line else "none",
                becomes=money(planned, currency),
            ),
        ),
        warnings=tuple(warnings(state, planned, costs(values), currency)),
        words=desk.words,
    )


def still_needed(line: BudgetLine) -> str:
    """“$84.35: 24.1 ft³ at $3.50”, or as the budget says it."""
    words, price = needed_words(line), line.unit_cents
    if line.to_come_cents is not None or line.quantity_hundredths is None or price is None:
        return words
    cents = portion(price, line.quantity_hundredths, HUNDREDTHS, Rounding.HALF_UP)
    return f"{money(cents, line.project.currency)}: {words}"


def new_words(values: Mapping[str, Any]) -> str:
    return f"a new line “{values['name']}” under {CATEGORIES[values['category']].lower()}"


def with_quantity(line: BudgetLine, values: Mapping[str, Any]) -> BudgetLine:
    becomes = copy(line)
    becomes.to_come_cents = None
    for name in ("quantity_hundredths", "unit", "unit_cents"):
        setattr(becomes, name, values[name])
    return becomes


def state_of(line: BudgetLine) -> LineState:
    books = fit.read(line.project)
    return line_rows([line], orders_of(line.project), books)[0].state


def warnings(state: LineState, planned: int, cost: int, currency: str) -> Iterator[str]:
    """What is wrong with the budget: below what is promised, or not enough for what comes."""
    bound = state.committed + state.spent
    if planned < bound:
        yield (
            f"{money(bound, currency)} of it is ordered or spent already: a budget of "
            f"{money(planned, currency)} is below that."
        )
    elif planned < bound + cost:
        short = money(bound + cost - planned, currency)
        beside = f" beside the {money(bound, currency)} ordered or spent" if bound else ""
        yield f"It needs {money(cost, currency)}{beside}: {short} more than its budget."
