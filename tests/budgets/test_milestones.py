"""A fee in parts: split to the cent, due by the plan, invoiced, paid."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from budgets import overview
from budgets.flow.parts import falls_on
from budgets.models import Income, Milestone
from budgets.selectors.claims.parts import fund_parts
from budgets.selectors.claims.slips import claim_ripples
from projects.hooks import Level, TaskDays
from projects.models import LogEntry
from tests.budgets.factories import fund, rule, url
from tests.budgets.test_hooks import plan
from tests.factories import PUBLIC, TODAY, KeyDateFactory, TaskFactory, planned_project

pytestmark = pytest.mark.django_db


@pytest.fixture
def fee(project):
    made = fund(project, "Town commission fee", kind="fee", award_cents=333_333)
    rule(made, "paid_by_milestone")
    return made


def part(fee, cents=166_667, **fields) -> Milestone:
    values = {"title": "Half at the walk", "on": date(2031, 3, 1), **fields}
    return Milestone.objects.create(fund=fee, cents=cents, **values)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def split(client, project, fee, parts: str):
    return client.post(url("milestone-split", project, fee.pk), {"parts": parts})


def add(client, project, fee, **fields):
    values = {"title": "Half", "cents": "1,000", "on": "2031-05-01", "pay_days": "30", **fields}
    return client.post(url("milestone-add", project, fee.pk), values)


def invoice(client, project, row, number="HL-7", day="2031-03-02"):
    values = {"invoice_no": number, "invoiced_on": day}
    return client.post(url("milestone-invoice", project, row.pk), values)


def pay(client, project, row, cents, day="2031-03-03"):
    return client.post(url("milestone-pay", project, row.pk), {"cents": cents, "day": day})


def test_a_fee_split_80_to_20_comes_to_the_fee_to_the_cent(partner, project, fee):
    """3,333.33 at 80 and 20 %: Region 2 Arts Council (Minnesota), payment policy."""
    answer = split(partner, project, fee, "80 % Before the start\n\n20% - After the report")
    assert answer.status_code == 302
    rows = [(row.title, row.cents) for row in fee.milestones.all()]
    assert rows == [("Before the start", 266_666), ("After the report", 66_667)]


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("50 % Now\n49.5 % Then", "The parts come to 99.5 %. Make them 100 % together."),
        ("half now\n50 % Then", "“half now” cannot be read."),
        ("100 %", "“100 %” cannot be read."),
        ("0 % Now\n100 % Then", "is a part of nothing"),
        ("", "Write at least one part"),
        ("-50 % Now\n150 % Then", "cannot be read"),
    ],
)
def test_parts_that_cannot_be_are_told_and_kept(partner, project, fee, typed, sentence):
    answer = split(partner, project, fee, typed)
    assert answer.status_code == 422 and sentence in text(answer)
    assert not fee.milestones.exists()
    if typed:
        assert typed.splitlines()[0] in answer.content.decode()


def test_a_fee_that_has_parts_is_not_split_again(partner, project, fee):
    part(fee)
    answer = split(partner, project, fee, "50 % Now\n50 % Then")
    assert answer.status_code == 422 and "has parts already" in text(answer)
    assert fee.milestones.count() == 1


def test_parts_never_exceed_the_fee(partner, project, fee):
    part(fee, 233_333)
    answer = add(partner, project, fee, cents="1,000.01")
    assert answer.status_code == 422 and "$0.01 more than the $3,333.33" in text(answer)
    assert add(partner, project, fee).status_code == 302
    assert LogEntry.objects.first().sentence.startswith("Added the part “Half”")


def test_a_part_is_due_by_one_of_a_task_a_key_date_and_a_day(partner, project, fee):
    answer = add(partner, project, fee, on="")
    assert answer.status_code == 422 and "one of the three" in text(answer)
    task = TaskFactory(project=project, name="Weld lantern frame")
    answer = add(partner, project, fee, task=task.pk)
    assert answer.status_code == 422 and "Choose one: a task, a key date or a day" in text(answer)
    assert add(partner, project, fee, on="", task=task.pk).status_code == 302


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("cents", "1.000,00", "1,000.00"),
        ("cents", "-5", "zero"),
        ("pay_days", "-1", "Write 0 or more"),
        ("pay_days", "soon", "whole number of days"),
        ("on", "31 May", "There is no such day"),
        ("title", "", "Name it"),
    ],
)
def test_bad_input_of_a_part_is_told_beside_its_field(
    partner, project, fee, field, typed, sentence
):
    answer = add(partner, project, fee, **{field: typed})
    assert answer.status_code == 422 and 'aria-invalid="true"' in text(answer)
    assert not fee.milestones.exists()
    if sentence != "zero":
        assert sentence in text(answer)


def test_a_part_names_no_task_of_another_project(partner, project, fee):
    other = TaskFactory(project=planned_project(), name="Elsewhere")
    assert add(partner, project, fee, on="", task=other.pk).status_code == 422


def test_a_part_follows_its_task_and_its_key_date_on_the_plan(project, fee):
    walk = KeyDateFactory(project=project, name="Walk", kind="public", on=PUBLIC)
    part(fee, on=None, key_date=walk, pay_days=14)
    [row] = fund_parts(fee, TODAY).rows
    assert (row.on, row.pays_on) == (PUBLIC, PUBLIC + timedelta(14))


def test_a_part_is_done_at_the_end_of_its_task(project, fee):
    task = TaskFactory(project=project, name="Weld lantern frame")
    row, end = part(fee, on=None, task=task), date(2031, 4, 9)
    days = TaskDays(
        pk=task.pk,
        name=task.name,
        start=date(2031, 4, 1),
        finish=end,
        late_finish=end,
        order_id=None,
        supplier_id=None,
        to_end=False,
        finished=False,
    )
    assert falls_on(row, replace(plan(), tasks={task.pk: days})) == end
    assert falls_on(row, None) is None


def test_the_fund_says_what_is_in_no_part(partner, project, fee):
    part(fee)
    page = text(partner.get(url("fund", project, fee.pk)))
    assert "$1,666.66 of the $3,333.33 is in no part yet." in page


def test_a_part_that_is_done_may_be_invoiced_and_is_late_when_its_days_are_over(
    partner, project, fee
):
    row = part(fee, on=date(2031, 2, 1), pay_days=20)
    page = text(partner.get(url("claims", project)))
    assert "“Half at the walk” is done: $1,666.67 may be invoiced." in page
    invoice(partner, project, row, day="2031-02-02")
    assert not fund_parts(fee, TODAY).rows[0].may_be_asked
    page = text(partner.get(url("claims", project)))
    assert "$1,666.67 of Town commission fee is 9 days late." in page
    [line] = overview.claims_panel(project, TODAY).rows
    assert (line.level, line.detail) == (Level.BROKEN, "9 days late")


def test_an_invoice_has_a_number_of_its_own_and_is_not_still_to_come(partner, project, fee):
    first, second = part(fee), part(fee, title="The other half", cents=166_666)
    assert invoice(partner, project, first).status_code == 302
    answer = invoice(partner, project, second)
    assert answer.status_code == 422 and "that of “Half at the walk”" in text(answer)
    answer = invoice(partner, project, second, "HL-8", "2031-03-04")
    assert answer.status_code == 422 and "is still to come" in text(answer)


def test_a_part_is_paid_in_parts_and_never_more_than_it_is(partner, project, fee):
    row = part(fee)
    pay(partner, project, row, "1,000")
    answer = pay(partner, project, row, "666.68")
    assert answer.status_code == 422 and "no more than $666.67 now" in text(answer)
    assert pay(partner, project, row, "666.67").status_code == 302
    [found] = fund_parts(fee, TODAY).rows
    assert (found.left, found.level) == (0, Level.HOLDS)


def test_what_came_bounds_what_a_part_may_be_lowered_to(partner, project, fee):
    row = part(fee)
    pay(partner, project, row, "1,000")
    edit = url("milestone-edit", project, row.pk)
    values = {"title": "Half", "cents": "999.99", "on": "2031-03-01", "pay_days": "30"}
    answer = partner.post(edit, values)
    assert answer.status_code == 422 and "$1,000 of it has come already" in text(answer)


def test_a_part_with_money_or_an_invoice_stays(partner, project, fee):
    row = part(fee)
    invoice(partner, project, row)
    answer = partner.post(url("milestone-delete", project, row.pk))
    assert answer.status_code == 409 and "invoiced on" in text(answer)
    pay(partner, project, row, "1")
    answer = partner.post(url("milestone-delete", project, row.pk))
    assert answer.status_code == 409 and "Money came for it" in text(answer)
    assert Milestone.objects.exists()


def test_a_part_that_nobody_asked_for_is_taken_out(partner, project, fee):
    row = part(fee)
    partner.post(url("milestone-delete", project, row.pk))
    assert not Milestone.objects.exists()


def test_money_of_a_part_is_corrected_and_taken_out(partner, project, fee):
    row = part(fee)
    pay(partner, project, row, "1,000")
    came = Income.objects.get()
    edit = url("income-edit", project, came.pk)
    partner.post(edit, {"cents": "900", "day": "2031-03-01", "what": "By cheque"})
    came.refresh_from_db()
    assert (came.cents, came.milestone) == (90_000, row)
    answer = partner.post(edit, {"cents": "1,666.68", "day": "2031-03-01"})
    assert answer.status_code == 422 and "no more than $1,666.67 now" in text(answer)
    partner.post(url("income-delete", project, came.pk))
    assert not Income.objects.exists()


def test_a_slip_tells_which_part_would_be_paid_later_and_which_report_is_due_then(project, fee):
    rule(fee, "report_due", what="Final report", days=10, after="public_date")
    walk = KeyDateFactory(project=project, name="Walk", kind="public", on=PUBLIC)
    part(fee, on=None, key_date=walk)
    part(fee, title="Half at the signature", on=date(2031, 1, 4), cents=166_666)
    before = replace(plan(), key_dates={walk.pk: PUBLIC})
    later = PUBLIC + timedelta(7)
    after = replace(plan(later), key_dates={walk.pk: later})
    first, second = claim_ripples(project, before, after)
    assert (first.level, "its $1,666.67" in first.says) == (Level.NEAR, True)
    assert first.subject == "“Half at the walk”, Town commission fee"
    assert second.subject == "Final report, Town commission fee"
    assert list(claim_ripples(project, before, before)) == []


def test_a_part_that_was_invoiced_moves_no_more(project, fee):
    walk = KeyDateFactory(project=project, name="Walk", kind="public", on=PUBLIC)
    part(fee, on=None, key_date=walk, invoice_no="1", invoiced_on=TODAY)
    before = replace(plan(), key_dates={walk.pk: PUBLIC})
    after = replace(before, key_dates={walk.pk: PUBLIC + timedelta(7)})
    assert list(claim_ripples(project, before, after)) == []


def test_a_reader_sees_parts_and_changes_none(reader, project, fee):
    row = part(fee)
    page = text(reader.get(url("fund", project, fee.pk)))
    assert "Half at the walk" in page and "Take out" not in page
    assert pay(reader, project, row, "1").status_code == 403
    assert add(reader, project, fee).status_code == 403
