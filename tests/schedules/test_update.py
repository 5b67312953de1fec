"""The update: what should have happened by today is asked, one press keeps one answer."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from schedules.models import Task
from schedules.plan import recompute
from schedules.services.records import keep_plan
from tests import factories
from tests.factories import TODAY

HTMX = {"HX-Request": "true"}


@pytest.fixture
def begun(place):
    """The frame has been welded since Mon 17 Feb and should have ended on Fri 28 Feb."""
    Task.objects.filter(name__startswith="Weld").update(started_on=date(2031, 2, 17))
    recompute(place.project, TODAY)
    return place.task("Weld")


@pytest.fixture
def answer(place, ada):
    def give(name, **data):
        return ada.post(place.url("update-answer", place.task(name).pk), data, headers=HTMX)

    return give


def page_of(client, place):
    return client.get(place.url("update")).content.decode()


def test_it_asks_for_what_should_have_started_and_what_should_be_finished(place, ada, begun):
    page = page_of(ada, place)
    assert "0 of 2 answered." in page
    assert "Should be finished." in page and "Should have started." in page
    assert "Started Mon 17 Feb, planned to end Fri 28 Feb." in page
    assert "Cut and sew skin</h2>" not in page  # it waits for the frame


def test_work_that_has_time_left_is_asked_how_it_goes(place, ada, begun):
    Task.objects.filter(pk=begun.pk).update(remaining_days=4, remaining_on=TODAY)
    recompute(place.project, TODAY)
    assert "4 working days are left, so it ends Thu 6 Mar." in page_of(ada, place)


def test_the_planned_day_is_that_of_the_plan_of_record(place, ada):
    keep_plan(project=place.project, user=None, today=date(2031, 2, 24), reason="agreed")
    page = page_of(ada, place)
    assert "Planned to start Mon 24 Feb (Rev A)." in page
    assert 'value="started:2031-02-24"' in page


def test_one_press_keeps_one_answer_and_moves_the_plan(place, begun, answer):
    before = place.task("Cut").early_start
    page = answer("Weld", answer="finished:2031-02-28:2031-02-17").content.decode()
    assert "1 of 3 answered." in page  # the skin may start now, so it is asked about too
    assert "“Weld lantern frame” finished on Fri 28 Feb." in page
    assert place.task("Weld").finished_on == date(2031, 2, 28)
    assert place.task("Cut").early_start < before
    assert "54 days in hand before these answers; 55 days in hand now." in page


def test_not_yet_moves_nothing_but_is_kept(place, answer):
    page = answer("Weld", answer="not_yet").content.decode()
    assert "“Weld lantern frame” had not started by Mon 3 Mar." in page
    assert "The answers moved nothing: 45 days in hand, as before." in page
    assert place.task("Weld").said_on == TODAY
    assert place.last_log.sentence == "“Weld lantern frame” had not started by Mon 3 Mar."


def test_days_left_count_from_today_even_if_the_number_was_said_before(place, begun, answer):
    Task.objects.filter(pk=begun.pk).update(remaining_days=4, remaining_on=date(2031, 2, 24))
    answer("Weld", answer="left", left="4")
    assert place.task("Weld").remaining_on == TODAY
    assert place.task("Weld").remaining_days == Decimal(4)


def test_an_answer_is_taken_back(place, ada, begun, answer):
    answer("Weld", answer="finished:2031-02-28")
    page = ada.post(place.url("update-undo", begun.pk), headers=HTMX).content.decode()
    assert "0 of 2 answered." in page
    weld = place.task("Weld")
    assert (weld.started_on, weld.finished_on, weld.said_on) == (date(2031, 2, 17), None, None)
    assert place.last_log.sentence.startswith("Took back the answer: “Weld lantern frame” started")


def test_a_tied_stage_follows_the_answer_and_its_taking_back(place, ada, begun, answer):
    stage = factories.PartFactory(project=place.project).stages.create(name="make", position=1)
    Task.objects.filter(pk=begun.pk).update(stage=stage)
    answer("Weld", answer="finished:2031-02-28")
    stage.refresh_from_db()
    assert stage.done_on == date(2031, 2, 28)
    ada.post(place.url("update-undo", begun.pk))
    stage.refresh_from_db()
    assert stage.done_on is None


def test_nothing_is_taken_back_over_the_change_of_another(place, ada, begun, answer):
    answer("Weld", answer="left", left="3")
    Task.objects.filter(pk=begun.pk).update(remaining_days=8)
    page = ada.post(place.url("update-undo", begun.pk), headers=HTMX).content.decode()
    assert "was changed since. Nothing was taken back" in page
    assert place.task("Weld").remaining_days == 8


BAD = [
    ({"answer": "finished", "on": "2031-03-04"}, "That day is still to come."),
    ({"answer": "finished:2031-03-04"}, "That day is still to come."),
    ({"answer": "finished", "on": "2031-02-10"}, "this day is before it"),
    ({"answer": "finished", "on": "yesterday"}, "There is no such day."),
    ({"answer": "finished"}, "Choose the day on which it happened."),
    ({"answer": "left", "left": "soon"}, "Write a number of days, such as 3 or 1.5."),
    ({"answer": "left", "left": "0"}, "Nothing is left? Then say when it was finished."),
    ({"answer": "left"}, "Write how many working days are left"),
    ({"answer": "perhaps"}, "Press one of the answers."),
]


@pytest.mark.parametrize(("data", "said"), BAD)
def test_an_answer_that_cannot_be_is_refused_beside_its_task(place, begun, answer, data, said):
    got = answer("Weld", **data)
    assert got.status_code == 422
    assert said in got.content.decode()
    assert place.task("Weld").finished_on is None


def test_history_does_not_move(place, answer):
    Task.objects.filter(name__startswith="Weld").update(
        started_on=date(2031, 2, 10), finished_on=date(2031, 2, 21)
    )
    got = answer("Weld", answer="finished:2031-03-03")
    assert got.status_code == 422
    assert place.task("Weld").finished_on == date(2031, 2, 21)


def test_work_begun_out_of_order_waits_until_somebody_says_why_not(place, ada, begun):
    """One-page note on out-of-sequence work (2010): retained logic against progress override."""
    Task.objects.filter(name__startswith="Cut").update(started_on=date(2031, 2, 24))
    recompute(place.project, TODAY)
    page = page_of(ada, place)
    assert (
        "It was begun Mon 24 Feb, ahead of “Weld lantern frame”. What is left of it waits" in page
    )
    retained = place.task("Cut").early_finish
    url = place.url("task-ahead", place.task("Cut").pk)
    assert ada.post(url, {"reason": ""}).status_code == 422
    ada.post(url, {"reason": "Panels are sewn from the pattern"})
    assert place.task("Cut").early_finish < retained
    assert "It goes on regardless: Panels are sewn from the pattern" in page_of(ada, place)
    ada.post(url, {"wait": "1"})
    assert place.task("Cut").early_finish == retained


def test_it_says_how_long_ago_the_last_update_was(place, ada):
    Task.objects.filter(name__startswith="Weld").update(said_on=date(2031, 2, 22))
    assert "The last update was 9 days ago, on Sat 22 Feb." in page_of(ada, place)


def test_something_that_was_not_planned_can_be_said_too(place, ada):
    cut = place.task("Cut")
    page = ada.get(place.url("update") + f"?also={cut.pk}").content.decode()
    assert f'id="ask-{cut.pk}"' in page
    assert ada.get(place.url("update") + "?also=9999999999999").status_code == 200


def test_an_empty_plan_has_nothing_to_ask_about(place, ada):
    Task.objects.all().delete()
    assert "Nothing is planned yet" in page_of(ada, place)


def test_the_schedule_links_to_what_waits_for_a_word(place, ada):
    page = ada.get(place.url()).content.decode()
    assert "2 tasks want a word on how far they are" in page
    Task.objects.update(said_on=TODAY)
    assert "a word on how far" not in ada.get(place.url()).content.decode()


def test_a_reader_sees_the_questions_and_cannot_answer(place, cyd, dee, begun):
    page = page_of(cyd, place)
    assert "Should be finished." in page and "Finished today" not in page
    assert cyd.post(place.url("update-answer", begun.pk), {"answer": "not_yet"}).status_code == 403
    assert dee.get(place.url("update")).status_code == 404


def test_its_queries_do_not_grow_with_the_questions(place, ada, django_assert_max_num_queries):
    ada.get(place.url("update"))
    with CaptureQueriesContext(connection) as few:
        ada.get(place.url("update"))
    for n in range(30):
        factories.TaskFactory(project=place.project, name=f"Panel {n}")
    recompute(place.project, TODAY)
    with django_assert_max_num_queries(len(few)):
        assert "0 of 32 answered." in page_of(ada, place)


def test_days_left_that_its_calendar_cannot_hold_are_refused(place, begun, answer):
    calendar = factories.CalendarFactory(
        project=place.project, name="Canvas loft", is_default=False, weekdays="0000000"
    )
    for n in range(3, 23):
        calendar.exceptions.create(day=date(2031, 3, n), works=True)
    Task.objects.filter(pk=begun.pk).update(calendar=calendar)
    got = answer("Weld", answer="left", left="40")
    assert got.status_code == 422
    assert "“Canvas loft” has too few working days for this plan." in got.content.decode()
    assert place.task("Weld").remaining_days is None
