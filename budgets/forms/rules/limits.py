"""The limits of a fund, and the match that it asks for."""

from __future__ import annotations

from budgets.forms.rules import fields as f
from budgets.forms.rules import reshape
from budgets.forms.rules.kind import LIMITS, MATCHES, Kind

LISTED = (
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
        label="So much from elsewhere for every 1 of the grant",
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
        help="A match said the other way: at most 50 % means as much again from elsewhere.",
    ),
    Kind(
        code="tiered_match",
        label="A match that jumps with the size of the project",
        group=MATCHES,
        fields=reshape.tier_fields,
        steps=reshape.tier_steps,
        stored=reshape.tiers_stored,
        shown=reshape.tiers_shown,
        help="A little over a step raises the whole match. Empty a step to take it off.",
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
)
