"""Rules that people write otherwise than they are stored: a match, and its steps."""

from __future__ import annotations

from math import gcd
from typing import Any

from django.forms import Field

from budgets.engine import BadRule
from budgets.engine.money import WHOLE
from budgets.forms.rules import fields as f

Params = dict[str, Any]
SMALL = 100  # cents: below, a ratio reads better in whole amounts
STEPS_MOST = 20
BOTH = "Write the size and the percent, or empty both to take it off."


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


def tier_steps(seen: Params) -> dict[str, Field]:
    """Two fields for each step that is written, and for one more."""
    written = [n for n in range(1, STEPS_MOST) if seen.get(f"most_{n}") or seen.get(f"rate_{n}")]
    found: dict[str, Field] = {}
    for n in range(1, max(written, default=0) + 2):
        found[f"most_{n}"] = f.money("A project of up to", required=False, min_cents=1)
        found[f"rate_{n}"] = f.percent("asks for a match of", required=False)
    return found


def tier_fields() -> dict[str, Field]:
    return {"above": f.percent("A larger project asks for a match of")}


def tiers_stored(typed: Params) -> Params:
    """A step that was emptied is taken off. Raises BadRule for half a step."""
    numbers = [name.removeprefix("most_") for name in typed if name.startswith("most_")]
    steps = [[typed[f"most_{n}"], typed[f"rate_{n}"]] for n in numbers]
    if half := next((n for n, step in enumerate(steps, 1) if step.count(None) == 1), None):
        raise BadRule("tiered_match", f"Step {half} is half empty. {BOTH}")
    return {"tiers": [*(step for step in steps if None not in step), [None, typed["above"]]]}


def tiers_shown(params: Params) -> Params:
    *steps, last = params.get("tiers") or [[None, None]]
    found = {"above": last[1]}
    for n, (most, rate) in enumerate(steps, 1):
        found |= {f"most_{n}": most, f"rate_{n}": rate}
    return found
