"""A kept worksheet whose result hands on whatever a test wants."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

from django.test import Client

from projects.models import LogEntry, Project
from tests import factories
from worksheets.engine.result import Hand, Result
from worksheets.engine.sheet import Sheet
from worksheets.models import Handed, Worksheet
from worksheets.selectors.desk import desk_of
from worksheets.services import saving
from worksheets.sheets import sheets

HTMX = {"HX-Request": "true"}
TYPED = {"count": "2", "length": "4 ft", "width": "2 ft", "depth": "18 in", "dry": "14 lb/ft³"}


@dataclass
class Place:
    project: Project
    client: Client
    hands: list[Hand] = field(default_factory=list)
    worksheet: Worksheet = field(init=False)

    def url(self, key: str = "", rest: str = "") -> str:
        base = f"/projects/{self.project.pk}/worksheets/{self.worksheet.pk}/"
        return f"{base}hand/{key}/" if key else base + rest

    def page(self, key: str = "") -> str:
        return self.client.get(self.url(key)).content.decode()

    def opened(self, key: str) -> dict[str, Any]:
        """What stands in the form when it opens."""
        from worksheets.forms.hands import form_for

        desk = desk_of(self.fresh(), key, factories.TODAY)
        assert desk
        return dict(form_for(desk, None).as_opened().data)

    def fresh(self) -> Worksheet:
        return Worksheet.objects.select_related("project", "part").get(pk=self.worksheet.pk)

    def look(self, key: str, **typed: Any) -> str:
        data = {**self.opened(key), **typed, "look": "1"}
        return self.client.post(self.url(key), data, headers=HTMX).content.decode()

    def send(self, key: str, *, seen: str | None = None, **typed: Any) -> Any:
        """As a person does it: look at what it would do, then hand it on."""
        seen = seen_in(self.look(key, **typed)) if seen is None else seen
        return self.client.post(self.url(key), {**self.opened(key), **typed, "seen": seen})

    @property
    def handed(self) -> Handed:
        return Handed.objects.get(worksheet=self.worksheet)

    @property
    def log(self) -> list[str]:
        """The newest first."""
        return list(LogEntry.objects.order_by("-pk").values_list("sentence", flat=True))

    def rerun(self, *hands: Hand) -> None:
        """The result hands on something else from now on."""
        self.hands[:] = hands
        saving.rerun_all(project=self.project, why="A part changed.", user=None)


def seen_in(page: str) -> str:
    found = re.search(r'name="seen" value="([^"]+)"', page)
    return found[1] if found else ""


def told(page: str) -> str:
    """What is said of the effect, in plain words."""
    block = re.search(r'<div id="becomes".*?</div>\s*<div hx-post', page, re.DOTALL)
    return " ".join(re.sub(r"<[^>]+>", " ", block[0]).split()) if block else ""


def handing_on(hands: list[Hand]) -> Sheet:
    """The sheet on planters with other hands."""
    sheet = sheets()["planters"]

    def compute(given: Any) -> Result:
        return replace(sheet.compute(given), hands=tuple(hands))

    return replace(sheet, compute=compute)
