"""Who pays which cents of an expense."""

from __future__ import annotations

from typing import Any

from django import forms

from budgets.engine import Refusal
from budgets.fit import Answer
from budgets.models import Expense, FundStatus
from projects.fields import MoneyField, Sentences
from projects.words import money

CHARGEABLE = {FundStatus.SIGNED}


class ShareForm(Sentences, forms.Form):
    """An amount for each fund; the rest may go to one of them."""

    rest = forms.ChoiceField(label="The rest to", required=False)

    def __init__(
        self,
        *args: Any,
        expense: Expense,
        answers: list[Answer],
        had: dict[int, int],
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.expense, self.answers, self.had = expense, answers, had
        self.barred: dict[int, tuple[Refusal, ...]] = {}
        for answer in answers:
            self.fields[field_of(answer.fund.pk)] = self.amount(answer)
        open_funds = [a.fund for a in answers if a.fund.status in CHARGEABLE]
        nobody = ("", "nobody yet")
        rest = self.fields["rest"]
        assert isinstance(rest, forms.ChoiceField)
        rest.choices = [nobody, *((str(f.pk), f.name) for f in open_funds)]

    def amount(self, answer: Answer) -> MoneyField:
        field = MoneyField(
            label=answer.fund.name, required=False, initial=self.had.get(answer.fund.pk)
        )
        field.widget.attrs["autocomplete"] = "off"
        return field

    def wanted(self) -> dict[int, int]:
        """Cents by fund, with the rest added to the fund that takes it."""
        typed = {a.fund.pk: self.cleaned_data.get(field_of(a.fund.pk)) or 0 for a in self.answers}
        rest = self.expense.cents - sum(typed.values())
        if self.cleaned_data.get("rest") and rest > 0:
            typed[int(self.cleaned_data["rest"])] += rest
        return {pk: cents for pk, cents in typed.items() if cents}

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        over = sum(self.wanted().values()) - self.expense.cents
        if over > 0:
            currency = self.expense.project.currency
            last = [pk for pk, cents in self.wanted().items() if cents][-1]
            self.add_error(
                field_of(last),
                f"The shares come to {money(over, currency)} more than the expense of "
                f"{money(self.expense.cents, currency)}. Take that much off.",
            )
        return values

    def refuse(self, reasons: dict[int, tuple[Refusal, ...]]) -> None:
        """Put each refusal beside the amount of its fund."""
        self.barred = reasons
        for pk, refusals in reasons.items():
            self.add_error(field_of(pk), " ".join(reason.sentence for reason in refusals))

    def rows(self) -> list[dict[str, Any]]:
        """Each fund's answer with its field, for the page."""
        return [
            {
                "answer": answer,
                "field": self[field_of(answer.fund.pk)],
                "had": self.had.get(answer.fund.pk),
                "broken": self.barred.get(answer.fund.pk, ()),
                "chargeable": answer.fund.status in CHARGEABLE or answer.fund.pk in self.had,
            }
            for answer in self.answers
        ]


def field_of(pk: int) -> str:
    return f"fund_{pk}"


def all_to(answers: list[Answer], expense: Expense, had: dict[int, int]) -> list[Answer]:
    """Funds that may take the whole expense in one tap: the soonest to close first."""
    if expense.in_kind or sum(had.values()) >= expense.cents:
        return []
    able = [a for a in answers if a.most >= expense.cents]
    return sorted(
        able, key=lambda a: (a.left is None, a.fund.period_end is None, a.fund.period_end)
    )
