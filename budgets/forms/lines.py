"""Forms for budget lines and the lines of orders."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django import forms

from budgets.engine.categories import CATEGORIES
from budgets.models import BudgetLine
from budgets.selectors.held import claims_named, claims_on_line
from projects.fields import MoneyField, Sentences
from projects.models import Project


class LineForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    planned_cents = MoneyField(label="Budget", required=False)

    class Meta:
        model = BudgetLine
        fields = ("name", "category", "planned_cents", "in_kind")
        labels = {"name": "What for", "in_kind": "Given: hours or goods, no money"}
        error_messages = {
            "name": {"required": "Name the line, such as Primer and paint."},
            "category": {"required": "Choose the category that funders would file it under."},
        }

    def clean_planned_cents(self) -> int:
        return self.cleaned_data["planned_cents"] or 0

    def clean(self) -> dict[str, Any]:
        """A category that claims were filed under stays."""
        values: dict[str, Any] = super().clean() or self.cleaned_data
        kinds = {"category", "in_kind"} & set(self.changed_data)
        if self.instance.pk and kinds and (claims := claims_on_line(self.instance)):
            self.add_error(
                min(kinds),
                f"Its expenses stand in {claims_named(claims)} under the category they had. Keep "
                "it, and add another line for what comes.",
            )
        return values


Grouped = list[tuple[str, list[tuple[int, str]]]]


def grouped(lines: Iterable[BudgetLine]) -> Grouped:
    """Choices of lines under the names of their categories."""
    lines = list(lines)
    groups = []
    for key, label in CATEGORIES.items():
        members = [(line.pk, line.name) for line in lines if line.category == key]
        if members:
            groups.append((label, members))
    return groups


class LineChoice(forms.ModelChoiceField):  # type: ignore[type-arg]
    """A budget line of the project, grouped by category."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(queryset=BudgetLine.objects.none(), **kwargs)

    def offer(self, project: Project, lines: Iterable[BudgetLine], empty: str) -> None:
        self.queryset = BudgetLine.objects.filter(project=project)
        self.choices = [("", empty), *grouped(lines)]


class OrderLineForm(Sentences, forms.Form):
    line = LineChoice(label="Budget line", required=False)

    def __init__(
        self, *args: Any, project: Project, lines: Iterable[BudgetLine], **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        choice = self.fields["line"]
        assert isinstance(choice, LineChoice)
        choice.offer(project, lines, "No line yet")
