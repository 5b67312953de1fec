"""What the printed page of a worksheet needs."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.utils.safestring import mark_safe

from projects.models import Project
from projects.paper import in_drawing
from worksheets import run
from worksheets.models import Worksheet
from worksheets.selectors.earlier import inputs_of
from worksheets.selectors.reviews import checked
from worksheets.selectors.shown import outcome


def paper_context(project: Project, worksheet: Worksheet, day: date) -> dict[str, Any]:
    worked = run.work_saved(worksheet)
    last = run.last_run(worksheet)
    found = outcome(worked)
    return {
        "project": project,
        "heading": worksheet.title,
        "about": worksheet.title,
        "day": day,
        "worksheet": worksheet,
        "sheet": worked.sheet,
        "o": found,
        "run": last,
        "inputs": inputs_of(last) if last else [],
        "pictures": [
            {"svg": mark_safe(in_drawing(p.svg, "drawing.css")), "caption": p.caption}
            for p in found.pictures
        ],
        "checked": checked(worksheet, worked),
    }
