"""Rules that people write otherwise than they are stored: a match, and its steps."""

from __future__ import annotations

from math import gcd
from typing import Any

from django.forms import Field

from budgets.engine.money import WHOLE
from budgets.forms.rules import fields as f

Params = dict[str, Any]
SMALL = 100  # cents: below, a ratio reads better in whole dollars


def match_fields() -> dict[str, Field]:
    return {
        "grant": f.money("For every", min_cents=1, initial=100),
        "other": f.money("of the grant, from elsewhere", min_cents=1, initial=100),
        "cash": f.percent("Of that match, in cash at least", required=False),
        "in_kind": f.choice(
            "Gifts in kind", (("yes", "count as match"), ("no", "do not count as match"))
        ),
        "kind": f.percent("Of that match, gifts in kind at most", required=False),
        "payers": f.payers(),
    }


def match_stored(typed: Params) -> Params:
    grant, other = typed["grant"], typed["other"]
    common = gcd(grant, other)
    return {
        "numerator": other // common,
        "denominator": grant // common,
        "basis_points": typed.get("cash") or None,
        "in_kind": False if typed.get("in_kind") == "no" else None,
        "kind_basis_points": typed.get("kind"),
        "payers": sorted(typed.get("payers") or ()),
    }


def match_shown(params: Params) -> Params:
    grant, other = params.get("denominator") or 1, params.get("numerator") or 1
    scale = SMALL if grant < SMALL or other < SMALL else 1
    none = params.get("in_kind") is False or params.get("basis_points") == WHOLE
    return {
        "grant": grant * scale,
        "other": other * scale,
        "cash": params.get("basis_points"),
        "in_kind": "no" if none else "yes",
        "kind": params.get("kind_basis_points"),
        "payers": params.get("payers") or [],
    }


def tier_fields() -> dict[str, Field]:
    return {
        "most": f.money("A project of up to", min_cents=1),
        "below": f.percent("asks for a match of"),
        "above": f.percent("a larger one for a match of"),
    }


def tiers_stored(typed: Params) -> Params:
    return {"tiers": [[typed["most"], typed["below"]], [None, typed["above"]]]}


def tiers_shown(params: Params) -> Params:
    """The first step and the last; steps between, from a pattern, are not for this form."""
    tiers = params.get("tiers") or [[None, None]]
    return {"most": tiers[0][0], "below": tiers[0][1], "above": tiers[-1][1]}
