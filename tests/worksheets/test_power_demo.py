"""The worksheets that Hearthlight opens with: the install day and the lantern’s battery."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from worksheets.engine.given import Fact
from worksheets.engine.result import Result, Standing
from worksheets.sheets import sheets

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "demo"
ROWS = json.loads((FOLDER / "hearthlight-worksheets-power.json").read_text("utf-8"))
PARTS = {part["key"] for part in json.loads((FOLDER / "hearthlight.json").read_text())["parts"]}
FACTS = {"site.latitude": Fact(42.0, "the site’s latitude")}


def work(row: dict[str, Any], **more: str) -> Result:
    return sheets()[row["sheet"]].work(row["typed"] | more, facts=FACTS)


def named(title: str) -> dict[str, Any]:
    return next(row for row in ROWS if row["title"].startswith(title))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["title"])
def test_each_is_typed_in_full_and_stops_nothing(row: dict[str, Any]) -> None:
    sheet = sheets()[row["sheet"]]
    assert set(row["typed"]) == {each.name for each in sheet.inputs}
    assert row["part"] in PARTS
    assert work(row).worst != Standing.OVER


def test_a_minute_of_turning_gives_the_lantern_about_ten_minutes_of_light() -> None:
    """As the artist’s own words of the concept say."""
    lantern = work(named("Lantern battery"))
    assert lantern.figure("ratio").value == pytest.approx(10, abs=0.5)


def test_on_install_day_a_gust_over_the_plate_would_stop_the_lift() -> None:
    day = named("Install day")
    assert work(day, gust="30 mph").says.startswith("Stop")
    assert work(day, held="rails").says.startswith("Stop")
