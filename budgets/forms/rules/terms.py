"""How a fund pays, and which reports it wants."""

from __future__ import annotations

from budgets.forms.rules import fields as f
from budgets.forms.rules.kind import PAYMENT, REPORTS, Kind

LISTED = (
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
