"""The kinds of rule in plain words: what each is called, and which fields it has."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from django.forms import Field

from budgets.engine.rules.ceilings import UNITS
from budgets.forms.rules import fields as f
from budgets.forms.rules import reshape
from budgets.forms.rules.reshape import Params
from budgets.selectors.rules import RuleRow

PAYS, WHEN, PROOF, LIMITS, MATCHES, PAYMENT, REPORTS = (
    "What it pays for",
    "When the money may be spent",
    "Proof and fairness",
    "Limits",
    "Match: money from elsewhere",
    "How it pays",
    "Reports and records",
)


def no_fields() -> dict[str, Field]:
    return {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """`stored` and `shown` turn typed values into parameters and back, where they differ."""

    code: str
    label: str
    group: str
    fields: Callable[[], dict[str, Field]] = no_fields
    help: str = ""
    stored: Callable[[Params], Params] = dict
    shown: Callable[[Params], Params] = dict


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
    Kind(
        code="category_cap",
        label="At most an amount for a kind of cost",
        group=LIMITS,
        fields=lambda: {"categories": f.categories("For"), "cents": f.money("At most")},
        help="Several ticked together share the amount.",
    ),
    Kind(
        code="category_share_cap",
        label="At most a percent of the award for a kind of cost",
        group=LIMITS,
        fields=lambda: {
            "categories": f.categories("For"),
            "basis_points": f.percent("Percent of the award, at most"),
        },
    ),
    Kind(
        code="category_claimed_cap",
        label="At most a percent of what is claimed for a kind of cost",
        group=LIMITS,
        fields=lambda: {
            "categories": f.categories("For"),
            "basis_points": f.percent("Percent of what is claimed, at most"),
        },
        help="It moves with the claim: whatever is left unspent lowers it.",
    ),
    Kind(
        code="category_total_cap",
        label="At most a percent of the whole project for a kind of cost",
        group=LIMITS,
        fields=lambda: {
            "categories": f.categories("For"),
            "basis_points": f.percent("Percent of the whole project's cost, at most"),
        },
    ),
    Kind(
        code="category_floor",
        label="At least a percent of what is claimed for a kind of cost",
        group=LIMITS,
        fields=lambda: {
            "categories": f.categories("For"),
            "basis_points": f.percent("Percent of what is claimed, at least"),
        },
        help="Such as the artists' own pay.",
    ),
    Kind(
        code="agreed_budget",
        label="Keep to the agreed budget",
        group=LIMITS,
        fields=lambda: {
            "basis_points": f.percent("Percent that may move without asking", initial=1000),
            "of": f.choice(
                "Percent of", (("total", "the whole budget"), ("line", "each category"))
            ),
        },
        help="Write the agreed amounts on the fund itself, under “Agreed budget”.",
    ),
    Kind(
        code="indirect_rate",
        label="Overhead at a percent",
        group=LIMITS,
        fields=lambda: {
            "basis_points": f.percent("Percent of what is charged"),
            "excluded": f.categories("Left out of what it is taken of", required=False),
            "partner_cents": f.money("Of each partner's part, only the first", required=False),
        },
        help="For a holder with running costs. Ask the holder which costs are left out.",
    ),
    Kind(
        code="match",
        label="So much from elsewhere for every dollar",
        group=MATCHES,
        fields=reshape.match_fields,
        stored=reshape.match_stored,
        shown=reshape.match_shown,
    ),
    Kind(
        code="grant_share",
        label="At most a percent of the whole project",
        group=MATCHES,
        fields=lambda: {
            "basis_points": f.percent("It pays at most"),
            "cash_basis_points": f.percent("Of the rest, in cash at least", required=False),
        },
        help="The same as a match, said the other way: at most 50 % means a dollar for a dollar.",
    ),
    Kind(
        code="tiered_match",
        label="A match that jumps with the size of the project",
        group=MATCHES,
        fields=reshape.tier_fields,
        stored=reshape.tiers_stored,
        shown=reshape.tiers_shown,
        help="One dollar over the step raises the match of the whole project.",
    ),
    Kind(
        code="total_band",
        label="The whole project costs so many times the award",
        group=MATCHES,
        fields=lambda: {
            "least": f.number("At least, times the award", f.TIMES_MOST, initial=2),
            "most": f.number("At most, times the award", f.TIMES_MOST, initial=10),
        },
    ),
    Kind(code="match_is_owed", label="Match that is shown is owed", group=MATCHES),
    Kind(
        code="paid_back",
        label="Pays back what was spent",
        group=PAYMENT,
        fields=lambda: {
            "months": f.number("A claim every so many months", f.MONTHS_MOST, required=False),
            "dates": f.DatesField(label="or on these days", required=False),
            "lag_days": f.lag("Days from a claim to its money"),
            "smallest_cents": f.money("Smallest claim", required=False),
        },
        help="Leave months and days empty for one claim at the end. Be careful with the days until "
        "the money comes: agencies have taken three months.",
    ),
    Kind(
        code="paid_ahead",
        label="Pays a part ahead",
        group=PAYMENT,
        fields=lambda: {
            "basis_points": f.percent("Percent of the award"),
            "on": f.day("From", help_text="Leave empty for the day it is signed."),
            "lag_days": f.lag(),
        },
    ),
    Kind(
        code="paid_by_milestone",
        label="Pays by milestones",
        group=PAYMENT,
        help="The milestones themselves are written on the Claims page.",
    ),
    Kind(
        code="held_back",
        label="Holds a part back until the final report",
        group=PAYMENT,
        fields=lambda: {
            "basis_points": f.percent("Percent held back"),
            "lag_days": f.lag("Days from the report to the money"),
        },
    ),
    Kind(
        code="retained",
        label="Keeps a part of every bill until the work is accepted",
        group=PAYMENT,
        fields=lambda: {
            "basis_points": f.percent("Percent kept"),
            "stop_basis_points": f.percent("Until this percent is done", initial=10_000),
            "after_basis_points": f.percent("Then percent kept", initial=0, required=False),
        },
    ),
    Kind(
        code="report_due",
        label="A report by a day",
        group=REPORTS,
        fields=lambda: {
            "what": f.words("Report", initial="Final report"),
            "days": f.number("Days after", f.DAYS_MOST, required=False),
            "after": f.choice(
                "Counted from",
                (("period_end", "the end of the period"), ("public_date", "the public date")),
            ),
            "on": f.day("or on a fixed day"),
        },
    ),
    Kind(
        code="progress_report",
        label="A report once claims exceed a part of the award",
        group=REPORTS,
        fields=lambda: {
            "numerator": f.number("Parts", f.TIMES_MOST, least=1, initial=2),
            "denominator": f.number("of", f.TIMES_MOST, least=1, initial=3),
        },
    ),
    Kind(
        code="spend_down",
        label="So much claimed by a day",
        group=REPORTS,
        fields=lambda: {
            "basis_points": f.percent("Percent of the award"),
            "on": f.day("Claimed by", required=True),
        },
    ),
    Kind(
        code="records_kept",
        label="Records kept for years",
        group=REPORTS,
        fields=lambda: {"years": f.number("Years from the final report", f.YEARS_MOST, initial=3)},
    ),
)
KINDS: Mapping[str, Kind] = {kind.code: kind for kind in LISTED}


def groups() -> dict[str, list[Kind]]:
    found: dict[str, list[Kind]] = {}
    for kind in LISTED:
        found.setdefault(kind.group, []).append(kind)
    return found


def grouped(rows: Iterable[RuleRow]) -> dict[str, list[RuleRow]]:
    """The rules of a fund under the headings of their kinds, in their order."""
    rows = list(rows)
    found = {
        name: [row for row in rows if row.code in {kind.code for kind in kinds}]
        for name, kinds in groups().items()
    }
    return {name: rows for name, rows in found.items() if rows}
