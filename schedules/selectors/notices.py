"""Who is still to be told what, who was told, and what was applied."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from urllib.parse import quote

from projects.hooks import PlanDays
from projects.models import Project
from projects.words import listed, plural
from schedules import plan
from schedules.models import AppliedSlip, Notice
from schedules.selectors.letters import matter_of, move_of
from schedules.selectors.parties import Matter, matters

LATELY = 5  # applied changes that can be taken back from a page
NAMED = 3


@dataclass(frozen=True, kw_only=True)
class Line:
    """A notice with what became of its dates since."""

    row: Notice
    moved_again: bool

    @property
    def mailto(self) -> str:
        """A link that opens a message ready to send; RFC 6068."""
        body = self.row.body.replace("\r\n", "\n").replace("\n", "\r\n")
        asked = f"subject={quote(self.row.subject, safe='')}&body={quote(body, safe='')}"
        return f"mailto:{quote(self.row.email, safe='@')}?{asked}"

    @property
    def how(self) -> str:
        return self.row.get_told_how_display()


@dataclass(frozen=True, kw_only=True)
class Notices:
    unsent: Sequence[Line]
    told: Sequence[Line]
    slips: Sequence[AppliedSlip]

    @property
    def lede(self) -> str:
        if self.unsent:
            return f"{to_send(len(self.unsent))}: {named(self.unsent)}."
        again = [line for line in self.told if line.moved_again]
        if again:
            return f"Dates have moved since {named(again)} heard of them."
        if self.told:
            return "Everybody has heard of the dates that moved."
        return "Nobody waits to be told of a date that moved."

    @property
    def to_print(self) -> Sequence[Line]:
        return [line for line in self.unsent if not line.moved_again]


def to_send(count: int) -> str:
    return f"{plural(count, 'notice')} to send"


def few(names: Sequence[str]) -> list[str]:
    """The first of them, and how many more."""
    if len(names) <= NAMED:
        return list(names)
    return [*names[: NAMED - 1], f"{len(names) - NAMED + 1} more"]


def named(lines: Sequence[Line]) -> str:
    return listed(few([line.row.party for line in lines]))


def days_now(project: Project, today: date) -> PlanDays:
    rows = plan.read(project, today)
    return plan.plan_days(rows, plan.solve(rows))


def notices(project: Project, today: date) -> Notices:
    rows = list(Notice.objects.filter(project=project).select_related("supplier"))
    now = matters(project, days_now(project, today)) if rows else {}
    latest = latest_told(rows)
    lines = [line(row, now, latest) for row in rows]
    return Notices(
        unsent=[found for found in lines if not found.row.told_on],
        told=sorted(
            (found for found in lines if found.row.told_on),
            key=lambda found: (found.row.told_on or today, found.row.pk),
            reverse=True,
        ),
        slips=applied_lately(project),
    )


def line(row: Notice, now: Mapping[str, Matter], latest: Mapping[str, int]) -> Line:
    """Of what a party was told, only the last word on a date can be out of date."""
    open_keys = {
        k: v
        for k, v in row.dates.items()
        if not row.told_on or latest[whose_date(row, k)] == row.pk
    }
    told = {key: matter_of(kept, "is") for key, kept in open_keys.items()}
    return Line(row=row, moved_again=any(move_of(key, told, now) for key in told))


def whose_date(row: Notice, key: str) -> str:
    return f"{row.supplier_id or row.party} {key}"


def latest_told(rows: Sequence[Notice]) -> dict[str, int]:
    """The last notice of each date to each party, waiting or told."""
    found: dict[str, int] = {}
    for row in sorted(rows, key=lambda r: r.pk):
        found.update(dict.fromkeys((whose_date(row, key) for key in row.dates), row.pk))
    return found


def applied_lately(project: Project) -> list[AppliedSlip]:
    return list(AppliedSlip.objects.filter(project=project)[:LATELY])


@dataclass(frozen=True, kw_only=True)
class Waiting:
    """Who has not heard yet."""

    parties: Sequence[str]

    @property
    def to_send(self) -> str:
        return to_send(len(self.parties))

    @property
    def named(self) -> str:
        return listed(few(self.parties))


def waiting_for(project: Project) -> Waiting:
    rows = Notice.objects.filter(project=project, told_on=None).order_by("pk")
    return Waiting(parties=list(rows.values_list("party", flat=True)))


@dataclass(frozen=True, kw_only=True)
class Aftermath:
    """What was applied just now, or lately, and who is to be told of it."""

    project: Project
    slip: AppliedSlip | None

    @cached_property
    def waiting(self) -> Waiting:
        return waiting_for(self.project)

    @cached_property
    def lately(self) -> list[AppliedSlip]:
        return applied_lately(self.project)


def aftermath(project: Project, applied: str) -> Aftermath:
    """``applied`` is the number in the address that one comes to after applying."""
    rows = AppliedSlip.objects.filter(project=project)
    found = (
        rows.filter(pk=int(applied)).first() if applied.isdecimal() and len(applied) < 12 else None
    )
    return Aftermath(project=project, slip=found)
