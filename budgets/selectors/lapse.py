"""The other side of the forecast: what each fund will have paid, and what of it would lapse."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from budgets.engine import best as optimum
from budgets.fit.best import FundFit, best
from budgets.selectors.best_words import why_left
from projects.models import Project


@dataclass(frozen=True, kw_only=True)
class LapseRow:
    fit: FundFit
    why: str

    @property
    def pays(self) -> int:
        """Of what is spent and of what is still to be spent, overhead included."""
        return self.fit.best + self.fit.planned

    @property
    def lapses(self) -> int:
        return self.fit.left if self.fit.lapses else 0


@dataclass(frozen=True, kw_only=True)
class Lapse:
    """At the best fit; no `rows` and a `problem` where none can be told."""

    rows: Sequence[LapseRow] = ()
    own: int = 0
    problem: str = ""

    @property
    def total(self) -> int:
        return sum(row.lapses for row in self.rows)


def lapse_of(project: Project, today: date) -> Lapse:
    try:
        found = best(project, today)
    except optimum.BestError as error:
        return Lapse(problem=str(error))
    rows = [LapseRow(fit=row, why=why_left(found, row)) for row in found.funds]
    return Lapse(rows=rows, own=sum(found.fit.own.values()))
