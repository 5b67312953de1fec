"""A fund and its rules, written by somebody who is no accountant."""

from __future__ import annotations

from datetime import date

import pytest

from budgets.models import Fund
from projects.models import LogEntry
from tests.budgets.factories import HTMX, expense, fund, rule, share, url

pytestmark = pytest.mark.django_db

ROWS = {"caps-TOTAL_FORMS": "2", "caps-INITIAL_FORMS": "0"}
WARD = {
    "name": "Riverside Ward improvement fund",
    "kind": "grant",
    "status": "signed",
    "award_cents": "8,000",
    "period_start": "2031-01-01",
    "period_end": "2031-07-14",
    **ROWS,
}


def test_every_kind_of_rule_is_stored_by_its_code(partner, project):
    rules = {
        "allowed": ["materials", "install", "admin"],
        "barred": ["food"],
        "caps-0-category": "admin",
        "caps-0-rate": "15",
        "caps-1-category": "install",
        "caps-1-cents": "1,200",
        "match_grant": "1",
        "match_other": "1",
        "match_cash": "5000",
        "papers": ["receipt"],
        "papers_from": "50",
        "cash_only": "on",
    }
    answer = partner.post(url("fund-add", project), {**WARD, **rules})
    made = Fund.objects.get()
    assert answer.url == url("fund", project, made.pk)
    stored = {row.code: row for row in made.rules.all()}
    assert stored["category_share_cap"]["basis_points"] == 1500
    assert stored["category_cap"]["cents"] == 120_000
    assert (stored["match"]["numerator"], stored["match"]["denominator"]) == (1, 1)
    assert stored["papers_needed"].params == {"papers": ["receipt"], "cents": 5_000}
    assert {"allowed_categories", "barred_categories", "cash_only"} < set(stored)


def test_the_rules_read_as_sentences(reader, project):
    ward = fund(project)
    rule(ward, "category_share_cap", categories=["admin"], basis_points=1500, clause="Page 4")
    rule(ward, "match", numerator=3, denominator=10, basis_points=5000)
    page = reader.get(url("fund", project, ward.pk)).content.decode()
    assert "Pays at most 15 % of its award for administration." in page
    assert "For every $10 of the grant, $3 from elsewhere, at least 50 % of it in cash." in page
    assert "Taken from: Page 4." in page
    assert "$0 of $1,500 is used, $1,500 is left." in page


def test_saving_without_a_change_keeps_every_rule_and_its_clause(partner, project):
    ward = fund(project, award_cents=800_000)
    rule(ward, "category_share_cap", categories=["admin"], basis_points=1500, clause="Page 4")
    rule(ward, "category_cap", categories=["food", "admin"], cents=20_000)
    rule(ward, "match", numerator=1, denominator=2)
    before = list(ward.rules.values_list("pk", "clause"))
    page = partner.get(url("fund-edit", project, ward.pk))
    forms = page.context["typed"]
    data = {**WARD, "match_grant": "2", "match_other": "1", "match_cash": "0"}
    data |= {"caps-0-category": "admin", "caps-0-rate": "15", "caps-INITIAL_FORMS": "1"}
    assert forms.form["match_grant"].value() == "2"
    partner.post(url("fund-edit", project, ward.pk), data)
    assert sorted(ward.rules.values_list("pk", "clause")) == sorted(before)


def test_a_cap_taken_out_of_its_row_is_gone(partner, project):
    ward = fund(project)
    rule(ward, "category_cap", categories=["admin"], cents=20_000)
    data = {**WARD, "caps-0-category": "", "caps-0-cents": "", "caps-INITIAL_FORMS": "1"}
    partner.post(url("fund-edit", project, ward.pk), data)
    assert not ward.rules.exists()
    assert "and its rules" in LogEntry.objects.first().sentence


WRONG = [
    ({"award_cents": "8,0O0"}, "Write 8,000 if that is what you mean."),
    ({"award_cents": ""}, "Write the award, or the amount asked for."),
    ({"name": ""}, "Name the fund as its giver does."),
    ({"period_end": "2030-12-31"}, "The last day is before the first."),
    ({"period_end": "2031-02-30"}, "There is no such day."),
    ({"allowed": ["food"], "barred": ["food"]}, "Food and hospitality: ticked above as allowed."),
    ({"match_grant": "1"}, "A match needs both amounts"),
    ({"papers_from": "50"}, "Tick which paper is asked for"),
    ({"caps-0-category": "admin"}, "Write an amount, or a percent of the award."),
    ({"caps-0-cents": "5"}, "Choose the category of this cap"),
    ({"caps-0-category": "admin", "caps-0-rate": "150"}, "100 at most"),
    ({"caps-0-category": "admin", "caps-0-rate": "ten"}, "Write a percent, such as 15."),
    (
        {"caps-0-category": "admin", "caps-0-rate": "5", "caps-0-cents": "5"},
        "Keep the amount or the percent, not both.",
    ),
    ({"note": "x" * 100_000}, "This text has 100,000 characters"),
]


@pytest.mark.parametrize(("changes", "sentence"), WRONG, ids=lambda value: str(value)[:40])
def test_a_wrong_fund_is_said_beside_its_field_and_kept(partner, project, changes, sentence):
    answer = partner.post(url("fund-add", project), {**WARD, **changes})
    page = answer.content.decode()
    assert answer.status_code == 422 and sentence in page
    if "name" not in changes:
        assert 'value="Riverside Ward improvement fund"' in page
    assert not Fund.objects.exists()


def test_own_money_needs_no_award(partner, project):
    own = {**WARD, "name": "Own money", "kind": "own", "award_cents": ""}
    partner.post(url("fund-add", project), own)
    page = partner.get(url("money", project)).content.decode()
    assert Fund.objects.get().award_cents == 0 and ">open<" in page


def test_a_deleted_fund_gives_its_cents_back_to_nobody(partner, project):
    ward, bill = fund(project), expense(project)
    share(bill, ward, 20_000)
    question = partner.get(url("fund-delete", project, ward.pk)).content.decode()
    assert "1 expense paid from it will have no fund for that part." in question
    partner.post(url("fund-delete", project, ward.pk))
    assert "$200 of receipts has no fund yet" in partner.get(url("money", project)).content.decode()


def test_a_period_moved_past_an_expense_shows_the_broken_share(partner, project):
    ward, bill = fund(project, award_cents=800_000), expense(project, day=date(2031, 3, 1))
    share(bill, ward, 20_000)
    partner.post(url("fund-edit", project, ward.pk), {**WARD, "period_end": "2031-02-28"})
    page = partner.get(url("fund", project, ward.pk)).content.decode()
    assert "ends on 28 February 2031: this expense is dated 1 March 2031" in page
    assert "1 share breaks a rule" in partner.get(url("money", project)).content.decode()


def test_htmx_gets_the_form_back_when_it_is_wrong(partner, project):
    answer = partner.post(url("fund-add", project), {**WARD, "name": ""}, headers=HTMX)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert page.lstrip().startswith('<div id="sheet"') and "<html" not in page
