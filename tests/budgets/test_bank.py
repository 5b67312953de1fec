"""Expenses from a bank's file: told once, looked at, brought in, never twice."""

from __future__ import annotations

from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from budgets.models import BankFile, BankLayout, Expense
from projects.models import LogEntry
from tests.budgets.factories import expense, line, url
from tests.factories import LineFactory, ProjectFactory

pytestmark = pytest.mark.django_db

MARCH = """Date,Description,Amount,Balance
2031-02-24,LEDGER STREET PAINTS WEXCOMBE,-212.40,4310.22
2031-02-26,WEIR BAKERY,-86.40,4223.82
2031-03-01,WEXCOMBE ARTS BOARD,3125.00,7348.82
2031-03-09,MILLRACE LIFT HIRE,-500.00,6848.82
"""


def csv(text: str = MARCH, name: str = "march.csv"):
    return SimpleUploadedFile(name, text.encode(), "text/csv")


def opened(partner, project, text: str = MARCH, name: str = "march.csv") -> BankFile:
    partner.post(url("bank-open", project), {"file": csv(text, name)})
    return BankFile.objects.order_by("pk").last()


def shown(client, project, file) -> str:
    return client.get(url("bank-file", project, file.pk)).content.decode()


def test_a_files_columns_are_asked_once_and_known_for_the_next_file(partner, project):
    answer = partner.post(url("bank-open", project), {"file": csv()})
    file = BankFile.objects.get()
    assert answer.url == url("bank-columns", project, file.pk)
    asked = partner.get(answer.url).context["form"]
    told = {name: asked[name].value() for name in asked.fields}
    assert (told["day"], told["payee"], told["amount"], told["out"]) == (0, 1, 2, None)
    answer = partner.post(answer.url, {n: "" if v is None else v for n, v in told.items()})
    assert answer.url == url("bank-file", project, file.pk)
    assert BankLayout.objects.get().header == ["Date", "Description", "Amount", "Balance"]
    april = MARCH.replace("-86.40", "-87.40")
    answer = partner.post(url("bank-open", project), {"file": csv(april, "april.csv")})
    assert answer.url == url("bank-file", project, BankFile.objects.latest("pk").pk)


def test_a_payment_becomes_an_expense_on_the_line_of_the_last_bill_of_that_payee(partner, project):
    paint = line(project)
    expense(project, 4_000, line=paint, payee="Ledger Street Paints", day=date(2030, 11, 2))
    file = opened(partner, project)
    form = partner.get(url("bank-file", project, file.pk)).context["form"]
    assert form["row_0"].value() == f"line-{paint.pk}"
    answer = partner.post(url("bank-file", project, file.pk), {"row_0": f"line-{paint.pk}"})
    assert answer.url == url("bank-file", project, file.pk)
    made = Expense.objects.get(cents=21_240)
    assert (made.payee, made.day, made.paid_on) == (
        "Ledger Street Paints", date(2031, 2, 24), date(2031, 2, 24),
    )  # fmt: skip
    assert made.what == "LEDGER STREET PAINTS WEXCOMBE"
    said = LogEntry.objects.order_by("pk").last().sentence
    assert said == "Brought in 1 expense of $212.40 from the bank's file “march.csv”."


def test_a_bill_that_is_logged_already_is_found_and_only_marked_paid(partner, project):
    bill = expense(project, 8_640, payee="Weir Bakery", day=date(2031, 2, 20), paid_on=None)
    file = opened(partner, project)
    form = partner.get(url("bank-file", project, file.pk)).context["form"]
    assert form["row_1"].value() == f"pays-{bill.pk}"
    partner.post(url("bank-file", project, file.pk), {"row_1": f"pays-{bill.pk}"})
    bill.refresh_from_db()
    assert (Expense.objects.count(), bill.paid_on) == (1, date(2031, 2, 26))
    assert bill.bank_ref and bill.version == 2


def test_the_same_line_of_the_bank_never_comes_in_twice(partner, project):
    paint = line(project)
    file = opened(partner, project)
    partner.post(url("bank-file", project, file.pk), {"row_0": f"line-{paint.pk}"})
    longer = opened(partner, project, MARCH + "2031-02-11,COUNTY CLERK,-26.00,1\n", "longer.csv")
    page = shown(partner, project, longer)
    assert "1 brought in" in page
    assert "LEDGER STREET PAINTS" not in page
    again = partner.post(url("bank-file", project, file.pk), {"row_0": f"line-{paint.pk}"})
    assert again.status_code == 409
    assert "Nothing was brought in" in again.content.decode()
    assert Expense.objects.count() == 1


def test_the_same_file_is_one_file(partner, project):
    assert opened(partner, project).pk == opened(partner, project).pk
    assert BankFile.objects.count() == 1


def test_what_is_left_out_is_remembered_and_money_that_came_in_is_no_expense(partner, project):
    file = opened(partner, project)
    partner.post(url("bank-file", project, file.pk), {"row_0": "out", "row_2": "out"})
    page = shown(partner, project, file)
    assert "0 brought in, 2 left out, 0 came in" in page
    paint = line(project)
    answer = partner.post(url("bank-file", project, file.pk), {"row_2": f"line-{paint.pk}"})
    assert answer.status_code == 409
    assert not Expense.objects.exists()


def test_a_payment_of_a_day_to_come_waits_until_it_is_booked(partner, project):
    page = shown(partner, project, opened(partner, project))
    assert "Not booked yet" in page


def test_a_line_of_another_project_is_refused_and_nothing_comes_in(partner, project):
    theirs = LineFactory(project=ProjectFactory(name="Two Herons"))
    file = opened(partner, project)
    answer = partner.post(url("bank-file", project, file.pk), {"row_0": f"line-{theirs.pk}"})
    assert answer.status_code == 409
    assert not Expense.objects.exists()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"PK\x03\x04whatever", "This is no text."),
        (b"hello", "This file has no columns."),
        (b"", "This file is empty."),
        (b"Date,Payee\n2031-03-03,Weir Bakery\n", "No line of this file holds a day and an amount"),
        (b"x" * 2_000_001, "This file has more than 2 MB."),
    ],
)
def test_what_is_no_bank_file_is_answered_beside_its_field(partner, project, data, says):
    upload = SimpleUploadedFile("odd.csv", data, "text/csv")
    answer = partner.post(url("bank-open", project), {"file": upload})
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not BankFile.objects.exists()


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"amount": ""}, "Choose the column of amounts, or that of money out."),
        ({"out": "3"}, "Choose the one column of amounts or this one, not both."),
        ({"day": ""}, "Choose a column of the file."),
        ({"payee": "9"}, "That is not in the list."),
    ],
)
def test_columns_that_cannot_be_are_answered_beside_their_field(partner, project, wrong, says):
    file = opened(partner, project)
    told = {"day": "0", "payee": "1", "amount": "2", "order": "year_first"}
    told |= {"comma": "point", "spent_below_zero": "below"}
    answer = partner.post(url("bank-columns", project, file.pk), {**told, **wrong})
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not BankLayout.objects.exists()


def test_a_name_from_the_bank_is_shown_as_text(partner, project):
    nasty = "Date,Payee,Amount\n2031-02-03,<script>alert(1)</script> & Sons,-12.40\n"
    page = shown(partner, project, opened(partner, project, nasty))
    assert "<script>alert" not in page
    assert "&lt;script&gt;" in page


def test_a_file_is_taken_away_and_its_expenses_stay(partner, project):
    paint = line(project)
    file = opened(partner, project)
    partner.post(url("bank-file", project, file.pk), {"row_0": f"line-{paint.pk}"})
    partner.post(url("bank-forget", project, file.pk))
    assert not BankFile.objects.exists()
    assert Expense.objects.count() == 1


def test_a_reader_looks_and_brings_nothing_in(partner, reader, project):
    file = opened(partner, project)
    assert "LEDGER STREET PAINTS" in shown(reader, project, file)
    answer = reader.post(url("bank-file", project, file.pk), {"row_0": "out"})
    assert answer.status_code == 403
