"""Apply order links that part shared hands, and take them out again."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.core import signing
from django.db import transaction

from projects.log import write
from projects.models import Project
from projects.words import plural
from schedules import plan
from schedules.models import Link
from schedules.plan.hands import SAME_HANDS, hands_of
from schedules.selectors.hands import SALT, hands_basis
from schedules.selectors.wording import outcome_words
from schedules.services.slip import PlanChanged
from schedules.services.tasks import User


@transaction.atomic
def apply_order(*, project: Project, user: User, today: date, seen: str) -> str:
    """``seen`` is the token of the preview that was agreed to; raises ``PlanChanged``."""
    Project.objects.select_for_update().get(pk=project.pk)
    rows = plan.read(project, today)
    links = agreed(rows, seen)
    before = plan.in_hand_days(rows, plan.solve(rows))
    Link.objects.filter(project=project, same_hands=True).delete()
    Link.objects.bulk_create(links)
    after = plan.recompute(project, today).in_hand_days
    tail = "" if after is None else f" {outcome_words(before)} before, {outcome_words(after)} now."
    count = plural(len(links), "order link")
    sentence = f"Levelled the plan with {count}, so that nobody is booked twice.{tail}"
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence


def agreed(rows: plan.Rows, seen: str) -> list[Link]:
    """The links of a preview that still stands."""
    try:
        token = signing.loads(seen, salt=SALT)
    except signing.BadSignature as error:
        raise PlanChanged from error
    if token["basis"] != hands_basis(rows, hands_of(rows)):
        raise PlanChanged
    return [
        Link(
            project=rows.project,
            before_id=before,
            after_id=after,
            kind=kind,
            lag=Decimal(lag),
            reason=SAME_HANDS,
            same_hands=True,
        )
        for before, after, kind, lag in token["links"]
    ]


@transaction.atomic
def undo_order(*, project: Project, user: User, today: date) -> str:
    """Take out all order links with one press."""
    Project.objects.select_for_update().get(pk=project.pk)
    links = Link.objects.filter(project=project, same_hands=True)
    count = links.count()
    if not count:
        return "There are no order links to take out."
    links.delete()
    after = plan.recompute(project, today).in_hand_days
    tail = "" if after is None else f" {outcome_words(after)} now.".replace("missed", "Missed")
    sentence = f"Took out {plural(count, 'order link')}.{tail}"
    write(project=project, user=user, about="schedules", sentence=sentence)
    return sentence
