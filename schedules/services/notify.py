"""Lay out what each party is to be told; whatever was not told yet is told in the same letter."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.db import transaction
from django.db.models import QuerySet

from projects import hooks
from projects.log import short_name, write
from projects.models import Project
from projects.words import day
from schedules.models import AppliedSlip, Notice, Told
from schedules.selectors import letters
from schedules.selectors.parties import Addressee, Matter, addressees, matters, public_key
from schedules.services.tasks import User


class MovedAgain(Exception):
    """The dates of a notice are no longer those of the plan: nobody must be told them."""


class ToldAlready(Exception):
    """Somebody has told it meanwhile."""


def notify(
    *, slip: AppliedSlip, user: User, before: hooks.PlanDays, after: hooks.PlanDays
) -> list[Notice]:
    """A notice to each party whose dates moved, in the caller's transaction.

    A party that was not told of an earlier move knows the dates from before that: the new
    notice takes the place of the old one, and tells nothing when the dates are back.
    """
    project = slip.project
    known, now, public = matters(project, before), matters(project, after), public_key(project)
    found = []
    for addressee in addressees(project):
        mine = {**known, **known_to(project, addressee)}
        unsent(project, addressee).delete()
        moved = letters.moved_dates(addressee, mine, now, public)
        if moved:
            fresh = filled(Notice(project=project, slip=slip), addressee, moved, public, user)
            fresh.save()
            found.append(fresh)
    return found


def notices_to(project: Project, addressee: Addressee) -> QuerySet[Notice]:
    rows = Notice.objects.filter(project=project, supplier=addressee.supplier)
    return rows if addressee.supplier else rows.filter(party=addressee.name)


def unsent(project: Project, addressee: Addressee) -> QuerySet[Notice]:
    return notices_to(project, addressee).filter(told_on=None)


def known_to(project: Project, addressee: Addressee) -> dict[str, Matter]:
    """Their dates as they were last told, or, never told, as they were before all that waits."""
    known: dict[str, Matter] = {}
    for row in notices_to(project, addressee).order_by("pk"):
        for key, kept in row.dates.items():
            if row.told_on:
                known[key] = letters.matter_of(kept, "is")
            else:
                known.setdefault(key, letters.matter_of(kept, "was"))
    return known


def filled(
    notice: Notice, addressee: Addressee, moved: list[letters.Moved], public: str, user: User
) -> Notice:
    notice.supplier, notice.party = addressee.supplier, addressee.name
    notice.email, notice.phone = addressee.email, addressee.phone
    notice.subject = letters.subject(notice.project, moved)
    sender = short_name(user)
    notice.body = letters.body(notice.project, addressee, moved, public, sender)
    notice.dates = {m.key: m.kept for m in moved}
    return notice


@transaction.atomic
def write_anew(*, notice: Notice, user: User, days: hooks.PlanDays) -> Notice | None:
    """A notice of the dates of ``days`` in the place of one that waits, or after one told.

    None when there is nothing left to tell: the dates are as the party knows them.
    """
    project = Project.objects.select_for_update().get(pk=notice.project_id)
    addressee = next((a for a in addressees(project) if is_to(a, notice)), None)
    now, public = matters(project, days), public_key(project)
    if addressee is None:  # nobody of that name hangs on a date any more
        Notice.objects.filter(pk=notice.pk, told_on=None).delete()
        return None
    known = {**now, **known_to(project, addressee)}
    unsent(project, addressee).delete()
    moved = letters.moved_dates(addressee, known, now, public)
    if not moved:
        return None
    fresh = filled(Notice(project=project, slip=notice.slip), addressee, moved, public, user)
    fresh.save()
    return fresh


def is_to(addressee: Addressee, notice: Notice) -> bool:
    if notice.supplier_id:
        return addressee.supplier is not None and addressee.supplier.pk == notice.supplier_id
    return addressee.supplier is None and addressee.name == notice.party


@transaction.atomic
def tell(*, notice: Notice, user: User, how: str, on: date, days: hooks.PlanDays) -> str:
    """Write down that it was told; raises ``MovedAgain`` and ``ToldAlready``."""
    Project.objects.select_for_update().get(pk=notice.project_id)
    notice = Notice.objects.select_for_update().get(pk=notice.pk)
    if notice.told_on:
        raise ToldAlready
    if moved_again(notice, matters(notice.project, days)):
        raise MovedAgain
    notice.told_how, notice.told_on, notice.told_by = how, on, short_name(user)
    notice.save(update_fields=["told_how", "told_on", "told_by"])
    sentence = f"Told {notice.party} {Told(how).label} on {day(on)}: {notice.subject}."
    write(project=notice.project, user=user, about="schedules", sentence=sentence)
    return sentence


def moved_again(notice: Notice, now: Mapping[str, Matter]) -> bool:
    """Whether any date that it tells is another by now; what is finished or gone is let be."""
    told = {key: letters.matter_of(kept, "is") for key, kept in notice.dates.items()}
    return any(letters.move_of(key, told, now) for key in told)


@transaction.atomic
def set_aside(*, notice: Notice, user: User) -> str:
    """They need not be told."""
    sentence = f"Left {notice.party} untold: {notice.subject}."
    notice.delete()
    write(project=notice.project, user=user, about="schedules", sentence=sentence)
    return sentence


def change_words(*, notice: Notice) -> None:
    """What the artist made of it; logged when it is told, and not changed after."""
    words = {name: getattr(notice, name) for name in ("email", "phone", "subject", "body")}
    Notice.objects.filter(pk=notice.pk, told_on=None).update(**words)
