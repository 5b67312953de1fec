"""The best fit of a project's books: figures, words, and what a paper is worth."""

from __future__ import annotations

import pytest

from budgets.engine import best as optimum
from budgets.fit.best import best
from budgets.fit.fixes import fixes_of, worth
from budgets.fit.wish import Wish
from budgets.models import BudgetLine
from budgets.selectors.best import best_sheet
from budgets.selectors.worth import own_by_worth, why_not
from tests.budgets.factories import (
    claim,
    claimed_match,
    counted,
    credit,
    expense,
    fund,
    line,
    order,
    paper,
    rule,
    share,
    url,
)
from tests.factories import TODAY, ProjectFactory

pytestmark = pytest.mark.django_db
ACTUAL = Wish(forecasts=False)


def flexible_and_lights(project):
    """Flexible money took the lights, so that nothing is left for the paint."""
    flex = fund(project, "Ward fund", award_cents=500_000)
    lights = fund(project, "Lights fund", award_cents=500_000)
    rule(lights, "allowed_categories", categories=["install"])
    lamp = expense(project, 500_000, category="install", payee="Spindle Electrical Supply")
    paint = expense(project, 500_000, payee="Ledger Street Paints")
    share(lamp, flex, 500_000)
    BudgetLine.objects.filter(project=project).update(planned_cents=500_000)
    return flex, lights, lamp, paint


def test_flexible_money_makes_room_for_what_only_it_may_pay(project):
    flex, lights, lamp, paint = flexible_and_lights(project)
    found = best(project, TODAY)
    assert (found.fit.used, found.fit.bound, found.first.used) == (1_000_000, 1_000_000, 500_000)
    after = {change.expense: dict(change.after.shares) for change in found.changes}
    assert after == {lamp: {lights.pk: 500_000}, paint: {flex.pk: 500_000}}


def test_a_fit_that_gains_nothing_leaves_all_as_it_is(project):
    one, two = fund(project, "Ward fund"), fund(project, "Traders")
    for cents, payer in ((30_000, one), (20_000, two), (10_000, one)):
        share(expense(project, cents), payer, cents)
    assert best(project, TODAY, ACTUAL).changes == ()


def test_what_nobody_pays_is_charged_and_what_stands_stays(project):
    one = fund(project, "Ward fund", award_cents=45_000)
    kept, new = expense(project, 30_000), expense(project, 20_000)
    share(kept, one, 30_000)
    found = best(project, TODAY, ACTUAL)
    assert [change.expense for change in found.changes] == [new]
    assert found.changes[0].after.shares == {one.pk: 15_000}
    assert found.own == {new.pk: 5_000}


def test_own_money_goes_on_paying_what_funds_leave(project):
    ward = fund(project, "Ward fund", award_cents=15_000)
    own = fund(project, "Own money", kind="own", award_cents=0)
    bill = expense(project, 20_000)
    share(bill, own, 20_000)
    (change,) = best(project, TODAY, ACTUAL).changes
    assert change.after.shares == {ward.pk: 15_000, own.pk: 5_000}


def test_gifts_in_kind_stay_with_their_fund_and_count_as_match(project):
    board, hours = fund(project, "Arts board"), fund(project, "Hours", kind="in_kind")
    rule(board, "match", numerator=1, denominator=1)
    gift, bill = expense(project, 20_000, in_kind=True), expense(project, 30_000)
    share(gift, hours, 20_000)
    found = best(project, TODAY, ACTUAL)
    assert found.fit.used == 25_000
    assert found.after[gift.pk].shares == {hours.pk: 20_000}
    assert found.after[gift.pk].counted == {(board.pk, None): 20_000}
    assert found.after[bill.pk].counted == {(board.pk, None): 5_000}


def test_what_is_claimed_is_locked(project):
    flex, _, lamp, _ = flexible_and_lights(project)
    claim(flex, (lamp, 500_000))
    found = best(project, TODAY)
    assert found.fit.used == 500_000 and found.changes == ()


def test_match_that_is_claimed_is_locked(project):
    board, ward = fund(project, "Arts board"), fund(project, "Ward fund", award_cents=20_000)
    rule(board, "match", numerator=1, denominator=1)
    bill, other = expense(project, 20_000), expense(project, 20_000)
    share(bill, board, 20_000)
    share(other, ward, 20_000)
    counted(other, board, 20_000, ward)
    claimed_match(claim(board, (bill, 20_000)), other, 20_000, ward)
    assert best(project, TODAY, ACTUAL).changes == ()


def test_what_a_closed_fund_paid_stays(project):
    old = fund(project, "Fern Society", award_cents=20_000)
    fund(project, "Ward fund")
    bill = expense(project, 20_000)
    share(bill, old, 20_000)
    old.status = "closed"
    old.save()
    assert best(project, TODAY, ACTUAL).changes == ()


def test_a_refund_is_never_charged(project):
    ward, bill = fund(project, "Ward fund"), expense(project, 20_000)
    credit(bill, 4_000)
    (change,) = best(project, TODAY, ACTUAL).changes
    assert change.after.shares == {ward.pk: 16_000}


def test_what_is_still_to_be_spent_keeps_narrow_needs_open(project):
    """Paint can go to either; the frame, still to be paid, only to the arts board."""
    board = fund(project, "Arts board", award_cents=20_000)
    ward = fund(project, "Ward fund", award_cents=20_000)
    rule(ward, "allowed_categories", categories=["materials"])
    weld = line(project, "Frame", category="fabrication", planned_cents=20_000)
    order(project, 20_000, paid_from=weld)
    paint = expense(project, 20_000)
    share(paint, board, 20_000)
    BudgetLine.objects.exclude(pk=weld.pk).update(planned_cents=20_000)
    found = best(project, TODAY)
    assert found.fit.used == 40_000
    assert found.after[paint.pk].shares == {ward.pk: 20_000}
    (row,) = found.forecasts
    assert dict(found.planned_of[row.key]) == {board.pk: 20_000}
    assert best(project, TODAY, ACTUAL).changes == ()


def test_a_fund_that_is_offered_counts_in_a_what_if_only(project):
    fund(project, "Fern Society", status="offered", award_cents=20_000)
    expense(project, 20_000)
    assert best(project, TODAY, ACTUAL).fit.used == 0
    found = best(project, TODAY, Wish(forecasts=False, offered=True))
    assert found.fit.used == 20_000
    assert not best_sheet(found).may_accept


def test_a_missing_proof_of_payment_is_worth_what_it_frees(project):
    board = fund(project, "Arts board", award_cents=90_000)
    rule(board, "papers_needed", papers=["receipt", "payment"])
    bill, bare = expense(project, 58_333), expense(project, 90_000)
    paper(bill)
    paper(bare)
    paper(bare, "payment")
    found = best(project, TODAY, ACTUAL)
    (fix,) = fixes_of(found, found.books.expense_values[bill.pk])
    assert fix.words == ("add the proof of payment",)
    assert worth(found, fix) == 0  # the award is used up by the other bill
    board.award_cents = 200_000
    board.save()
    found = best(project, TODAY, ACTUAL)
    assert worth(found, fix) == 58_333
    (row,) = own_by_worth(found)
    assert (row.expense, row.cents, row.worth) == (bill, 58_333, 58_333)
    assert row.says == "Add the proof of payment."


def test_own_money_is_sorted_by_what_could_be_recovered(project):
    board = fund(project, "Arts board", award_cents=200_000)
    rule(board, "papers_needed", papers=["receipt"])
    rule(board, "barred_categories", categories=["food"])
    food = expense(project, 90_000, category="food")
    small, large = expense(project, 10_000), expense(project, 20_000)
    rows = own_by_worth(best(project, TODAY, ACTUAL))
    assert [row.expense for row in rows] == [large, small, food]
    assert [row.worth for row in rows] == [20_000, 10_000, 0]
    assert rows[-1].says == "No fund may pay it."


def test_why_not_names_rule_number_date_and_worth(project):
    late = fund(project, "Late fund", period_start="2031-03-02", period_end=None)
    board = fund(project, "Arts board", award_cents=200_000)
    rule(board, "papers_needed", papers=["payment"])
    bill = expense(project, 20_000)
    first, second = why_not(best(project, TODAY, ACTUAL), bill)
    assert first.fund == late and "2 March 2031" in first.reasons[0][0] and not first.worth
    assert second.worth == 20_000 and second.todo == "Add the proof of payment."
    assert second.url.endswith("#papers")


def test_a_fund_with_room_says_which_rule_is_in_the_way(project):
    board = fund(project, "Arts board", award_cents=50_000)
    rule(board, "match", numerator=1, denominator=1)
    expense(project, 30_000)
    found = best(project, TODAY, ACTUAL)
    assert found.fit.used == 15_000
    (words,) = best_sheet(found).funds
    assert words.why.startswith("Arts board lacks match: $")
    assert words.short == "more match would free more of it"


def test_without_plans_what_is_left_of_a_fund_waits_for_what_is_still_to_be_spent(project):
    board = fund(project, "Arts board", award_cents=50_000)
    rule(board, "match", numerator=1, denominator=1)
    share(expense(project, 10_000), fund(project, "Ward fund", award_cents=10_000), 10_000)
    expense(project, 10_000)
    sheet = best_sheet(best(project, TODAY, ACTUAL))
    assert sheet.funds[0].why.startswith("All that is spent so far that it may pay is paid.")
    assert "is left for what is still to be spent" in sheet.matters.sentence


def test_match_that_nobody_needed_is_not_in_the_way(project):
    board = fund(project, "Arts board", award_cents=50_000)
    rule(board, "match", numerator=1, denominator=1)
    rule(board, "category_cap", categories=["materials"], cents=5_000)
    expense(project, 30_000)
    (words,) = best_sheet(best(project, TODAY, ACTUAL)).funds
    assert words.why.startswith("Pays at most $50.00 for materials.")
    assert not words.short


def test_the_sentence_tells_now_best_and_what_would_lapse(project):
    flexible_and_lights(project)
    fund(project, "Fern Society", award_cents=30_000)
    sheet = best_sheet(best(project, TODAY))
    assert sheet.matters.sentence == (
        "Your funds pay $5,000 now; they can pay $10,000, $5,000 more. "
        "$300 of Fern Society would lapse: all that it may pay is paid."
    )
    assert sheet.matters.action == "See 2 changes"
    assert sheet.bound == "Proven: no way of sharing out uses more."
    assert sheet.beside.endswith("the funds would pay $5,300 of $10,000: $4,700 less.")


def test_what_breaks_a_rule_now_is_told_apart(project):
    board = fund(project, "Arts board")
    bill = expense(project, 20_000)
    share(bill, board, 20_000)
    rule(board, "papers_needed", papers=["payment"])
    found = best_sheet(best(project, TODAY, ACTUAL))
    assert "Your funds pay $0 now (and $200 more against their rules)" in found.matters.sentence


def test_the_books_of_another_project_take_no_part(project):
    other = ProjectFactory(name="Two Herons")
    expense(other, 20_000)
    fund(project, "Ward fund")
    found = best(project, TODAY)
    assert found.changes == () and found.fit.used == 0


def test_the_basis_is_the_same_until_the_books_change(project):
    flexible_and_lights(project)
    one = best(project, TODAY).basis
    assert best(project, TODAY).basis == one
    bill = expense(project, 1_000)
    changed = best(project, TODAY).basis
    assert changed != one
    paper(bill)
    assert best(project, TODAY).basis != changed


def test_the_best_fit_passes_the_engine_s_own_checker(project):
    flexible_and_lights(project)
    found = best(project, TODAY)
    assert optimum.check(found.problem, found.fit) == ()


def test_the_page_is_read_in_a_fixed_number_of_queries(reader, project, django_assert_num_queries):
    ward = fund(project, "Ward fund", award_cents=10_000_000)
    for cents in range(1, 31):
        share(expense(project, cents * 100), ward, cents * 100)
    reader.get(url("best", project))
    with django_assert_num_queries(COUNTED_BELOW, exact=False):
        reader.get(url("best", project))


COUNTED_BELOW = 60  # more than the page asks, far fewer than its expenses would


def test_an_empty_book_teaches(reader, project):
    page = reader.get(url("best", project)).content.decode()
    assert "No signed fund is in the books yet" in page and "For Hearthlight" in page


def test_what_is_spent_goes_before_what_is_still_to_be_spent(project):
    """The award pays one of the two; the larger is still to come."""
    board = fund(project, "Arts board", award_cents=20_000)
    bill = expense(project, 20_000, line=line(project, planned_cents=80_000))
    found = best(project, TODAY)
    assert found.after[bill.pk].shares == {board.pk: 20_000}
    assert [row.cents for row in found.forecasts] == [60_000]


def test_what_counts_as_match_stays_where_it_is_as_long_as_nothing_is_lost(project):
    board = fund(project, "Arts board", award_cents=20_000)
    rule(board, "match", numerator=1, denominator=1)
    paint, cloth, thread = (expense(project, 20_000) for _ in range(3))
    share(paint, board, 20_000)
    for part in (cloth, thread):
        counted(part, board, 10_000)
    assert best(project, TODAY, ACTUAL).changes == ()


def test_an_amount_that_cannot_be_read_is_said_and_the_fit_still_shown(reader, project):
    fund(project, "Ward fund")
    expense(project, 20_000)
    answer = reader.get(url("best", project), {"asked": "yes", "least": "1,2O0"})
    page = answer.content.decode()
    assert answer.status_code == 422 and "where a digit should be" in page
    assert 'value="1,2O0"' in page and "What each fund would pay" in page


def test_no_expense_is_split_where_that_is_asked(project):
    one = fund(project, "Ward fund", award_cents=15_000)
    bill, small = expense(project, 20_000), expense(project, 14_000)
    found = best(project, TODAY, Wish(forecasts=False, whole=True))
    assert found.after[bill.pk].shares == {}
    assert found.after[small.pk].shares == {one.pk: 14_000}


def test_too_many_to_keep_whole_is_said_and_they_are_split(reader, project, monkeypatch):
    def refuse(problem):
        if problem.policy.whole_expenses:
            raise optimum.TooManyToKeepWhole(900, 400)
        return fit(problem)

    fit = optimum.best_fit
    monkeypatch.setattr(optimum, "best_fit", refuse)
    fund(project, "Ward fund")
    expense(project, 20_000)
    answer = reader.get(url("best", project), {"asked": "yes", "whole": "yes"})
    assert answer.status_code == 422
    assert "it takes 900 choices, 400 at most" in answer.content.decode()


def test_books_without_an_answer_are_told_so(reader, partner, project, monkeypatch):
    def refuse(problem):
        raise optimum.BestError("The rows contradict each other.")

    monkeypatch.setattr(optimum, "best_fit", refuse)
    fund(project, "Ward fund")
    page = reader.get(url("best", project)).content.decode()
    assert "No best fit can be told for these books" in page
    answer = partner.post(url("best-accept", project), {"asked": "yes", "all": "yes"})
    assert "The rows contradict each other." in answer.content.decode()


def test_what_stands_makes_way_where_more_of_what_is_spent_could_be_charged(project):
    """Held at the ward fund, the lamp would leave the paint unpaid: as much is used in the end."""
    ward = fund(project, "Ward fund", award_cents=10_000)
    lights = fund(project, "Lights fund", award_cents=10_000)
    rule(lights, "allowed_categories", categories=["install"])
    lit = line(project, "Lights", category="install", planned_cents=20_000)
    lamp = expense(project, 10_000, line=lit)
    paint = expense(project, 10_000, line=line(project, planned_cents=10_000))
    share(lamp, ward, 10_000)
    found = best(project, TODAY)
    assert found.fit.used == 20_000
    assert found.after[lamp.pk].shares == {lights.pk: 10_000}
    assert found.after[paint.pk].shares == {ward.pk: 10_000}


def test_first_come_goes_by_the_day_of_the_bill(project):
    """The lamp came last, so that the paint had the ward fund and the lights fund the lamp."""
    fund(project, "Ward fund", award_cents=10_000)
    lights = fund(project, "Lights fund", award_cents=10_000)
    rule(lights, "allowed_categories", categories=["install"])
    expense(project, 10_000, category="install", day="2031-02-20")
    expense(project, 10_000, day="2031-02-10")
    assert best(project, TODAY, ACTUAL).first.used == 20_000


def test_a_paper_mends_nothing_where_another_rule_bars_it_too(project):
    board = fund(project, "Arts board")
    rule(board, "papers_needed", papers=["payment"])
    rule(board, "barred_categories", categories=["food"])
    bill = expense(project, 20_000, category="food")
    found = best(project, TODAY, ACTUAL)
    assert fixes_of(found, found.books.expense_values[bill.pk]) == []
    (row,) = why_not(found, bill)
    assert not row.todo and len(row.reasons) == 2
