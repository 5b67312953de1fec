"""Who does it: the artist's words, and the makers by trade."""

from __future__ import annotations

from datetime import date

from packets.outline import Context, Section
from projects.models import Project, Topic
from suppliers.models import Supplier


class Team(Section):
    key = "team"
    title = "Team"
    topics = (Topic.TEAM,)

    def rows(self, project: Project, today: date) -> Context:
        rows = Supplier.objects.filter(project=project)
        return {"makers": [(row.name, row.trades or row.get_kind_display()) for row in rows]}

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        return list(context["makers"])


section = Team()
