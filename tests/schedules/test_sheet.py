"""The schedule sheet: what it says first, its table, and the piece that htmx gets."""

from __future__ import annotations

import pytest
from django.urls import reverse

from tests import factories


@pytest.fixture
def planned(db):
    return factories.planned_project()


@pytest.fixture
def ada(planned):
    from tests.conftest import logged_in

    return logged_in("ada")


def address(project, name="schedule", *args):
    return reverse(f"schedules:{name}", args=[project.pk, *args])


def test_the_sheet_opens_with_the_days_in_hand_and_the_next_step(planned, ada):
    page = ada.get(address(planned)).content.decode()
    assert "45 days in hand. “Weld lantern frame” and “Cut and sew skin” carry the date." in page
    assert "Artist finishes “Weld lantern frame” by Fri 14 Mar." in page
