"""What the sheet adds up: committed, spent, left, unassigned."""

from __future__ import annotations

import pytest

from budgets import fit
from budgets.models import BudgetLine, Draw
from budgets.selectors.left import money_left
from budgets.selectors.lines import line_rows, orders_of
from tests.budgets.factories import (
    claim,
    claimed_match,
    counted,
    credit,
    expense,
    fund,
    line,
    order,
    rule,
    share,
)
from tests.factories import TODAY

pytestmark = pytest.mark.django_db


def state(project):
    lines = BudgetLine.objects.filter(project=project)
    return line_rows(lines, orders_of(project), fit.read(project))[0].state


def test_an_order_is_committed_once_it_is_placed(project):
    order(project, paid_from=line(project, planned_cents=1_000_000))
    assert (state(project).committed, state(project).left) == (600_000, 400_000)


@pytest.mark.parametrize("never", ["planned", "cancelled"])
def test_an_order_that_is_planned_or_cancelled_commits_nothing(project, never):
    order(project, paid_from=line(project), state=never)
    assert state(project).committed == 0


def test_a_deposit_is_never_counted_twice(project):
    weld = line(project, planned_cents=1_000_000)
    frame = order(project, paid_from=weld)
    expense(project, 250_000, line=weld, order=frame)
    found = state(project)
    assert (found.committed, found.spent, found.left) == (350_000, 250_000, 400_000)


def test_a_bill_above_its_order_leaves_nothing_committed(project):
    weld = line(project, planned_cents=1_000_000)
    expense(project, 650_000, line=weld, order=order(project, paid_from=weld, state="delivered"))
    assert (state(project).committed, state(project).left) == (0, 350_000)


def test_money_left_is_signed_money_less_spent_and_committed(project):
    fund(project, award_cents=1_000_000)
    fund(project, "Fern Society", award_cents=500_000, status="applied")
    expense(project, 120_000, payee="Volunteer crew", in_kind=True)
    expense(project, 20_000)
    order(project, 300_000)
    found = money_left(project)
    assert (found.pot, found.left) == (1_000_000, 680_000)


def test_own_money_brings_in_what_it_pays(project):
    own = fund(project, "Own money", kind="own", award_cents=0)
    share(expense(project, 20_000), own, 15_000)
    assert (money_left(project).pot, money_left(project).left) == (15_000, -5_000)


def test_a_match_wholly_in_cash_takes_no_gifts_in_kind(project):
    board = fund(project)
    rule(board, "match", numerator=1, denominator=1, basis_points=10_000)
    share(expense(project, 20_000), board, 20_000)
    expense(project, 50_000, payee="Volunteer crew", in_kind=True)
    found = fit.read(project).states[board.pk]
    assert (found.match_needed, found.match_found) == (20_000, 0)


def test_reading_the_books_takes_thirteen_queries_however_long(project, django_assert_num_queries):
    board = fund(project)
    for cents in range(1, 31):
        share(expense(project, cents), board, cents)
    with django_assert_num_queries(13):
        books = fit.read(project)
        assert books.states[board.pk].charged == 465


def test_a_refund_lowers_what_its_line_spent_and_leaves_the_order_settled(project):
    weld = line(project, planned_cents=1_000_000)
    bill = expense(project, 600_000, line=weld, order=order(project, paid_from=weld))
    credit(bill, 25_000)
    found = state(project)
    assert (found.committed, found.spent, found.left) == (0, 575_000, 425_000)


def test_a_refund_comes_back_to_the_money_left(project):
    fund(project, award_cents=1_000_000)
    credit(expense(project, 20_000), 5_000)
    assert money_left(project).left == 985_000


def test_an_expense_is_judged_net_of_what_came_back(project):
    bill = expense(project, 20_000)
    credit(bill, 5_000)
    credit(bill, 1_000)
    books = fit.read(project)
    assert books.expense_values[bill.pk].amount == 14_000
    assert books.unassigned == {bill.pk: 14_000}


def test_a_draw_moves_budget_from_contingency_to_the_line_that_needs_it(project):
    paint = line(project, planned_cents=400_000)
    spare = line(project, "Contingency", category="contingency", planned_cents=50_000)
    Draw.objects.create(
        project=project, source=spare, target=paint, cents=20_000, day=TODAY, reason="More primer"
    )
    rows = line_rows([paint, spare], [], fit.read(project))
    assert [row.state.left for row in rows] == [420_000, 30_000]


def test_a_filed_claim_locks_its_cents_and_a_draft_locks_none(project):
    board = fund(project)
    bill, gift = expense(project, 20_000), expense(project, 9_000, in_kind=True)
    filed = claim(board, (bill, 15_000))
    claimed_match(filed, gift, 9_000)
    claim(board, (bill, 1_000), state="draft")
    books = fit.read(project)
    assert books.locked == {(bill.pk, board.pk): 15_000}
    assert books.locked_match == {(gift.pk, board.pk, None): 9_000}


def test_a_correction_frees_what_it_takes_back(project):
    board, bill = fund(project), expense(project, 20_000)
    claim(board, (bill, 15_000))
    claim(board, (bill, -15_000))
    assert fit.read(project).locked == {}


def test_what_counts_as_match_is_read_with_who_pays_it(project):
    board, ward = fund(project), fund(project, "Riverside Ward improvement fund")
    bill = expense(project, 20_000)
    counted(bill, board, 12_000, ward)
    assert fit.read(project).counted_of == {bill.pk: {(board.pk, ward.pk): 12_000}}
