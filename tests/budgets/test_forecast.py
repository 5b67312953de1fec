"""The forecast room: each line at completion, and draws on the contingency."""

from __future__ import annotations

from datetime import date

import pytest
from django.contrib.auth.models import User

from budgets.engine.pool import DrawTooLarge
from budgets.models import BudgetLine, Draw
from budgets.selectors.forecast import forecast_sheet
from budgets.services import draws as services
from projects.models import LogEntry
from tests.budgets.factories import HTMX, credit, expense, fund, line, order, rule, url
from tests.factories import TODAY, TaskFactory

pytestmark = pytest.mark.django_db


def sheet(project):
    return forecast_sheet(project, TODAY)


def by_name(project):
    return {row.line.name: row.outlook for row in sheet(project).rows}


def a_frame_over(project):
    """A frame ordered for 65 more than its line, and 500 of contingency."""
    frame = line(project, "Frame", category="fabrication", planned_cents=780_000)
    order(project, 786_500, paid_from=frame, deposit_basis_points=5000, state="placed")
    pool = line(project, "Contingency", category="contingency", planned_cents=50_000)
    return frame, pool


def drawn(pool, target, cents, reason="A second lug"):
    return Draw.objects.create(
        project=pool.project, source=pool, target=target, cents=cents, day=TODAY, reason=reason
    )


def typed(target, cents="65", reason="A second lug on each post"):
    return {"target": target.pk, "cents": cents, "reason": reason}


def last_sentence(project) -> str:
    return LogEntry.objects.filter(project=project).latest("pk").sentence


def test_a_deposit_is_never_counted_twice_in_the_estimate(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=790_000)
    placed = order(project, 780_000, paid_from=frame, deposit_basis_points=5000, state="placed")
    expense(project, 390_000, line=frame, order=placed, is_deposit=True)
    found = by_name(project)["Frame"]
    assert (found.actual, found.committed, found.remaining) == (390_000, 390_000, 10_000)
    assert (found.completion, found.variance) == (790_000, 0)


def test_an_order_that_is_only_planned_is_still_to_come(project):
    frame = line(project, "Frame", category="fabrication", planned_cents=790_000)
    order(project, 780_000, paid_from=frame, state="planned")
    found = by_name(project)["Frame"]
    assert (found.committed, found.remaining) == (0, 790_000)


def test_a_refund_lowers_the_estimate_once_nothing_more_comes(project):
    paint = line(project, planned_cents=50_000, to_come_cents=0)
    credit(expense(project, 40_000, line=paint), 5_000)
    found = by_name(project)["Primer and paint"]
    assert (found.actual, found.completion, found.variance) == (35_000, 35_000, 15_000)


def test_gifts_are_summed_apart_from_money(project):
    line(project, planned_cents=10_000)
    line(project, "Volunteer hours", category="community", planned_cents=9_000, in_kind=True)
    found = sheet(project)
    assert (found.total.completion, found.gifts.completion) == (10_000, 9_000)


def test_a_gift_on_a_line_of_money_costs_nothing_and_leaves_less_to_buy(project):
    lift = line(project, "Lift", category="install", planned_cents=200_000)
    expense(project, 60_000, line=lift, in_kind=True)
    found = sheet(project)
    assert (found.total.actual, found.total.remaining) == (0, 140_000)
    assert (found.total.completion, found.gifts.actual, found.rows[0].given) == (
        140_000, 60_000, 60_000,
    )  # fmt: skip


def test_a_line_that_costs_more_is_named_with_the_draw_that_mends_it(owner, project):
    frame, _ = a_frame_over(project)
    page = owner.get(url("forecast", project)).content.decode()
    assert "Frame will cost $65 more than its budget; the contingency of $500 holds it." in page
    assert f"{url('draw-add', project)}?line={frame.pk}" in page


def test_a_draw_moves_money_to_the_line_and_is_logged_with_its_reason(owner, project):
    frame, pool = a_frame_over(project)
    answer = owner.post(url("draw-add", project), typed(frame))
    assert answer.status_code == 302
    made = Draw.objects.get()
    assert (made.source, made.target, made.cents, made.day) == (pool, frame, 6_500, TODAY)
    assert "Drew $65 from “Contingency” to “Frame”: A second lug on each post." in last_sentence(
        project
    )
    found = by_name(project)["Frame"]
    assert (found.budget, found.variance) == (786_500, 0)
    assert sheet(project).pool.left == 43_500


def test_the_money_sheet_shows_the_budget_after_a_draw(owner, project):
    frame, pool = a_frame_over(project)
    drawn(pool, frame, 6_500)
    page = owner.get(url("money", project)).content.decode()
    assert "$7,865" in page
    assert "$435" in page


def test_the_form_of_a_draw_starts_with_what_the_line_lacks(owner, project):
    frame, _ = a_frame_over(project)
    page = owner.get(f"{url('draw-add', project)}?line={frame.pk}").content.decode()
    assert 'value="65"' in page
    assert "selected" in page


@pytest.mark.parametrize("cents", ["500.01", "1,000", "0", "-5", "65,00", "lots", ""])
def test_a_draw_of_more_than_the_pool_is_refused_beside_its_field(owner, project, cents):
    frame, _ = a_frame_over(project)
    answer = owner.post(url("draw-add", project), typed(frame, cents), headers=HTMX)
    assert answer.status_code == 422
    assert "A second lug on each post" in answer.content.decode()
    assert not Draw.objects.exists()


def test_a_refused_draw_says_what_the_pool_holds(owner, project):
    frame, pool = a_frame_over(project)
    drawn(pool, frame, 40_000)
    answer = owner.post(url("draw-add", project), typed(frame, "100.01"), headers=HTMX)
    assert "The contingency holds $100. Write that or less." in answer.content.decode()


def test_two_who_draw_at_once_cannot_empty_the_pool_twice(project, owner):
    """Both forms were right when they were sent; the second is held against what is left."""
    frame, pool = a_frame_over(project)
    values = {"source": pool, "target": frame, "reason": "A second lug", "today": TODAY}
    ada = User.objects.get(username="ada")
    services.draw(cents=30_000, user=ada, **values)
    with pytest.raises(DrawTooLarge) as refused:
        services.draw(cents=30_000, user=ada, **values)
    assert refused.value.left == 20_000
    assert Draw.objects.count() == 1


def test_a_draw_without_a_reason_is_refused(owner, project):
    frame, _ = a_frame_over(project)
    answer = owner.post(url("draw-add", project), typed(frame, reason=""), headers=HTMX)
    assert answer.status_code == 422
    assert "whoever pays will ask" in answer.content.decode()


def test_what_was_spent_on_the_pool_itself_cannot_be_drawn(owner, project):
    frame, pool = a_frame_over(project)
    expense(project, 45_000, line=pool)
    answer = owner.post(url("draw-add", project), typed(frame), headers=HTMX)
    assert "The contingency holds $50." in answer.content.decode()


def test_no_money_is_drawn_to_gifts_or_to_the_pool(owner, project):
    _, pool = a_frame_over(project)
    given = line(project, "Hours", category="community", in_kind=True)
    for target in (pool, given):
        assert owner.post(url("draw-add", project), typed(target), headers=HTMX).status_code == 422


def test_a_draw_put_back_is_logged_and_the_line_loses_it(owner, project):
    frame, pool = a_frame_over(project)
    made = drawn(pool, frame, 6_500)
    question = owner.get(url("draw-undo", project, made.pk)).content.decode()
    assert "Put $65 back into the contingency?" in question
    owner.post(url("draw-undo", project, made.pk))
    assert not Draw.objects.exists()
    assert "Put back $65 from “Frame” into “Contingency”" in last_sentence(project)
    assert sheet(project).pool.left == 50_000


def test_a_thin_contingency_is_told(owner, project):
    line(project, planned_cents=1_000_000)
    line(project, "Contingency", category="contingency", planned_cents=49_900)
    page = owner.get(url("forecast", project)).content.decode()
    assert "the contingency is only 4.99 % of the $10,000 that is not ordered yet" in page


def test_a_contingency_smaller_than_what_lines_are_over_is_told(owner, project):
    _, pool = a_frame_over(project)
    line(project, planned_cents=100_000, to_come_cents=50_000)
    pool.planned_cents = 6_000
    pool.save()
    page = owner.get(url("forecast", project)).content.decode()
    assert "the contingency holds only $60" in page
    assert "$5 more than the contingency holds" in page


def test_when_all_together_is_too_dear_the_sentence_says_by_how_much(owner, project):
    paint = line(project, planned_cents=100_000, to_come_cents=130_000)
    page = owner.get(url("forecast", project)).content.decode()
    assert "It will all have cost $1,300, $300 more than the budget of $1,000." in page
    assert url("forecast-line", project, paint.pk) in page


def test_what_a_line_still_needs_is_changed_in_place_and_logged(owner, project):
    cloth = line(project, "Ripstop", planned_cents=95_000)
    sew = TaskFactory(project=project, name="Cut and sew skin")
    data = {"quantity_hundredths": "12.5", "unit": "yards", "unit_cents": "33.33", "task": sew.pk}
    owner.post(url("forecast-line", project, cloth.pk), data)
    cloth.refresh_from_db()
    assert (cloth.quantity_hundredths, cloth.unit_cents, cloth.task) == (1250, 3333, sew)
    assert by_name(project)["Ripstop"].remaining == 41_663
    said = "“Ripstop” still needs 12.5 yards at $33.33, when “Cut and sew skin” ends."
    assert last_sentence(project) == said
    owner.post(url("forecast-line", project, cloth.pk), {"to_come_cents": "0"})
    assert by_name(project)["Ripstop"].remaining == 0
    owner.post(url("forecast-line", project, cloth.pk), {})
    assert by_name(project)["Ripstop"].remaining == 95_000


@pytest.mark.parametrize(
    "data, says",
    [
        ({"to_come_cents": "50", "quantity_hundredths": "2", "unit_cents": "3"}, "not both"),
        ({"quantity_hundredths": "2"}, "Write both"),
        ({"unit_cents": "3"}, "Write both"),
        ({"quantity_hundredths": "two"}, "at most two decimals"),
        ({"to_come_cents": "-1"}, "below zero"),
        ({"to_come_cents": "1.200,00"}, "other countries"),
    ],
)
def test_what_cannot_be_read_is_refused_and_kept(owner, project, data, says):
    cloth = line(project, "Ripstop", planned_cents=95_000)
    answer = owner.post(url("forecast-line", project, cloth.pk), data, headers=HTMX)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page
    assert all(f'value="{text}"' in page for text in data.values())


def test_a_task_of_another_project_is_refused(owner, project):
    cloth, stranger = line(project), TaskFactory()
    answer = owner.post(
        url("forecast-line", project, cloth.pk), {"task": stranger.pk}, headers=HTMX
    )
    assert answer.status_code == 422


def test_a_reader_sees_the_forecast_without_acts(reader, project):
    frame, _ = a_frame_over(project)
    page = reader.get(url("forecast", project)).content.decode()
    assert "Frame will cost $65 more" in page
    assert url("draw-add", project) not in page
    assert reader.post(url("draw-add", project), typed(frame)).status_code == 403


def a_grant_for_paint(project):
    ward = fund(project, award_cents=50_000, period_end=date(2031, 6, 1))
    rule(ward, "allowed_categories", categories=["materials"])
    line(project, planned_cents=30_000)
    line(project, "Lift", category="install", planned_cents=40_000)
    return ward


def test_what_of_a_fund_would_lapse_is_told_with_the_reason(owner, project):
    a_grant_for_paint(project)
    piece = owner.get(url("lapse", project), headers=HTMX).content.decode()
    assert "Riverside Ward improvement fund" in piece
    assert "$200" in piece  # 500 less 300 of paint
    assert "$400 stays your own" in piece
    assert "<html" not in piece


def test_what_would_lapse_is_told_without_javascript(owner, project):
    a_grant_for_paint(project)
    page = owner.get(url("forecast", project)).content.decode()
    assert url("lapse", project) in page
    whole = owner.get(url("lapse", project)).content.decode()
    assert "Would lapse" in whole
    assert "Each line when it is all done" in whole


def test_an_empty_project_is_told_where_to_begin(owner, project):
    page = owner.get(url("forecast", project)).content.decode()
    assert "There is no budget yet to forecast from." in page
    assert url("line-add", project) in page


def test_reads_in_a_fixed_number_of_queries(owner, project, django_assert_max_num_queries):
    frame, pool = a_frame_over(project)
    for number in range(12):
        row = line(project, f"Line {number}", planned_cents=10_000)
        expense(project, 4_000, line=row)
        drawn(pool, frame, 100)
    with django_assert_max_num_queries(70):
        owner.get(url("forecast", project))
    assert BudgetLine.objects.count() == 14
