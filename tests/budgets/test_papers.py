"""Receipts go to members only: pictures are shown, PDFs are saved."""

from __future__ import annotations

import pytest

from budgets.models import Paper
from tests.budgets.factories import expense, pdf, photo, url
from tests.factories import ProjectFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def bill(project):
    return expense(project)


def add(client, project, bill, file, kind="receipt"):
    return client.post(url("paper-add", project, bill.pk), {"file": file, "kind": kind})


def test_a_picture_is_shown_in_place(partner, reader, project, bill):
    add(partner, project, bill, photo())
    answer = reader.get(url("paper", project, Paper.objects.get().pk))
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["Content-Disposition"].startswith("inline")
    assert answer["X-Content-Type-Options"] == "nosniff"


def test_a_pdf_is_saved_and_never_opened_in_the_page(partner, project, bill):
    add(partner, project, bill, pdf(), kind="payment")
    answer = partner.get(url("paper", project, Paper.objects.get().pk))
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"].startswith("attachment")


def test_a_receipt_is_hidden_from_strangers_and_other_projects(partner, stranger, project, bill):
    add(partner, project, bill, photo())
    paper = Paper.objects.get()
    assert stranger.get(url("paper", project, paper.pk)).status_code == 404
    other = ProjectFactory(name="Two Herons")
    assert partner.get(url("paper", other, paper.pk)).status_code == 404


def test_a_wrong_paper_is_refused_beside_its_field(partner, project, bill):
    answer = add(partner, project, bill, pdf("proof.png"))
    assert answer.status_code == 422
    assert "This is a PDF named as a picture." in answer.content.decode()


def test_a_file_kept_with_another_expense_asks_first(partner, project, bill):
    add(partner, project, bill, photo())
    other = expense(project, payee="Kiln Row Bakery")
    answer = add(partner, project, other, photo())
    assert answer.status_code == 422 and "Is this the same?" in answer.content.decode()
    again = {"file": photo(), "kind": "receipt", "another": "on"}
    partner.post(url("paper-add", project, other.pk), again)
    assert other.papers.count() == 1


def test_no_file_at_all_says_what_to_do(partner, project, bill):
    answer = partner.post(url("paper-add", project, bill.pk), {"kind": "receipt"})
    assert "Choose a photo or a PDF." in answer.content.decode()


def test_a_removed_paper_is_gone_from_the_disk(
    partner, project, bill, django_capture_on_commit_callbacks
):
    add(partner, project, bill, photo())
    paper = Paper.objects.get()
    with django_capture_on_commit_callbacks(execute=True):
        partner.post(url("paper-delete", project, paper.pk))
    assert not Paper.objects.exists()
    assert not paper.file.storage.exists(paper.file.name)
