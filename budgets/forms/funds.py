"""A fund, in words that need no accountant. Its rules are written one by one."""

from __future__ import annotations

from typing import Any

from django import forms

from budgets.models import CATEGORY_CHOICES, OURS, Fund
from budgets.selectors.held import asked_of
from budgets.selectors.patterns import Pattern, patterns
from projects.fields import DayField, LongText, MoneyField, Sentences, in_order
from projects.meanwhile import Meanwhile
from projects.words import money

AGREED = "agreed_"
NO_AWARD = "Write the award, or the amount asked for."
ABOUT = ("role", "holder", "number", "issued_on", "is_federal", "pool", "note")
SHORT = ("name", "kind", "status", "award_cents", "period_start", "period_end")


class FundForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    """Six fields; who holds the award, and the agreed budget, unfold."""

    award_cents = MoneyField(label="Award", required=False)
    period_start = DayField(label="First day it may be spent", required=False)
    period_end = DayField(label="Last day it may be spent", required=False)
    issued_on = DayField(
        label="Day the award was issued",
        required=False,
        help_text="The rulebook of that day applies.",
    )
    note = LongText(label="Note", widget=forms.Textarea(attrs={"rows": 3}))

    class Meta:
        model = Fund
        fields = (*SHORT, *ABOUT)
        labels = {
            "kind": "What it is",
            "status": "Where it stands",
            "role": "Who holds the award",
            "holder": "Name of its holder, when it is not you",
            "number": "Its number",
            "is_federal": "It is federal money, also when a state or town passes it on",
            "pool": "Counts match together with",
        }
        help_texts = {
            "role": "Paid by invoice, the cost rules of the award stay with its holder: your "
            "invoice is one line of their report.",
            "pool": "A word that several funds share: among them a cent counts as match once. "
            "Federal awards always do.",
        }
        error_messages = {"name": {"required": "Name the fund as its giver does."}}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        award = self.fields["award_cents"]
        award.required = self["kind"].value() not in OURS
        award.error_messages["required"] = NO_AWARD
        if not self.instance.award_cents:
            self.initial["award_cents"] = self.initial.get("award_cents") or None
        for key, label in CATEGORY_CHOICES:
            field = MoneyField(label=label, required=False)
            field.initial = (self.instance.approved or {}).get(key)
            self.fields[AGREED + key] = field

    @property
    def short(self) -> list[forms.BoundField]:
        return [self[name] for name in SHORT]

    @property
    def about(self) -> list[forms.BoundField]:
        return [self[name] for name in ABOUT]

    @property
    def agreed(self) -> list[forms.BoundField]:
        return [self[AGREED + key] for key, _ in CATEGORY_CHOICES]

    @property
    def about_open(self) -> bool:
        return any(field.errors for field in self.about)

    @property
    def agreed_open(self) -> bool:
        return any(field.errors for field in self.agreed)

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        self.check_award(values)
        in_order(self, "period_start", "period_end")
        return values

    def check_award(self, values: dict[str, Any]) -> None:
        if "award_cents" not in values:
            return
        values["award_cents"] = values["award_cents"] or 0
        if not values["award_cents"] and values.get("kind") not in OURS:
            self.add_error("award_cents", NO_AWARD)

    def values(self) -> dict[str, Any]:
        found = {name: self.cleaned_data[name] for name in self.Meta.fields}
        typed = {key: self.cleaned_data[AGREED + key] for key, _ in CATEGORY_CHOICES}
        found["approved"] = {key: cents for key, cents in typed.items() if cents}
        return found


class FundEdit(Meanwhile, FundForm):
    """A saved fund, which another may save meanwhile."""

    def check_award(self, values: dict[str, Any]) -> None:
        super().check_award(values)
        asked, award = asked_of(self.instance), values.get("award_cents")
        if award is not None and award < asked and "award_cents" not in self.errors:
            amount = money(asked, self.instance.project.currency)
            self.add_error(
                "award_cents", f"{amount} was asked of it in claims. Write that much or more."
            )


class FundStart(FundForm):
    """A new fund, which may start with the rules that funders of its kind often have."""

    pattern = forms.ChoiceField(
        label="Start with the rules of",
        required=False,
        help_text="Every rule is then a sentence that you can change or take off.",
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["pattern"]
        assert isinstance(field, forms.ChoiceField)
        field.choices = [("", "No rules yet"), *((p.key, p.name) for p in patterns().values())]
        if not self.is_bound and (chosen := patterns().get(str(self.initial.get("pattern", "")))):
            self.initial.update(kind=chosen.kind, is_federal=chosen.federal)

    @property
    def chosen(self) -> Pattern | None:
        return patterns().get(str(self["pattern"].value() or ""))
