"""Links are added and removed in the open row; a loop is named and refused."""

from __future__ import annotations

import re
from datetime import datetime

import pytest

from schedules.engine import moment
from tests import factories

HTMX = {"HX-Request": "true"}


def link(before, **changes):
    base = {"before": before.pk, "kind": "FS", "lag": "", "lag_clock": "work", "reason": ""}
    return base | changes


def test_a_cure_is_waited_out_on_the_clock(place, ada):
    permit = place.task("Encroachment")
    data = link(permit, lag="72", lag_clock="elapsed", reason="notice on the door")
    page = ada.post(place.url("link-add", place.task("Cut").pk), data, headers=HTMX)
    assert "72 hours later: notice on the door" in page.content.decode()
    assert moment(permit.early_finish) == datetime(2031, 3, 21, 16)  # a Friday
    assert moment(place.task("Cut").early_start) == datetime(2031, 3, 25, 8)
    assert place.last_log.sentence == (
        "“Cut and sew skin” waits for “Encroachment permit review”: "
        "starts after it is finished, 72 hours later: notice on the door."
    )


def test_the_row_stays_open_for_the_next_link(place, ada):
    url = place.url("link-add", place.task("Cut").pk)
    page = ada.post(url, link(place.task("Encroachment")), headers=HTMX).content.decode()
    assert "Add the link" in page


def test_a_loop_is_named_and_nothing_is_kept(place, ada):
    data = link(place.task("Cut"), reason="sew <first>")
    answer = ada.post(place.url("link-add", place.task("Weld").pk), data, headers=HTMX)
    page = answer.content.decode()
    assert answer.status_code == 422
    named = re.search(r"This link would make a loop: ([^.]+)\.", page)[1].split(", ")
    assert named[0] == named[-1]
    assert set(named) == {"Weld lantern frame", "Cut and sew skin"}
    assert "sew &lt;first&gt;" in page
    assert place.project.links.count() == 2
    assert place.in_hand == 45


def test_a_task_cannot_wait_for_itself(place, ada):
    weld = place.task("Weld")
    answer = ada.post(place.url("link-add", weld.pk), link(weld))
    assert answer.status_code == 422
    assert "A task cannot wait for itself." in answer.content.decode()


def test_the_same_link_twice_is_refused(place, ada):
    answer = ada.post(place.url("link-add", place.task("Cut").pk), link(place.task("Weld")))
    assert answer.status_code == 422
    assert "already waits for “Weld lantern frame” in this way" in answer.content.decode()


@pytest.mark.parametrize(
    ("lag", "clock", "said"),
    [
        ("501", "work", "Write between −500 and 500 working days."),
        ("501", "after", "Write between −500 and 500 working days."),
        ("99999", "elapsed", "Write between −9,000 and 9,000 hours."),
        ("soon", "work", "Write a number, such as 3, 0.5 or 72."),
        ("1e400", "work", "Write between −500 and 500 working days."),
    ],
)
def test_an_absurd_wait_is_refused(place, ada, lag, clock, said):
    data = link(place.task("Encroachment"), lag=lag, lag_clock=clock)
    answer = ada.post(place.url("link-add", place.task("Cut").pk), data)
    assert answer.status_code == 422
    assert said in answer.content.decode()


@pytest.mark.parametrize(
    ("clock", "whose"), [("after", "the task that waits"), ("project", "the project")]
)
def test_a_wait_in_days_of_another_calendar_says_whose_they_are(place, ada, clock, whose):
    permit = place.task("Encroachment")
    data = link(permit, lag="3", lag_clock=clock, reason="paper posted")
    ada.post(place.url("link-add", place.task("Cut").pk), data)
    assert f"later by 3 working days of {whose}: paper posted" in place.last_log.sentence


def test_a_task_of_another_project_cannot_be_waited_for(place, ada):
    answer = ada.post(place.url("link-add", place.task("Cut").pk), link(factories.TaskFactory()))
    assert answer.status_code == 422


def test_a_removed_link_lets_the_skin_start_at_once(place, ada):
    row = place.task("Cut").links_in.get()
    ada.post(place.url("link-delete", row.pk))
    assert place.task("Cut").early_start == place.task("Weld").early_start
    assert place.last_log.sentence == "“Cut and sew skin” no longer waits for “Weld lantern frame”."
