"""The parts that are made: size, mass, material, finish, maker."""

from __future__ import annotations

from datetime import date

from packets.measures import mass, metres, size
from packets.outline import Context, Place, Section
from projects.models import Part, Project, Topic


class Parts(Section):
    key = "parts"
    title = "Parts and materials"
    topics = (Topic.MATERIALS,)
    place = Place("schedules:parts", "Open the parts")

    def rows(self, project: Project, today: date) -> Context:
        rows = Part.objects.filter(project=project).select_related("making__supplier")
        total = sum(part.mass_g or 0 for part in rows)
        return {
            "parts": [part_row(part) for part in rows],
            "total_mass": mass(total),
            "all_weighed": all(part.mass_g for part in rows),
        }

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        labels = ("size", "metric", "mass", "material", "finish", "maker")
        return [
            pair
            for row in context["parts"]
            for pair in [(row["name"], row["kind"])]
            + [(f"{row['name']}: {label}", row[label] or "not known") for label in labels]
        ]

    def missing(self, context: Context) -> str:
        return "" if context["parts"] else "No parts yet"


def part_row(part: Part) -> dict[str, str]:
    sides = (part.width_mm, part.height_mm, part.depth_mm)
    making = getattr(part, "making", None)
    return {
        "name": part.name,
        "kind": part.get_kind_display(),
        "size": size(*sides),
        "metric": metres(*sides),
        "mass": mass(part.mass_g),
        "material": part.material,
        "finish": part.finish,
        "maker": making.supplier.name if making else "",
    }


section = Parts()
