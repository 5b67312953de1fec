"""What the overview and the Money sheet tell of worksheets."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from projects.hooks import Level, Panel
from tests import factories
from tests.worksheets.handing import Place
from worksheets.engine.result import ToLine
from worksheets.models import Review, Run
from worksheets.overview import worksheets_panel
from worksheets.services import saving
from worksheets.sheets import sheets

pytestmark = pytest.mark.django_db
SOIL = ToLine(key="soil", label="Soil", quantity=12, unit="ft³")
MORE = ToLine(key="soil", label="Soil", quantity=14, unit="ft³")


def panel(place: Place) -> Panel:
    found = worksheets_panel(place.project, factories.TODAY)
    assert found
    return found


def keep(place: Place, key: str) -> Run:
    worksheet, _ = saving.begin(
        project=place.project, sheet=sheets()[key], title=f"One on {key}", part=None,
        typed=dict(sheets()[key].recipe.typed), user=factories.user("ada"),
    )  # fmt: skip
    return worksheet.runs.get()


def test_nothing_is_told_while_nothing_was_worked_out(project: Any) -> None:
    assert worksheets_panel(project, factories.TODAY) is None


def test_worksheets_that_ask_for_nothing_are_counted(place: Place) -> None:
    [row] = panel(place).rows
    assert row.text == "1 worksheet, and none is over a limit that was entered"
    assert row.level == Level.PLAIN


def test_what_is_over_a_limit_leads(place: Place) -> None:
    place.rerun(SOIL)
    place.send("soil", unit_cents="3")
    place.rerun(MORE)
    run = keep(place, "lifting")
    run.findings = [{"standing": "over", "says": "Too heavy for one.", "rule": ""}]
    run.save()
    first, second = panel(place).rows
    assert (first.text, first.level) == ("One on lifting", Level.BROKEN)
    assert first.detail.startswith("over the")
    assert (second.text, second.level) == ("Soil of the troughs", Level.NEAR)
    assert second.detail == "it has changed since it was handed on"


def test_a_screening_that_nobody_checked_asks_for_a_look(place: Place) -> None:
    run = keep(place, "wind")
    Run.objects.filter(pk=run.pk).update(findings=[], figures=[])
    [row] = panel(place).rows
    assert (row.text, row.level) == ("One on wind", Level.NEAR)
    assert row.detail == "this version was checked by nobody"
    Review.objects.create(
        run=run, reviewer="Wexcombe engineer", licence="1", day=factories.TODAY, entered_by="ada"
    )
    assert panel(place).rows[0].level == Level.PLAIN


def test_a_worksheet_without_a_result_asks_for_a_look(place: Place) -> None:
    Run.objects.update(problem="Length: this is needed.")
    [row] = panel(place).rows
    assert (row.detail, row.level) == ("it has no result", Level.NEAR)


def test_the_overview_shows_the_panel(place: Place) -> None:
    page = place.client.get(f"/projects/{place.project.pk}/").content.decode()
    assert "1 worksheet, and none is over a limit that was entered" in page


def test_a_budget_line_leads_back_to_the_worksheet_it_came_from(place: Place) -> None:
    place.rerun(SOIL)
    place.send("soil", unit_cents="3")
    money = f"/projects/{place.project.pk}/money/"
    page = place.client.get(money).content.decode()
    assert f'<a href="{place.url()}">Soil of the troughs</a></small>' in page
    place.rerun(MORE)
    page = place.client.get(money).content.decode()
    assert f'<a href="{place.url()}">Soil of the troughs</a>: changed since' in page


def test_neither_takes_more_queries_for_more_worksheets(place: Place) -> None:
    def asked() -> int:
        with CaptureQueriesContext(connection) as counted:
            panel(place)
            place.client.get(f"/projects/{place.project.pk}/money/")
        return len(counted)

    place.rerun(SOIL)
    place.send("soil", unit_cents="3")
    few = asked()
    for _ in range(4):
        keep(place, "planters")
    assert asked() == few
