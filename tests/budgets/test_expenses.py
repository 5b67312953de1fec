"""Log an expense from a phone; refuse what cannot be, and lose nothing that was typed."""

from __future__ import annotations

from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from budgets.models import Expense, Paper
from projects.models import LogEntry
from tests.budgets.factories import (
    HTMX,
    expense,
    fund,
    line,
    order,
    pdf,
    photo,
    share,
    typed,
    url,
)
from tests.factories import ProjectFactory, SupplierFactory

pytestmark = pytest.mark.django_db


def log(client, project, **fields):
    return client.post(url("expense-add", project), fields)


def test_amount_payee_line_and_photo_are_saved_in_one_post(partner, project):
    answer = log(partner, project, **typed(line(project)), photo=photo())
    made = Expense.objects.get()
    assert answer.url == url("expense", project, made.pk)
    assert (made.cents, made.day, made.papers.get().media_type) == (
        21_240,
        date(2031, 3, 3),
        "image/jpeg",
    )
    sentence = "Logged the expense $212.40 to Ledger Street Paints, Mon 3 Mar, with its receipt."
    assert LogEntry.objects.get().sentence == sentence


def test_the_form_asks_five_things_and_starts_on_today(partner, project):
    line(project)
    SupplierFactory(project=project, name="Third Bell Canvas Loft")
    page = partner.get(url("expense-add", project)).content.decode()
    assert 'value="2031-03-03"' in page
    assert 'accept="image/*,application/pdf"' in page
    assert '<optgroup label="Materials">' in page
    assert '<option value="Third Bell Canvas Loft">' in page
    assert page.index("</summary>") > page.index('name="photo"')


def test_a_known_supplier_is_found_by_its_name(partner, project):
    ledger = SupplierFactory(project=project, name="Ledger Street Paints")
    log(partner, project, **typed(line(project), payee="ledger street paints"))
    assert Expense.objects.get().supplier == ledger


def test_htmx_gets_the_expense_alone_and_its_address(partner, project):
    answer = partner.post(url("expense-add", project), typed(line(project)), headers=HTMX)
    page = answer.content.decode()
    assert page.lstrip().startswith('<div id="sheet"') and "<html" not in page
    assert answer["HX-Push-Url"] == url("expense", project, Expense.objects.get().pk)


def test_without_a_budget_line_the_form_says_where_to_add_one(partner, project):
    page = partner.get(url("expense-add", project)).content.decode()
    assert url("line-add", project) in page


WRONG = {
    "cents": {
        "1,2O0": "Write 1,200 if that is what you mean.",
        "1.2.3": "more than one point",
        "-5": "below zero",
        "1.234": "Write 1.23 or 1,234.",
        "10,000,001": "The most is 10,000,000",
        "0": "Write an amount above zero",
        "": "Write an amount",
    },
    "payee": {
        "": "Write who was paid",
        "x" * 100_000: "That has 100000 characters; at most 120 can be kept. Shorten it.",
    },
    "line": {"": "Choose the budget line", "999999": "That is not in the list. Choose again."},
    "day": {
        "2031-03-04": "Tue 4 Mar is still to come. An expense is money already spent",
        "2031-02-30": "There is no such day.",
    },
    "what": {"x" * 100_000: "at most 240 can be kept"},
}


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [(name, value, said) for name, rows in WRONG.items() for value, said in rows.items()],
    ids=lambda value: str(value)[:20],
)
def test_what_is_wrong_is_said_and_the_rest_is_kept(partner, project, field, value, sentence):
    answer = log(partner, project, **typed(line(project), **{field: value}))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert sentence in page and 'aria-invalid="true"' in page
    if field != "payee":
        assert 'value="Ledger Street Paints"' in page
    assert not Expense.objects.exists()


def test_a_photo_beside_a_wrong_amount_must_be_chosen_again(partner, project):
    answer = log(partner, project, **typed(line(project), cents="1,2O0"), photo=photo())
    assert "Choose the file again" in answer.content.decode()


BAD_FILES = {
    "a PDF named as a picture": (lambda: pdf("receipt.jpg"), "This is a PDF named as a picture."),
    "text named as a PDF": (
        lambda: SimpleUploadedFile("receipt.pdf", b"hello"),
        "is named .pdf but is not a PDF",
    ),
    "text named as a picture": (
        lambda: SimpleUploadedFile("receipt.jpg", b"<script>alert(1)</script>"),
        "not a picture that can be read",
    ),
    "60 MB": (
        lambda: SimpleUploadedFile("receipt.jpg", b"\xff\xd8" + b"0" * 60_000_000),
        "This file has 60.0 MB; at most 20.0 MB can be kept.",
    ),
    "an empty file": (lambda: SimpleUploadedFile("receipt.jpg", b""), "is empty"),
}


@pytest.mark.parametrize("kind", BAD_FILES)
def test_a_file_that_is_no_receipt_is_refused_and_nothing_typed_is_lost(partner, project, kind):
    make, sentence = BAD_FILES[kind]
    answer = log(partner, project, **typed(line(project)), photo=make())
    page = answer.content.decode()
    assert answer.status_code == 422 and sentence in page
    assert 'value="212.40"' in page and 'value="Ledger Street Paints"' in page
    assert not Paper.objects.exists()


def test_html_in_a_name_is_shown_as_text(partner, project):
    log(partner, project, **typed(line(project), payee="<b>Ledger</b>", what="<img src=x>"))
    page = partner.get(url("money", project)).content.decode()
    assert "&lt;b&gt;Ledger&lt;/b&gt;" in page and "<img src=x>" not in page


def test_the_same_payee_day_and_amount_ask_before_a_second_is_kept(partner, project):
    first = typed(line(project))
    log(partner, project, **first)
    again = log(partner, project, **first)
    page = again.content.decode()
    assert again.status_code == 422 and "Is this the same?" in page
    assert 'name="another"' in page and url("expense", project, Expense.objects.get().pk) in page
    log(partner, project, **first, another="on")
    assert Expense.objects.count() == 2


def test_the_same_file_asks_even_when_the_amount_differs(partner, project):
    paint = line(project)
    log(partner, project, **typed(paint), photo=photo())
    again = log(partner, project, **typed(paint, cents="50"), photo=photo())
    page = again.content.decode()
    assert "This is the same file as the receipt of $212.40 to Ledger Street Paints" in page
    assert "Choose the file again" in page
    assert Expense.objects.count() == 1


def test_another_photo_of_another_day_asks_nothing(partner, project):
    paint = line(project)
    log(partner, project, **typed(paint), photo=photo())
    other = photo(colour=(10, 20, 30))
    log(partner, project, **typed(paint, day="2031-03-02"), photo=other)
    assert Expense.objects.count() == 2


def test_an_expense_that_settles_an_order_is_changed_with_it(partner, project):
    weld = line(project)
    bill, frame = expense(project, line=weld), order(project, paid_from=weld)
    changes = typed(weld, order=frame.pk, what="Deposit")
    assert partner.post(url("expense-edit", project, bill.pk), changes).status_code == 302
    bill.refresh_from_db()
    assert (bill.order, bill.cents, bill.what) == (frame, 21_240, "Deposit")


def test_an_expense_cannot_shrink_below_what_funds_pay(partner, project):
    bill = expense(project)
    share(bill, fund(project), 20_000)
    answer = partner.post(url("expense-edit", project, bill.pk), typed(bill.line, cents="150"))
    assert answer.status_code == 422
    assert "Funds pay $200 of it. Change the shares first" in answer.content.decode()


def test_a_deleted_expense_takes_its_papers_along(
    partner, project, django_capture_on_commit_callbacks
):
    log(partner, project, **typed(line(project)), photo=photo())
    made = Expense.objects.get()
    file = made.papers.get().file
    question = partner.get(url("expense-delete", project, made.pk))
    assert "cannot be undone" in question.content.decode() and Expense.objects.exists()
    with django_capture_on_commit_callbacks(execute=True):
        partner.post(url("expense-delete", project, made.pk))
    assert not Expense.objects.exists() and not file.storage.exists(file.name)
    assert LogEntry.objects.first().sentence.startswith("Deleted the expense $212.40")


def test_a_line_of_another_project_is_not_in_the_list(partner, project):
    line(project)
    other = line(ProjectFactory(name="Two Herons"))
    assert log(partner, project, **typed(other)).status_code == 422
