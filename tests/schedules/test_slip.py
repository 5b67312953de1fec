"""Try a slip: see what moves and what breaks, then apply it with a reason or leave it."""

from __future__ import annotations

import re
from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from schedules.models import KeyDate, LagClock, Link
from tests import factories

HTMX = {"HX-Request": "true"}


def task_slip(place, name="Weld", **change):
    return {"what": f"task-{place.task(name).pk}"} | change


def date_slip(place, **change):
    return {"what": f"key-{place.public.pk}"} | change


def page_of(client, place, data, **kwargs):
    return client.get(place.url("slip"), data, **kwargs).content.decode()


def seen(page):
    return re.search(r'name="basis" value="(\w+)"', page)[1]


def moved_in(page):
    """The rows of the tables of what moves."""
    tables = "".join(re.findall(r'<table class="stack diff">.*?</table>', page, re.DOTALL))
    return re.findall(r'<th scope="row">([^<]+)</th>', tables)


def apply(client, place, data, reason="Steel came late", basis=None):
    basis = basis or seen(page_of(client, place, data))
    return client.post(place.url("slip-apply"), data | {"reason": reason, "basis": basis})


def test_a_late_frame_moves_the_skin_but_not_the_permit(place, ada):
    page = page_of(ada, place, task_slip(place, days="6"))
    assert "If “Weld lantern frame” takes 6 working days longer" in page
    assert moved_in(page) == ["Weld lantern frame", "Cut and sew skin", "Mill Lane Lantern Walk"]
    assert "Mon 17 Mar – Fri 11 Apr" in page and "Tue 25 Mar – Mon 21 Apr" in page
    assert page.count("+6 days") == 2 and "−6 days" in page


def test_nothing_is_saved_by_looking(place, ada):
    page_of(ada, place, task_slip(place, days="6"))
    assert place.task("Weld").days == 10
    assert place.last_log is None


def test_a_date_that_would_be_missed_says_by_how_many_days(place, ada):
    page = page_of(ada, place, task_slip(place, days="48"))
    assert "missed by 3 days" in page
    assert "45 days in hand" in page


def test_a_later_walk_gives_days_in_hand(place, ada):
    page = page_of(ada, place, date_slip(place, on="2031-06-21"))
    assert "Mill Lane Lantern Walk, Sat 21 Jun" in page
    assert "50 days in hand" in page


def test_a_chain_that_changes_says_what_is_new_on_it(place, ada):
    page = page_of(ada, place, task_slip(place, "Encroachment", days="60"))
    assert "public date" not in page or "new" not in page
    Link.objects.create(
        project=place.project, before=place.task("Encroachment"), after=place.public.task
    )
    page = page_of(ada, place, task_slip(place, "Encroachment", days="60"))
    assert re.search(r"Encroachment permit review.*?new", page, re.DOTALL)


def test_a_permit_that_would_expire_first_is_broken(place, ada):
    KeyDate.objects.create(
        project=place.project, name="Encroachment permit", kind="expiry", on=date(2031, 4, 15)
    )
    page = page_of(ada, place, task_slip(place, days="6"))
    assert '<li class="broken">' in page
    assert "expires Tue 15 Apr; the work would be done Mon 21 Apr, 6 days after it." in page
    assert '<li class="near">' in page_of(ada, place, task_slip(place, days="1"))


def test_the_preview_can_be_linked_and_comes_as_a_piece(place, ada):
    page = page_of(ada, place, task_slip(place, days="6"), headers=HTMX)
    assert page.lstrip().startswith('<div id="sheet"')
    whole = page_of(ada, place, task_slip(place, days="6"))
    assert "<html" in whole


def test_the_choice_names_what_the_fields_mean(place, ada):
    page = page_of(ada, place, date_slip(place))
    assert "Moves by calendar days" in page
    assert "Takes longer by working days" in page_of(ada, place, task_slip(place))


BAD = [
    ("task", {"days": "501"}, "Write a number of days between −500 and 500, and not 0."),
    ("task", {"days": "0"}, "and not 0"),
    ("task", {"days": "soon"}, "Write a number of days between"),
    ("task", {"days": "-11"}, "takes 10 working days, so it can be at most that much shorter"),
    ("task", {"days": "2", "on": "2031-05-01"}, "Fill in only one of the two"),
    ("task", {"on": "2031-02-30"}, "There is no such day."),
    ("date", {"on": "2031-03-02"}, "A public date cannot be in the past."),
    ("date", {"days": "-200"}, "A public date cannot be in the past."),
    ("date", {"days": "1.5"}, "A date moves by whole days."),
    ("none", {"what": "task-999999", "days": "3"}, "Choose one from the list."),
]


@pytest.mark.parametrize(("kind", "change", "said"), BAD)
def test_a_slip_that_cannot_be_is_said_beside_its_field(place, ada, kind, change, said):
    start = {"task": task_slip, "date": date_slip}.get(kind, lambda _place: {})(place)
    answer = ada.get(place.url("slip"), start | change)
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_applied_it_is_one_entry_with_the_days_in_hand_before_and_after(place, ada):
    answer = apply(ada, place, task_slip(place, days="6"))
    assert answer.status_code == 302
    assert place.task("Weld").days == 16
    assert place.in_hand == 39
    assert place.project.log.count() == 1
    assert place.last_log.sentence == (
        "“Weld lantern frame” takes 6 working days longer: "
        "45 days in hand before, 39 days in hand now."
    )
    assert place.last_log.reason == "Steel came late"


def test_a_moved_walk_moves_its_key_date(place, ada):
    apply(ada, place, date_slip(place, days="7"))
    assert place.public.on == date(2031, 6, 21)
    assert "“Mill Lane Lantern Walk” moves 7 days later" in place.last_log.sentence


def test_a_task_can_be_held_until_a_day(place, ada):
    apply(ada, place, task_slip(place, on="2031-03-17"))
    assert place.task("Weld").not_before == date(2031, 3, 17)
    assert place.in_hand == 35


def test_a_frame_under_way_has_more_left_to_do(place, ada):
    place.project.tasks.filter(name__startswith="Weld").update(started_on=date(2031, 2, 24))
    assert "50 days in hand" in page_of(ada, place, task_slip(place, days="3"))
    apply(ada, place, task_slip(place, days="3"))
    assert place.task("Weld").remaining_days == 8
    assert place.in_hand == 47


def test_without_a_reason_nothing_is_applied_and_the_preview_stays(place, ada):
    answer = apply(ada, place, task_slip(place, days="6"), reason="")
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Write why, so that others can follow it later." in page
    assert "Tue 25 Mar – Mon 21 Apr" in page
    assert place.task("Weld").days == 10


def test_a_plan_that_changed_meanwhile_is_shown_again_and_not_changed(place, ada):
    basis = seen(page_of(ada, place, task_slip(place, days="6")))
    ada.post(place.url("task-progress", place.task("Encroachment").pk), {"mark": "started"})
    entries = place.project.log.count()
    answer = apply(ada, place, task_slip(place, days="6"), basis=basis)
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Somebody changed the project after you looked." in page
    assert 'value="Steel came late"' in page
    assert seen(page) != basis
    assert place.task("Weld").days == 10
    assert place.project.log.count() == entries


def test_a_renamed_task_does_not_spoil_the_preview(place, ada):
    basis = seen(page_of(ada, place, task_slip(place, days="6")))
    place.project.tasks.filter(name__startswith="Weld").update(name="Weld the ring")
    assert apply(ada, place, {"what": f"task-{place.task('Weld').pk}", "days": "6"}, basis=basis)


def test_a_reader_may_look_but_not_apply(place, cyd, dee):
    page = page_of(cyd, place, task_slip(place, days="6"))
    assert "Tue 25 Mar" in page and "Apply with a reason" not in page
    assert cyd.post(place.url("slip-apply"), {}).status_code == 403
    assert dee.get(place.url("slip")).status_code == 404


def test_a_slip_asks_the_same_number_of_questions_of_any_plan(
    place, ada, django_assert_max_num_queries
):
    data = task_slip(place, days="6")
    ada.get(place.url("slip"), data)
    with CaptureQueriesContext(connection) as few:
        ada.get(place.url("slip"), data)
    asked = len(few)
    for n in range(30):
        task = factories.TaskFactory(project=place.project, name=f"Panel {n}")
        factories.LinkFactory(before=place.task("Weld"), after=task, lag_clock=LagClock.ELAPSED)
    place.project.plan_state.delete()
    ada.get(place.url())
    with django_assert_max_num_queries(asked):
        ada.get(place.url("slip"), data)
