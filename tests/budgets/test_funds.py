"""A fund, written by somebody who is no accountant."""

from __future__ import annotations

import json
from datetime import date

import pytest

from budgets.engine.dated import value_on
from budgets.facts import shipped
from budgets.models import Claim, Fund, FundRule
from budgets.selectors.patterns import UNCHECKED, patterns
from budgets.selectors.rules import pattern_sentences
from projects.models import LogEntry
from tests.budgets.factories import HTMX, expense, fund, rule, share, url

pytestmark = pytest.mark.django_db

WARD = {
    "name": "Riverside Ward improvement fund",
    "kind": "local",
    "status": "signed",
    "award_cents": "8,000",
    "period_start": "2031-01-01",
    "period_end": "2031-07-14",
    "role": "grantee",
}


def opened(partner, project, ward) -> dict[str, str]:
    """What a browser would send back of the form as it was opened."""
    form = partner.get(url("fund-edit", project, ward.pk)).context["form"]
    return {bound.name: bound.value() or "" for bound in form}


def test_a_fund_is_saved_with_all_that_unfolds(partner, project):
    more = {
        "role": "subrecipient",
        "holder": "Wexcombe Arts Board",
        "number": "WAB-31-7",
        "issued_on": "2030-11-01",
        "is_federal": "on",
        "pool": "town",
        "agreed_materials": "3,000",
        "agreed_admin": "450.50",
    }
    answer = partner.post(url("fund-add", project), {**WARD, **more})
    made = Fund.objects.get()
    assert answer.url == url("fund", project, made.pk)
    assert made.approved == {"materials": 3000_00, "admin": 450_50}
    assert (made.role, made.is_federal, made.pool) == ("subrecipient", True, "town")
    page = partner.get(answer.url).content.decode()
    assert "I carry out part of somebody&#x27;s award: Wexcombe Arts Board" in page
    assert "WAB-31-7" in page and "no match for another federal award" in page
    assert "The agreed budget" in page and "$450.50" in page


def test_paid_by_invoice_the_cost_rules_stay_with_the_holder(reader, project):
    ward = fund(project, role="contractor", holder="Town of Wexcombe Mills")
    page = reader.get(url("fund", project, ward.pk)).content.decode()
    assert "The cost rules of the award stay with its holder, Town of Wexcombe Mills." in page
    assert (
        "stay with its holder"
        not in reader.get(url("fund", project, fund(project, "Board").pk)).content.decode()
    )


def test_a_new_fund_may_start_with_the_rules_of_a_pattern(partner, project):
    partner.post(url("fund-add", project), {**WARD, "pattern": "half_cash"})
    made = Fund.objects.get()
    assert [row.code for row in made.rules.all()] == [
        rule.code for rule in patterns()["half_cash"].rules
    ]
    assert set(made.rules.values_list("clause", flat=True)) == {UNCHECKED}
    page = partner.get(url("fund", project, made.pk)).content.decode()
    assert "Pays at most 50 % of the project; others the rest, 50 % of which is cash." in page
    assert UNCHECKED in page


def test_a_chosen_pattern_shows_its_sentences_and_keeps_what_was_typed(partner, project):
    typed = {**WARD, "pattern": "federal", "name": "National award"}
    page = partner.get(url("fund-add", project), typed, headers=HTMX).content.decode()
    assert 'value="National award"' in page and 'value="8,000"' in page
    assert "The whole project costs 2 to 10 times the award." in page
    assert "Project Budget Instructions" in page
    assert "Your own agreement decides" in page
    assert not Fund.objects.exists()


def test_every_pattern_makes_rules_that_the_engine_takes(project):
    for pattern in patterns().values():
        words = pattern_sentences(pattern, shipped(), date(2031, 3, 3), "$")
        assert len(words) == len(pattern.rules)
        assert all(sentence.endswith(".") for sentence in words)
        assert all(rule.source for rule in pattern.rules)


@pytest.mark.parametrize(
    ("issued", "percent", "partner_cap"),
    [("2024-09-30", 1000, 25_000_00), ("2024-10-01", 1500, 50_000_00)],
)
def test_an_award_issued_on_30_september_2024_against_1_october(
    partner, project, issued, percent, partner_cap
):
    """2 CFR 200.414(f) and 200.1 as revised: awards from 1 October 2024, none before."""
    partner.post(url("fund-add", project), {**WARD, "pattern": "federal", "issued_on": issued})
    overhead = FundRule.objects.get(code="indirect_rate")
    assert (overhead["basis_points"], overhead["partner_cents"]) == (percent, partner_cap)
    assert value_on(shipped(), "indirect_percent", date.fromisoformat(issued)).fact.value * 100 == (
        percent
    )


WRONG = [
    ({"award_cents": "8,0O0"}, "Write 8,000 if that is what you mean."),
    ({"award_cents": ""}, "Write the award, or the amount asked for."),
    ({"award_cents": "-5"}, "award_cents"),
    ({"name": ""}, "Name the fund as its giver does."),
    ({"period_end": "2030-12-31"}, "The last day is before the first."),
    ({"period_end": "2031-02-30"}, "There is no such day."),
    ({"issued_on": "soon"}, "There is no such day."),
    ({"agreed_food": "much"}, "agreed_food"),
    ({"pattern": "free lunch"}, "That is not in the list. Choose again."),
    ({"note": "x" * 100_000}, "This text has 100,000 characters"),
]


@pytest.mark.parametrize(("changes", "sentence"), WRONG, ids=lambda value: str(value)[:40])
def test_a_wrong_fund_is_said_beside_its_field_and_kept(partner, project, changes, sentence):
    answer = partner.post(url("fund-add", project), {**WARD, **changes})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert sentence in page or answer.context["form"].errors[sentence]
    if "name" not in changes:
        assert 'value="Riverside Ward improvement fund"' in page
    assert not Fund.objects.exists()


def test_a_wrong_field_that_is_folded_away_stands_open(partner, project):
    page = partner.post(url("fund-add", project), {**WARD, "agreed_food": "much"}).content.decode()
    assert page.count('<details class="more" open>') == 1


def test_own_money_needs_no_award(partner, project):
    own = {**WARD, "name": "Own money", "kind": "own", "award_cents": ""}
    partner.post(url("fund-add", project), own)
    page = partner.get(url("money", project)).content.decode()
    assert Fund.objects.get().award_cents == 0 and ">open<" in page


def test_changing_a_fund_leaves_its_rules_alone(partner, project):
    ward = fund(project, award_cents=800_000)
    rule(ward, "category_share_cap", categories=["admin"], basis_points=1500, clause="Page 4")
    before = list(ward.rules.values_list("pk", "clause", "params"))
    partner.post(url("fund-edit", project, ward.pk), {**WARD, "award_cents": "9,000"})
    ward.refresh_from_db()
    assert (ward.award_cents, ward.version) == (900_000, 2)
    assert list(ward.rules.values_list("pk", "clause", "params")) == before


def test_the_second_of_two_sees_what_the_first_changed_and_loses_nothing(partner, project):
    ward = fund(project, award_cents=800_000, kind="local", status="signed")
    mine = opened(partner, project, ward)
    theirs = opened(partner, project, ward)
    partner.post(url("fund-edit", project, ward.pk), {**theirs, "award_cents": "9,000"})
    answer = partner.post(url("fund-edit", project, ward.pk), {**mine, "number": "WAB-7"})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Somebody else saved this while you had it open." in page
    assert 'value="WAB-7"' in page
    again = {bound.name: bound.value() or "" for bound in answer.context["form"]}
    partner.post(url("fund-edit", project, ward.pk), again)
    ward.refresh_from_db()
    assert (ward.award_cents, ward.number) == (900_000, "WAB-7")
    assert json.loads(mine["was"])


def test_a_deleted_fund_gives_its_cents_back_to_nobody(partner, project):
    ward, bill = fund(project), expense(project)
    share(bill, ward, 20_000)
    question = partner.get(url("fund-delete", project, ward.pk)).content.decode()
    assert "1 expense paid from it will have no fund for that part." in question
    partner.post(url("fund-delete", project, ward.pk))
    assert "$200 of receipts has no fund yet" in partner.get(url("money", project)).content.decode()


def test_a_fund_with_a_claim_is_not_deleted(partner, project):
    ward = fund(project)
    Claim.objects.create(fund=ward, number=1, to_day=date(2031, 3, 1))
    answer = partner.post(url("fund-delete", project, ward.pk))
    assert answer.status_code == 409 and "close the fund instead" in answer.content.decode()
    assert Fund.objects.exists() and not LogEntry.objects.exists()


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


def test_money_that_is_only_offered_is_told_to_pay_nothing_yet(reader, project):
    for status, told in (("offered", True), ("applied", True), ("signed", False)):
        ward = fund(project, status=status)
        page = reader.get(url("fund", project, ward.pk)).content.decode()
        assert ("Not signed yet: it pays nothing so far." in page) is told
