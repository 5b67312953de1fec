"""Between rows and worksheets: run one with what the project knows, keep what came out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import OuterRef, QuerySet, Subquery

from projects.models import Part, Project
from projects.words import day_year, money
from worksheets.engine import amounts
from worksheets.engine.dimensions import System
from worksheets.engine.given import Fact, Reading
from worksheets.engine.inputs import Table
from worksheets.engine.result import (
    Figure,
    Hand,
    Impossible,
    Result,
    ToCare,
    ToLine,
    ToPart,
    ToRequest,
)
from worksheets.engine.rules import rule_sets
from worksheets.engine.sheet import Caution, Sheet
from worksheets.facts import facts_of
from worksheets.models import Run, Worksheet
from worksheets.sheets import sheets

OF_FEET = ("US", "LR", "MM")  # countries that measure in feet and pounds
MADE_WITH = "0.1"


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A sheet with its inputs; ``result`` is missing while ``problems`` says why."""

    sheet: Sheet
    typed: Mapping[str, Any]
    reading: Reading
    result: Result | None
    problems: Mapping[str, str]

    @property
    def caution(self) -> Caution:
        return caution_of(self.sheet, self.result is not None and self.result.licensed)

    @property
    def problem(self) -> str:
        """The first thing that is wrong, as one sentence with the name of its input."""
        for name, says in self.problems.items():
            label = next((i.label for i in self.sheet.inputs if i.name == name.split("-")[0]), "")
            return f"{label}: {says}" if label else says
        return ""


def caution_of(sheet: Sheet, licensed: bool) -> Caution:
    """The sheet’s own, unless what was entered asks for more."""
    return Caution.LICENSED if licensed else sheet.caution


def system_of(project: Project) -> System:
    return System.US if project.country in OF_FEET else System.METRIC


def work(
    sheet: Sheet,
    typed: Mapping[str, Any],
    project: Project,
    part: Part | None = None,
    *,
    kept: Mapping[str, Any] | None = None,
    facts: Mapping[str, Fact] | None = None,
) -> Worked:
    """Read what was typed and, if it can be read, reckon."""
    reading = sheet.read(
        typed,
        facts=facts_of(project, part) if facts is None else facts,
        system=system_of(project),
        currency=project.currency,
        kept=kept,
    )
    result, problems = None, dict(reading.problems)
    if not problems:
        try:
            result = sheet.compute(reading.given)
        except Impossible as wrong:
            problems[wrong.at] = str(wrong)
    return Worked(sheet=sheet, typed=typed, reading=reading, result=result, problems=problems)


def last_run(worksheet: Worksheet) -> Run | None:
    return worksheet.runs.first()


def with_last(rows: QuerySet[Worksheet]) -> list[tuple[Worksheet, Run | None]]:
    """Worksheets, each with its newest run and that run’s review, in two queries."""
    newest = Run.objects.filter(worksheet=OuterRef("pk")).values("pk")[:1]
    found = list(rows.select_related("part").annotate(last_pk=Subquery(newest)))
    pks = [row.last_pk for row in found if row.last_pk]
    runs = Run.objects.select_related("review").in_bulk(pks)
    return [(row, runs.get(row.last_pk)) for row in found]


def work_saved(worksheet: Worksheet, facts: Mapping[str, Fact] | None = None) -> Worked:
    """A kept worksheet with what the project knows now."""
    return work_kept(worksheet, last_run(worksheet), facts)


def work_kept(
    worksheet: Worksheet, last: Run | None, facts: Mapping[str, Fact] | None = None
) -> Worked:
    """The same, where its last run has been read already."""
    return work(
        sheets()[worksheet.sheet],
        worksheet.typed,
        worksheet.project,
        worksheet.part,
        kept=last.kept if last else None,
        facts=facts,
    )


def record(worksheet: Worksheet, worked: Worked, *, who: str, why: str = "") -> Run:
    """Keep a run with everything that it came from."""
    run = last_run(worksheet)
    result = worked.result
    return Run.objects.create(
        worksheet=worksheet,
        number=run.number + 1 if run else 1,
        who=who,
        why=why[:300],
        typed=dict(worked.typed),
        taken=taken(worked),
        says=(result.says if result else "")[:500],
        problem="" if result else worked.problem[:500],
        figures=[kept_figure(f, worked) for f in result.figures] if result else [],
        findings=[
            {"standing": f.standing, "says": f.says, "rule": f.rule}
            for f in (result.findings if result else ())
        ],
        hands=hands_in_words(worked),
        kept=dict(result.kept) if result else {},
        rules=rule_versions(worked),
        licensed=worked.caution == Caution.LICENSED,
        made_with=MADE_WITH,
    )


def taken(worked: Worked) -> dict[str, Any]:
    """What stood in for empty inputs: the value, ready for JSON, and where it stood."""
    values = worked.reading.given.values
    tables = {each.name for each in worked.sheet.inputs if isinstance(each, Table)}
    return {
        name: [None if name in tables else plain(values.get(name)), says]
        for name, says in worked.reading.taken.items()
    }


def plain(value: Any) -> Any:
    return value.isoformat() if isinstance(value, date) else value


def kept_figure(figure: Figure, worked: Worked) -> dict[str, Any]:
    given = worked.reading.given
    return {
        "key": figure.key,
        "label": figure.label,
        "value": figure.value,
        "of": figure.of,
        "text": figure_words(figure, given.system, given.currency),
        "standing": figure.standing,
    }


def figure_words(figure: Figure, system: System, currency: str) -> str:
    """A figure as it is shown: in both systems, as money, or as a plain number with its unit."""
    if figure.text or figure.value is None:
        return figure.text
    if figure.of == "money":
        return money(round(figure.value), currency)
    more: dict[str, Any] = {"toward": figure.toward, "places": figure.places}
    if figure.of:
        return amounts.both(figure.value, figure.of, system, **more)
    number = amounts.figure(figure.value, figure.places, figure.toward)
    return f"{number} {figure.unit}".strip()


PART_SIZES = ("width", "height", "depth")


def hands_in_words(worked: Worked) -> dict[str, str]:
    """What the result hands on, by the key of each hand."""
    given = worked.reading.given
    hands = worked.result.hands if worked.result else ()
    return {hand.key: hand_words(hand, given.system, given.currency) for hand in hands}


def hand_words(hand: Hand, system: System, currency: str) -> str:
    """“12 ft³, $42”, “mass 456 lb (207 kg)”, “3.5 working days”, a list or a text as it is."""
    if isinstance(hand, ToLine):
        price = "" if hand.cents is None else f", {money(hand.cents, currency)}"
        return f"{quantity_words(hand)} {hand.unit}{price}"
    if isinstance(hand, ToPart):
        return part_words(hand, system)
    if isinstance(hand, ToRequest):
        return "; ".join(item.rstrip(".") for item in hand.items)
    if isinstance(hand, ToCare):
        return hand.text
    days = "" if hand.days is None else f"{amounts.figure(hand.days, 2, 'up')} working days"
    first = f"not before {day_year(hand.not_before)}" if hand.not_before else ""
    return ", ".join(filter(None, (days, first)))


def part_words(hand: ToPart, system: System) -> str:
    """“mass 456 lb (207 kg), width 4 ft (1.22 m)”."""
    said = [("mass", "mass"), *((name, "length") for name in PART_SIZES)]
    known = [(name, of, getattr(hand, name)) for name, of in said]
    return ", ".join(
        f"{name} {amounts.both(value, of, system)}"
        for name, of, value in known
        if value is not None
    )


def quantity_words(hand: ToLine) -> str:
    """What is bought is rounded up, to at most hundredths, as a budget line keeps them."""
    text = amounts.figure(hand.quantity, None, "up")
    _, _, decimals = text.partition(".")
    return amounts.figure(hand.quantity, 2, "up") if len(decimals) > 2 else text


def rule_versions(worked: Worked) -> dict[str, str]:
    """The version of each rule set that was used; all sets where no input chooses one."""
    given = worked.reading.given
    found = {}
    for about, by in worked.sheet.rules:
        chosen = given.values.get(by)
        for key, rules in rule_sets(about).items():
            if chosen in (None, key):
                found[f"{about}: {key}"] = rules.version
    return found


def unchanged(before: Run, worked: Worked) -> bool:
    """A run now would be the same as the one before, from the same inputs, facts and rules."""
    result = worked.result
    figures = [kept_figure(f, worked) for f in result.figures] if result else []
    says = result.says[:500] if result else ""
    problem = "" if result else worked.problem[:500]
    same_inputs = before.typed == worked.typed and before.taken == taken(worked)
    findings = [f.says for f in result.findings] if result else []
    return (
        same_inputs
        and (before.says, before.problem) == (says, problem)
        and [f["text"] for f in before.figures] == [f["text"] for f in figures]
        and [f["says"] for f in before.findings] == findings
        and before.hands == hands_in_words(worked)
        and before.licensed == (worked.caution == Caution.LICENSED)
        and before.rules == rule_versions(worked)
    )


def differences(before: Run | None, after: Run) -> list[str]:
    """What came out differently: “Soil to buy: 12 ft³ → 14 ft³”."""
    if before is None:
        return []
    old = {figure["key"]: figure for figure in before.figures}
    told = [
        f"{new['label']}: {old[new['key']]['text']} → {new['text']}"
        for new in after.figures
        if new["key"] in old and old[new["key"]]["text"] != new["text"]
    ]
    if before.problem != after.problem:
        told.append(after.problem or "It can be worked out again.")
    return told + finding_differences(before, after)


def finding_differences(before: Run, after: Run) -> list[str]:
    old = {found["says"] for found in before.findings if found["standing"] != "note"}
    new = {found["says"] for found in after.findings if found["standing"] != "note"}
    fresh = [f"New: {found['says']}" for found in after.findings
             if found["says"] in new - old and found["standing"] in ("over", "near")]  # fmt: skip
    gone = [f"No longer: {found['says']}" for found in before.findings
            if found["says"] in old - new and found["standing"] in ("over", "near")]  # fmt: skip
    return fresh + gone
