"""Write a project's own rates and thresholds."""

from __future__ import annotations

from django.db import transaction

from budgets.facts import kinds
from budgets.models import DatedFact
from budgets.selectors.facts import plain
from budgets.services.lines import Who, say


@transaction.atomic
def save_fact(*, fact: DatedFact, user: Who) -> str:
    fact.save()
    sentence = f"Added {described(fact)}, from {fact.valid_from.isoformat()}: {fact.source}."
    say(fact.project, user, sentence)
    return sentence


@transaction.atomic
def delete_fact(*, fact: DatedFact, user: Who) -> str:
    sentence = f"Took out {described(fact)}, from {fact.valid_from.isoformat()}."
    say(fact.project, user, sentence)
    fact.delete()
    return sentence


def described(fact: DatedFact) -> str:
    kind = kinds()[fact.name]
    return f"“{kind.label}”: {plain(fact.value)} {kind.unit}"
