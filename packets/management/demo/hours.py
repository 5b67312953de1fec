"""The demo's region, and who works when: a shop's own hours, its week off, what a lane can hold.

The calendar feeds that are on, too.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import time, timedelta
from typing import Any

from packets.management.demo.days import Days
from projects.models import Project
from schedules.models import Calendar, DayException, Feed, Lane
from suppliers.models import Supplier

Row = Mapping[str, Any]
OF_LANE = ("capacity", "day_cents")
WEEK = range(5)


def keep(project: Project, data: Row, suppliers: Mapping[str, Supplier]) -> None:
    """Before the dates are laid out, which hang on it."""
    project.region = data.get("region", "")
    project.save(update_fields=["region"])
    for row in data.get("hours", ()):
        Calendar.objects.create(
            project=project,
            name=row["name"],
            supplier=suppliers[row["supplier"]],
            opens=time.fromisoformat(row["opens"]),
            closes=time.fromisoformat(row["closes"]),
            day_hours=row["day_hours"],
        )
    for row in data["lanes"]:
        said = {name: row[name] for name in OF_LANE if name in row}
        Lane.objects.filter(project=project, name=row["name"]).update(**said)
    for key in data.get("feeds", ()):
        Feed.objects.create(project=project, supplier=suppliers.get(key))


def close(project: Project, data: Row, days: Days) -> None:
    """The week off of a shop, from the first Monday after its last task."""
    for row in data.get("hours", ()):
        calendar = Calendar.objects.get(project=project, name=row["name"])
        about = days.known(row["closed_from"])
        monday = about + timedelta(days=-about.weekday() % 7)
        DayException.objects.bulk_create(
            DayException(calendar=calendar, day=monday + timedelta(days=n), note=row["why"])
            for n in WEEK
        )
