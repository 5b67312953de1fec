"""Days of the demo, written relative to the day it is loaded, to the public date or to a task."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date, timedelta

SPEC = re.compile(r"^(?P<what>public|task:(?P<task>\w+)(?P<end>:end)?)(?P<days>[+-]\d+)?$")


@dataclass(slots=True)
class Days:
    """Turns ``-12``, ``"public+30"`` and ``"task:lift:end+1"`` into days."""

    today: date
    public_on: date | None = None
    tasks: dict[str, tuple[date, date]] = field(default_factory=dict)

    def of(self, spec: int | str | None) -> date | None:
        if spec is None:
            return None
        if isinstance(spec, int):
            return self.today + timedelta(days=spec)
        found = SPEC.match(spec)
        if not found:
            raise ValueError(f"“{spec}” is no day of the demo.")
        return self._anchor(found) + timedelta(days=int(found["days"] or 0))

    def known(self, spec: int | str) -> date:
        day = self.of(spec)
        assert day is not None
        return day

    def _anchor(self, found: re.Match[str]) -> date:
        if found["task"]:
            return self.tasks[found["task"]][1 if found["end"] else 0]
        if self.public_on is None:
            raise ValueError("The public date is not known yet.")
        return self.public_on

    def worked(self, spec: int | str) -> date:
        """The weekday on or before; what was done was done on a working day."""
        day = self.known(spec)
        if isinstance(spec, str):
            return day
        return day - timedelta(days=max(0, day.weekday() - 4))
