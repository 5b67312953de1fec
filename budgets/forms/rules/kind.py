"""A kind of rule in plain words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from django.forms import Field

from budgets.forms.rules.reshape import Params

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


def no_steps(seen: Params) -> dict[str, Field]:
    return {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """`stored` and `shown` turn typed values into parameters and back, where they differ.

    `steps` are fields of which there are as many as is `seen`, typed or saved, and a few more.
    """

    code: str
    label: str
    group: str
    fields: Callable[[], dict[str, Field]] = no_fields
    steps: Callable[[Params], dict[str, Field]] = no_steps
    help: str = ""
    stored: Callable[[Params], Params] = dict
    shown: Callable[[Params], Params] = dict
