"""The demo's projects, sites, texts, parts, pictures and suppliers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from packets.management.demo.days import Days
from packets.management.demo.drawings import DRAWINGS
from projects.files import clean_picture
from projects.models import Part, Picture, Project, Site, Stage, StageName, Text
from suppliers.models import Document, Making, Supplier

Row = Mapping[str, Any]


def make_project(data: Row) -> Project:
    fields = ("name", "kind", "phase", "summary")
    project = Project.objects.create(**{name: data[name] for name in fields})
    Site.objects.create(project=project, **data["site"])
    return project


def make_texts(project: Project, texts: Mapping[str, str]) -> None:
    for topic, body in texts.items():
        Text.objects.update_or_create(project=project, topic=topic, defaults={"body": body})


def make_suppliers(project: Project, rows: list[Row]) -> dict[str, Supplier]:
    apart = {"key", "documents"}
    return {
        row["key"]: Supplier.objects.create(
            project=project, **{k: v for k, v in row.items() if k not in apart}
        )
        for row in rows
    }


def make_documents(suppliers: Mapping[str, Supplier], rows: list[Row], days: Days) -> None:
    for row in rows:
        for paper in row.get("documents", ()):
            Document.objects.create(
                supplier=suppliers[row["key"]],
                title=paper["title"],
                kind=paper["kind"],
                issued_on=days.of(paper.get("issued_on")),
                expires_on=days.of(paper.get("expires_on")),
            )


def make_parts(
    project: Project, rows: list[Row], suppliers: Mapping[str, Supplier], days: Days
) -> dict[str, Part]:
    parts = {}
    for place, row in enumerate(rows):
        width, height, depth = row["size"]
        part = parts[row["key"]] = Part.objects.create(
            project=project,
            name=row["name"],
            kind=row["kind"],
            width_mm=width,
            height_mm=height,
            depth_mm=depth,
            mass_g=row.get("mass_g"),
            **hanging(row),
            material=row["material"],
            finish=row["finish"],
            position=place,
        )
        if "maker" in row:
            Making.objects.create(part=part, supplier=suppliers[row["maker"]])
        make_stages(part, row["stages"], days)
    return parts


def hanging(row: Row) -> Row:
    """Where it hangs: how it is held, from the left, lowest edge, height of use, in mm."""
    lengths = {f"{name}_mm": row.get(name) for name in ("left", "bottom", "used")}
    return {"mounting": row.get("mounting", ""), **lengths}


def hang_parts(project: Project, rows: list[Row]) -> None:
    """Sizes and places of parts that a starting plan has listed."""
    for row in rows:
        sides = dict(zip(("width_mm", "height_mm", "depth_mm"), row["size"], strict=True))
        Part.objects.filter(project=project, name=row["name"]).update(**sides, **hanging(row))


def make_stages(part: Part, stages: Mapping[str, int | None], days: Days) -> None:
    order = list(StageName.values)
    for name, done in stages.items():
        done_on = None if done is None else days.worked(done)
        Stage.objects.create(part=part, name=name, position=order.index(name), done_on=done_on)


def make_pictures(project: Project, rows: list[Row], parts: Mapping[str, Part]) -> None:
    for place, row in enumerate(rows):
        drawn = SimpleUploadedFile("drawing.jpg", DRAWINGS[row["drawing"]]())
        clean = clean_picture(drawn)
        picture = Picture(
            project=project,
            part=parts.get(row.get("part", "")),
            use=row["use"],
            caption=row["caption"],
            alt=row["alt"],
            credit=row["credit"],
            width=clean.width,
            height=clean.height,
            size=clean.size,
            position=place,
        )
        picture.file.save("drawing.jpg", clean.content)
