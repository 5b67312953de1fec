"""The walk that the town moved: a change that was applied, and who was told of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.contrib.auth.models import User

from packets.management.demo.days import Days
from projects.log import short_name, write
from projects.models import LogEntry, Project
from schedules import plan
from schedules.models import AppliedSlip, Forecast, KeyDate
from schedules.selectors.wording import outcome_words
from schedules.services import kept
from schedules.services.notify import notify

Row = Mapping[str, Any]


def tell(project: Project, row: Row, days: Days) -> None:
    """As it would stand if it had been applied then; whoever is not named still waits."""
    rows = plan.read(project, days.today)
    now = plan.plan_days(rows, plan.solve(rows))
    public, on, user = rows.public, days.worked(row["day"]), User.objects.get(username="artist")
    assert public is not None
    old = public.on - timedelta(days=row["later"])
    slip = applied(project, public, old, on, row, short_name(user))
    before = replace(now, public_on=old, key_dates={**now.key_dates, public.pk: old})
    notify(slip=slip, user=user, before=before, after=now)
    for party, how in row["told"].items():
        told = {"told_how": how, "told_on": on, "told_by": short_name(user)}
        slip.notices.filter(party=party).update(**told)
    log(slip, user)


def applied(
    project: Project, public: KeyDate, old: date, on: date, row: Row, who: str
) -> AppliedSlip:
    was, became = kept.empty(), kept.empty()
    kept.add(became, public, ["on"])
    was["key_dates"] = {str(public.pk): {"name": public.name, "on": old.isoformat()}}
    then = on - timedelta(days=1)
    figures = f"{in_hand(project, then)} before, {in_hand(project, on)} now"
    slip = AppliedSlip.objects.create(
        project=project,
        on=on,
        who=who,
        sentence=f"“{public}” moves {row['later']} days later: {figures}.",
        reason=row["reason"],
        was=was,
        became=became,
    )
    AppliedSlip.objects.filter(pk=slip.pk).update(at=at_three(project, on))
    return slip


def in_hand(project: Project, on: date) -> str:
    """What the plan last said by the day."""
    said = Forecast.objects.filter(project=project, on__lte=on)
    return outcome_words(said.latest("on").in_hand_days)


def log(slip: AppliedSlip, user: User) -> None:
    entry = write(
        project=slip.project,
        user=user,
        about="schedules",
        sentence=slip.sentence,
        reason=slip.reason,
    )
    LogEntry.objects.filter(pk=entry.pk).update(at=at_three(slip.project, slip.on))


def at_three(project: Project, on: date) -> datetime:
    return datetime.combine(on, time(15), ZoneInfo(project.zone))
