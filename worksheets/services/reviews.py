"""Enter who has checked a version of a worksheet, and take that back."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from projects.access import type_user
from projects.log import short_name
from projects.words import day_year
from worksheets import run
from worksheets.models import Review, Worksheet
from worksheets.selectors.reviews import checked
from worksheets.services.saving import note as log


class CannotReview(Exception):
    """The version cannot be reviewed; the message is the sentence to show."""


@transaction.atomic
def enter(
    *,
    worksheet: Worksheet,
    number: int,
    reviewer: str,
    licence: str,
    day: date,
    paper: str,
    note: str,
    user: type_user,
) -> str:
    """A review of version ``number`` alone, which must be the one that is shown."""
    Worksheet.objects.select_for_update().get(pk=worksheet.pk)
    found = checked(worksheet, run.work_saved(worksheet))
    if found.last is None or found.last.number != number:
        now = found.last.number if found.last else 0
        raise CannotReview(
            f"This is version {now} by now, and the review was for version {number}. Look at "
            "what changed, and have it checked anew."
        )
    if found.hindrance:
        raise CannotReview(f"{found.hindrance} It cannot be reviewed so.")
    if found.holds:
        raise CannotReview("This version has a review already. Take that back first.")
    Review.objects.create(
        run=found.last,
        reviewer=reviewer,
        licence=licence,
        day=day,
        paper=paper,
        note=note,
        entered_by=short_name(user),
    )
    return log(
        worksheet.project,
        user,
        f"{reviewer}, {licence}, checked version {number} of “{worksheet.title}” on "
        f"{day_year(day)}{f', {paper}' if paper else ''}.",
    )


@transaction.atomic
def take_back(*, review: Review, user: type_user) -> str:
    worksheet, number, reviewer = review.run.worksheet, review.run.number, review.reviewer
    review.delete()
    return log(
        worksheet.project,
        user,
        f"Took back the review of version {number} of “{worksheet.title}” by {reviewer}.",
    )
