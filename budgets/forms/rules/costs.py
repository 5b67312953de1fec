"""What a fund pays for, when, and with which proof."""

from __future__ import annotations

from budgets.engine.rules.ceilings import UNITS
from budgets.forms.rules import fields as f
from budgets.forms.rules.kind import PAYS, PROOF, WHEN, Kind

LISTED = (
    Kind(
        code="allowed_categories",
        label="Only some kinds of cost",
        group=PAYS,
        fields=lambda: {"categories": f.categories("It pays only for")},
    ),
    Kind(
        code="barred_categories",
        label="Some kinds of cost never",
        group=PAYS,
        fields=lambda: {
            "categories": f.categories("It never pays for"),
            "match_too": f.tick("They do not count as match either"),
        },
        shown=lambda params: {"match_too": True, **params},
    ),
    Kind(
        code="match_only",
        label="Some kinds of cost count as match only",
        group=PAYS,
        fields=lambda: {"categories": f.categories("Match only")},
        help="It does not pay for them; paid by others, they count as match.",
    ),
    Kind(
        code="cash_only",
        label="Money spent, no gifts",
        group=PAYS,
        help="Gifts in kind cannot be charged to it. Whether they count as match, its match says.",
    ),
    Kind(
        code="rate_ceiling",
        label="A most for each mile, night, day or hour",
        group=PAYS,
        fields=lambda: {
            "unit": f.choice("For each", tuple(UNITS.items())),
            "mills": f.MillsField(label="It pays at most"),
            "categories": f.categories("Only for", required=False),
        },
        help="What is above stays with your own money. Mileage changes with the year: write one "
        "rule for each, with its days under “More”.",
    ),
    Kind(
        code="period_by",
        label="Which day of an expense has to lie in the period",
        group=WHEN,
        fields=lambda: {
            "by": f.choice(
                "The day that counts",
                (
                    ("incurred", "the day it was spent"),
                    ("ordered", "the day it was ordered"),
                    ("delivered", "the day it was delivered"),
                    ("paid", "the day it was paid"),
                ),
            )
        },
    ),
    Kind(
        code="paid_by",
        label="A last day for paying the bills",
        group=WHEN,
        fields=lambda: {"on": f.day("Every bill paid by", required=True)},
    ),
    Kind(
        code="nothing_before",
        label="Nothing before the signature or a permit",
        group=WHEN,
        fields=lambda: {
            "what": f.words("Nothing before", initial="the agreement"),
            "on": f.day(
                "On", help_text="Leave empty for the day the award was issued, written on the fund."
            ),
        },
    ),
    Kind(
        code="papers_needed",
        label="Papers for every expense",
        group=PROOF,
        fields=lambda: {
            "papers": f.papers(),
            "cents": f.money("For expenses of at least", required=False),
        },
        help="Many funders ask for two: a receipt or invoice, and the proof that it was paid. A "
        "gift needs its letter or time sheet, if that is ticked.",
    ),
    Kind(
        code="quotes_needed",
        label="Quotes above an amount",
        group=PROOF,
        fields=lambda: {
            "cents": f.money("Above"),
            "quotes": f.number("Quotes needed", 20, least=1, initial=2),
            "warn_only": f.tick("Only advised: it pays without them too"),
        },
        help="Of several quotes the order keeps how many answered. The day of the order decides.",
    ),
    Kind(
        code="reason_needed",
        label="A reason above an amount",
        group=PROOF,
        fields=lambda: {"cents": f.money("Above")},
        help="The expense says why it was necessary and its price fair.",
    ),
    Kind(
        code="barred_relations",
        label="Nothing to relatives, own space, regular duties",
        group=PROOF,
        fields=lambda: {"relations": f.relations()},
    ),
    Kind(
        code="places",
        label="Only in some places",
        group=PROOF,
        fields=lambda: {
            "places": f.NamesField(label="Places", help_text="With commas between them."),
            "categories": f.categories("Only for", required=False),
        },
        help="An expense names its place; it has to hold one of these names.",
    ),
)
