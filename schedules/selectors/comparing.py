"""Options side by side: each with its own plan, held against the one plan as it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from projects.hooks import Level
from projects.words import day, plural
from schedules import engine, plan
from schedules.selectors.slip import Preview, preview
from schedules.selectors.trying import Slip, slipped
from schedules.selectors.wording import in_hand_level, outcome_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """An option as the table shows it; without a preview it cannot be laid out."""

    letter: str
    words: Sequence[str]
    preview: Preview | None
    query: str  # the address in which it is the one seen whole
    alone: bool

    @property
    def name(self) -> str:
        return self.letter.upper()

    @property
    def heading(self) -> str:
        return heading(self.letter, alone=self.alone)

    @property
    def in_hand(self) -> str:
        return self.preview.public_then if self.preview else ""

    @property
    def level(self) -> Level:
        return in_hand_level(self.preview.after.in_hand_days) if self.preview else Level.PLAIN

    @property
    def public_on(self) -> str:
        on = self.preview.after.public_on if self.preview else None
        return day(on) if on else ""

    @property
    def breaks(self) -> str:
        """“2 break, 1 needs a look”."""
        if self.preview is None:
            return ""
        broken, near = self.preview.broken, len(self.preview.breaks) - self.preview.broken
        words = [
            plural(broken, "breaks", "break") if broken else "",
            plural(near, "needs a look", "need a look") if near else "",
        ]
        return ", ".join(filter(None, words)) or "nothing new"

    @property
    def moved(self) -> str:
        return plural(len(self.preview.moves), "task") if self.preview else ""

    @property
    def carries(self) -> str:
        """The first task still to do of those that carry the date."""
        if self.preview is None:
            return ""
        chain = self.preview.chain
        return chain[0].name + (f" and {len(chain) - 1} more" if chain[1:] else "") if chain else ""


def heading(letter: str, *, alone: bool) -> str:
    return "Then" if alone else f"Option {letter.upper()}"


class Comparison:
    """Solves the plan as it is once, and each option once."""

    def __init__(self, rows: plan.Rows) -> None:
        self.rows = rows

    @cached_property
    def now(self) -> engine.Plan:
        return plan.solve(self.rows)

    @cached_property
    def in_hand_now(self) -> str:
        return outcome_words(plan.in_hand_days(self.rows, self.now))

    @cached_property
    def chain_now(self) -> str:
        names = {str(t.pk): t.name for t in self.rows.tasks}
        still = [names[key] for key in self.now.chain if not self.now.dates[key].finished]
        return still[0] + (f" and {len(still) - 1} more" if still[1:] else "") if still else ""

    def preview(self, slips: Sequence[Slip]) -> Preview:
        """Raises ``engine.ScheduleError``."""
        return preview(self.rows, slips, self.now)


def chances(rows: plan.Rows, options: Sequence[Sequence[Slip]]) -> list[str]:
    """The chance of the public date now and with each option, from the same draws."""
    from schedules.plan.chance import QUICK, Drawing  # loads numpy

    drawing = Drawing(rows, draws=QUICK)
    found = []
    for slips in ([], *options):
        drawn = drawing.of(slipped(rows, slips))
        found.append("" if drawn is None else f"about {round(drawn.percent)} %")
    return found
