"""What money adds to the title block, the overview, a slip and a new project."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from budgets import beginning, overview, ripples, titleblock
from budgets.models import BudgetLine, Fund
from projects.hooks import Beginning, Level, PlanDays, TaskDays
from tests.budgets.factories import expense, fund, line, order, rule, share
from tests.factories import PUBLIC, TODAY

pytestmark = pytest.mark.django_db


def test_the_title_block_says_what_is_left_of_what(project):
    fund(project, award_cents=3_150_000)
    expense(project, 2_732_050)
    cell = titleblock.left(project, TODAY)
    assert (cell.value, cell.detail, cell.level) == ("$4,179", "of $31,500", Level.HOLDS)


def test_money_that_is_overspent_is_broken(project):
    fund(project, award_cents=10_000)
    expense(project, 20_000)
    cell = titleblock.left(project, TODAY)
    assert (cell.value, cell.level) == ("−$100", Level.BROKEN)


def test_without_a_signed_fund_the_title_block_says_so(project):
    fund(project, status="applied")
    assert titleblock.left(project, TODAY).detail == "no fund signed yet"


def test_the_overview_lists_funds_loose_cents_and_missing_receipts(project):
    board = fund(project, award_cents=86_000, period_end=date(2031, 3, 15))
    share(expense(project), board, 5_000)
    rows = overview.money_panel(project, TODAY).rows
    assert [row.text for row in rows] == [
        "Riverside Ward improvement fund: $810 left",
        "$150 in 1 expense without a fund",
        "1 expense without a receipt",
    ]
    assert rows[0].detail == "until Sat 15 Mar, closes in 12 days"


def plan(public: date = PUBLIC, done: date | None = None, last: date | None = None) -> PlanDays:
    return PlanDays(
        tasks={},
        key_dates={},
        public_on=public,
        public_name="Mill Lane Lantern Walk",
        work_done_on=done or public,
        finish_on=last or public,
        in_hand_days=0,
        today=TODAY,
    )


def ripple(project, after: PlanDays):
    return ripples.fund_periods(project, plan(), after)[0]


@pytest.mark.parametrize(
    ("days_after", "level"), [(-8, "holds"), (-7, "near"), (0, "near"), (1, "broken")]
)
def test_a_walk_that_moves_past_the_end_of_a_fund_breaks_it(project, days_after, level):
    board = fund(project, period_end=date(2031, 7, 14))
    found = ripple(project, plan(board.period_end + timedelta(days=days_after)))
    assert (found.subject, found.level) == (board.name, level)


def test_a_fund_that_still_holds_says_its_last_day(project):
    fund(project, period_end=date(2031, 7, 14))
    assert ripple(project, plan()).says == "may be spent until 14 Jul: still inside."


def test_late_work_breaks_a_fund_even_when_the_walk_stands(project):
    fund(project, period_end=date(2031, 6, 20))
    found = ripple(project, plan(done=date(2031, 6, 24)))
    assert found.says == (
        "may be spent until 20 Jun, but the work would end on Tue 24 Jun, 4 days after it."
    )


def test_a_last_task_after_the_end_of_a_fund_needs_a_look(project):
    fund(project, period_end=date(2031, 7, 14))
    found = ripple(project, plan(last=date(2031, 7, 20)))
    assert (found.level, "Sun 20 Jul" in found.says) == (Level.NEAR, True)


def test_a_fund_that_is_not_signed_or_has_no_end_does_not_ripple(project):
    fund(project, status="applied")
    fund(project, "Mill Lane Traders sponsorship", period_end=None)
    assert ripples.fund_periods(project, plan(), plan()) == []


def lift_task(order, last: date, **fields) -> TaskDays:
    known = {"supplier_id": None, "to_end": True, "finished": False, **fields}
    return TaskDays(
        pk=1, name="Lift on site", start=last, finish=last, late_finish=last,
        order_id=order.pk, **known,
    )  # fmt: skip


def bills(project, last: date, **fields):
    """The ripples of a lift of $1,650, half paid, whose work would end on a day."""
    paid_from = line(project, "Lift", category="install")
    lift = order(project, 165_000, paid_from=paid_from, state="placed")
    expense(project, 82_500, line=paid_from, order=lift)
    after = replace(plan(), tasks={1: lift_task(lift, last, **fields)})
    return ripples.late_bills(project, plan(), after)


def test_a_bill_whose_work_ends_after_a_fund_cannot_be_paid_from_it(project):
    fund(project, period_end=date(2031, 6, 20))
    [found] = bills(project, date(2031, 6, 24))
    assert (found.level, found.subject) == (
        Level.BROKEN, "Riverside Ward improvement fund's last bills",
    )  # fmt: skip
    assert found.says == (
        "cannot all be paid from it: the work of “Lantern frame” ($825 still to pay) "
        "would end after its last day, Fri 20 Jun."
    )


def test_a_bill_that_another_fund_can_take_needs_a_look(project):
    fund(project, period_end=date(2031, 6, 20))
    fund(project, "Mill Lane Traders sponsorship", period_end=None)
    assert [r.level for r in bills(project, date(2031, 6, 24))] == [Level.NEAR]


@pytest.mark.parametrize(("last", "fields"), [(20, {}), (24, {"finished": True})])
def test_work_in_time_or_finished_leaves_the_bills_alone(project, last, fields):
    fund(project, period_end=date(2031, 6, 20))
    assert bills(project, date(2031, 6, last), **fields) == []


@pytest.mark.parametrize(
    ("code", "categories"),
    [("allowed_categories", ["materials"]), ("barred_categories", ["install"])],
)
def test_a_fund_that_does_not_pay_for_lifts_loses_nothing(project, code, categories):
    rule(fund(project, period_end=date(2031, 6, 20)), code, categories=categories)
    assert bills(project, date(2031, 6, 24)) == []


def test_a_rule_that_is_over_by_then_keeps_no_bill_off_a_fund(project):
    ward = fund(project, period_end=date(2031, 6, 20))
    over = rule(ward, "barred_categories", categories=["install"])
    over.ends_on = date(2031, 5, 31)
    over.save()
    assert len(bills(project, date(2031, 6, 24))) == 1


def test_another_fund_that_pays_nothing_so_late_takes_no_bill(project):
    fund(project, period_end=date(2031, 6, 20))
    other = fund(project, "Mill Lane Traders sponsorship", period_end=None)
    rule(other, "paid_by", on="2031-06-22")
    assert [r.level for r in bills(project, date(2031, 6, 24))] == [Level.BROKEN]


def test_who_pays_is_told_of_a_new_public_date_and_who_is_reported_to_of_a_report(project):
    fund(project)
    fund(project, "Mill Lane Traders sponsorship", kind="sponsor")
    fund(project, "Own money", kind="own")
    fund(project, "Wexcombe Arts Board", status="applied")
    assert {p.name: sorted(p.hears) for p in ripples.funders(project)} == {
        "Riverside Ward improvement fund": ["due", "public"],
        "Mill Lane Traders sponsorship": ["public"],
    }


def test_a_new_project_gets_lines_without_amounts_and_own_money(project):
    lines = [{"name": "Sewing", "category": "fabrication"}]
    beginning.budget(
        Beginning(
            project=project,
            plan={"budget": lines},
            public_on=PUBLIC,
            public_name="Mill Lane Lantern Walk",
            weekdays="1111100",
            today=TODAY,
        )
    )
    made = BudgetLine.objects.get()
    assert (made.name, made.category, made.planned_cents) == ("Sewing", "fabrication", 0)
    assert (Fund.objects.get().kind, Fund.objects.get().status) == ("own", "signed")
