"""From rows to the chance engine: what may come of each task, the weather, and the date."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from schedules import engine
from schedules.models import KeyDateEffect, Task, Weather
from schedules.plan.rows import Rows
from schedules.plan.translate import bound_of, calendar_keys, network, work_minutes

if TYPE_CHECKING:
    from schedules.engine import chance

DRAWS = 10_000
QUICK = 2_000  # enough for a figure to the nearest two points


@dataclass(frozen=True, slots=True, kw_only=True)
class Chances:
    """The draws of a plan, and the instant by which it must be ready."""

    outcome: chance.Outcome
    by: int
    draws: int

    @property
    def percent(self) -> float:
        return 100 * self.outcome.chance(self.by)


def chance_percent(rows: Rows, *, draws: int = QUICK) -> float | None:
    """Of 100 draws, so many make the public date; None without one that is tied to a task.

    Reads the weather of the project once. Raises ``engine.ScheduleError``.
    """
    found = chances(rows, draws=draws)
    return found.percent if found else None


def chances(rows: Rows, *, draws: int = DRAWS) -> Chances | None:
    """All draws of the plan; None without a public date that something leads to."""
    return Drawing(rows, draws=draws).of(rows)


class Drawing:
    """Plans of one project that share every draw: a difference between two of them is real."""

    def __init__(self, rows: Rows, *, draws: int = DRAWS) -> None:
        from schedules.engine.chance import Simulator

        self.draws = draws
        self._simulator = Simulator(
            data_date=engine.instant(rows.today), wet_days=wet_days(rows), draws=draws
        )

    def percent(
        self, changed: engine.Network, spreads: Mapping[str, chance.Spread], by: int
    ) -> float:
        """The chance of a network that differs from that of the rows."""
        outcome = self._simulator.run(changed, spreads, trace=False)
        return 100 * outcome.chance(by) if outcome else 0.0

    def of(self, rows: Rows) -> Chances | None:
        by = due(rows)
        if by is None:
            return None
        outcome = self._simulator.run(network(rows), spreads(rows))
        return Chances(outcome=outcome, by=by, draws=self.draws) if outcome else None


def due(rows: Rows) -> int | None:
    """The instant that the public date is made or missed at; None when it holds no open task."""
    public = rows.public
    task = next((t for t in rows.tasks if public and t.pk == public.task_id), None)
    if public is None or task is None or task.finished_on:
        return None
    return bound_of(public)


def wet_days(rows: Rows) -> Sequence[float]:
    """The wet days of each month, January first; none when nobody has said."""
    weather: Weather | None = getattr(rows.project, "weather", None)
    return weather.wet_days if weather else ()


def spreads(rows: Rows) -> dict[str, chance.Spread]:
    """What may come of every task that is still to do."""
    keys = calendar_keys(rows)
    events = {k.task_id for k in rows.key_dates if k.effect == KeyDateEffect.EVENT}
    return {
        str(task.pk): spread(task, rows.calendars[keys[task.pk]])
        for task in rows.tasks
        if not task.finished_on and task.days > 0 and task.pk not in events
    }


def spread(task: Task, calendar: engine.Calendar) -> chance.Spread:
    """Three points that are in their order, also where the duration was moved past one."""
    from schedules.engine.chance import Spread

    low, high = low_days(task), high_days(task)
    return Spread(
        low=work_minutes(low, calendar),
        high=work_minutes(high, calendar),
        returns=(task.returns_percent or 0) / 100,
        again=work_minutes(task.returns_days or Decimal(0), calendar),
        outdoor=task.outdoor,
    )


def low_days(task: Task) -> Decimal:
    return task.days if task.low_days is None else min(task.low_days, task.days)


def high_days(task: Task) -> Decimal:
    return task.days if task.high_days is None else max(task.high_days, task.days)


def is_certain(task: Task) -> bool:
    """Whether a task takes the same in every draw, wet days apart."""
    returns = task.returns_percent and task.returns_days
    return low_days(task) == high_days(task) and not returns
