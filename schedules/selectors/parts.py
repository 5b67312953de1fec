"""What the parts sheet shows: each part with its maker and where its stages stand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from django.db.models import Prefetch
from django.utils.html import format_html

from projects import hooks
from projects.hooks import PartNote
from projects.models import Part, Project, Stage
from projects.words import day as in_words
from projects.words import listed
from schedules import plan
from schedules.models import Task
from suppliers.models import Supplier

POUND_G = 453.59237


class State(StrEnum):
    DONE = "done"
    NEXT = "next"
    LATER = "later"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A stage of a part, with the task that carries it."""

    stage: Stage
    state: State
    task: Task | None
    due: date | None  # the task's planned finish

    @property
    def label(self) -> str:
        return self.stage.get_name_display()

    @property
    def says(self) -> str:
        """“done 3 Mar”, “by 2 Sep”, “no date”."""
        if self.stage.done_on:
            return f"done {short(self.stage.done_on)}"
        return f"by {short(self.due)}" if self.due else "no date"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    part: Part
    maker: Supplier | None
    marks: tuple[Mark, ...]
    notes: tuple[PartNote, ...] = ()  # what was worked out for it

    @property
    def next(self) -> Mark | None:
        return next((m for m in self.marks if m.state == State.NEXT), None)

    @property
    def skipped(self) -> str:
        """Says which stages are open although a later one is done."""
        done = [n for n, m in enumerate(self.marks) if m.state == State.DONE]
        last = done[-1] if done else -1
        left = [m.label for m in self.marks[: max(last, 0)] if m.state != State.DONE]
        if not left:
            return ""
        verb = "is" if len(left) == 1 else "are"
        return f"{listed(left)} {verb} still open although {self.marks[last].label} is done."

    @property
    def size(self) -> str:
        return size_words(self.part)

    @property
    def metres(self) -> str:
        return metre_words(self.part)

    @property
    def hangs(self) -> str:
        return hanging_words(self.part)

    @property
    def mass(self) -> str:
        grams = self.part.mass_g
        if grams is None:
            return ""
        return f"{grams / POUND_G:,.0f} lb ({grams / 1000:,.3g} kg)"


def short(value: date) -> str:
    return f"{value.day} {value:%b}"


def sides(part: Part) -> list[int]:
    return [side for side in (part.width_mm, part.height_mm, part.depth_mm) if side]


def size_words(part: Part) -> str:
    """“24 ft × 12 ft”: width, height and depth, whichever are known."""
    return " × ".join(feet(side) for side in sides(part))


def metre_words(part: Part) -> str:
    return " × ".join(f"{side / 1000:.2f}" for side in sides(part)) + " m" if sides(part) else ""


def hanging_words(part: Part) -> str:
    """“Fixed to the wall, 6 ft 3 in from its left end, lowest edge at 9 ft 2 in”."""
    words = [str(part.get_mounting_display())] if part.mounting else []
    if part.left_mm is not None:
        words.append(f"{feet(part.left_mm)} from the wall’s left end")
    if part.bottom_mm:
        words.append(f"lowest edge at {feet(part.bottom_mm)}")
    if part.used_mm is not None:
        words.append(f"hands at {feet(part.used_mm)}")
    said = ", ".join(words)
    return said[:1].upper() + said[1:]


def feet(millimetres: int) -> str:
    whole, inches = divmod(round(millimetres / 25.4), 12)
    told = [f"{whole} ft"] if whole else []
    return " ".join(told + ([f"{inches} in"] if inches or not whole else []))


def parts_of(project: Project, today: date) -> list[PartRow]:
    """Every part with its stages and their tasks, in a fixed number of queries."""
    plan.current(project, today)
    stages = Stage.objects.select_related("task__lane")
    parts = Part.objects.filter(project=project).select_related("making__supplier")
    notes = hooks.notes_of_parts(project, today)
    found = parts.prefetch_related(Prefetch("stages", stages))
    return [part_row(part, notes.get(part.pk, [])) for part in found]


def part_row(part: Part, notes: Sequence[PartNote] = ()) -> PartRow:
    making = getattr(part, "making", None)
    stages = list(part.stages.all())
    first_open = next((s.pk for s in stages if not s.done_on), None)
    return PartRow(
        part=part,
        maker=making.supplier if making else None,
        marks=tuple(mark(stage, first_open) for stage in stages),
        notes=tuple(notes),
    )


def mark(stage: Stage, first_open: int | None) -> Mark:
    state = State.NEXT if stage.pk == first_open else State.LATER
    task = getattr(stage, "task", None)
    return Mark(
        stage=stage,
        state=State.DONE if stage.done_on else state,
        task=task,
        due=planned_finish(task) if task else None,
    )


def planned_finish(task: Task) -> date | None:
    if task.early_start is None or task.early_finish is None:
        return None
    return plan.early_days(task)[1]


def sentence(rows: Iterable[PartRow]) -> str:
    """Which part is next, who finishes which stage of it, and by when."""
    known = list(rows)
    waiting = [(row, row.next) for row in known if row.next]
    if not known:
        return "No part is listed yet. Begin with the piece that takes longest to make."
    if not waiting:
        return "Every stage of every part is done."
    dated = [(m.due, row.part.pk, row, m) for row, m in waiting if m and m.due]
    if not dated:
        row, found = waiting[0]
        stage = found.label if found else ""
        return f"{row.part.name} is next: {stage} has no date. Tie it to a task of the schedule."
    due, _, row, first = min(dated, key=lambda item: item[:2])
    return next_sentence(row, first, due)


def next_sentence(row: PartRow, first: Mark, due: date) -> str:
    who = first.task.lane.name if first.task else ""
    return format_html(
        "{} is next: <b>{} finishes the stage “{}” by {}</b>.",
        row.part.name,
        who,
        first.label,
        in_words(due),
    )


def open_before(stage: Stage) -> list[str]:
    """Earlier stages of the same part that are not done."""
    earlier = Stage.objects.filter(
        part_id=stage.part_id, position__lt=stage.position, done_on__isnull=True
    )
    return [found.get_name_display() for found in earlier]


def open_before_words(stage: Stage) -> str:
    """“Design and Mock-up come before it and are still open.”, or nothing."""
    names = open_before(stage)
    if not names:
        return ""
    verbs = ("comes", "is") if len(names) == 1 else ("come", "are")
    return f"{listed(names)} {verbs[0]} before it and {verbs[1]} still open."
