"""Who pays which cents of an expense, and what they count for as match."""

from __future__ import annotations

import json
from typing import Any

from django import forms

from budgets.engine import Refusal
from budgets.fit.assignment import Paid, from_kept
from budgets.fit.judging import Answer
from budgets.fit.sharing import Sharing, Wanted
from budgets.models import FundStatus
from projects.fields import MoneyField, Sentences
from projects.words import money

CHARGEABLE = {FundStatus.SIGNED}
LATER = "later"
SAVED = (
    "Somebody else changed who pays this while you had it open. Nothing that you typed is lost: "
    "what they changed stands beside its amount. Look it over and save again."
)


class ShareForm(Sentences, forms.Form):
    """An amount for each fund, the rest to one of them or to nobody yet; then the match."""

    rest = forms.ChoiceField(label="The rest to", required=False)
    seen = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(self, *args: Any, sharing: Sharing, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.sharing, self.expense = sharing, sharing.expense
        self.barred: dict[str, tuple[Refusal, ...]] = {}
        now, match = sharing.now, sharing.match_now
        for answer in sharing.answers:
            pk = answer.fund.pk
            self.fields[field_of(pk)] = amount(answer.fund.name, now.shares.get(pk))
        for asked in sharing.asked:
            pk = asked.award.pk
            self.fields[match_of(pk)] = amount(f"Match for {asked.award.name}", match.get(pk))
        self.fields["seen"].initial = json.dumps(now.kept())
        self.offer_rest()

    def offer_rest(self) -> None:
        rest = self.fields["rest"]
        assert isinstance(rest, forms.ChoiceField)
        open_funds = [a.fund for a in self.sharing.answers if a.fund.status in CHARGEABLE]
        choices = [("", "nothing is left over"), (LATER, "nobody yet")]
        rest.choices = [*choices, *((str(f.pk), f.name) for f in open_funds)]
        paid = sum(self.sharing.now.shares.values())
        rest.initial = LATER if 0 < paid < self.sharing.amount else ""

    def shares(self) -> dict[int, int]:
        """Cents by fund, with the rest added to the fund that takes it."""
        names = {a.fund.pk: field_of(a.fund.pk) for a in self.sharing.answers}
        typed = {pk: self.cleaned_data.get(name) or 0 for pk, name in names.items()}
        rest, to = self.sharing.amount - sum(typed.values()), self.cleaned_data.get("rest")
        if to and to != LATER and rest > 0:
            typed[int(to)] += rest
        return {pk: cents for pk, cents in typed.items() if cents}

    def match(self) -> dict[int, int] | None:
        """Cents by award; None where the match was not asked about."""
        names = {a.award.pk: match_of(a.award.pk) for a in self.sharing.asked}
        if not any(name in self.data for name in names.values()):
            return None
        typed = {pk: self.cleaned_data.get(name) or 0 for pk, name in names.items()}
        return {pk: cents for pk, cents in typed.items() if cents}

    def was(self) -> Paid | None:
        """What stood when the form was opened."""
        try:
            return from_kept(json.loads(self.data.get("seen") or "null"))
        except (ValueError, TypeError, KeyError):
            return None

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        shares, full = self.shares(), self.sharing.amount
        found = sum(shares.values())
        if found > full:
            self.add_error(field_of(list(shares)[-1]), self.off_by(found - full, "more", "Take"))
        elif shares and found < full and not values.get("rest"):
            self.add_error("rest", self.off_by(full - found, "less", "Say"))
        return values

    def off_by(self, cents: int, way: str, do: str) -> str:
        currency = self.expense.project.currency
        off, full = money(cents, currency), money(self.sharing.amount, currency)
        rest = " that much off" if do == "Take" else " who pays the rest, or that nobody does yet"
        return f"The shares come to {off} {way} than the expense of {full}. {do}{rest}."

    def refuse(self, wanted: Wanted) -> None:
        """Put each refusal beside the amount of its fund."""
        found = {field_of(pk): why for pk, why in wanted.reasons.items()}
        found |= {match_of(pk): why for pk, why in wanted.match.reasons.items()}
        self.barred = found
        for name, refusals in found.items():
            self.add_error(name, " ".join(refusal.sentence for refusal in refusals))

    def overtaken(self) -> None:
        """Take over what only the other changed; beside the rest, say what the other saved."""
        data: Any = self.data
        was, now, data = self.was() or Paid(), self.sharing.now, data.copy()
        before = amounts(was)
        data["seen"] = json.dumps(now.kept())
        self.add_error(None, SAVED)
        for name, saved in amounts(now, like=before).items():
            typed = self.cleaned_data.get(name) or 0
            if saved in (before.get(name, 0), typed) or name not in self.fields:
                continue
            words = money(saved, self.expense.project.currency)
            if typed == before.get(name, 0):
                data[name] = plain(saved)
                self.add_error(name, f"Changed meanwhile to {words}.")
            else:
                self.add_error(
                    name, f"Somebody saved {words} here meanwhile. Save again to keep yours."
                )
        self.data = data

    def rows(self) -> list[dict[str, Any]]:
        """Each fund's answer with its field, for the page."""
        had = self.sharing.now.shares
        return [
            {
                "answer": answer,
                "field": self[field_of(answer.fund.pk)],
                "had": had.get(answer.fund.pk),
                "broken": self.barred.get(field_of(answer.fund.pk), ()),
                "chargeable": answer.fund.status in CHARGEABLE or answer.fund.pk in had,
            }
            for answer in self.sharing.answers
        ]

    def match_rows(self) -> list[dict[str, Any]]:
        """Each award that asks for match, with its field."""
        had = self.sharing.match_now
        return [
            {
                "asked": asked,
                "field": self[match_of(asked.award.pk)],
                "open": not asked.reasons,
                "had": had.get(asked.award.pk),
                "broken": self.barred.get(match_of(asked.award.pk), ()),
            }
            for asked in self.sharing.asked
        ]


def amount(label: str, cents: int | None) -> MoneyField:
    field = MoneyField(label=label, required=False, initial=cents)
    field.widget.attrs["autocomplete"] = "off"
    return field


def amounts(paid: Paid, like: dict[str, int] | None = None) -> dict[str, int]:
    """Cents by the name of the field."""
    found = dict.fromkeys(like or (), 0)
    for fund, cents in paid.shares.items():
        found[field_of(fund)] = cents
    for (award, _), cents in paid.counted.items():
        found[match_of(award)] = found.get(match_of(award), 0) + cents
    return found


def plain(cents: int) -> str:
    return str(MoneyField().prepare_value(cents)) if cents else ""


def field_of(pk: int) -> str:
    return f"fund_{pk}"


def match_of(pk: int) -> str:
    return f"match_{pk}"


def all_to(sharing: Sharing) -> list[Answer]:
    """Funds that may take the whole expense in one tap: the soonest to close first."""
    if sharing.expense.in_kind or sum(sharing.now.shares.values()) >= sharing.amount:
        return []
    able = [a for a in sharing.answers if a.most >= sharing.amount]
    return sorted(
        able, key=lambda a: (a.left is None, a.fund.period_end is None, a.fund.period_end)
    )
