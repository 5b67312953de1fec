"""What a line still needs, and a draw from the contingency."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django import forms

from budgets.forms.lines import LineChoice
from budgets.forms.quantities import HundredthsField
from budgets.models import BudgetLine
from projects.fields import MoneyField, Sentences, ShortText
from projects.models import Project
from projects.words import money
from schedules.models import Task

BOTH = (
    "Write either the amount that is still needed, or how many at which price; not both, or "
    "nobody knows which of them counts."
)
HALF = "Write both, how many and the price of one, such as 12.5 and 33.33; or neither."


class ToComeForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    """One of three: an amount, a quantity at a price, or neither: then what is left counts."""

    to_come_cents = MoneyField(
        label="Still needed, beside its orders",
        required=False,
        help_text="Write 0 when nothing more comes. Empty: what is left of its budget.",
    )
    quantity_hundredths = HundredthsField(
        label="Or: how many are still needed", required=False, example="12.5"
    )
    unit = ShortText(label="Of what", required=False, max_length=20, help_text="Such as yards.")
    unit_cents = MoneyField(label="Latest price of one", required=False)
    task = forms.ModelChoiceField(
        queryset=Task.objects.none(),
        label="It is paid when this ends",
        required=False,
        empty_label="The public date",
    )

    class Meta:
        model = BudgetLine
        fields = ("to_come_cents", "quantity_hundredths", "unit", "unit_cents", "task")

    def __init__(self, *args: Any, project: Project, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choice = self.fields["task"]
        assert isinstance(choice, forms.ModelChoiceField)
        choice.queryset = Task.objects.filter(project=project).order_by("position", "pk")

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        told = found.get("to_come_cents") is not None
        many, price = (
            found.get(name) is not None for name in ("quantity_hundredths", "unit_cents")
        )
        if told and (many or price):
            self.add_error("to_come_cents", BOTH)
        elif many != price and not {"quantity_hundredths", "unit_cents"} & set(self.errors):
            self.add_error("unit_cents" if many else "quantity_hundredths", HALF)
        return found


class DrawForm(Sentences, forms.Form):
    """From the contingency to a line; `left` is what each pool still holds, by its key."""

    source = LineChoice(label="From")
    target = LineChoice(
        label="To the line that needs it",
        error_messages={"required": "Choose the line that needs the money."},
    )
    cents = MoneyField(label="Amount", min_cents=1)
    reason = ShortText(
        label="Why",
        max_length=240,
        help_text="It stays in the log and in reports, such as: a second lug on each post.",
        error_messages={"required": "Write why, in a few words: whoever pays will ask."},
    )

    def __init__(
        self,
        *args: Any,
        project: Project,
        pools: Iterable[tuple[BudgetLine, int]],
        lines: Iterable[BudgetLine],
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.project, self.left = project, {line.pk: left for line, left in pools}
        self.offer("source", [line for line in lines if line.pk in self.left], "")
        others = [row for row in lines if row.category != "contingency" and not row.in_kind]
        self.offer("target", others, "Choose a line")
        if len(self.left) == 1:
            self.fields["source"].initial = next(iter(self.left))
            self.fields["source"].widget = forms.HiddenInput()
            self.fields["source"].required = False

    def offer(self, name: str, lines: list[BudgetLine], empty: str) -> None:
        choice = self.fields[name]
        assert isinstance(choice, LineChoice)
        choice.offer(self.project, lines, empty)
        choice.queryset = BudgetLine.objects.filter(pk__in=[line.pk for line in lines])

    def clean(self) -> dict[str, Any]:
        found: dict[str, Any] = super().clean() or {}
        source, cents = self.source_of(found), found.get("cents")
        if source and cents and cents > self.left[source.pk]:
            self.add_error("cents", too_much(self.left[source.pk], self.project.currency))
        return {**found, "source": source}

    def source_of(self, found: dict[str, Any]) -> BudgetLine | None:
        """The only pool there is need not be chosen."""
        if found.get("source") or len(self.left) != 1:
            return found.get("source")
        return BudgetLine.objects.get(pk=next(iter(self.left)))


def too_much(left: int, currency: str) -> str:
    if left <= 0:
        return "The contingency is used up. Move money between lines with the fund's consent."
    return f"The contingency holds {money(left, currency)}. Write that or less."
