"""What a result hands on, where it went, and whether it is still what was handed on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.db.models import OuterRef, Subquery
from django.urls import reverse

from projects.models import Project, Text, Topic
from worksheets.engine.result import Hand, ToCare, ToLine, ToPart, ToRequest, ToTask
from worksheets.models import Handed, Run, Worksheet
from worksheets.run import Worked, hands_in_words

PLACES = {
    ToLine: "a budget line",
    ToPart: "a part",
    ToRequest: "a request for quotes",
    ToTask: "a task",
    ToCare: "the maintenance plan",
}
ROWS = {ToLine: "line", ToPart: "part", ToRequest: "request", ToTask: "task"}
MOST_SHOWN = 160


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Something the result can hand on, and where it was last handed."""

    hand: Hand
    place: str
    words: str
    handed: Handed | None
    behind: bool  # it is another by now than what was handed on
    gone: str  # why what it went to is no longer there
    url: str  # of what it went to
    before: str  # as it was handed on

    @property
    def verb(self) -> str:
        return "Hand it on again" if self.handed else "Hand it on"


def behind(handed: Handed, now: Mapping[str, str]) -> bool:
    """Whether a result no longer says what was handed on; ``now`` is its hands in words."""
    return now.get(handed.key) != handed.what


def handed_of(worksheet: Worksheet) -> dict[str, Handed]:
    return {row.key: row for row in worksheet.handed.select_related(*ROWS.values())}


def offers(worksheet: Worksheet, worked: Worked, rows: Mapping[str, Handed]) -> list[Offer]:
    now = hands_in_words(worked)
    hands = worked.result.hands if worked.result else ()
    care = care_text(worksheet.project) if any(isinstance(h, ToCare) for h in hands) else ""
    return [offer(hand, now, rows.get(hand.key), worksheet.project, care) for hand in hands]


def offer(
    hand: Hand, now: Mapping[str, str], handed: Handed | None, project: Project, care: str
) -> Offer:
    return Offer(
        hand=hand,
        place=PLACES[type(hand)],
        words=shortened(now[hand.key]),
        handed=handed,
        behind=handed is not None and behind(handed, now),
        gone=gone_words(hand, handed, care) if handed else "",
        url=target_url(hand, handed, project) if handed else "",
        before=shortened(handed.what) if handed else "",
    )


def on_lines(project: Project) -> list[tuple[Handed, bool]]:
    """What went to budget lines, and whether it has changed since; in one query."""
    newest = Run.objects.filter(worksheet=OuterRef("worksheet")).values("hands")[:1]
    rows = Handed.objects.filter(worksheet__project=project, line__isnull=False)
    rows = rows.select_related("worksheet").annotate(now=Subquery(newest))
    return [(row, behind(row, row.now or {})) for row in rows]


def gone_words(hand: Hand, handed: Handed, care: str) -> str:
    if isinstance(hand, ToCare):
        there = handed.put in care
        return "" if there else "Its sentences no longer stand there as they were handed on."
    if getattr(handed, ROWS[type(hand)]) is None:
        return f"The {place_noun(hand)} it went to was deleted since."
    if isinstance(hand, ToRequest) and handed.request and handed.request.is_closed:
        return "A quote was chosen there since: the request is closed."
    if isinstance(hand, ToTask) and handed.task and handed.task.started_on:
        return "The task has started since: say on the schedule how far it is."
    return ""


def place_noun(hand: Hand) -> str:
    return PLACES[type(hand)].removeprefix("a ")


def target_url(hand: Hand, handed: Handed, project: Project) -> str:
    """The page on which what it went to is seen; empty when it is gone."""
    if isinstance(hand, ToCare):
        return reverse("packets:text-edit", args=[project.pk, Topic.CARE])
    pk = getattr(handed, f"{ROWS[type(hand)]}_id")
    if pk is None:
        return ""
    if isinstance(hand, ToLine):
        return reverse("budgets:forecast", args=[project.pk])
    if isinstance(hand, ToPart):
        return reverse("schedules:parts", args=[project.pk])
    name = "budgets:quote-request" if isinstance(hand, ToRequest) else "schedules:why"
    return reverse(name, args=[project.pk, pk])


def care_text(project: Project) -> str:
    found = Text.objects.filter(project=project, topic=Topic.CARE).first()
    return found.body if found else ""


def shortened(words: str) -> str:
    return words if len(words) <= MOST_SHOWN else words[: MOST_SHOWN - 1].rstrip() + "…"
