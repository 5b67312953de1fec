"""What the tests of handing on share."""

from __future__ import annotations

import pytest
from django.test import Client

from projects.models import Project
from tests import factories
from tests.worksheets.handing import TYPED, Place, handing_on
from worksheets.services import saving
from worksheets.sheets import sheets


@pytest.fixture
def place(project: Project, owner: Client, monkeypatch: pytest.MonkeyPatch) -> Place:
    """Ada keeps a worksheet on the soil of two troughs."""
    made = Place(project=project, client=owner)
    sheet = handing_on(made.hands)
    monkeypatch.setitem(sheets(), "planters", sheet)
    part = factories.PartFactory(project=project, name="Fern troughs", kind="planter")
    made.worksheet, _ = saving.begin(
        project=project, sheet=sheet, title="Soil of the troughs", part=part, typed=TYPED,
        user=factories.user("ada"),
    )  # fmt: skip
    return made
