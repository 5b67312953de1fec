"""The form of each kind of hand."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_UP, Decimal
from typing import Any

from django import forms
from django.http import QueryDict

from budgets.engine.categories import CATEGORIES
from budgets.forms.lines import LineChoice
from budgets.forms.quantities import HundredthsField
from budgets.models import BudgetLine
from projects.fields import (
    LONGEST_TEXT,
    DayField,
    LengthField,
    LongText,
    MassField,
    MoneyField,
    ShortText,
)
from projects.models import Part
from suppliers.models import QuoteRequest
from worksheets.engine.result import ToCare, ToLine, ToPart, ToRequest, ToTask
from worksheets.forms.hand_task import TaskHand
from worksheets.forms.handing import HandForm
from worksheets.run import quantity_words
from worksheets.selectors.desk import Desk
from worksheets.selectors.effect_line import costs
from worksheets.selectors.effect_part import columns, thousandths
from worksheets.selectors.effect_words import joined, put_there
from worksheets.selectors.handed import care_text

NO_PRICE = (
    "Write the price of one, from a price list or a quote. If nobody knows it yet, write 0 and ask "
    "suppliers."
)


class LineHand(HandForm):
    line = LineChoice(label="Budget line", required=False)
    name = ShortText(label="Name of a new line", required=False, max_length=120)
    category = forms.ChoiceField(label="Its category", choices=list(CATEGORIES.items()))
    quantity_hundredths = HundredthsField(label="How much")
    unit = ShortText(label="Of what", required=False, max_length=20)
    unit_cents = MoneyField(label="Price of one", error_messages={"required": NO_PRICE})
    planned_cents = MoneyField(
        label="Budget of the line",
        required=False,
        help_text="A line that is there keeps its budget unless you write another; a new one takes "
        "what it costs.",
    )

    def prepare(self) -> None:
        rows = BudgetLine.objects.filter(project=self.desk.project, in_kind=False)
        self.rows = list(rows.exclude(category="contingency"))
        choice = self.fields["line"]
        assert isinstance(choice, LineChoice)
        choice.offer(self.desk.project, self.rows, "A new line")
        choice.queryset = rows.exclude(category="contingency")
        self.fields["unit_cents"].error_messages["required"] = NO_PRICE

    def filled(self) -> dict[str, Any]:
        hand = self.desk.hand
        assert isinstance(hand, ToLine)
        quantity = Decimal(quantity_words(hand).replace(",", "").replace("unlimited", "0"))
        told = {
            "quantity_hundredths": int(quantity * 100),
            "unit_cents": unit_price(hand, quantity),
        }
        new = told["unit_cents"] is not None and self.first_line(hand) is None
        return {
            **told,
            "line": self.first_line(hand),
            "name": hand.label,
            "category": hand.category if hand.category in CATEGORIES else "materials",
            "unit": hand.unit[:20],
            "planned_cents": costs(told) if new else None,
        }

    def first_line(self, hand: ToLine) -> int | None:
        """Where it went before, else a line of that name."""
        if self.desk.handed and self.desk.handed.line_id:
            return self.desk.handed.line_id
        name = hand.label.casefold()
        return next((row.pk for row in self.rows if row.name.casefold() == name), None)

    def check(self, values: dict[str, Any]) -> None:
        name = values["name"].casefold()
        if values["line"]:
            if values["planned_cents"] == self.fields["planned_cents"].initial:
                values["planned_cents"] = None  # what stood there was for a new line
            return
        if not name:
            self.add_error("name", "Name the new line, or choose one that is there.")
        elif any(row.name.casefold() == name for row in self.rows):
            self.add_error("name", "There is a line of this name. Choose it above.")


def unit_price(hand: ToLine, quantity: Decimal) -> int | None:
    """Cents of one, so that quantity times price does not fall short."""
    if hand.cents is None or not quantity:
        return None
    return int((Decimal(hand.cents) / quantity).quantize(Decimal(1), ROUND_UP))


class PartHand(HandForm):
    part = forms.ModelChoiceField(
        Part.objects.none(),
        label="Part",
        empty_label=None,
        error_messages={"required": "Choose the part that this is the mass or the size of."},
    )
    mass_g = MassField(label="Mass")
    width_mm = LengthField(label="Width")
    height_mm = LengthField(label="Height")
    depth_mm = LengthField(label="Depth")

    def prepare(self) -> None:
        hand = self.desk.hand
        assert isinstance(hand, ToPart)
        self.kept = columns(hand)
        for name in ("mass_g", "width_mm", "height_mm", "depth_mm"):
            if name not in self.kept:
                del self.fields[name]
        choice = self.fields["part"]
        assert isinstance(choice, forms.ModelChoiceField)
        choice.queryset = self.desk.project.parts.all()

    def filled(self) -> dict[str, Any]:
        hand, handed = self.desk.hand, self.desk.handed
        assert isinstance(hand, ToPart)
        before = handed.part_id if handed else None
        return {
            "part": before or self.desk.worksheet.part_id,
            **{name: thousandths(hand, name) for name in self.kept},
        }

    def check(self, values: dict[str, Any]) -> None:
        if not any(values[name] for name in self.kept):
            self.add_error(self.kept[0], "Write at least one amount; what is empty stays as it is.")


class RequestHand(HandForm):
    request = forms.ModelChoiceField(
        QuoteRequest.objects.none(),
        label="Request for quotes",
        required=False,
        empty_label="A new request",
    )
    title = ShortText(label="What is to be priced", required=False, max_length=160)
    what = LongText(
        label="What exactly",
        required=True,
        widget=forms.Textarea(attrs={"rows": 8}),
        help_text="One line for each thing. Everybody is asked in these words.",
    )
    part = forms.ModelChoiceField(
        Part.objects.none(),
        label="Part it belongs to",
        required=False,
        empty_label="No part in particular",
    )
    wanted_on = DayField(label="Wanted on site by", required=False)

    def prepare(self) -> None:
        project = self.desk.project
        rows = QuoteRequest.objects.filter(project=project, is_closed=False)
        for name, found in (("request", rows), ("part", project.parts.all())):
            choice = self.fields[name]
            assert isinstance(choice, forms.ModelChoiceField)
            choice.queryset = found
        self.fields["what"].error_messages["required"] = "Write what they are to price."

    def filled(self) -> dict[str, Any]:
        hand, handed = self.desk.hand, self.desk.handed
        assert isinstance(hand, ToRequest)
        before = handed.request if handed else None
        return {
            "request": before.pk if before and not before.is_closed else None,
            "title": hand.title[:160],
            "what": "\n".join(hand.items),
            "part": self.desk.worksheet.part_id,
        }

    def clean_what(self) -> str:
        """Line ends as they are kept, so that the list is found again."""
        return str(self.cleaned_data["what"]).replace("\r\n", "\n").strip()

    def check(self, values: dict[str, Any]) -> None:
        found, wanted = values["request"], values["wanted_on"]
        if wanted and wanted < self.desk.today:
            self.add_error("wanted_on", "That day has passed. Choose a day that is still to come.")
        if found:
            self.check_found(found, values)
        elif not values["title"]:
            self.add_error("title", "Say what is to be priced, such as Paint for the pier.")
        elif self.is_there(values["title"]):
            self.add_error("title", "An open request has this name. Choose it above.")

    def is_there(self, title: str) -> bool:
        rows = QuoteRequest.objects.filter(project=self.desk.project, is_closed=False)
        return rows.filter(title__iexact=title).exists()

    def check_found(self, found: QuoteRequest, values: dict[str, Any]) -> None:
        wanted = values["wanted_on"]
        if wanted and found.answer_by and found.answer_by > wanted:
            self.add_error("wanted_on", "Answers are awaited until after that day. Choose a later.")
        body = joined(found.what, put_there(self.desk, found), values["what"])
        if len(body) > LONGEST_TEXT:
            self.add_error("what", too_long(body))


class CareHand(HandForm):
    text = LongText(
        label="Sentences for the maintenance plan",
        required=True,
        widget=forms.Textarea(attrs={"rows": 6}),
    )

    def prepare(self) -> None:
        self.fields["text"].error_messages["required"] = "Write what whoever cares for it must do."

    def filled(self) -> dict[str, Any]:
        hand = self.desk.hand
        assert isinstance(hand, ToCare)
        return {"text": hand.text}

    def clean_text(self) -> str:
        return str(self.cleaned_data["text"]).replace("\r\n", "\n").strip()

    def check(self, values: dict[str, Any]) -> None:
        old = self.desk.handed.put if self.desk.handed else ""
        body = joined(care_text(self.desk.project), old, values["text"])
        if len(body) > LONGEST_TEXT:
            self.add_error("text", too_long(body))


def too_long(body: str) -> str:
    return (
        f"With this the text has {len(body):,} characters; at most {LONGEST_TEXT:,} can be kept. "
        "Shorten it."
    )


FORMS: Mapping[type, type[HandForm]] = {
    ToLine: LineHand,
    ToPart: PartHand,
    ToRequest: RequestHand,
    ToTask: TaskHand,
    ToCare: CareHand,
}


def form_for(desk: Desk, data: QueryDict | None) -> HandForm:
    return FORMS[type(desk.hand)](data, desk=desk)
