"""Where the work will be: the place as it is."""

from __future__ import annotations

from datetime import date

from packets.measures import both
from packets.outline import Context, Place, Section
from projects.models import PictureUse, Project, Site, Topic


class TheSite(Section):
    key = "site"
    title = "Site"
    topics = (Topic.SITE,)
    uses = (PictureUse.SITE,)
    place = Place("projects:details", "Open the details")

    def rows(self, project: Project, today: date) -> Context:
        site = Site.objects.filter(project=project).first()
        cells = [] if site is None else site_cells(site)
        return {"cells": [cell for cell in cells if cell[1]]}

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        return list(context["cells"])

    def missing(self, context: Context) -> str:
        has_any = self.words(context) or context["pictures"] or context["cells"]
        return "" if has_any else "Nothing about the site yet"


def site_cells(site: Site) -> list[tuple[str, str]]:
    return [
        ("Place", site.name),
        ("Address", site.address),
        ("Owner", site.owner),
        ("Wall or ground", site.ground),
        ("Size", both(site.width_mm, site.height_mm)),
    ]


section = TheSite()
