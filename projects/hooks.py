"""What a lower app asks of higher ones: each hook is a list that apps add a function to.

An app offers its functions in the modules ``titleblock``, ``overview``, ``ripples``,
``beginning`` and ``holdings``; those that exist are imported when the app is ready.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from importlib import import_module
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any, Generic, TypeVar

if TYPE_CHECKING:
    from projects.models import Project

MODULES = ("titleblock", "overview", "ripples", "beginning", "holdings", "changes")
F = TypeVar("F", bound=Callable[..., Any])


class Hook(Generic[F]):
    """Functions registered under a key, met in the order of their place."""

    def __init__(self) -> None:
        self._functions: dict[str, tuple[int, F]] = {}

    def register(self, key: str, place: int = 50) -> Callable[[F], F]:
        def add(function: F) -> F:
            if key in self._functions:
                raise ValueError(f"“{key}” is registered twice.")
            self._functions[key] = (place, function)
            return function

        return add

    def __iter__(self) -> Iterator[F]:
        ordered = sorted(self._functions.items(), key=lambda item: (item[1][0], item[0]))
        return iter([function for _, (_, function) in ordered])


class Level(StrEnum):
    """What the three colours mean, on screen and on paper."""

    BROKEN = "broken"  # carries the date, or broken
    NEAR = "near"  # needs a look
    HOLDS = "holds"  # done, or holds
    PLAIN = "plain"

    @property
    def word(self) -> str:
        """What stands beside the colour, so that nothing is said by colour alone."""
        return {"broken": "Act now", "near": "Needs a look", "holds": "In order"}.get(self, "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A figure of the title block."""

    label: str
    value: str
    detail: str = ""
    url: str = ""
    level: Level = Level.PLAIN
    loads: str = ""  # where a figure is fetched from that takes long to work out


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelRow:
    text: str
    detail: str = ""
    url: str = ""
    level: Level = Level.PLAIN


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A block of the overview: a heading, rows, and what to do when there are none."""

    title: str
    rows: tuple[PanelRow, ...]
    empty: str
    url: str = ""
    sentence: str = ""  # what matters now; the first panel that has one leads the page
    wide: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskDays:
    """A task as a plan has it: inclusive days, and what it is tied to."""

    pk: int
    name: str
    start: date
    finish: date
    late_finish: date
    order_id: int | None
    supplier_id: int | None
    to_end: bool
    finished: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanDays:
    """A whole plan, before or after a slip, in days."""

    tasks: Mapping[int, TaskDays]
    key_dates: Mapping[int, date]
    public_on: date | None
    public_name: str
    work_done_on: date | None  # when everything before the public date is done
    finish_on: date | None  # when the last task is done
    in_hand_days: int | None
    today: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Ripple:
    """Something outside the schedule that a slip breaks, brings near, or leaves whole."""

    level: Level
    subject: str
    says: str  # goes on after the subject
    url: str = ""
    of_change: bool = False  # about the change itself: it cannot be so already


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderMoney:
    """What the money says of an order: figures in cents, and what is wrong with them."""

    figures: tuple[tuple[str, int], ...]
    says: str
    level: Level
    url: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Party:
    """Somebody who pays or permits, and is told when a date of a kind that it hears of moves."""

    name: str
    hears: frozenset[str] = frozenset({"public"})
    email: str = ""
    phone: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartNote:
    """What another app has worked out for a part or a budget line, and what it says."""

    text: str
    detail: str = ""
    changed: str = ""  # what is different since the part was changed last
    url: str = ""
    level: Level = Level.PLAIN


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDrawing:
    """The parts drawn to scale by another app: SVG for wide pages and for phones, and in words
    what was found of them, each as level, word, sentence and rule."""

    title: str
    wide: str
    narrow: str
    sentence: str
    said: tuple[tuple[str, str, str, str], ...] = ()
    links: tuple[tuple[str, str], ...] = ()  # address and words


@dataclass(frozen=True, slots=True, kw_only=True)
class Beginning:
    """What a new project starts from; the apps each fill in their own part."""

    project: Project
    plan: Mapping[str, Any]  # a starting plan, see fixtures/starts
    public_on: date
    public_name: str
    weekdays: str
    today: date
    notes: dict[str, Any] = field(default_factory=dict)  # what one app leaves for the next


titleblock: Hook[Callable[[Project, date], Cell | None]] = Hook()
overview: Hook[Callable[[Project, date], Panel | None]] = Hook()
ripples: Hook[Callable[[Project, PlanDays, PlanDays], list[Ripple]]] = Hook()
takebacks: Hook[Callable[[Project], Mapping[str, str]]] = Hook()  # by a log entry's sentence
parties: Hook[Callable[[Project], list[Party]]] = Hook()
holdings: Hook[Callable[[Project, date], list[TaskDays]]] = Hook()  # tasks, as planned now
beginnings: Hook[Callable[[Beginning], None]] = Hook()
order_money: Hook[Callable[[Project, date], Mapping[int, OrderMoney]]] = Hook()  # by order
# The country, region, time zone or position changed: whatever hangs on them is computed anew.
changes: Hook[Callable[[Project, date], None]] = Hook()


# A part, the site or the public date is another: what was worked out from it is worked out anew.
# Given why, as a sentence, and whose change it is; tells what is different in consequence.
reworks: Hook[Callable[[Project, str, Any], list[str]]] = Hook()
part_notes: Hook[Callable[[Project, date], Mapping[int, list[PartNote]]]] = Hook()  # by part
line_notes: Hook[Callable[[Project], Mapping[int, list[PartNote]]]] = Hook()  # by budget line


# The parts drawn to scale; None where there is nothing to draw.
part_drawings: Hook[Callable[[Project, date], PartDrawing | None]] = Hook()


def rework(project: Project, why: str, user: Any) -> str:
    """What the change leads to, in a few sentences; empty when it leads to nothing."""
    told = [sentence for ask in reworks for sentence in ask(project, why, user)]
    more = f" {len(told) - 2} more worksheets changed." if len(told) > 2 else ""
    return " ".join(told[:2]) + more


def notes_of_parts(project: Project, today: date) -> dict[int, list[PartNote]]:
    found: dict[int, list[PartNote]] = {}
    for ask in part_notes:
        for pk, notes in ask(project, today).items():
            found.setdefault(pk, []).extend(notes)
    return found


def drawings_of_parts(project: Project, today: date) -> list[PartDrawing]:
    asked = [ask(project, today) for ask in part_drawings]
    return [drawing for drawing in asked if drawing is not None]


def notes_of_lines(project: Project) -> dict[int, list[PartNote]]:
    found: dict[int, list[PartNote]] = {}
    for ask in line_notes:
        for pk, notes in ask(project).items():
            found.setdefault(pk, []).extend(notes)
    return found


def tasks_planned(project: Project, today: date) -> list[TaskDays]:
    """Every task as the stored plan has it, for an app that may not know the schedule."""
    return [task for tasks in holdings for task in tasks(project, today)]


def money_of_orders(project: Project, today: date) -> dict[int, OrderMoney]:
    """How each order stands, for an app that may not know the money."""
    return {pk: row for ask in order_money for pk, row in ask(project, today).items()}


def load_hooks(app: str) -> None:
    """Import the hook modules that the app has."""
    for name in MODULES:
        if find_spec(f"{app}.{name}") is not None:
            import_module(f"{app}.{name}")
