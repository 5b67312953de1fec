"""What else a task says of itself: returns, hands, a shorter time, first days and their reasons."""

from __future__ import annotations

from datetime import date
from html import unescape

import pytest

from schedules.models import DayException, KeyDate, Link, Task
from schedules.plan import recompute
from tests import factories
from tests.factories import TODAY


def test_everything_that_was_said_is_kept_and_written_down(place, ada, typed):
    weld = place.task("Weld")
    lift = factories.LaneFactory(project=place.project, name="Millrace Lift Hire")
    said = {
        "returns_percent": "30", "returns_days": "3", "also": [lift.pk],
        "crash_days": "2", "crash_day_cents": "180",
        "not_before": "2031-03-10", "not_before_reason": "Steel comes that day",
    }  # fmt: skip
    ada.post(place.url("task-edit", weld.pk), typed(weld, **said))
    kept = place.task("Weld")
    assert (kept.returns_percent, kept.returns_days, kept.crash_day_cents) == (30, 3, 18_000)
    assert list(kept.also.all()) == [lift]
    words = place.last_log.sentence
    assert "cost of each day less from none to $180" in words
    assert "also needs Millrace Lift Hire" in words


def test_a_new_task_keeps_the_lanes_that_it_also_needs(place, ada, typed):
    lift = factories.LaneFactory(project=place.project, name="Millrace Lift Hire")
    ada.post(place.url("task-add"), typed(also=[lift.pk], waits_for=""))
    assert list(place.task("Prime wall").also.all()) == [lift]


BAD = [
    ({"returns_percent": "30"}, "Write how many working days it takes when it comes back."),
    ({"returns_days": "3"}, "Write how often it comes back"),
    ({"returns_percent": "101", "returns_days": "1"}, "Write a whole number from 0 to 100"),
    ({"returns_percent": "often"}, "Write a whole number from 0 to 100"),
    ({"crash_days": "10", "crash_day_cents": "1"}, "Write less: something must stay."),
    ({"crash_days": "2"}, "Write what each day costs; 0 if it costs nothing."),
    ({"crash_day_cents": "20"}, "Write by how many days it can be shorter."),
    ({"crash_days": "-1", "crash_day_cents": "1"}, "Write a whole number of days, such as 2."),
    ({"closes": "on"}, "It takes 10 days. Only a task of 0 days can close others."),
    ({"not_before_reason": "Steel"}, "Choose the day that this is the reason for."),
    ({"also": ["987654"]}, "Choose one from the list."),
    ({"low_days": "12", "high_days": "8"}, "Write less."),
]


@pytest.mark.parametrize(("change", "said"), BAD)
def test_what_does_not_agree_is_said_beside_its_field(place, ada, typed, change, said):
    weld = place.task("Weld")
    got = ada.post(place.url("task-edit", weld.pk), typed(weld, **change))
    assert got.status_code == 422
    assert said in unescape(got.content.decode())
    assert "<details open>" in got.content.decode()


def test_the_lane_that_does_it_is_not_also_needed(place, ada, typed):
    weld = place.task("Weld")
    got = ada.post(place.url("task-edit", weld.pk), typed(weld, also=[weld.lane_id]))
    assert "“Artist” does it already." in got.content.decode()


def test_what_happens_on_the_public_date_cannot_close(place, ada, typed):
    walk = place.task("Lantern walk")
    got = ada.post(place.url("task-edit", walk.pk), typed(walk, closes="on"))
    assert (
        "It happens on “Mill Lane Lantern Walk” and is shown on that day." in got.content.decode()
    )


def test_only_work_under_way_can_be_said_to_go_on_regardless(place, ada):
    url = place.url("task-edit", place.task("Weld").pk)
    assert "Goes on regardless" not in ada.get(url).content.decode()
    Task.objects.filter(name__startswith="Weld").update(started_on=date(2031, 3, 3))
    assert "Goes on regardless" in ada.get(url).content.decode()


def test_a_link_for_the_same_hands_says_so_and_may_be_removed(place, ada):
    weld, permit = place.task("Weld"), place.task("Encroachment")
    row = Link.objects.create(project=place.project, before=weld, after=permit, same_hands=True)
    page = ada.get(place.url("task-edit", permit.pk)).content.decode()
    assert "same hands, starts after it is finished" in page
    ada.post(place.url("link-delete", row.pk))
    assert not Link.objects.filter(pk=row.pk).exists()


def test_a_key_date_keeps_its_reason(place, ada):
    typed = {"name": "Arts board", "kind": "hearing", "on": "2031-04-07", "effect": "none"}
    ada.post(place.url("key-date-add"), typed | {"reason": "It meets monthly"})
    assert "It meets monthly" in ada.get(place.url()).content.decode()
    assert place.last_log.reason == "It meets monthly"


def test_no_date_acts_on_a_finished_task(place, ada):
    Task.objects.filter(name__startswith="Weld").update(finished_on=date(2031, 2, 28))
    typed = {"name": "Steel", "kind": "delivery", "on": "2031-04-07", "effect": "no_earlier"}
    got = ada.post(place.url("key-date-add"), typed | {"task": place.task("Weld").pk})
    assert got.status_code == 422
    assert "“Weld lantern frame” was finished on Fri 28 Feb: no date can act on it." in (
        got.content.decode()
    )
    assert KeyDate.objects.count() == 1


def test_a_calendar_without_working_days_is_refused_by_name(place, ada, typed):
    calendar = factories.CalendarFactory(
        project=place.project, name="Canvas loft", is_default=False, weekdays="0000000"
    )
    DayException.objects.create(calendar=calendar, day=date(2031, 3, 8), works=True)
    weld = place.task("Weld")
    got = ada.post(place.url("task-edit", weld.pk), typed(weld, calendar=calendar.pk))
    assert got.status_code == 422
    assert "“Canvas loft” has too few working days for this plan." in got.content.decode()


def why(place, client, name):
    recompute(place.project, TODAY)
    page = unescape(client.get(place.url("why", place.task(name).pk)).content.decode())
    start = page.index('class="whybox"')
    return " ".join(page[start : page.index("acts", start)].split())


def test_why_tells_what_may_slip_before_a_neighbour_moves(place, ada):
    """Common practice, no source: total float is free float and what moves a neighbour."""
    print_ = factories.TaskFactory(project=place.project, name="Print the flyer", days=8)
    hang = factories.TaskFactory(project=place.project, name="Hang the flyer", days=1)
    factories.LinkFactory(before=print_, after=hang)
    factories.LinkFactory(before=place.task("Weld"), after=hang)
    factories.LinkFactory(before=hang, after=place.task("Lantern walk"))
    said = why(place, ada, "Print the flyer")
    assert (
        "It may slip 2 days without moving anybody; more moves “Hang the flyer”; "
        "the date holds as long as it ends by Thu 12 Jun." in said
    )


def test_why_names_who_moves_at_once(place, ada):
    assert "Any slip of a day moves “Cut and sew skin”; the date holds" in why(place, ada, "Weld")


def test_why_gives_the_reason_of_a_first_day_whether_it_binds_or_not(place, ada):
    weld = Task.objects.filter(name__startswith="Weld")
    weld.update(not_before=date(2031, 3, 10), not_before_reason="steel comes then")
    assert "cannot start before Mon 10 Mar (steel comes then)" in why(place, ada, "Weld")
    weld.update(not_before=date(2031, 2, 10))
    assert "You also said that it cannot start before Mon 10 Feb (steel comes then)." in why(
        place, ada, "Weld"
    )


NUMERICALS = {"A": 3, "B": 4, "C": 2, "D": 5, "E": 4, "F": 3, "G": 6, "H": 2}
JOINS = ("AB", "AC", "BD", "BE", "CE", "DF", "DG", "EG", "FH", "GH")


def test_three_days_of_room_of_which_one_moves_a_neighbour(place, ada):
    """Public study notes on project-management numericals, items N1 and N2: C has a total float
    of 3 and a free float of 2, so the third day moves E; it must end by day 8 of 20."""
    walk = place.task("Lantern walk")
    place.project.tasks.exclude(pk=walk.pk).delete()
    place.project.key_dates.update(on=date(2031, 3, 29))  # the Saturday after day 20
    made = {
        name: factories.TaskFactory(project=place.project, name=name, days=days)
        for name, days in NUMERICALS.items()
    }
    for before, after in JOINS:
        factories.LinkFactory(before=made[before], after=made[after])
    factories.LinkFactory(before=made["H"], after=walk)
    said = why(place, ada, "C")
    assert "It has 3 days in hand: it may end as late as Wed 12 Mar" in said
    assert "It may slip 2 days without moving anybody; more moves “E”" in said
