"""Why this date: every task names what puts it where it is."""

from __future__ import annotations

from datetime import date
from html import unescape

import pytest

from schedules.models import DayException, Task
from schedules.plan import recompute
from tests import factories


@pytest.fixture
def why(place, ada):
    def ask(name):
        recompute(place.project, factories.TODAY)
        page = ada.get(place.url("why", place.task(name).pk)).content.decode()
        start = page.index('class="whybox"')
        return " ".join(unescape(page[start : page.index("acts", start)]).split())

    return ask


def test_the_skin_starts_when_the_frame_ends(why):
    said = why("Cut")
    assert "Starts Mon 17 Mar because “Weld lantern frame” ends Fri 14 Mar." in said
    assert "Sat 15 Mar and Sun 16 Mar are not worked." in said
    assert "because “Lantern walk” is on Sat 14 Jun" in said
    assert "It has 45 days in hand: it may end as late as Fri 13 Jun" in said


def test_a_cure_is_named_with_its_hours_and_its_end(place, why):
    row = place.task("Cut").links_in.get()
    row.lag, row.lag_clock, row.reason = 72, "elapsed", "cure"
    row.save()
    said = why("Cut")
    assert (
        "“Weld lantern frame” ends Fri 14 Mar, and the wait “cure” of 72 hours, "
        "day and night, ends Mon 17 Mar 16:00." in said
    )


@pytest.mark.parametrize(
    ("clock", "starts", "whose"),
    [
        ("work", "Sat 22 Mar", "wait “cure” of 3 working days ends Wed 19 Mar"),
        ("after", "Sun 23 Mar", "3 working days of the task that waits ends Sat 22 Mar"),
        ("project", "Sat 22 Mar", "3 working days of the project ends Wed 19 Mar"),
    ],
)
def test_a_wait_says_whose_days_it_counts(place, why, clock, starts, whose):
    """The frame ends on Friday 14 March; volunteers work on the 15th, 16th and 22nd."""
    weekend = factories.CalendarFactory(
        project=place.project, name="Volunteers", weekdays="0000011", is_default=False
    )
    Task.objects.filter(name__startswith="Cut").update(calendar=weekend)
    place.task("Cut").links_in.update(lag=3, lag_clock=clock, reason="cure")
    said = why("Cut")
    assert whose in said
    assert f"Starts {starts} because" in said


def test_nothing_holds_the_frame_back_and_it_drives_the_skin(why):
    said = why("Weld")
    assert "Starts Mon 3 Mar because nothing holds it back." in said
    assert "It decides when “Cut and sew skin” can go on." in said
    assert "because “Cut and sew skin” must start by Mon 19 May" in said


def test_a_day_off_is_named_with_its_note(place, why):
    calendar = place.project.calendars.get()
    DayException.objects.create(calendar=calendar, day=date(2031, 3, 17), note="Shop closed")
    assert "Mon 17 Mar (Shop closed) are not worked." in why("Cut")


def test_a_public_holiday_is_named(place, why):
    place.project.calendars.update(keeps_holidays=True)
    Task.objects.filter(name__startswith="Weld").update(days=60)
    assert "Mon 26 May" not in why("Weld")
    Task.objects.filter(name__startswith="Cut").update(not_before=date(2031, 5, 26))
    said = why("Cut")
    assert "you said that it cannot start before Mon 26 May" in said
    assert "Mon 26 May (Memorial Day) is not worked." in said


def test_the_walk_is_on_its_public_date(why):
    said = why("Lantern walk")
    assert "It is on Sat 14 Jun because “Mill Lane Lantern Walk” is on that day." in said


def test_a_finished_task_says_when_it_was_done(place, why):
    Task.objects.filter(name__startswith="Weld").update(
        started_on=date(2031, 2, 10), finished_on=date(2031, 2, 21)
    )
    assert "It is done: started Mon 10 Feb, finished Fri 21 Feb." in why("Weld")


def test_a_task_that_nobody_waits_for_says_so(why):
    said = why("Encroachment")
    assert "The public date does not wait for it" in said
    assert "No other task waits for it." in said


def test_a_finish_that_waits_for_another_finish_is_explained(place, why):
    factories.LinkFactory(
        before=place.task("Weld"), after=place.task("Encroachment"), kind="FF", lag=10
    )
    said = why("Encroachment")
    assert "it cannot finish before “Weld lantern frame” ends Fri 14 Mar" in said
    assert "of 10 working days ends Fri 28 Mar 16:00" in said


def test_every_reader_may_ask_and_no_stranger(place, cyd, dee):
    url = place.url("why", place.task("Cut").pk)
    assert cyd.get(url).status_code == 200
    assert dee.get(url).status_code == 404


def test_a_milestone_is_on_a_day_and_does_not_start(place, why):
    Task.objects.filter(pk=place.task("Weld").pk).update(days=0)
    assert "It is on Mon 3 Mar because nothing holds it back." in why("Weld")
