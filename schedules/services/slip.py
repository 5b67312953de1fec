"""Apply what was tried, as one change; and take it back whole."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from django.db import models, transaction
from django.utils import timezone

from projects import hooks
from projects.log import short_name, write
from projects.models import Project
from schedules import plan
from schedules.models import AppliedSlip, KeyDate, Task
from schedules.selectors.slip import basis
from schedules.selectors.trying import Slip, slipped
from schedules.selectors.wording import outcome_words
from schedules.services import absence, kept
from schedules.services.notify import notify
from schedules.services.tasks import User

TASK_FIELDS = ("days", "remaining_days", "remaining_on", "not_before")


class PlanChanged(Exception):
    """Somebody changed the project after the preview was computed."""


class ChangedSince(Exception):
    """What a slip changed is no longer as the slip left it; ``sentences`` say what."""

    def __init__(self, sentences: Sequence[str]) -> None:
        super().__init__(*sentences)
        self.sentences = list(sentences)


@transaction.atomic
def apply_slip(
    *,
    project: Project,
    user: User,
    today: date,
    slips: Sequence[Slip],
    reason: str,
    seen: str,
) -> AppliedSlip:
    """``seen`` is the basis of the preview that was agreed to; raises ``PlanChanged``."""
    Project.objects.select_for_update().get(pk=project.pk)
    rows = plan.read(project, today)
    if basis(rows) != seen:
        raise PlanChanged
    was, became = save_changed(rows, slips)
    before, after = days_now(rows), replanned_days(project, today)
    words = "; ".join(slip.words for slip in slips)
    applied = AppliedSlip.objects.create(
        project=project,
        on=today,
        who=short_name(user),
        sentence=sentence_of(words, before, after),
        reason=reason,
        was=was,
        became=became,
    )
    write(project=project, user=user, about="schedules", sentence=applied.sentence, reason=reason)
    notify(slip=applied, user=user, before=before, after=after)
    rework(project, applied.sentence, user, before, after)
    return applied


def rework(
    project: Project, why: str, user: User, before: hooks.PlanDays, after: hooks.PlanDays
) -> None:
    """What was worked out for the public date is worked out anew when it moves."""
    if before.public_on != after.public_on:
        hooks.rework(project, why, user)


def days_now(rows: plan.Rows) -> hooks.PlanDays:
    return plan.plan_days(rows, plan.solve(rows))


def replanned_days(project: Project, today: date) -> hooks.PlanDays:
    plan.recompute(project, today)
    return days_now(plan.read(project, today))


def sentence_of(words: str, before: hooks.PlanDays, after: hooks.PlanDays) -> str:
    """The figures always fit in; of many changes the last may be cut."""
    now = outcome_words(after.in_hand_days)
    tail = f": {outcome_words(before.in_hand_days)} before, {now} now."
    room = 500 - len(tail)
    return (words if len(words) <= room else f"{words[: room - 1]}…") + tail


def save_changed(rows: plan.Rows, slips: Sequence[Slip]) -> tuple[kept.Kept, kept.Kept]:
    """Save what differs; what it was, and what it became."""
    new = slipped(rows, slips)
    pairs: list[tuple[models.Model, models.Model, Sequence[str]]] = [
        *((old, row, TASK_FIELDS) for old, row in zip(rows.tasks, new.tasks, strict=True)),
        *((old, row, ("on",)) for old, row in zip(rows.key_dates, new.key_dates, strict=True)),
    ]
    was, became = kept.empty(), kept.empty()
    for old, row, fields in pairs:
        changed = [name for name in fields if getattr(old, name) != getattr(row, name)]
        if changed:
            kept.add(was, old, changed)
            kept.add(became, row, changed)
            type(old)._default_manager.filter(pk=old.pk).update(
                **{name: getattr(row, name) for name in changed}
            )
    was["away"] = [absence.take_off(slip) for slip in slips if slip.lane]
    return was, became


@transaction.atomic
def take_back(*, project: Project, user: User, today: date, slip: AppliedSlip) -> str:
    """Restore exactly what it changed; raises ``ChangedSince`` and changes nothing."""
    Project.objects.select_for_update().get(pk=project.pk)
    slip = AppliedSlip.objects.select_for_update().get(pk=slip.pk, project=project)
    if slip.undone_at:
        raise ChangedSince([f"{slip.undone_by} has taken it back already."])
    before = days_now(plan.read(project, today))
    since = [*changed_since(slip), *absence.changed_since(slip.was.get("away", []))]
    if since:
        raise ChangedSince([*since, *later_words(slip)])
    restore(slip)
    after = replanned_days(project, today)
    slip.undone_at, slip.undone_by = timezone.now(), short_name(user)
    slip.save(update_fields=["undone_at", "undone_by"])
    now = outcome_words(after.in_hand_days)
    figures = f"{outcome_words(before.in_hand_days)} before, {now} now"
    sentence = f"Taken back: {first_words(slip)}; {figures}."
    write(project=project, user=user, about="schedules", sentence=sentence)
    notify(slip=slip, user=user, before=before, after=after)
    rework(project, sentence, user, before, after)
    return sentence


def first_words(slip: AppliedSlip) -> str:
    """What it changed, without the figures of then."""
    return slip.sentence.rpartition(":")[0][:300]


ROWS: dict[str, Any] = {"tasks": Task, "key_dates": KeyDate}


def changed_since(slip: AppliedSlip) -> list[str]:
    return [
        sentence
        for table, model in ROWS.items()
        for pk, left in slip.became.get(table, {}).items()
        for sentence in kept.differences(model, pk, left, slip.was[table][pk])
    ]


def restore(slip: AppliedSlip) -> None:
    for table, model in ROWS.items():
        for pk, fields in slip.was.get(table, {}).items():
            kept.put_back(model, pk, fields)
    for row in reversed(slip.was.get("away", [])):
        absence.put_back(row)


def later_words(slip: AppliedSlip) -> list[str]:
    """A later slip that changed the same may be what stands in the way."""
    later = AppliedSlip.objects.filter(project=slip.project, pk__gt=slip.pk, undone_at=None)
    touching = [row for row in later if kept.share(row.became, slip.became)]
    return [f"Take back first what came later: {first_words(row)}." for row in touching[:1]]
