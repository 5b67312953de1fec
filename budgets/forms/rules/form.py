"""The form of one rule, made of the fields of its kind."""

from __future__ import annotations

import json
from datetime import date
from hashlib import sha256
from types import SimpleNamespace
from typing import Any

from django import forms
from django.utils.text import capfirst

from budgets.engine import BadRule, rule_from
from budgets.fit import MATCH
from budgets.forms.rules.kind import Kind
from budgets.models import FundRule
from budgets.services.rules import RuleValues
from projects.fields import DayField, Sentences, ShortText, in_order
from projects.meanwhile import Meanwhile

CLAUSE_MOST = 160
SHARED = ("starts_on", "ends_on", "clause")


class OwnFields(forms.Form):
    """The fields of a kind, put before those that every rule has."""

    def __init__(self, data: Any, initial: dict[str, Any], *, kind: Kind) -> None:
        super().__init__(data, initial=initial)
        self.steps = kind.steps({**initial, **dict((data or {}).items())})
        self.made = {**self.steps, **kind.fields()}
        self.fields = {**self.made, **self.fields}


class RuleForm(Meanwhile, Sentences, OwnFields):
    """The kind's own fields, then the days it is in force and the clause it was taken from."""

    starts_on = DayField(label="For expenses from", required=False)
    ends_on = DayField(label="to", required=False)
    clause = ShortText(
        label="Where the agreement says so",
        max_length=CLAUSE_MOST,
        required=False,
        help_text="Such as “Agreement, section 4.2”. It is printed beside the rule.",
    )

    def __init__(self, data: Any = None, *, kind: Kind, rule: FundRule) -> None:
        self.kind, self.instance = kind, SimpleNamespace(version=version_of(rule))
        super().__init__(data, initial_of(kind, rule) if rule.pk else {}, kind=kind)

    @property
    def own(self) -> list[forms.BoundField]:
        return [self[name] for name in self.made if name not in self.steps]

    @property
    def stepped(self) -> list[forms.BoundField]:
        return [self[name] for name in self.steps]

    @property
    def more(self) -> bool:
        """Whether the days are filled in, or wrong: then they stand open."""
        return any(self[name].value() or self[name].errors for name in SHARED[:2])

    def clean(self) -> dict[str, Any]:
        values = super().clean()
        in_order(self, "starts_on", "ends_on")
        if not self.errors:
            self.try_rule()
        return values

    def try_rule(self) -> None:
        """What the engine has against the numbers, as a sentence above the form."""
        if self.kind.code == MATCH:
            return
        try:
            rule_from(self.kind.code, self.params())
        except BadRule as error:
            self.add_error(None, capfirst(error.wrong))

    def params(self) -> dict[str, Any]:
        typed = {name: self.cleaned_data.get(name) for name in self.made}
        found = {name: as_stored(value) for name, value in self.kind.stored(typed).items()}
        return {name: value for name, value in found.items() if value not in (None, "", [])}

    def values(self) -> RuleValues:
        typed = self.cleaned_data
        return RuleValues(
            code=self.kind.code,
            params=self.params(),
            starts_on=typed["starts_on"],
            ends_on=typed["ends_on"],
            clause=typed["clause"],
        )


def as_stored(value: Any) -> Any:
    return value.isoformat() if isinstance(value, date) else value


def initial_of(kind: Kind, rule: FundRule) -> dict[str, Any]:
    return {**kind.shown(rule.params), **{name: getattr(rule, name) for name in SHARED}}


def version_of(rule: FundRule) -> str:
    """What the rule says now, in few letters: another one when somebody changed it."""
    if rule.pk is None:
        return ""
    said = [rule.params, str(rule.starts_on), str(rule.ends_on), rule.clause]
    return sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()[:12]
