"""The directory of suppliers: who is in it, who may change it, what it says."""

from __future__ import annotations

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from projects.models import LogEntry
from suppliers.models import Document, Supplier
from tests import factories

TYPED = {"name": "Third Bell Canvas Loft", "kind": "maker", "trades": "sewing", "lead_days": "15"}


def url(name: str, project, *more) -> str:
    return reverse(f"suppliers:{name}", args=[project.pk, *more])


def insured(supplier: Supplier, until: date) -> Document:
    return Document.objects.create(
        supplier=supplier, kind="insurance", title="General liability", expires_on=until
    )


def test_an_empty_directory_teaches_what_belongs_here(owner, project):
    page = owner.get(url("suppliers", project)).content.decode()
    assert "Saltglaze Metalworks, welding" in page
    assert url("supplier-add", project) in page


def test_a_supplier_is_added_and_logged(partner, project):
    answer = partner.post(url("supplier-add", project), TYPED)
    assert answer.status_code == 302
    assert Supplier.objects.get(project=project).lead_days == 15
    assert LogEntry.objects.get().sentence == "Third Bell Canvas Loft was added to the suppliers."


def test_htmx_gets_the_sheet_alone(partner, project):
    answer = partner.post(url("supplier-add", project), TYPED, headers={"HX-Request": "true"})
    page = answer.content.decode()
    assert page.lstrip().startswith('<div id="sheet"')
    assert "Third Bell Canvas Loft" in page and "<html" not in page


def test_a_name_is_taken_once_and_nothing_typed_is_lost(owner, project):
    factories.SupplierFactory(project=project, name="Third bell canvas loft")
    answer = owner.post(url("supplier-add", project), TYPED)
    assert answer.status_code == 422
    page = answer.content.decode()
    assert "already has a supplier called “Third Bell Canvas Loft”" in page
    assert 'value="sewing"' in page


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("name", "", "Write a name."),
        ("name", "x" * 121, "That has 121 characters; at most 120 can be kept. Shorten it."),
        ("lead_days", "two weeks", "Write a whole number of working days, such as 15."),
        ("lead_days", "-3", "A lead time cannot be below zero. Write 0 or more."),
        ("lead_days", "100000", "That is more than 999 working days. Check the number."),
        ("email", "loft@", "Write a whole address, such as shop@example.org."),
        ("kind", "robot", "That is not in the list. Choose again."),
        ("note", "x" * 100_000, "at most 20,000 can be kept. Shorten it."),
    ],
)
def test_bad_input_gets_a_sentence(owner, project, field, value, sentence):
    answer = owner.post(url("supplier-add", project), {**TYPED, field: value})
    assert answer.status_code == 422
    assert sentence in answer.content.decode()


def test_markup_in_a_name_stays_text(owner, project):
    owner.post(url("supplier-add", project), {**TYPED, "name": "<script>alert(1)</script>"})
    page = owner.get(url("suppliers", project)).content.decode()
    assert "&lt;script&gt;alert(1)" in page and "<script>alert" not in page


def test_a_row_is_changed_in_place(owner, project):
    row = factories.SupplierFactory(project=project)
    opened = owner.get(url("supplier-edit-row", project, row.pk)).content.decode()
    assert f'action="{url("supplier-edit-row", project, row.pk)}"' in opened
    owner.post(url("supplier-edit-row", project, row.pk), TYPED)
    assert Supplier.objects.get().name == "Third Bell Canvas Loft"


def test_deleting_asks_first(owner, project):
    row = factories.SupplierFactory(project=project)
    asked = owner.get(url("supplier-delete", project, row.pk)).content.decode()
    assert "Delete Saltglaze Metalworks?" in asked
    owner.post(url("supplier-delete", project, row.pk))
    assert not Supplier.objects.exists()


def test_a_supplier_with_paid_orders_is_kept(owner, project):
    row = factories.SupplierFactory(project=project)
    order = factories.OrderFactory(supplier=row, title="Lantern frame")
    factories.ExpenseFactory(project=project, order=order)
    answer = owner.post(url("supplier-delete", project, row.pk))
    assert answer.status_code == 409
    assert "money was spent on “Lantern frame”" in answer.content.decode()
    assert Supplier.objects.exists()


@pytest.mark.parametrize("name", ["supplier-add", "supplier-bring", "order-add"])
def test_a_reader_may_not_add(reader, stranger, project, name):
    assert reader.post(url(name, project), TYPED).status_code == 403
    assert stranger.post(url(name, project), TYPED).status_code == 404
    assert not Supplier.objects.exists()


def test_a_reader_sees_no_way_to_change(reader, stranger, project):
    row = factories.SupplierFactory(project=project)
    page = reader.get(url("suppliers", project)).content.decode()
    assert "Saltglaze Metalworks" in page
    assert url("supplier-edit-row", project, row.pk) not in page
    assert stranger.get(url("suppliers", project)).status_code == 404


def test_the_sentence_names_the_paper_that_ends_before_the_last_task(owner, project):
    loft = factories.SupplierFactory(project=project, name="Third Bell Canvas Loft")
    lane = factories.LaneFactory(project=project, name="Third Bell Canvas Loft", supplier=loft)
    factories.TaskFactory(project=project, lane=lane, name="Cut and sew skin", days=10)
    insured(loft, date(2031, 3, 8))  # ten working days from Mon 3 March end on Fri 14 March
    page = owner.get(url("suppliers", project)).content.decode()
    said = "Third Bell Canvas Loft&#x27;s insurance ends Sat 8 Mar, 6 days before its last task"
    assert said in page


def test_a_renewal_of_the_same_title_takes_the_old_papers_place(owner, project):
    loft = factories.SupplierFactory(project=project, name="Third Bell Canvas Loft")
    insured(loft, date(2031, 3, 8))
    insured(loft, date(2032, 3, 8))
    page = owner.get(url("suppliers", project)).content.decode()
    assert "ends Mon 8 Mar" in page and "Sat 8 Mar" not in page


def test_the_directory_shows_tasks_and_orders(owner, project):
    lift = factories.SupplierFactory(project=project, name="Millrace Lift Hire")
    lane = factories.LaneFactory(project=project, name="Lift", supplier=lift)
    order = factories.OrderFactory(
        supplier=lift, window_start=date(2031, 3, 3), window_end=date(2031, 3, 6)
    )
    factories.TaskFactory(project=project, lane=lane, order=order, name="Lift on site", days=5)
    page = owner.get(url("suppliers", project)).content.decode()
    assert "Lift on site" in page and "$1,500" in page
    assert "too short: needed 3 to 7 Mar" in page
    assert "Lift hire from Millrace Lift Hire is booked 3 to 6 Mar; it is needed 3 to 7 Mar" in page


def test_a_supplier_comes_over_from_another_project_of_ones_own(owner, project):
    other = factories.ProjectFactory(name="Two Herons")
    other.memberships.create(user=factories.user("ada"), role="reader")
    source = factories.SupplierFactory(project=other, trades="welding")
    insured(source, date(2031, 12, 31))
    insured(source, date(2030, 12, 31))
    owner.post(url("supplier-bring", project), {"supplier": source.pk})
    copy = Supplier.objects.get(project=project)
    assert (copy.name, copy.trades) == ("Saltglaze Metalworks", "welding")
    assert [d.expires_on for d in copy.documents.all()] == [date(2031, 12, 31)]


def test_nobody_takes_a_supplier_out_of_a_strangers_project(owner, project):
    hidden = factories.SupplierFactory(project=factories.ProjectFactory(name="Two Herons"))
    answer = owner.post(url("supplier-bring", project), {"supplier": hidden.pk})
    assert answer.status_code == 422
    assert not Supplier.objects.filter(project=project).exists()


def count(client, address: str) -> int:
    with CaptureQueriesContext(
        connection,
    ) as seen:
        assert client.get(address).status_code == 200
    return len(seen)


def grow(project) -> None:
    for n in range(10):
        row = factories.SupplierFactory(project=project, name=f"Maker {n}")
        lane = factories.LaneFactory(project=project, name=f"Lane {n}", supplier=row)
        order = factories.OrderFactory(supplier=row)
        insured(row, date(2031, 4, 1))
        factories.TaskFactory(project=project, lane=lane, order=order)


def test_queries_do_not_grow_with_suppliers(owner, project):
    row = factories.SupplierFactory(project=project)
    factories.OrderFactory(supplier=row)
    owner.get(url("suppliers", project))  # computes the day's plan once
    before = count(owner, url("suppliers", project))
    grow(project)
    assert count(owner, url("suppliers", project)) == before
