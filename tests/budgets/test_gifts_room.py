"""Gifts kind by kind: their worth, their evidence, their papers, the seven tests."""

from __future__ import annotations

import json
from datetime import date, time

import pytest

from budgets import fit
from budgets.engine.evidence import CHECKS
from budgets.models import Expense, GiftKind, Hours, PaperKind, Unit
from budgets.selectors.gift_kinds import evidence, kinds
from budgets.selectors.gift_kinds import tests as questions
from budgets.selectors.gifts import gift_sheet
from tests.budgets.factories import (
    HTMX,
    claim,
    claimed_match,
    counted,
    expense,
    fund,
    line,
    paper,
    rule,
    url,
)
from tests.factories import ProjectFactory

pytestmark = pytest.mark.django_db

NINE, NOON = time(9), time(12)


def sheet(*rows: dict[str, str]) -> dict[str, str]:
    found = {"rows-TOTAL_FORMS": str(len(rows) + 1), "rows-INITIAL_FORMS": "0"}
    for at, row in enumerate(rows):
        found.update({f"rows-{at}-{name}": value for name, value in row.items()})
    return found


def worked(person: str = "Ida", **more: str) -> dict[str, str]:
    fields = {"person": person, "day": "2031-03-01", "starts": "09:00", "ends": "12:00"}
    return {**fields, "what": "Prime the wall", **more}


def told(paid_from, **more: str) -> dict[str, str]:
    fields = {"payee": "Volunteer crew", "line": str(paid_from.pk), "what": "Priming"}
    return {**fields, "basis": "Pay scale of the town", "need": "Two coats in one day", **more}


def give(client, project, kind: str, fields):
    return client.post(f"{url('gift-add', project)}?kind={kind}", fields)


def hours(gift: Expense, **more) -> Hours:
    fields = {"person": "Ida", "day": date(2031, 3, 1), "starts": NINE, "ends": NOON}
    rest = {"hundredths": 300, "what": "Prime", "supervisor": "Ben", "signed": True}
    return Hours.objects.create(expense=gift, **{**fields, **rest, **more})


def gift(project, kind: str = "skilled", **more) -> Expense:
    fields = {"payee": "Volunteer crew", "basis": "Pay scale", "what": "Priming"}
    return expense(
        project, more.pop("cents", 9_000), in_kind=True, gift_kind=kind, **{**fields, **more}
    )


# The data


def test_every_kind_of_gift_has_its_value_its_evidence_and_its_source():
    assert set(kinds()) == set(GiftKind.values)
    for kind in kinds().values():
        assert kind.value and kind.source and kind.example and kind.basis
        assert set(kind.evidence) <= set(CHECKS) == set(evidence())
        assert kind.paper in PaperKind.values and kind.unit in Unit.values
    assert len(questions()) == 7


# Logging


def test_a_time_sheet_becomes_one_gift_worth_its_hours_at_the_rate(partner, project):
    fields = told(line(project), rate="30", skill="on")
    lines = sheet(worked(signed="on"), worked("Jo", starts="", ends="", hundredths="2.25"))
    assert give(partner, project, "skilled", {**fields, **lines}).status_code == 302
    made = Expense.objects.get()
    assert (made.cents, made.quantity_hundredths, made.unit) == (15_750, 525, "hour")
    assert (made.in_kind, made.gift_kind, made.paid_on) == (True, "skilled", None)
    assert [(row.person, row.hundredths, row.signed) for row in made.hours.all()] == [
        ("Ida", 300, True),
        ("Jo", 225, False),
    ]


def test_the_flat_value_follows_the_year_of_the_work(partner, project):
    """Independent Sector: 31.80 in 2022, 29.95 in 2021."""
    lines = sheet(worked(day="2021-12-31"), worked(day="2022-01-01"))
    give(partner, project, "flat", {**told(line(project)), **lines})
    made = Expense.objects.get()
    assert made.cents == 3 * 29_95 + 3 * 31_80
    page = partner.get(url("expense", project, made.pk)).content.decode()
    assert "3 at $29.95 is $89.85." in page and "3 at $31.80 is $95.40." in page


def test_a_flat_rate_that_is_the_last_one_known_is_marked(partner, project):
    give(partner, project, "flat", {**told(line(project)), **sheet(worked())})
    page = partner.get(url("expense", project, Expense.objects.get().pk)).content.decode()
    assert "Rate known until" in page


@pytest.mark.parametrize(
    ("kind", "fields", "cents"),
    [
        ("goods", {"quantity": "6", "rate": "42"}, 25_200),
        ("loan", {"quantity": "9", "rate": "65"}, 58_500),
        ("space", {"quantity": "120.5", "unit": "m2", "rate": "1.10"}, 13_255),
        ("discount", {"listed": "412", "paid": "350"}, 6_200),
    ],
)
def test_other_gifts_are_worth_a_quantity_at_a_rate_or_what_was_taken_off(
    partner, project, kind, fields, cents
):
    answer = give(partner, project, kind, {**told(line(project)), "day": "2031-03-01", **fields})
    assert answer.status_code == 302
    assert Expense.objects.get().cents == cents


def test_a_volunteers_miles_are_a_gift_at_the_rate_of_the_law(partner, project):
    legs = {"legs-TOTAL_FORMS": "1", "legs-INITIAL_FORMS": "0", "legs-0-day": "2031-03-01",
            "legs-0-start": "Mill Lane", "legs-0-end": "Nursery", "legs-0-miles": "42",
            "legs-0-purpose": "Fetch the ferns"}  # fmt: skip
    give(partner, project, "miles", {**told(line(project)), **legs})
    made = Expense.objects.get()
    assert (made.cents, made.quantity_hundredths, made.unit) == (588, 4_200, "mile")


WRONG = [
    ("skilled", {"rate": "30"}, {}, "A trade’s rate is only for work that needs the trade."),
    ("staff", {"rate": ""}, {}, "Write an amount"),
    ("staff", {"rate": "€30"}, {}, "is in euros"),
    ("staff", {"rate": "30"}, {"ends": "08:00"}, "The end is not after the start."),
    ("staff", {"rate": "30"}, {"ends": ""}, "Start and end belong together."),
    ("staff", {"rate": "30"}, {"starts": "", "ends": ""}, "Write how many hours"),
    (
        "staff",
        {"rate": "30"},
        {"hundredths": "4"},
        "Start and end are 3 hours apart; 4 do not fit.",
    ),
    ("staff", {"rate": "30"}, {"hundredths": "1,5"}, "Write a number of at most two decimals"),
    ("staff", {"rate": "30"}, {"day": "2031-03-04"}, "is still to come."),
    ("staff", {"rate": "30"}, {"day": "1999-03-04"}, "Choose a day between the years 2000"),
    ("staff", {"rate": "30"}, {"person": ""}, "Write who worked."),
    ("staff", {"rate": "30"}, {"starts": "9 o’clock"}, "Write a time such as 9:30 or 14:00."),
    ("flat", {}, {"day": "2001-03-01"}, "No rate is known for Thu 1 Mar."),
]


@pytest.mark.parametrize(("kind", "fields", "row", "sentence"), WRONG)
def test_a_wrong_sheet_is_refused_and_nothing_typed_is_lost(
    partner, project, kind, fields, row, sentence
):
    lines = sheet({**worked("Tamsin"), **row} if "person" not in row else {**worked(), **row})
    answer = give(partner, project, kind, {**told(line(project), **fields), **lines})
    page = answer.content.decode()
    assert answer.status_code == 422 and sentence in page
    assert 'value="Prime the wall"' in page and not Expense.objects.exists()


def test_a_pause_is_written_as_fewer_hours_than_start_and_end(partner, project):
    lines = sheet(worked(hundredths="2.5"))
    give(partner, project, "staff", {**told(line(project), rate="30"), **lines})
    assert Expense.objects.get().cents == 7_500


def test_nobody_works_twice_at_the_same_time(partner, project):
    lines = sheet(worked(), worked("ida", starts="11:00", ends="13:00"))
    answer = give(partner, project, "staff", {**told(line(project), rate="30"), **lines})
    assert answer.status_code == 422
    assert "Ida has another line at that time." in answer.content.decode()


def test_a_sheet_without_a_line_is_no_gift(partner, project):
    answer = give(partner, project, "staff", {**told(line(project), rate="30"), **sheet()})
    assert "Write at least one line" in answer.content.decode()


def test_more_lines_keep_what_is_typed(partner, project):
    fields = {**told(line(project), rate="30"), **sheet(worked()), "more": "1"}
    answer = give(partner, project, "staff", fields)
    page = answer.content.decode()
    assert answer.status_code == 200 and 'value="Prime the wall"' in page
    assert page.count("<legend>Line") == 6 and not Expense.objects.exists()


@pytest.mark.parametrize("total", ["", "x", "999999999", "-1"])
def test_a_sheet_that_was_tampered_with_breaks_nothing(partner, project, total):
    fields = {**told(line(project), rate="30"), **sheet(worked()), "rows-TOTAL_FORMS": total}
    for more in ({}, {"more": "1"}):
        assert give(partner, project, "staff", {**fields, **more}).status_code in (200, 422)
    assert not Expense.objects.exists()


@pytest.mark.parametrize(
    ("kind", "fields", "sentence"),
    [
        ("discount", {"listed": "350", "paid": "350"}, "no less than the list price"),
        ("goods", {"quantity": "0", "rate": "4"}, "Write a number above zero"),
        ("goods", {"quantity": "100000", "rate": "10000000"}, "more than 10,000,000"),
        ("goods", {"quantity": "0.01", "rate": "0.01"}, "less than a cent"),
        ("space", {"quantity": "2", "rate": "5", "unit": "mile"}, "That is not in the list."),
    ],
)
def test_what_is_no_gift_is_said(partner, project, kind, fields, sentence):
    answer = give(partner, project, kind, {**told(line(project)), "day": "2031-03-01", **fields})
    assert answer.status_code == 422 and sentence in answer.content.decode()


def test_a_gift_is_changed_with_its_lines(partner, project):
    given = gift(project)
    hours(given)
    page = partner.get(url("gift-edit", project, given.pk)).content.decode()
    assert 'value="Ida"' in page and 'value="09:00"' in page
    fields = {**told(given.line, rate="40", skill="on"), **sheet(worked("Jo"))}
    assert partner.post(url("gift-edit", project, given.pk), fields).status_code == 302
    given.refresh_from_db()
    assert (given.cents, given.hours.get().person) == (12_000, "Jo")


def test_a_second_who_changes_the_same_gift_sees_the_lines_of_the_first(owner, partner, project):
    given = gift(project)
    hours(given)
    fields = {**told(given.line, rate="40", skill="on"), **sheet(worked("Jo"))}
    path = url("gift-edit", project, given.pk)
    carried = {"version": "1", "was": json.dumps({"what": "Priming"})}
    owner.post(path, {**fields, **carried})
    answer = partner.post(path, {**fields, **carried, **sheet(worked("Wilf"))}, headers=HTMX)
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "These lines are saved now" in page and "Jo, Prime the wall" in page
    assert 'value="Wilf"' in page


def test_a_gift_without_a_kind_is_asked_for_one_first(partner, project):
    old = expense(project, in_kind=True)
    page = partner.get(url("gift-edit", project, old.pk)).content.decode()
    assert page.count("?kind=") == len(kinds())


def test_a_gift_is_never_changed_as_if_it_were_a_bill(partner, project):
    given = gift(project)
    path, own = url("expense-edit", project, given.pk), url("gift-edit", project, given.pk)
    assert partner.get(path).url == partner.post(path, {}).url == own


def test_a_gift_in_a_filed_claim_may_not_shrink(partner, project):
    given, board = gift(project), fund(project)
    counted(given, board, 9_000)
    claimed_match(claim(board), given, 9_000)
    fields = {**told(given.line, rate="10", skill="on"), **sheet(worked())}
    answer = partner.post(url("gift-edit", project, given.pk), fields)
    assert answer.status_code == 422 and "stands in claim 1" in answer.content.decode()


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"payee": "Lockside Upholstery"}, "It was “Volunteer crew” in claim 1"),
        ({"rows-0-day": "2031-02-02"}, "in claim 1 on"),
    ],
)
def test_what_a_filed_claim_was_told_of_a_gift_stays(partner, project, changes, says):
    given, board = gift(project), fund(project)
    counted(given, board, 9_000)
    claimed_match(claim(board), given, 9_000)
    fields = {**told(given.line, rate="30", skill="on"), **sheet(worked()), **changes}
    answer = partner.post(url("gift-edit", project, given.pk), fields)
    assert answer.status_code == 422 and says in answer.content.decode()


# The room


def test_an_empty_room_teaches(reader, project):
    page = reader.get(url("gifts", project)).content.decode()
    assert "No gift yet." in page and "What each kind must show" in page


def test_the_room_opens_with_worth_count_and_what_waits(project):
    given, board = gift(project), fund(project)
    hours(given)
    hours(given, person="Jo", hundredths=600, signed=False)
    paper(given, "timesheet")
    counted(given, board, 2_000)
    found = gift_sheet(project)
    assert found.sentence == (
        "$90 was given in 1 gift; $20 of it counts as match. $60 waits for evidence: "
        "Volunteer crew."
    )
    row = found.groups[0].rows[0]
    assert (row.stands, row.waits) == (3_000, 6_000)
    assert row.gaps == ("1 of 2 lines are not signed",)


def test_a_missing_paper_takes_the_whole_gift_down(project):
    given = gift(project)
    hours(given)
    assert gift_sheet(project).groups[0].rows[0].stands == 0
    paper(given, "timesheet")
    assert gift_sheet(project).groups[0].rows[0].stands == 9_000


def test_a_loan_needs_a_letter_or_three_quotes(project):
    lent = gift(project, "loan")
    paper(lent, "quote")
    assert "nor three quotes" in gift_sheet(project).groups[0].rows[0].gaps[0]
    for name in "ab":
        paper(lent, "quote").sha256 = name
    assert gift_sheet(project).groups[0].rows[0].gaps == ()


def test_the_room_reads_in_a_constant_number_of_queries(project, django_assert_max_num_queries):
    for _ in range(6):
        given = gift(project)
        hours(given)
        paper(given, "timesheet")
    with django_assert_max_num_queries(20):
        gift_sheet(project)


# The seven tests


def answers(client, project, given) -> str:
    return " ".join(client.get(url("expense", project, given.pk)).content.decode().split())


def test_a_gift_for_two_federal_awards_fails_the_second_test(partner, project):
    given = gift(project)
    for name in ("National arts grant", "Regional arts grant"):
        counted(given, fund(project, name, kind="federal"), 1_000)
    page = answers(partner, project, given)
    assert "It counts for National arts grant and Regional arts grant." in page


def test_what_a_fund_bars_is_barred_as_match_too(partner, project):
    given, board = gift(project), fund(project)
    rule(board, "match", numerator=1, denominator=1)
    assert "would take it as match." in answers(partner, project, given)
    rule(board, "barred_categories", categories=["materials"])
    assert "would take it as match." not in answers(partner, project, given)


def test_own_unpaid_hours_are_flagged(partner, project):
    given = gift(project, "own_hours")
    assert "Many funders do not count the artist" in answers(partner, project, given)


# Paper


def printed(answer) -> bytes:
    assert answer.status_code == 200 and answer["Content-Type"] == "application/pdf"
    return answer.content


def test_a_blank_time_sheet_is_printed_for_signing(reader, project):
    assert printed(reader.get(url("blank-sheet", project))).startswith(b"%PDF-")


def test_a_filled_time_sheet_and_a_letter_are_printed(reader, project):
    given = gift(project)
    hours(given)
    assert printed(reader.get(url("time-sheet", project, given.pk)))
    assert printed(reader.get(url("gift-letter", project, given.pk)))


def test_all_lines_are_marked_as_signed_at_once(partner, project):
    given = gift(project)
    hours(given, signed=False)
    partner.post(url("hours-signed", project, given.pk))
    assert given.hours.get().signed


def test_a_gift_of_another_project_is_not_found(partner, project):
    other = gift(ProjectFactory(name="Two Herons"))
    for name in ("gift-edit", "time-sheet", "gift-letter"):
        assert partner.get(url(name, project, other.pk)).status_code == 404


def test_the_engine_reads_a_gift_net_of_nothing(project):
    assert fit.read(project).expense_values == {}
    given = gift(project)
    assert fit.read(project).expense_values[given.pk].gift == "skilled"
