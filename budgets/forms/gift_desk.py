"""The form of a gift together with its lines: hours of a time sheet, or drives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.http import HttpRequest, QueryDict

from budgets.forms.gifts import GiftForm, Sheet, rows_of, sheet_formset
from budgets.forms.travel import Legs, legs_formset
from budgets.models import BudgetLine, Expense, Hours
from budgets.selectors.gift_kinds import Kind
from projects.meanwhile import Meanwhile

BLANK_LINES, MORE_LINES = 3, 4


class GiftEdit(Meanwhile, GiftForm):
    """Safe beside somebody who changes the same gift."""


@dataclass
class Desk:
    kind: Kind
    form: GiftForm
    lines: Sheet | Legs | None
    wants_more: bool
    posted: bool
    saved: list[Hours]  # what another saved meanwhile; it stands beside what was typed

    def is_valid(self) -> bool:
        if self.wants_more:
            return False
        return self.form.is_valid() and (self.lines is None or self.lines.is_valid())

    @property
    def rows(self) -> list[dict[str, Any]]:
        return self.lines.rows() if self.lines is not None else []

    @property
    def status(self) -> int:
        if getattr(self.form, "overtaken", False):
            return 409
        return 422 if self.posted and not self.wants_more else 200


def desk(request: HttpRequest, expense: Expense, kind: Kind, today: date) -> Desk:
    posted = request.method == "POST"
    more = "more" in request.POST
    data = with_more(request.POST, prefix_of(kind)) if posted and more else request.POST
    given = data if posted else None
    made = GiftEdit if expense.pk else GiftForm
    form = made(
        given,
        kind=kind,
        instance=expense,
        today=today,
        lines=BudgetLine.objects.filter(project=expense.project),
        initial=begun(expense, kind, today),
    )
    overtaken = getattr(form, "overtaken", False)
    return Desk(
        kind=kind,
        form=form,
        lines=lines_for(kind, expense, given, today),
        wants_more=more,
        posted=posted,
        saved=list(expense.hours.all()) if overtaken else [],
    )


def prefix_of(kind: Kind) -> str:
    return "legs" if kind.asks_for("legs") else "rows"


def with_more(data: QueryDict, prefix: str) -> QueryDict:
    """Some more blank lines; what is typed stays."""
    longer = data.copy()
    key = f"{prefix}-TOTAL_FORMS"
    typed = data.get(key, "")
    longer[key] = str(min(int(typed) if typed.isdecimal() else 0, 200) + MORE_LINES)
    return longer


def lines_for(
    kind: Kind, expense: Expense, data: QueryDict | None, today: date
) -> Sheet | Legs | None:
    if kind.asks_for("legs"):
        had = legs_begun(expense.workings)
        made: type[Sheet] | type[Legs] = legs_formset(BLANK_LINES - bool(had))
    elif kind.by_hours:
        had = rows_of(expense.hours.all()) if expense.pk else []
        made = sheet_formset(BLANK_LINES)
    else:
        return None
    return made(data, initial=had, today=today)


def legs_begun(workings: Mapping[str, Any]) -> list[dict[str, Any]]:
    return [{**row, "day": date.fromisoformat(row["day"])} for row in workings.get("legs", [])]


def begun(expense: Expense, kind: Kind, today: date) -> dict[str, Any]:
    """What the form starts with: the gift as kept, or a blank one of today."""
    if not expense.pk:
        return {"day": today, "unit": kind.unit}
    kept = expense.workings
    count = expense.quantity_hundredths
    rate = kept.get("rate_cents") or (expense.cents * 100 // count if count else expense.cents)
    same = ("payee", "what", "day", "basis", "need", "unit")
    return {
        **{name: getattr(expense, name) for name in same},
        "line": expense.line_id,
        "quantity": count or 100,
        "rate": rate,
        "listed": kept.get("listed"),
        "paid": kept.get("paid"),
        "skill": bool(kept),
    }
