"""Who was told: kept for good, never a date that has moved again, and shown where it matters."""

from __future__ import annotations

import pytest

from schedules import overview
from schedules.models import AppliedSlip, Notice, Task
from schedules.plan import recompute
from tests import factories
from tests.conftest import logged_in
from tests.schedules.conftest import LOFT, SALTGLAZE
from tests.schedules.test_notices import body_of, late_frame, tell, waiting
from tests.schedules.test_slip_undo import undo


def test_what_was_told_is_kept_with_when_how_and_by_whom(place, ada, makers):
    late_frame(place, ada)
    tell(ada, place, waiting()[LOFT], how="phone")
    told = Notice.objects.get(told_on__isnull=False)
    assert (told.party, told.told_how, told.told_by) == (LOFT, "phone", "ada")
    assert set(waiting()) == {SALTGLAZE}
    assert place.last_log.sentence.startswith(
        "Told Third Bell Canvas Loft by telephone on Mon 3 Mar: Hearthlight: new days"
    )
    assert "Mon 3 Mar 2031, by telephone" in body_of(ada, place)


TOLD_BAD = [
    ({"how": ""}, "Choose how they were told."),
    ({"on": "2031-03-04"}, "That day is still to come. Mon 3 Mar is the latest."),
    ({"on": ""}, "Choose a day."),
]


@pytest.mark.parametrize(("change", "said"), TOLD_BAD)
def test_a_record_that_cannot_be_is_said_beside_its_field(place, ada, makers, change, said):
    late_frame(place, ada)
    answer = tell(ada, place, waiting()[LOFT], **change)
    assert answer.status_code == 422
    assert said in answer.content.decode()
    assert len(waiting()) == 2


def test_what_was_told_is_never_changed_or_told_twice(place, ada, makers):
    late_frame(place, ada)
    notice = waiting()[LOFT]
    tell(ada, place, notice)
    assert tell(ada, place, notice).status_code == 302  # and it says so
    assert ada.post(place.url("notice-edit", notice.pk), {"body": "Never"}).status_code == 404
    assert ada.post(place.url("notice-aside", notice.pk)).status_code == 404


def test_who_need_not_be_told_is_left_out_and_the_log_says_so(place, ada, makers):
    late_frame(place, ada)
    ada.post(place.url("notice-aside", waiting()[LOFT].pk))
    assert set(waiting()) == {SALTGLAZE}
    assert place.last_log.sentence.startswith("Left Third Bell Canvas Loft untold: Hearthlight")


# Nobody is told a date that has moved again


def test_two_moves_before_anybody_was_told_are_one_letter_from_the_first_day(place, ada, makers):
    late_frame(place, ada, "4")
    late_frame(place, ada, "5")
    assert Notice.objects.count() == 2
    assert "was Mon 17 Mar to Fri 11 Apr 2031\n  now Fri 28 Mar to Thu 24 Apr 2031" in (
        waiting()[LOFT].body
    )


def test_a_second_move_after_they_were_told_begins_where_they_were_told(place, ada, makers):
    late_frame(place, ada, "4")
    tell(ada, place, waiting()[LOFT])
    late_frame(place, ada, "5")
    assert "was Fri 21 Mar to Thu 17 Apr 2031\n  now Fri 28 Mar" in waiting()[LOFT].body


def test_taken_back_before_anybody_was_told_nobody_need_be_told(place, ada, makers):
    late_frame(place, ada)
    undo(ada, place)
    assert not Notice.objects.exists()


def test_taken_back_who_was_told_is_told_again_and_nobody_else(place, ada, makers):
    late_frame(place, ada)
    tell(ada, place, waiting()[LOFT])
    undo(ada, place)
    assert set(waiting()) == {LOFT}
    assert "was Fri 28 Mar to Thu 24 Apr 2031\n  now Mon 17 Mar to Fri 11 Apr" in (
        waiting()[LOFT].body
    )
    assert Notice.objects.filter(told_on__isnull=False).count() == 1


def edited(place, days):
    Task.objects.filter(name__startswith="Weld").update(days=days)
    recompute(place.project, factories.TODAY)


def test_a_letter_whose_dates_moved_again_cannot_be_told_until_it_is_written_anew(
    place, ada, makers
):
    late_frame(place, ada)
    edited(place, 21)
    notice = waiting()[LOFT]
    page = body_of(ada, place)
    assert "The dates have moved again since this was written." in page
    assert "mailto:" not in page
    assert tell(ada, place, notice).status_code == 409
    ada.post(place.url("notice-anew", notice.pk))
    assert "was Mon 17 Mar to Fri 11 Apr 2031\n  now Tue 1 Apr" in waiting()[LOFT].body
    assert tell(ada, place, waiting()[LOFT]).status_code == 302


def test_a_letter_whose_dates_are_back_is_gone_when_written_anew(place, ada, makers):
    late_frame(place, ada)
    edited(place, 10)
    ada.post(place.url("notice-anew", waiting()[LOFT].pk))
    assert set(waiting()) == {SALTGLAZE}


def test_who_was_told_and_whose_dates_moved_since_can_be_written_to_anew(place, ada, makers):
    late_frame(place, ada)
    for notice in waiting().values():
        tell(ada, place, notice)
    assert "Everybody has heard of the dates that moved." in body_of(ada, place)
    edited(place, 21)
    assert "Dates have moved since" in body_of(ada, place)
    told = Notice.objects.get(party=LOFT)
    ada.post(place.url("notice-anew", told.pk))
    assert "was Fri 28 Mar to Thu 24 Apr 2031" in waiting()[LOFT].body
    told.refresh_from_db()
    assert told.told_on == factories.TODAY


def test_letters_that_are_out_of_date_are_not_printed(place, ada, makers):
    late_frame(place, ada)
    edited(place, 21)
    assert "sheetofpaper" not in ada.get(place.url("letters")).content.decode()


# Where it shows


def test_the_overview_says_how_many_wait(place, ada, makers):
    assert overview.to_be_told(place.project, factories.TODAY) is None
    late_frame(place, ada)
    (row,) = overview.to_be_told(place.project, factories.TODAY).rows
    assert (row.text, row.detail) == (
        "2 notices to send", "Saltglaze Metalworks and Third Bell Canvas Loft",
    )  # fmt: skip


def test_after_applying_the_page_names_who_waits(place, ada, makers):
    page = ada.get(late_frame(place, ada).headers["Location"]).content.decode()
    assert "2 notices to send:" in page and SALTGLAZE in page


def test_an_empty_page_says_what_belongs_there(place, ada):
    page = body_of(ada, place)
    assert "everybody who hangs on them gets a message here" in page
    assert place.url("slip") in page


def test_a_reader_sees_who_was_told_but_changes_nothing(place, ada, cyd, makers):
    late_frame(place, ada)
    page = body_of(cyd, place)
    assert LOFT in page and "They have been told" not in page and "Change the words" not in page
    assert tell(cyd, place, waiting()[LOFT]).status_code == 403


def test_notices_of_another_project_are_not_to_be_found(place, ada, makers):
    late_frame(place, ada)
    other = factories.ProjectFactory(name="Two Herons")
    slip = AppliedSlip.objects.create(project=other, on=factories.TODAY, who="eve", sentence="Late")
    theirs = Notice.objects.create(project=other, slip=slip, party="Foundry", subject="Late")
    assert "Foundry" not in body_of(ada, place)
    assert ada.get(place.url("notice-edit", theirs.pk)).status_code == 404


def test_the_questions_asked_do_not_grow_with_the_notices(
    place, ada, makers, django_assert_max_num_queries
):
    late_frame(place, ada)
    body_of(ada, place)
    with django_assert_max_num_queries(45):
        body_of(ada, place)
    slip = AppliedSlip.objects.get()
    for n in range(20):
        Notice.objects.create(project=place.project, slip=slip, party=f"Maker {n}", subject="Late")
    with django_assert_max_num_queries(45):
        body_of(ada, place)


def test_two_people_apply_and_everybody_is_told_once(place, ada, makers):
    late_frame(place, ada, "4")
    late_frame(place, logged_in("ben"), "5")
    assert sorted(n.party for n in Notice.objects.all()) == [SALTGLAZE, LOFT]
    assert waiting()[LOFT].body.endswith("Thank you,\nben")
