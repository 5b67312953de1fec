"""One supplier: contact, papers with their files, orders with their days."""

from __future__ import annotations

from datetime import date
from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from PIL import Image

from projects import files
from projects.models import LogEntry
from suppliers.models import Document, Making, Order
from tests import factories

PDF = b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\n%%EOF\n"
PAPER = {"kind": "insurance", "title": "General liability", "expires_on": "2031-10-30"}
ORDER = {"title": "Lift hire", "state": "placed", "cents": "$1,500.00"}


@pytest.fixture
def loft(project):
    return factories.SupplierFactory(project=project, name="Third Bell Canvas Loft")


def url(name: str, supplier, *more) -> str:
    return reverse(f"suppliers:{name}", args=[supplier.project_id, supplier.pk, *more])


def upload(name: str, content: bytes) -> SimpleUploadedFile:
    return SimpleUploadedFile(name, content)


def picture() -> bytes:
    out = BytesIO()
    Image.new("RGB", (40, 30), "white").save(out, "PNG")
    return out.getvalue()


def test_the_page_shows_what_hangs_on_a_supplier(reader, loft):
    Making.objects.create(part=factories.PartFactory(project=loft.project), supplier=loft)
    lane = factories.LaneFactory(project=loft.project, name="Loft", supplier=loft)
    factories.TaskFactory(project=loft.project, lane=lane, name="Cut and sew skin")
    factories.OrderFactory(supplier=loft, title="Ripstop skin")
    page = reader.get(url("supplier", loft)).content.decode()
    for shown in ("Lantern frame", "Cut and sew skin", "3 to 7 Mar", "Ripstop skin", "$1,500"):
        assert shown in page


def test_the_contact_is_changed_in_place(partner, loft):
    partner.post(url("supplier-edit", loft), {"name": loft.name, "kind": "shop", "lead_days": "5"})
    loft.refresh_from_db()
    assert (loft.kind, loft.lead_days) == ("shop", 5)


def test_a_certificate_is_kept_and_comes_back_as_a_download(owner, reader, loft):
    owner.post(url("document-add", loft), {**PAPER, "upload": upload("cover.pdf", PDF)})
    paper = Document.objects.get()
    answer = reader.get(url("document-file", loft, paper.pk))
    assert b"".join(answer.streaming_content) == PDF
    assert answer["Content-Disposition"] == 'attachment; filename="general-liability.pdf"'
    assert answer["X-Content-Type-Options"] == "nosniff"


def test_a_photo_of_a_certificate_is_kept_as_a_picture(owner, loft):
    owner.post(url("document-add", loft), {**PAPER, "upload": upload("cover.png", picture())})
    assert Document.objects.get().file.name.endswith(".jpg")


def test_a_paper_needs_no_file(owner, loft):
    assert owner.post(url("document-add", loft), PAPER).status_code == 302
    paper = Document.objects.get()
    assert owner.get(url("document-file", loft, paper.pk)).status_code == 404
    assert "was added among Third Bell Canvas Loft's papers" in LogEntry.objects.get().sentence


@pytest.mark.parametrize(
    ("name", "content", "sentence"),
    [
        ("cover.jpg", PDF, "This is a PDF named as a picture."),
        ("cover.pdf", b"plain words", "This file is named .pdf but is not a PDF."),
        ("cover.docx", b"PK\x03\x04 words", "not a picture that can be read"),
        ("cover.pdf", b"", "This file is empty. Choose another."),
    ],
)
def test_a_wrong_file_gets_a_sentence_and_loses_nothing_typed(owner, loft, name, content, sentence):
    answer = owner.post(url("document-add", loft), {**PAPER, "upload": upload(name, content)})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert sentence in page and 'value="General liability"' in page
    assert not Document.objects.exists()


def test_a_huge_file_is_refused_with_its_size(owner, loft, monkeypatch):
    monkeypatch.setattr(files, "MAX_BYTES", 1_000_000)
    huge = upload("cover.pdf", PDF + b"0" * 2_000_000)
    answer = owner.post(url("document-add", loft), {**PAPER, "upload": huge})
    assert answer.status_code == 422
    assert "This file has 2.0 MB; at most 1.0 MB can be kept." in answer.content.decode()


def test_a_good_file_beside_a_wrong_field_must_be_chosen_again(owner, loft):
    typed = {**PAPER, "title": "", "upload": upload("cover.pdf", PDF)}
    page = owner.post(url("document-add", loft), typed).content.decode()
    assert "Choose the file again: a browser does not keep it." in page


def test_a_paper_cannot_expire_before_it_was_issued(owner, loft):
    answer = owner.post(url("document-add", loft), {**PAPER, "issued_on": "2031-11-01"})
    assert answer.status_code == 422
    assert "This is before Sat 1 Nov 2031, when it was issued." in answer.content.decode()


def test_a_new_file_replaces_the_old_one(owner, loft, django_capture_on_commit_callbacks):
    owner.post(url("document-add", loft), {**PAPER, "upload": upload("cover.pdf", PDF)})
    old = Document.objects.get().file
    typed = {**PAPER, "upload": upload("cover.png", picture())}
    with django_capture_on_commit_callbacks(execute=True):
        owner.post(url("document-edit", loft, Document.objects.get().pk), typed)
    assert Document.objects.get().file.name.endswith(".jpg")
    assert not old.storage.exists(old.name)


def test_a_deleted_paper_takes_its_file_along(owner, loft, django_capture_on_commit_callbacks):
    owner.post(url("document-add", loft), {**PAPER, "upload": upload("cover.pdf", PDF)})
    file = Document.objects.get().file
    with django_capture_on_commit_callbacks(execute=True):
        owner.post(url("document-delete", loft, Document.objects.get().pk))
    assert not Document.objects.exists() and not file.storage.exists(file.name)


def test_renewing_starts_from_the_old_papers_title(owner, loft):
    old = Document.objects.create(supplier=loft, kind="licence", title="Lift operator")
    page = owner.get(url("document-renew", loft, old.pk)).content.decode()
    assert 'value="Lift operator"' in page and "Renew “Lift operator”" in page


def test_an_order_is_kept_in_whole_cents(owner, loft):
    owner.post(
        url("order-add", loft),
        {**ORDER, "window_start": "2031-10-12", "window_end": "2031-10-17"},
    )
    assert Order.objects.get().cents == 150_000
    said = "The order “Lift hire” from Third Bell Canvas Loft was added: placed, $1,500, "
    assert LogEntry.objects.get().sentence == said + "12 to 17 Oct."


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        (
            "cents",
            "1,2O0",
            "“1,2O0” has “O” where a digit should be. Write 1,200 if that is what you mean.",
        ),
        ("cents", "", "Write an amount, such as 1,200 or 1,200.50."),
        ("title", "", "Write what is ordered, such as Lift hire."),
        ("window_end", "2031-10-11", "This is before the first day, Sun 12 Oct 2031."),
        ("window_end", "2031-02-30", "There is no such day."),
        ("placed_on", "2031-03-04", "That day has not come yet."),
        ("state", "lost", "That is not in the list. Choose again."),
    ],
)
def test_a_bad_order_gets_a_sentence_and_loses_nothing_typed(owner, loft, field, value, sentence):
    typed = {**ORDER, "window_start": "2031-10-12", "note": "Ask for the key", field: value}
    answer = owner.post(url("order-add", loft), typed)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert sentence in page and "Ask for the key" in page
    assert not Order.objects.exists()


def test_an_order_is_changed_and_deleted(owner, loft):
    order = factories.OrderFactory(supplier=loft)
    assert 'value="1500"' in owner.get(url("order-edit", loft, order.pk)).content.decode()
    owner.post(url("order-edit", loft, order.pk), {**ORDER, "cents": "99.9"})
    assert Order.objects.get().cents == 9_990
    owner.post(url("order-delete", loft, order.pk))
    assert not Order.objects.exists()


def test_an_order_that_money_was_spent_on_is_kept(owner, loft):
    order = factories.OrderFactory(supplier=loft)
    factories.ExpenseFactory(project=loft.project, order=order)
    answer = owner.post(url("order-delete", loft, order.pk))
    assert answer.status_code == 409
    assert "“Lift hire” cannot be deleted: money was spent on it." in answer.content.decode()


def test_an_order_may_choose_its_supplier(owner, loft):
    address = reverse("suppliers:order-add", args=[loft.project_id])
    assert "Choose a supplier" in owner.get(address).content.decode()
    owner.post(address, {**ORDER, "supplier": loft.pk})
    assert Order.objects.get().supplier == loft


def test_an_order_cannot_go_to_another_projects_supplier(owner, loft):
    other = factories.SupplierFactory(project=factories.ProjectFactory(name="Two Herons"))
    address = reverse("suppliers:order-add", args=[loft.project_id])
    assert owner.post(address, {**ORDER, "supplier": other.pk}).status_code == 422


NAMES = ["supplier-edit", "document-add", "order-add"]


@pytest.mark.parametrize("name", NAMES)
def test_a_reader_changes_nothing_and_a_stranger_sees_nothing(reader, stranger, loft, name):
    assert reader.post(url(name, loft), ORDER).status_code == 403
    assert stranger.post(url(name, loft), ORDER).status_code == 404
    assert stranger.get(url("supplier", loft)).status_code == 404


def test_a_stranger_cannot_download_a_paper(owner, stranger, loft):
    owner.post(url("document-add", loft), {**PAPER, "upload": upload("cover.pdf", PDF)})
    assert stranger.get(url("document-file", loft, Document.objects.get().pk)).status_code == 404


def test_a_paper_of_another_project_is_not_found_through_ones_own(owner, loft):
    other = factories.SupplierFactory(project=factories.ProjectFactory(name="Two Herons"))
    paper = Document.objects.create(supplier=other, title="Cover")
    assert owner.get(url("document-file", loft, paper.pk)).status_code == 404
    assert owner.post(url("document-delete", loft, paper.pk)).status_code == 404
    address = reverse("suppliers:supplier", args=[loft.project_id, other.pk])
    assert owner.get(address).status_code == 404


def count(client, address: str) -> int:
    with CaptureQueriesContext(connection) as seen:
        assert client.get(address).status_code == 200
    return len(seen)


def test_queries_do_not_grow_with_papers_orders_and_tasks(owner, loft):
    lane = factories.LaneFactory(project=loft.project, name="Loft", supplier=loft)

    def grow() -> None:
        order = factories.OrderFactory(supplier=loft)
        Document.objects.create(supplier=loft, title="Cover", expires_on=date(2031, 5, 1))
        factories.TaskFactory(project=loft.project, lane=lane, order=order)

    grow()
    owner.get(url("supplier", loft))
    before = count(owner, url("supplier", loft))
    for _ in range(10):
        grow()
    assert count(owner, url("supplier", loft)) == before
