"""The overview's panel of papers and hires that end soon."""

from __future__ import annotations

from datetime import date

from projects.hooks import Level
from suppliers.models import Document
from suppliers.overview import endings
from tests import factories


def paper(supplier, expires: date) -> Document:
    return Document.objects.create(
        supplier=supplier, kind="insurance", title="General liability", expires_on=expires
    )


def test_a_quiet_project_says_so(project):
    panel = endings(project, factories.TODAY)
    assert (panel.rows, panel.sentence) == ((), "")
    assert panel.empty == "No paper and no hire ends in the next six weeks."


def test_only_what_ends_within_six_weeks_is_listed(project):
    shop = factories.SupplierFactory(project=project, name="Ledger Street Paints")
    paper(shop, date(2031, 4, 14))
    loft = factories.SupplierFactory(project=project, name="Third Bell Canvas Loft")
    paper(loft, date(2031, 4, 15))
    rows = endings(project, factories.TODAY).rows
    assert [row.text for row in rows] == ["Ledger Street Paints' insurance"]
    assert rows[0].detail == "ends Mon 14 Apr"


def test_a_paper_that_ends_too_early_leads_the_page(project):
    loft = factories.SupplierFactory(project=project, name="Third Bell Canvas Loft")
    lane = factories.LaneFactory(project=project, name="Loft", supplier=loft)
    factories.TaskFactory(project=project, lane=lane, days=60)
    paper(loft, date(2031, 5, 20))  # sixty working days from Mon 3 March end on Fri 23 May
    panel = endings(project, factories.TODAY)
    assert panel.rows[0].level == Level.BROKEN
    assert panel.sentence == (
        "Third Bell Canvas Loft's insurance ends Tue 20 May, 3 days before its last task ends."
    )


def test_a_hire_that_ended_and_was_not_given_back_is_broken(project):
    lift = factories.SupplierFactory(project=project, name="Millrace Lift Hire")
    factories.OrderFactory(supplier=lift, window_end=date(2031, 3, 1))
    (row,) = endings(project, factories.TODAY).rows
    assert (row.text, row.level) == ("Lift hire from Millrace Lift Hire", Level.BROKEN)
    assert row.detail == "ended Sat 1 Mar"
