"""An applied change is taken back whole, or not at all."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from schedules.models import AppliedSlip, Calendar, Notice, Task
from schedules.services.slip import ChangedSince, take_back
from tests import factories
from tests.conftest import logged_in
from tests.schedules.test_slip import page_of, seen
from tests.schedules.test_slip_options import apply, away, changes, task, walk


@pytest.fixture
def ben(place):
    return logged_in("ben")


def last():
    return AppliedSlip.objects.first()


def undo(client, place, slip=None):
    return client.post(place.url("slip-undo", (slip or last()).pk))


def late_frame_and_walk(place, client):
    return apply(client, place, changes("a", task(place, "Weld", days="9"), walk(place, days="7")))


def test_what_was_applied_is_kept_with_what_it_was_and_became(place, ada):
    late_frame_and_walk(place, ada)
    weld, public = str(place.task("Weld").pk), str(place.public.pk)
    assert last().was["tasks"][weld] == {"name": "Weld lantern frame", "days": "10.00"}
    assert last().became["tasks"][weld]["days"] == "19.00"
    assert last().was["key_dates"][public]["on"] == "2031-06-14"
    assert (last().who, last().reason) == ("ada", "The steel came late")


def test_the_way_back_is_offered_right_after_applying(place, ada):
    there = late_frame_and_walk(place, ada).headers["Location"]
    page = ada.get(there).content.decode()
    assert f'action="{place.url("slip-undo", last().pk)}"' in page
    assert "Take it back" in page


def test_taken_back_everything_is_as_it_was(place, ada):
    late_frame_and_walk(place, ada)
    assert undo(ada, place).status_code == 302
    assert (place.task("Weld").days, place.public.on) == (10, date(2031, 6, 14))
    assert place.in_hand == 45
    assert (last().undone_by, last().undone_at is not None) == ("ada", True)


def test_taking_back_is_one_entry_of_the_log(place, ada):
    late_frame_and_walk(place, ada)
    entries = place.project.log.count()
    undo(ada, place)
    assert place.project.log.count() == entries + 1
    assert place.last_log.sentence == (
        "Taken back: “Weld lantern frame” takes 9 working days longer; “Mill Lane Lantern Walk” "
        "moves 7 days later; 41 days in hand before, 45 days in hand now."
    )


def test_the_log_leads_to_the_way_back_until_it_was_taken(place, ada):
    log = f"/projects/{place.project.pk}/log/"
    late_frame_and_walk(place, ada)
    way = f"{place.url('slip')}?applied={last().pk}"
    assert way in ada.get(log).content.decode()
    undo(ada, place)
    assert way not in ada.get(log).content.decode()


def test_a_frame_under_way_gets_its_days_left_back(place, ada):
    Task.objects.filter(name__startswith="Weld").update(
        started_on=date(2031, 2, 24), remaining_days=4, remaining_on=date(2031, 3, 3)
    )
    apply(ada, place, changes("a", task(place, "Weld", days="3")))
    assert place.task("Weld").remaining_days == 7
    undo(ada, place)
    weld = place.task("Weld")
    assert (weld.days, weld.remaining_days, weld.remaining_on) == (10, 4, date(2031, 3, 3))


def test_what_was_changed_since_is_named_and_nothing_is_taken_back(place, ada):
    late_frame_and_walk(place, ada)
    Task.objects.filter(name__startswith="Weld").update(days=21)
    answer = undo(ada, place)
    assert answer.status_code == 409
    assert (
        "“Weld lantern frame” was changed since: days 21 now, 19 when this was applied."
        in answer.content.decode()
    )
    assert (place.task("Weld").days, place.public.on) == (21, date(2031, 6, 21))
    assert last().undone_at is None


def test_a_frame_that_is_finished_since_stays_as_it_is(place, ada):
    apply(ada, place, changes("a", task(place, "Weld", days="9")))
    Task.objects.filter(name__startswith="Weld").update(finished_on=factories.TODAY)
    assert "“Weld lantern frame” is finished since." in undo(ada, place).content.decode()


def test_a_task_that_was_removed_since_is_named(place, ada):
    apply(ada, place, changes("a", task(place, "Encroachment", days="9")))
    place.task("Encroachment").delete()
    page = undo(ada, place).content.decode()
    assert "“Encroachment permit review” was removed since." in page


def test_what_a_slip_did_not_touch_may_change(place, ada):
    apply(ada, place, changes("a", task(place, "Weld", days="9")))
    Task.objects.filter(name__startswith="Weld").update(name="Weld the ring", note="Four rings")
    undo(ada, place)
    weld = place.task("Weld")
    assert (weld.days, weld.name, weld.note) == (10, "Weld the ring", "Four rings")


def test_two_slips_in_a_row_are_taken_back_in_reverse(place, ada):
    apply(ada, place, changes("a", task(place, "Weld", days="9")))
    apply(ada, place, changes("a", task(place, "Weld", days="2")))
    second, first = AppliedSlip.objects.all()
    refused = undo(ada, place, first)
    assert refused.status_code == 409
    assert "Take back first what came later: “Weld lantern frame” takes 2 working days longer." in (
        refused.content.decode()
    )
    assert [undo(ada, place, slip).status_code for slip in (second, first)] == [302, 302]
    assert place.task("Weld").days == 10


def test_an_absence_is_taken_back_with_the_hours_that_were_made_for_it(place, ada):
    apply(ada, place, changes("a", away(place, on="2031-03-10", days="7")))
    undo(ada, place)
    assert place.in_hand == 45
    assert place.task("Weld").lane.calendar is None
    assert Calendar.objects.count() == 1


def test_an_absence_in_ones_own_hours_leaves_the_hours(place, ada):
    own = Calendar.objects.create(project=place.project, name="Shop hours", keeps_holidays=False)
    place.project.lanes.update(calendar=own)
    own.exceptions.create(day=date(2031, 3, 15), works=True)
    apply(ada, place, changes("a", away(place, on="2031-03-10", days="7")))
    assert own.exceptions.filter(works=False).count() == 7
    undo(ada, place)
    assert list(own.exceptions.values_list("day", "works")) == [(date(2031, 3, 15), True)]


def test_an_absence_that_was_changed_since_is_not_taken_back(place, ada):
    apply(ada, place, changes("a", away(place, on="2031-03-10", days="7")))
    Calendar.objects.get(is_default=False).exceptions.first().delete()
    page = undo(ada, place).content.decode()
    assert "The days on which Artist is away were changed since." in page


def test_what_was_taken_back_by_one_cannot_be_taken_back_by_another(place, ada, ben):
    late_frame_and_walk(place, ada)
    assert undo(ben, place).status_code == 302
    answer = undo(ada, place)
    assert answer.status_code == 409
    assert "ben has taken it back already." in answer.content.decode()
    assert place.project.log.filter(sentence__startswith="Taken back").count() == 1


def test_a_slip_seen_before_another_was_applied_is_not_applied_on_top(place, ada, ben):
    data = changes("a", task(place, "Weld", days="9"))
    basis = seen(page_of(ben, place, data))
    late_frame_and_walk(place, ada)
    answer = ben.post(place.url("slip-apply"), data | {"basis": basis, "reason": "Late"})
    assert answer.status_code == 409
    assert AppliedSlip.objects.count() == 1


def locks(run):
    with CaptureQueriesContext(connection) as asked:
        run()
    return [q["sql"] for q in asked if "FOR UPDATE" in q["sql"]]


@pytest.mark.skipif(connection.vendor != "postgresql", reason="SQLite locks the whole file")
def test_applying_and_taking_back_hold_the_project(place, ada):
    project, slip = '"projects_project"', '"schedules_appliedslip"'
    assert any(project in sql for sql in locks(lambda: late_frame_and_walk(place, ada)))
    back = locks(lambda: undo(ada, place))
    assert any(project in sql for sql in back) and any(slip in sql for sql in back)


def test_when_something_goes_wrong_on_the_way_back_nothing_is_changed(place, ada, monkeypatch):
    late_frame_and_walk(place, ada)
    monkeypatch.setattr("schedules.services.slip.notify", lambda **_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        take_back(
            project=place.project, user=factories.user("ada"), today=factories.TODAY, slip=last()
        )
    assert (place.task("Weld").days, last().undone_at) == (19, None)


def test_a_refusal_names_all_that_is_in_the_way(place, ada):
    late_frame_and_walk(place, ada)
    Task.objects.filter(name__startswith="Weld").update(days=21)
    place.project.key_dates.update(on=date(2031, 6, 28))
    with pytest.raises(ChangedSince) as refused:
        take_back(
            project=place.project, user=factories.user("ada"), today=factories.TODAY, slip=last()
        )
    assert len(refused.value.sentences) == 2


def test_only_who_may_change_the_project_takes_back(place, ada, cyd, dee):
    late_frame_and_walk(place, ada)
    assert undo(cyd, place).status_code == 403
    assert undo(dee, place).status_code == 404
    assert "Take it back" not in cyd.get(f"{place.url('slip')}").content.decode()
    assert not Notice.objects.filter(told_on__isnull=False).exists()


def at_once(act):
    """The same act by two people at the same moment; what each was answered."""

    def alone(name):
        try:
            return act(logged_in(name)).status_code
        finally:
            connection.close()

    with ThreadPoolExecutor(2) as both:
        return sorted(both.map(alone, ["ada", "ben"]))


@pytest.mark.skipif(connection.vendor != "postgresql", reason="SQLite locks the whole file")
@pytest.mark.django_db(transaction=True)
def test_two_at_the_same_moment_apply_once_and_take_back_once(place):
    data = changes("a", task(place, "Weld", days="9"))
    posted = data | {"basis": seen(page_of(logged_in("ada"), place, data)), "reason": "Late"}
    assert at_once(lambda one: one.post(place.url("slip-apply"), posted)) == [302, 409]
    assert place.task("Weld").days == 19
    assert at_once(lambda one: undo(one, place)) == [302, 409]
    assert place.task("Weld").days == 10
