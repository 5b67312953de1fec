"""An agreed budget and requests to change it: drafted, sent, answered, never lost."""

from __future__ import annotations

from datetime import date

import pytest

from budgets.engine.categories import CATEGORIES
from budgets.models import ChangeRequest, ChangeState
from budgets.selectors.reports.changes import consent_of
from projects.models import LogEntry
from tests.budgets.factories import HTMX, fund, rule, url

pytestmark = pytest.mark.django_db
AGREED = {"materials": 6000_00, "install": 3000_00}
TODAY = date(2031, 3, 3)


@pytest.fixture
def ward(project):
    return fund(project, award_cents=9000_00, approved=AGREED)


def request_of(ward, state=ChangeState.DRAFT, **revised) -> ChangeRequest:
    before = {} if state == ChangeState.DRAFT else AGREED
    return ChangeRequest.objects.create(
        fund=ward, state=state, before=before, revised=revised, reason="The lift costs more."
    )


def typed(reason="The lift costs more.", **amounts) -> dict[str, str]:
    return {"reason": reason, **{key: amounts.get(key, "") for key in CATEGORIES}}


def test_the_agreed_budget_is_written_down_and_logged(partner, project, ward):
    ward.approved = {}
    ward.save()
    partner.post(url("agreed", project, ward.pk), typed(materials="6,000", install="3,000.00"))
    ward.refresh_from_db()
    assert ward.approved == AGREED and ward.version == 2
    assert "agreed to: $9,000" in LogEntry.objects.latest("pk").sentence


def test_an_agreed_budget_that_does_not_add_up_to_the_award_is_refused(partner, project, ward):
    answer = partner.post(url("agreed", project, ward.pk), typed(materials="6,000", admin="1.50"))
    text = answer.content.decode()
    assert answer.status_code == 422 and 'value="1.50"' in text
    assert "These add up to $6,001.50, the award is $9,000. Add $2,998.50." in text


def test_a_request_moves_money_and_must_add_up(partner, project, ward):
    answer = partner.post(
        url("change-add", project, ward.pk), typed(materials="5,400", install="3,700")
    )
    assert answer.status_code == 422
    assert "the agreed budget is $9,000. Take off $100." in answer.content.decode()
    partner.post(url("change-add", project, ward.pk), typed(materials="5400", install="3600"))
    made = ChangeRequest.objects.get()
    assert made.revised == {"materials": 5400_00, "install": 3600_00}
    assert made.state == ChangeState.DRAFT


def test_a_request_needs_a_reason_and_a_change(partner, project, ward):
    bare = partner.post(url("change-add", project, ward.pk), typed("", materials="9000"))
    assert "Say why" in bare.content.decode()
    same = partner.post(
        url("change-add", project, ward.pk), typed(materials="6000", install="3000")
    )
    assert "Nothing changes yet" in same.content.decode()
    assert not ChangeRequest.objects.exists()


@pytest.mark.parametrize("amount", ["-5", "1.2.3", "12,00", "99999999999"])
def test_a_bad_amount_stays_in_its_field_with_a_sentence(partner, project, ward, amount):
    answer = partner.post(url("change-add", project, ward.pk), typed(materials=amount))
    assert answer.status_code == 422 and f'value="{amount}"' in answer.content.decode()


def test_what_the_fund_agrees_to_becomes_its_budget(partner, project, ward):
    made = request_of(ward, materials=5400_00, install=3600_00)
    partner.post(url("change-send", project, made.pk), {"day": "2031-03-01"})
    made.refresh_from_db()
    assert made.state == ChangeState.SENT and made.before == AGREED
    partner.post(url("change-answer", project, made.pk), {"day": "2031-03-02", "answer": "agreed"})
    ward.refresh_from_db()
    assert ward.approved == {"materials": 5400_00, "install": 3600_00} and ward.version == 2
    assert "agreed to another budget" in LogEntry.objects.latest("pk").sentence


def test_what_the_fund_refuses_changes_nothing(partner, project, ward):
    made = request_of(ward, ChangeState.SENT, materials=5400_00, install=3600_00)
    partner.post(url("change-answer", project, made.pk), {"day": "2031-03-02", "answer": "refused"})
    ward.refresh_from_db()
    made.refresh_from_db()
    assert ward.approved == AGREED and made.state == ChangeState.REFUSED


def test_an_answer_needs_a_choice_and_a_day_that_has_been(partner, project, ward):
    made = request_of(ward, ChangeState.SENT, materials=5400_00, install=3600_00)
    address = url("change-answer", project, made.pk)
    bare = partner.post(address, {"day": "2031-03-02"})
    assert bare.status_code == 422 and "Choose what the fund said." in bare.content.decode()
    late = partner.post(address, {"day": "2031-03-04", "answer": "agreed"})
    assert late.status_code == 422 and "still to come" in late.content.decode()


def test_a_request_that_was_sent_is_not_edited_and_not_dropped(partner, project, ward):
    made = request_of(ward, ChangeState.SENT, materials=5400_00, install=3600_00)
    edited = partner.post(
        url("change-edit", project, made.pk), typed(materials="5000", install="4000")
    )
    dropped = partner.post(url("change-delete", project, made.pk))
    again = partner.post(url("change-send", project, made.pk), {"day": "2031-03-02"})
    assert {edited.status_code, dropped.status_code, again.status_code} == {409}
    assert "This request is sent already" in dropped.content.decode()
    made.refresh_from_db()
    assert made.revised["materials"] == 5400_00


def test_a_draft_is_dropped_after_a_question(partner, project, ward):
    made = request_of(ward, materials=5400_00, install=3600_00)
    asks = partner.get(url("change-delete", project, made.pk))
    assert "Drop this request?" in asks.content.decode()
    partner.post(url("change-delete", project, made.pk), headers=HTMX)
    assert not ChangeRequest.objects.exists()


def test_ten_per_cent_of_the_budget_needs_consent_only_beyond(ward):
    within = consent_of(request_of(ward, materials=5100_00, install=3900_00))
    over = consent_of(request_of(ward, materials=5099_99, install=3900_01))
    assert not within.needed and over.needed
    assert "most funds let 10 % move" in within.says and "so ask first" in over.says


def test_the_tolerance_of_the_funds_own_rule_counts(ward):
    rule(ward, "agreed_budget", basis_points=500, of="total")
    found = consent_of(request_of(ward, materials=5500_00, install=3500_00))
    assert found.needed and "this fund lets 5 % move" in found.says


def test_a_tolerance_of_each_line_is_met_line_by_line(ward):
    rule(ward, "agreed_budget", basis_points=1000, of="line")
    assert not consent_of(request_of(ward, materials=5700_00, install=3300_00)).needed
    found = consent_of(request_of(ward, materials=5699_00, install=3301_00))
    assert found.needed and "installation and equipment" in found.says


def test_changes_agreed_before_count_with_a_new_one(ward):
    request_of(ward, ChangeState.AGREED, materials=5500_00, install=3500_00)
    ward.approved = {"materials": 5500_00, "install": 3500_00}
    ward.save()
    found = consent_of(request_of(ward, materials=5000_00, install=4000_00))
    assert (found.here, found.moved.moved) == (500_00, 1000_00)
    assert found.needed


def test_the_request_is_a_paper_and_a_table(reader, project, ward):
    made = request_of(ward, materials=5400_00, install=3600_00)
    pdf = reader.get(url("change-pdf", project, made.pk))
    table = reader.get(url("change-csv", project, made.pk))
    assert pdf.content[:5] == b"%PDF-"
    assert b"Materials,6000.00,5400.00,-600.00" in table.content


def test_a_reader_sees_the_request_and_moves_nothing(reader, project, ward):
    made = request_of(ward, materials=5400_00, install=3600_00)
    page = reader.get(url("change", project, made.pk))
    assert page.status_code == 200 and "It is sent" not in page.content.decode()
    assert reader.post(url("change-send", project, made.pk)).status_code == 403
