"""The page of rates and thresholds, and who was paid how much in a year."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from budgets import facts
from budgets.models import Credit, DatedFact
from projects.models import LogEntry
from suppliers.models import Document
from tests.budgets.factories import HTMX, expense, url
from tests.factories import ProjectFactory, SupplierFactory

pytestmark = pytest.mark.django_db

NEWER = {
    "name": "mile_business",
    "value": "0.81",
    "valid_from": "2031-01-01",
    "valid_to": "",
    "source": "Tax office, notice of December 2030",
}


def test_every_rate_shows_its_value_its_day_and_its_source(reader, project):
    page = reader.get(url("facts", project)).content.decode()
    assert "A mile driven for the work" in page
    assert "0.725" in page and "IRS standard mileage rates, announced December 2025" in page
    assert "15,000" in page and "FAR 2.101, 90 FR 41872" in page
    assert "Known until Thu 31 Dec 2026 only." in page


def test_a_newer_rate_is_added_with_its_source_and_used_from_its_day(partner, project):
    answer = partner.post(url("fact-add", project), NEWER)
    assert answer.url == url("facts", project)
    found = facts.value(project, "mile_business", date(2031, 3, 3))
    assert (found.fact.value, found.current) == (Decimal("0.8100"), True)
    before = facts.value(project, "mile_business", date(2026, 12, 31))
    assert before.fact.value == Decimal("0.725")
    assert "0.81 dollars a mile" in LogEntry.objects.get().sentence


def test_a_rate_of_one_project_says_nothing_to_another(partner, project):
    other = ProjectFactory(name="Two Herons")
    partner.post(url("fact-add", project), NEWER)
    assert not facts.value(other, "mile_business", date(2031, 3, 3)).current


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"value": "0,81"}, "Write a plain number with a point, such as 0.725 or 2000."),
        ({"value": "-1"}, "A rate is 0 or more."),
        ({"value": "1e12"}, "That is more than a hundred million."),
        ({"value": ""}, "Write the value, such as 0.725."),
        ({"name": "night_watch"}, "That is not in the list."),
        ({"valid_to": "2030-12-31"}, "The last day is before the first."),
        ({"source": ""}, "Name the paper or page"),
    ],
)
def test_a_wrong_rate_is_answered_beside_its_field_and_kept(partner, project, wrong, says):
    answer = partner.post(url("fact-add", project), {**NEWER, **wrong}, headers=HTMX)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page
    assert not DatedFact.objects.exists()
    if "source" not in wrong:
        assert "notice of December 2030" in page


def test_ones_own_rate_is_taken_out_after_a_question(partner, project):
    partner.post(url("fact-add", project), NEWER)
    pk = DatedFact.objects.get().pk
    asked = partner.get(url("fact-delete", project, pk)).content.decode()
    assert "What was reckoned with it keeps its amount." in asked
    partner.post(url("fact-delete", project, pk))
    assert not DatedFact.objects.exists()


def test_a_reader_adds_nothing(reader, project):
    assert reader.post(url("fact-add", project), NEWER).status_code == 403
    assert not DatedFact.objects.exists()


def test_a_payee_over_the_threshold_without_a_form_leads_the_page(partner, project):
    paid = expense(project, 250_000, payee="Saltglaze Metalworks", paid_on=date(2031, 2, 1))
    Credit.objects.create(expense=paid, cents=10_000, day=date(2031, 2, 9), what="Returned steel")
    expense(project, 900_000, payee="Third Bell Canvas Loft", paid_on=date(2030, 12, 31))
    expense(project, 900_000, payee="Millrace Lift Hire", paid_on=None)
    page = partner.get(url("facts", project)).content.decode()
    assert "Saltglaze Metalworks has been paid enough this year" in page
    assert "$2,400" in page
    assert "Third Bell Canvas Loft" not in page
    assert "Millrace Lift Hire" not in page


def test_a_payee_is_one_payee_however_it_is_written_and_a_form_on_file_is_seen(partner, project):
    for name in ("Saltglaze Metalworks", "SALTGLAZE METALWORKS"):
        expense(project, 120_000, payee=name, paid_on=date(2031, 2, 1))
    maker = SupplierFactory(project=project, name="Saltglaze Metalworks")
    Document.objects.create(supplier=maker, kind="tax_form", title="Taxpayer form")
    page = partner.get(url("facts", project)).content.decode()
    assert "$2,400" in page
    assert "Taxpayer form on file" in page
    assert "has been paid enough" not in page


def test_the_page_asks_the_same_number_of_questions_however_much_was_paid(partner, project):
    def asked() -> int:
        with CaptureQueriesContext(connection) as found:
            partner.get(url("facts", project))
        return len(found)

    expense(project, 1_000, payee="Shop", paid_on=date(2031, 2, 1))
    asked()
    few = asked()
    for number in range(30):
        expense(project, 1_000 + number, payee=f"Shop {number}", paid_on=date(2031, 2, 1))
    assert asked() == few
