"""Every worksheet of a project by what it is for, and what needs a look."""

from __future__ import annotations

from dataclasses import dataclass

from projects.models import Project
from projects.words import plural
from worksheets.engine.result import Standing
from worksheets.engine.sheet import Caution, Group, Sheet
from worksheets.models import Handed, Run, Worksheet
from worksheets.run import caution_of, with_last
from worksheets.selectors.handed import behind
from worksheets.selectors.shown import level_of, said_of
from worksheets.sheets import sheets

RANK = ("over", "near", "within", "note")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A saved worksheet in the list, with what its last run says."""

    worksheet: Worksheet
    run: Run | None
    level: str
    word: str
    behind: bool  # what was handed on has changed since


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    sheet: Sheet
    kept: list[Kept]


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    groups: list[tuple[Group, list[Entry]]]
    count: int
    sentence: str


def listing(project: Project) -> Listing:
    found = kept_of(project)
    entries = [
        Entry(sheet=sheet, kept=[k for k in found if k.worksheet.sheet == key])
        for key, sheet in sheets().items()
    ]
    groups = [(group, [e for e in entries if e.sheet.group == group]) for group in Group]
    return Listing(
        groups=[(group, each) for group, each in groups if each],
        count=len(found),
        sentence=sentence(found),
    )


def kept_of(project: Project) -> list[Kept]:
    """In a fixed number of queries."""
    found = with_last(project.worksheets.all())
    now = {row.pk: run.hands for row, run in found if run}
    handed = Handed.objects.filter(worksheet__project=project)
    changed = {h.worksheet_id for h in handed if behind(h, now.get(h.worksheet_id, {}))}
    return [kept(row, run, row.pk in changed) for row, run in found]


def kept(worksheet: Worksheet, run: Run | None, changed: bool) -> Kept:
    standing = worst(run)
    sheet = sheets().get(worksheet.sheet)
    if run is None or run.problem:
        return Kept(worksheet=worksheet, run=run, level="near", word="no result", behind=changed)
    caution = caution_of(sheet, run.licensed) if sheet else Caution.NONE
    level, word = level_of(caution, standing), said_of(caution, standing)
    return Kept(worksheet=worksheet, run=run, level=level, word=word, behind=changed)


def worst(run: Run | None) -> Standing:
    every = [each["standing"] for each in (*run.figures, *run.findings)] if run else []
    return Standing(min(every, key=RANK.index, default="note"))


def sentence(found: list[Kept]) -> str:
    """What matters now, and the one next action."""
    if not found:
        return (
            "Nothing has been worked out yet. Begin with what costs most or what people could walk "
            "into: the paint, the frame, the reach."
        )
    over = [k for k in found if k.level == "broken"]
    if over:
        first = over[0]
        return (
            f"{plural(len(over), 'worksheet')} of {len(found)} {'is' if len(over) == 1 else 'are'} "
            f"over a limit. Next: open “{first.worksheet.title}”."
        )
    changed = [k for k in found if k.behind]
    if changed:
        return (
            f"“{changed[0].worksheet.title}” has changed since it was handed on. Next: open it and "
            "hand it on again."
        )
    return f"{plural(len(found), 'worksheet')}, and none is over a limit that was entered."
