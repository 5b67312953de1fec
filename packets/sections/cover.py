"""The cover: what, where, when, for how much."""

from __future__ import annotations

from datetime import date

from budgets import fit
from budgets.models import FundStatus
from packets.measures import both, mass
from packets.outline import Context, Place, Section, pictures
from projects.log import short_name
from projects.models import Membership, Part, Picture, PictureUse, Project, Role, Site
from projects.words import day_year, listed, money
from schedules.models import KeyDate, KeyDateKind

WANTED = {FundStatus.APPLIED, FundStatus.OFFERED}

PARTLY = ", of the parts weighed"  # not every part has its weight


class Cover(Section):
    key = "cover"
    title = "Cover"
    headed = False
    place = Place("projects:details", "Open the details")

    def rows(self, project: Project, today: date) -> Context:
        public = KeyDate.objects.filter(project=project, kind=KeyDateKind.PUBLIC).first()
        return {
            "name": project.name,
            "summary": project.summary,
            "public": public,
            "lead": lead_picture(project),
            "cells": [
                *artist_cells(project),
                *site_cells(project),
                ("Public date", f"{public.name}, {day_year(public.on)}" if public else ""),
                *work_cells(project),
                *money_cells(project),
            ],
        }

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        public, lead = context["public"], context["lead"]
        cells = [cell for cell in context["cells"] if cell[0] != "Public date"]
        return [
            ("The packet", context["packet"].title),
            ("The reader", context["packet"].reader or "nobody yet"),
            ("The title", context["name"]),
            ("The summary", context["summary"]),
            *([(public.name, day_year(public.on))] if public else []),
            *cells,
            *([("The cover picture", lead.caption)] if lead else []),
        ]

    def missing(self, context: Context) -> str:
        wanted = ("Site", "Public date", "Cost")
        known = {label for label, value in context["cells"] if value}
        absent = [label.lower() for label in wanted if label not in known]
        return f"No {listed(absent)} yet".replace(" and ", " or ") if absent else ""

    def change(self, name: str, before: str | None, after: str | None) -> str:
        if before and after and name not in {"The title", "The summary"}:
            return change_words(name, before, after)
        return super().change(name, before, after)


def change_words(name: str, before: str, after: str) -> str:
    """“Weight of the parts weighed was 90 kg and is now 94 kg.”"""
    partly = [value.endswith(PARTLY) for value in (before, after)]
    was, now = (value.removesuffix(PARTLY) for value in (before, after))
    if all(partly):
        return f"{name}{PARTLY[1:]} was {was} and is now {now}."
    if partly[0]:
        return f"{name} was {was} without the parts not weighed and is now {now}."
    if partly[1]:
        return f"{name} was {was} and is now {now} without the parts not weighed."
    return f"{name} was {was} and is now {now}."


def lead_picture(project: Project) -> Picture | None:
    drawn = pictures(project, [PictureUse.DRAWING, PictureUse.SITE])
    return min(drawn, key=lambda row: row.use != PictureUse.DRAWING, default=None)


def artist_cells(project: Project) -> list[tuple[str, str]]:
    owners = Membership.objects.filter(project=project, role=Role.OWNER).select_related("user")
    return [("Artist", listed([short_name(owner.user) for owner in owners]))]


def site_cells(project: Project) -> list[tuple[str, str]]:
    site = Site.objects.filter(project=project).first()
    if site is None:
        return [("Site", "")]
    return [
        ("Site", ", ".join(filter(None, [site.name, site.address]))),
        ("Owner of the site", site.owner),
    ]


def work_cells(project: Project) -> list[tuple[str, str]]:
    parts = list(Part.objects.filter(project=project))
    sized = [part for part in parts if part.width_mm and part.height_mm]
    largest = max(sized, key=lambda p: (p.width_mm or 0) * (p.height_mm or 0), default=None)
    known = sum(part.mass_g or 0 for part in parts)
    unknown = any(part.mass_g is None for part in parts)
    return [
        ("Size", both(largest.width_mm, largest.height_mm) if largest else ""),
        ("Weight", (mass(known) + (PARTLY if unknown else "")) if known else ""),
    ]


def money_cells(project: Project) -> list[tuple[str, str]]:
    cost = sum(line.planned_cents for line in fit.lines_of(project))
    asked = sum(fund.award_cents for fund in fit.funds_of(project) if fund.status in WANTED)
    return [
        ("Cost", money(cost, project.currency) if cost else ""),
        ("Asked for", money(asked, project.currency) if asked else ""),
    ]


section = Cover()
