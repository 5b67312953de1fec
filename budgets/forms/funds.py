"""A fund and its rules, in words that need no accountant."""

from __future__ import annotations

from math import gcd
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from budgets.engine.money import WHOLE
from budgets.fit import MATCH
from budgets.forms.caps import CapForms
from budgets.models import CATEGORY_CHOICES, Fund, FundKind, FundRule, PaperKind
from budgets.services.funds import RuleValues
from projects.fields import DayField, LongText, MoneyField, Sentences

IN_KIND_COUNTS = (
    ("0", "count in full"),
    ("5000", "count for half of it at most"),
    (str(WHOLE), "do not count"),
)
TICKS = forms.CheckboxSelectMultiple


class FundForm(Sentences, forms.ModelForm):  # type: ignore[type-arg]
    award_cents = MoneyField(label="Award", required=False)
    period_start = DayField(label="First day it may be spent", required=False)
    period_end = DayField(label="Last day it may be spent", required=False)
    note = LongText(label="Note", widget=forms.Textarea(attrs={"rows": 3}))
    allowed = forms.MultipleChoiceField(
        label="Pays only for",
        choices=CATEGORY_CHOICES,
        widget=TICKS,
        required=False,
        help_text="Tick none if it pays for anything that is not barred.",
    )
    barred = forms.MultipleChoiceField(
        label="Never pays for", choices=CATEGORY_CHOICES, widget=TICKS, required=False
    )
    match_grant = MoneyField(label="For every", required=False)
    match_other = MoneyField(label="of the grant, from elsewhere", required=False)
    match_cash = forms.ChoiceField(label="Of that match", choices=IN_KIND_COUNTS, required=False)
    papers = forms.MultipleChoiceField(
        label="Papers it asks for", choices=PaperKind.choices, widget=TICKS, required=False
    )
    papers_from = MoneyField(
        label="Asked for expenses of at least",
        required=False,
        help_text="Leave empty if it asks for every expense.",
    )
    cash_only = forms.BooleanField(label="Pays cash costs only, no gifts in kind", required=False)

    class Meta:
        model = Fund
        fields = (
            "name",
            "kind",
            "status",
            "award_cents",
            "period_start",
            "period_end",
            "note",
        )
        labels = {"kind": "What it is", "status": "Where it stands"}
        error_messages = {"name": {"required": "Name the fund as its giver does."}}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        kind = self["kind"].value()
        self.fields["award_cents"].required = kind not in (FundKind.OWN, FundKind.IN_KIND)
        self.fields["award_cents"].error_messages["required"] = (
            "Write the award, or the amount asked for."
        )

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        self.check_award(values)
        self.check_period(values)
        self.check_categories(values)
        self.check_match(values)
        return values

    def check_award(self, values: dict[str, Any]) -> None:
        if "award_cents" not in values:
            return
        values["award_cents"] = values["award_cents"] or 0
        open_ended = values.get("kind") in (FundKind.OWN, FundKind.IN_KIND)
        if not values["award_cents"] and not open_ended:
            self.add_error("award_cents", "Write the award, or the amount asked for.")

    def check_period(self, values: dict[str, Any]) -> None:
        first, last = values.get("period_start"), values.get("period_end")
        if first and last and last < first:
            self.add_error("period_end", "The last day is before the first. Change one of them.")

    def check_categories(self, values: dict[str, Any]) -> None:
        both = set(values.get("allowed", ())) & set(values.get("barred", ()))
        if both:
            names = ", ".join(label for key, label in CATEGORY_CHOICES if key in both)
            self.add_error("barred", f"{names}: ticked above as allowed. Untick one of the two.")

    def check_match(self, values: dict[str, Any]) -> None:
        grant, other = values.get("match_grant"), values.get("match_other")
        if bool(grant) != bool(other):
            missing = "match_other" if grant else "match_grant"
            if missing not in self.errors:
                self.add_error(
                    missing, "A match needs both amounts, such as 1 and 1. Write it too."
                )

    def clean_papers_from(self) -> int | None:
        if self.cleaned_data["papers_from"] and not self.cleaned_data.get("papers"):
            raise ValidationError("Tick which paper is asked for, or leave this empty.")
        return self.cleaned_data["papers_from"] or None

    def values(self) -> dict[str, Any]:
        return {name: self.cleaned_data[name] for name in self.Meta.fields}

    def rules(self) -> list[RuleValues]:
        values = self.cleaned_data
        rules: list[RuleValues] = []
        if values["allowed"]:
            rules.append(
                RuleValues(code="allowed_categories", params={"categories": values["allowed"]})
            )
        if values["barred"]:
            rules.append(
                RuleValues(code="barred_categories", params={"categories": values["barred"]})
            )
        if values["papers"]:
            rules.append(papers_rule(values))
        if values["cash_only"]:
            rules.append(RuleValues(code="cash_only", params={}))
        if values["match_grant"]:
            rules.append(match_rule(values))
        return rules


def papers_rule(values: dict[str, Any]) -> RuleValues:
    params = {"papers": values["papers"], "cents": values["papers_from"]}
    return RuleValues(code="papers_needed", params=params)


def match_rule(values: dict[str, Any]) -> RuleValues:
    other, grant = values["match_other"], values["match_grant"]
    common = gcd(other, grant)
    params = {
        "numerator": other // common,
        "denominator": grant // common,
        "basis_points": int(values["match_cash"] or 0) or None,
    }
    return RuleValues(code=MATCH, params=params)


def initial_of(rules: list[FundRule]) -> dict[str, Any]:
    """What the form shows of the rules that are saved."""
    first = {row.code: row for row in reversed(rules)}
    found: dict[str, Any] = {"cash_only": "cash_only" in first}
    for code, name in (("allowed_categories", "allowed"), ("barred_categories", "barred")):
        found[name] = first[code]["categories"] if code in first else []
    if row := first.get("papers_needed"):
        found.update(papers=row["papers"], papers_from=row["cents"])
    if row := first.get(MATCH):
        found.update(match_initial(row))
    return found


def match_initial(row: FundRule) -> dict[str, Any]:
    grant, other = row["denominator"] or 1, row["numerator"] or 1
    scale = 100 if grant < 100 or other < 100 else 1
    return {
        "match_grant": grant * scale,
        "match_other": other * scale,
        "match_cash": str(row["basis_points"] or 0),
    }


class FundForms:
    """The fund's own form with the rows of its caps."""

    def __init__(self, fund: Fund, data: Any = None) -> None:
        saved = list(fund.rules.all()) if fund.pk else []
        self.form = FundForm(data, instance=fund, initial=initial_of(saved))
        self.caps = CapForms(saved, data)

    def is_valid(self) -> bool:
        return self.form.is_valid() & self.caps.is_valid()

    def rules(self) -> list[RuleValues]:
        return [*self.form.rules(), *self.caps.rules()]
