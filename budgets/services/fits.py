"""Write an accepted fit, whole or in part, as one change; and put it back."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from django.db import transaction
from django.utils import timezone

from budgets.fit import read
from budgets.fit.assignment import Paid, from_kept, paid_now
from budgets.fit.best import BestFit, Change, best
from budgets.fit.part import Part, part_of
from budgets.fit.wish import Wish
from budgets.models import AcceptedFit
from budgets.services.lines import Who, say
from budgets.services.sharing import write
from projects.log import short_name
from projects.models import Project
from projects.words import listed, money, plural


class BooksChanged(Exception):
    """Somebody changed the books after the fit was shown."""


class NothingChosen(Exception):
    """No change was ticked."""


class PartBreaks(Exception):
    """The chosen changes break a rule without others; `part` says which, and what they need."""

    def __init__(self, part: Part) -> None:
        super().__init__(part)
        self.part = part


class ChangedSince(Exception):
    """What the fit wrote is no longer so; `sentences` say what."""

    def __init__(self, sentences: Sequence[str]) -> None:
        super().__init__(*sentences)
        self.sentences = list(sentences)


@transaction.atomic
def accept(
    *,
    project: Project,
    user: Who,
    today: date,
    wish: Wish,
    chosen: Collection[int] | None,
    seen: str,
) -> AcceptedFit:
    """`seen` is the basis of the fit that was shown; `chosen` expenses change (None: all).

    Raises BooksChanged, NothingChosen or PartBreaks, and then writes nothing.
    """
    Project.objects.select_for_update().get(pk=project.pk)
    found = best(project, today, wish)
    if found.basis != seen or not wish.may_be_accepted:
        raise BooksChanged
    changes = [c for c in found.changes if chosen is None or c.expense.pk in chosen]
    if not changes:
        raise NothingChosen
    part = part_of(found, {change.expense.pk for change in changes})
    if part.findings:
        raise PartBreaks(part)
    write({change.expense.pk: change.after for change in changes})
    accepted = AcceptedFit.objects.create(
        project=project,
        on=today,
        who=short_name(user),
        sentence=sentence_of(found, changes, project),
        was={str(change.expense.pk): change.before.kept() for change in changes},
        became={str(change.expense.pk): change.after.kept() for change in changes},
    )
    say(project, user, accepted.sentence)
    return accepted


def sentence_of(found: BestFit, changes: Sequence[Change], project: Project) -> str:
    """The figures always fit in: each fund before and after, the largest change first."""
    moved = sorted(
        ((fund.name, cents) for fund, cents in by_fund(found, changes)),
        key=lambda item: (-abs(item[1]), item[0]),
    )
    parts = [
        f"{name} {'+' if cents > 0 else ''}{money(cents, project.currency)}"
        for name, cents in moved
    ]
    count = plural(len(changes), "expense")
    tail = f": {listed(parts)}" if parts else ": only what counts as match"
    return f"Accepted the best fit for {count}{tail}."[:500]


def by_fund(found: BestFit, changes: Iterable[Change]) -> list[tuple[Any, int]]:
    sums: dict[int, int] = {}
    for change in changes:
        for fund, cents in change.after.shares.items():
            sums[fund] = sums.get(fund, 0) + cents
        for fund, cents in change.before.shares.items():
            sums[fund] = sums.get(fund, 0) - cents
    return [(fund, sums[fund.pk]) for fund in found.books.funds if sums.get(fund.pk)]


@transaction.atomic
def put_back(*, project: Project, user: Who, fit: AcceptedFit) -> str:
    """Restore exactly what the fit changed; raises ChangedSince and then changes nothing."""
    Project.objects.select_for_update().get(pk=project.pk)
    fit = AcceptedFit.objects.select_for_update().get(pk=fit.pk, project=project)
    if fit.undone_at:
        raise ChangedSince([f"{fit.undone_by} has put it back already."])
    was = {int(pk): from_kept(kept) for pk, kept in fit.was.items()}
    became = {int(pk): from_kept(kept) for pk, kept in fit.became.items()}
    if since := changed_since(project, was, became):
        raise ChangedSince(since)
    write(was)
    fit.undone_at, fit.undone_by = timezone.now(), short_name(user)
    fit.save(update_fields=["undone_at", "undone_by"])
    sentence = f"Put back as it was: {fit.sentence[:1].lower()}{fit.sentence[1:]}"
    say(project, user, sentence)
    return sentence


def changed_since(
    project: Project, was: Mapping[int, Paid], became: Mapping[int, Paid]
) -> list[str]:
    """Why the fit cannot be put back whole, a sentence for each expense in the way."""
    books = read(project)
    now, rows = paid_now(books), books.by_pk
    found = []
    for pk, after in became.items():
        if not payers(was[pk]) <= {fund.pk for fund in books.funds}:
            found.append("A fund that it took money off was deleted since.")
        elif pk not in rows:
            found.append("An expense that it changed was deleted since.")
        elif now[pk].kept() != after.kept():
            found.append(f"Who pays {rows[pk]} was changed since.")
        elif any(was[pk].shares.get(f, 0) < c for (e, f), c in books.locked.items() if e == pk):
            found.append(f"{rows[pk]} is in a claim that was filed since.")
        elif any(
            was[pk].counted.get((f, p), 0) < c
            for (e, f, p), c in books.locked_match.items()
            if e == pk
        ):
            found.append(f"{rows[pk]} counts as match in a claim that was filed since.")
    return found


def payers(paid: Paid) -> set[int]:
    """Every fund that it names."""
    named = {*paid.shares, *(fund for fund, _ in paid.counted)}
    return named | {payer for _, payer in paid.counted if payer}
