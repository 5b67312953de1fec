"""How much more the funds can pay, kept until something in the project changes."""

from __future__ import annotations

from datetime import date

from budgets.fit.best import best
from projects.models import LogEntry, Project

State = tuple[int | None, date]  # the last change, and the day
_gains: dict[int, tuple[State, int]] = {}


def kept_gain(project: Project, today: date) -> int | None:
    """Cents; None where it would have to be computed first."""
    state, cents = _gains.get(project.pk, (None, 0))
    return cents if state == state_of(project, today) else None


def gain(project: Project, today: date) -> int:
    """Cents, at once or in the end. Raises `optimum.BestError` where no fit can be told."""
    state = state_of(project, today)  # before the books are read: a change meanwhile is not missed
    found = best(project, today)
    cents = max(0, found.gain) or found.lost
    _gains[project.pk] = (state, cents)
    return cents


def state_of(project: Project, today: date) -> State:
    """Whoever changes anything writes one sentence in the log."""
    entries = LogEntry.objects.filter(project=project).order_by("-pk")
    return entries.values_list("pk", flat=True).first(), today


def forget() -> None:
    _gains.clear()
