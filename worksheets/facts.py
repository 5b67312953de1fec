"""What a worksheet may take from the project: sizes and masses in SI, with where they stand."""

from __future__ import annotations

from typing import Any

from projects.models import Part, Project, Site
from schedules.models import Calendar, KeyDate, Task
from schedules.plan.days import early_days
from schedules.services.absence import calendar_of
from worksheets.engine.given import Fact

PART_LENGTHS = {
    "width": "width_mm", "height": "height_mm", "depth": "depth_mm",
    "left": "left_mm", "bottom": "bottom_mm", "used": "used_mm",
}  # fmt: skip
WORDS = {
    "left": "distance from the wall’s left end",
    "bottom": "lowest edge",
    "used": "height of use",
}
SITE_LENGTHS = {
    "width": ("width_mm", "the wall’s width"),
    "height": ("height_mm", "the wall’s height"),
    "path_from": ("path_from_mm", "the site’s distance from wall to path"),
    "path_width": ("path_width_mm", "the site’s path"),
    "kerb": ("kerb_mm", "the site’s kerb"),
}
# How a worksheet calls the weekdays of a calendar.
WEEKS = {"1111111": "every", "1111100": "week", "1111110": "six", "0000011": "end"}


class Known:
    """What a project knows, read once for all of its worksheets; ``of`` adds what a part knows."""

    def __init__(self, project: Project) -> None:
        self.shared = {**project_facts(project), **site_facts(project)}
        self.shared["parts"] = Fact(tuple(map(part_row, project.parts.all())), "the parts")
        self.outdoor = outdoor_tasks(project)
        self.hours: dict[int, dict[str, Fact]] = {}

    def of(self, part: Part | None = None) -> dict[str, Fact]:
        """Everything known, by name; what is not known is not in it."""
        own = part_facts(part) if part is not None else {}
        return {**self.shared, **self.of_outdoor(part), **own}

    def of_outdoor(self, part: Part | None) -> dict[str, Fact]:
        """The part’s own outdoor tasks, if it has any; else those of the project."""
        of_part = [t for t in self.outdoor if part and t.stage and t.stage.part_id == part.pk]
        tasks = of_part or self.outdoor
        if not tasks:
            return {}
        first = tasks[0]
        if first.pk not in self.hours:
            self.hours[first.pk] = outdoor_hours(first)
        rows = Fact(outdoor_rows(tasks), "the outdoor tasks as planned")
        return {"outdoor": rows, **self.hours[first.pk]}


def facts_of(project: Project, part: Part | None = None) -> dict[str, Fact]:
    return Known(project).of(part)


def outdoor_tasks(project: Project) -> list[Task]:
    """Tasks that weather can stop, that are planned and not finished."""
    tasks = Task.objects.filter(
        project=project, outdoor=True, finished_on=None, early_start__isnull=False
    )
    return list(tasks.select_related("stage", "lane", "calendar"))


def outdoor_rows(tasks: list[Task]) -> tuple[dict[str, Any], ...]:
    rows = ((task.name, *early_days(task)) for task in tasks)
    return tuple({"name": name, "first": first, "last": last} for name, first, last in rows)


def outdoor_hours(task: Task) -> dict[str, Fact]:
    """Whole hours, and the weekdays, in which a task is worked at by its calendar."""
    try:
        calendar = task.calendar or calendar_of(task.lane)
    except Calendar.DoesNotExist:
        return {}
    says = f"the calendar “{calendar.name}” of “{task.name}”"
    late = calendar.opens.minute > 0
    found = {
        "outdoor.opens": Fact(float(calendar.opens.hour + late), says),
        "outdoor.closes": Fact(float(calendar.closes.hour), says),
    }
    if calendar.weekdays in WEEKS:
        found["outdoor.weekdays"] = Fact(WEEKS[calendar.weekdays], says)
    return found


def project_facts(project: Project) -> dict[str, Fact]:
    found = {
        "project.zone": Fact(project.zone, "the project’s time zone"),
        "project.country": Fact(project.country, "the project’s country"),
    }
    public = KeyDate.objects.filter(project=project, kind="public").order_by("on").first()
    if public is not None:
        found["project.public_on"] = Fact(public.on, f"the key date “{public.name}”")
    return found


def site_facts(project: Project) -> dict[str, Fact]:
    site = Site.objects.filter(project=project).first()
    if site is None:
        return {}
    found = {
        f"site.{name}": Fact(getattr(site, column) / 1000, says)
        for name, (column, says) in SITE_LENGTHS.items()
        if getattr(site, column) is not None
    }
    for name in ("latitude", "longitude"):
        if getattr(site, name) is not None:
            found[f"site.{name}"] = Fact(float(getattr(site, name)), f"the site’s {name}")
    return found


def part_facts(part: Part) -> dict[str, Fact]:
    found = {
        f"part.{name}": Fact(getattr(part, column) / 1000, whose(part, WORDS.get(name, name)))
        for name, column in PART_LENGTHS.items()
        if getattr(part, column) is not None
    }
    if part.mass_g is not None:
        found["part.mass"] = Fact(part.mass_g / 1000, whose(part, "mass"))
    found["part.name"] = Fact(part.name, "the part")
    found["part.kind"] = Fact(part.kind, "the part")
    return found


def whose(part: Part, what: str) -> str:
    return f"the {what} of “{part.name}”"


def part_row(part: Part) -> dict[str, Any]:
    lengths = {name: si(getattr(part, column)) for name, column in PART_LENGTHS.items()}
    return {
        "name": part.name,
        "kind": part.kind,
        "mounting": part.mounting,
        "count": 1,
        "mass": si(part.mass_g),
        **lengths,
    }


def si(value: int | None) -> float | None:
    return None if value is None else value / 1000
