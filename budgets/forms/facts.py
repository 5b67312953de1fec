"""A rate or threshold of one's own, with the days on which it holds and where it stands."""

from __future__ import annotations

from typing import Any

from django import forms

from budgets.facts import kinds
from budgets.models import DatedFact
from projects.fields import DayField, Sentences, in_order

MOST = 100_000_000


class FactForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    name = forms.ChoiceField(label="What it is")
    value = forms.DecimalField(
        label="Value",
        min_value=0,
        max_value=MOST,
        max_digits=14,
        decimal_places=4,
        help_text="In the unit that stands beside its name.",
        widget=forms.TextInput(attrs={"inputmode": "decimal", "size": 10}),
        error_messages={
            "required": "Write the value, such as 0.725.",
            "invalid": "Write a plain number with a point, such as 0.725 or 2000.",
            "min_value": "A rate is 0 or more.",
            "max_value": "That is more than a hundred million. Write it in its own unit.",
            "max_decimal_places": "Write at most four decimals.",
            "max_digits": "Write at most four decimals.",
            "max_whole_digits": "That is more than a hundred million. Write it in its own unit.",
        },
    )
    valid_from = DayField(label="Holds from")
    valid_to = DayField(
        label="Holds until", required=False, help_text="Empty: until a newer one is added."
    )

    class Meta:
        model = DatedFact
        fields = ("name", "value", "valid_from", "valid_to", "source")
        labels = {"source": "Where it stands"}
        error_messages = {
            "source": {"required": "Name the paper or page, such as the notice and its year."}
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        name = self.fields["name"]
        assert isinstance(name, forms.ChoiceField)
        name.choices = [("", "Choose one")] + [
            (kind.name, f"{kind.label} ({kind.unit})") for kind in kinds().values()
        ]
        name.error_messages["required"] = "Choose which rate or threshold it is."

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        in_order(self, "valid_from", "valid_to")
        return values
