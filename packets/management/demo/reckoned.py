"""The demo's worksheets: what each sheet is given, laid relative to the day it is loaded."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from packets.management.demo.days import Days
from projects.models import Part, Project
from worksheets.models import Review, Worksheet
from worksheets.run import last_run, record, work_saved

Row = Mapping[str, Any]
DAY = re.compile(r"\{day(?P<days>[+-]\d+)?\}")


def tell(project: Project, rows: list[Row], names: Mapping[str, str], days: Days) -> None:
    """``names`` gives the parts' names by their keys."""
    for row in rows:
        part = Part.objects.get(project=project, name=names[row["part"]]) if row["part"] else None
        worksheet = Worksheet.objects.create(
            project=project,
            sheet=row["sheet"],
            title=row["title"],
            part=part,
            typed=dated(row["typed"], days),
        )
        record(worksheet, work_saved(worksheet), who="Artist", why="First worked out.")
        if "review" in row:
            review(worksheet, row["review"], days)


def dated(typed: Any, days: Days) -> Any:
    """“{day+3}” becomes the third day from the load."""
    if isinstance(typed, str):
        return DAY.sub(lambda found: day_words(days, int(found["days"] or 0)), typed)
    if isinstance(typed, Mapping):
        return {name: dated(value, days) for name, value in typed.items()}
    return [dated(value, days) for value in typed]


def day_words(days: Days, count: int) -> str:
    return f"{days.today + timedelta(days=count):%Y-%m-%d}"


def review(worksheet: Worksheet, row: Row, days: Days) -> None:
    run = last_run(worksheet)
    assert run is not None
    Review.objects.create(
        run=run,
        reviewer=row["reviewer"],
        licence=row["licence"],
        day=days.today - timedelta(days=row["days_ago"]),
        paper=row.get("paper", ""),
        note=row.get("note", ""),
        entered_by="Artist",
    )
