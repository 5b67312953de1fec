"""What each day costs, and which tasks pay for it."""

from __future__ import annotations

import html
import re

import pytest

from schedules.plan import recompute
from schedules.selectors.shorten import slip_query
from tests import factories
from tests.factories import TODAY


@pytest.fixture
def priced(place):
    """The skin is cheaper than the frame; a review of 29 days runs beside them."""
    price(place, "Weld", 3, 40_000)
    price(place, "Cut", 2, 22_000)
    review, walk = place.task("Encroach"), place.task("Lantern walk")
    place.project.tasks.filter(pk=review.pk).update(days=26)
    factories.LinkFactory(before=review, after=walk)
    recompute(place.project, TODAY)
    return place


def price(place, name, days, cents):
    task = place.project.tasks.filter(name__startswith=name)
    task.update(crash_days=days, crash_day_cents=cents)


def page_of(client, place):
    return html.unescape(client.get(place.url("shorten")).content.decode())


def costs(page):
    return re.findall(r'data-label="Least cost" class="n">([^<]+)<', page.split("<details>")[0])


def test_each_day_has_its_least_cost_until_the_review_carries_the_date(priced, ada):
    page = page_of(ada, priced)
    assert costs(page) == ["$220", "$440", "$840", "$1,240"]
    assert "“Encroachment permit review” carries the date" in page


def test_the_cheapest_tasks_are_named_with_the_days_in_hand(priced, ada):
    page = page_of(ada, priced)
    assert "Cut and sew skin 1 day shorter" in page
    assert "46 days in hand" in page and "49 days in hand" in page


def test_a_row_leads_to_a_slip_with_the_same_changes(priced, ada):
    page = page_of(ada, priced)
    links = re.findall(r'href="([^"]+/slip/\?[^"]+)"', page)
    tried = html.unescape(ada.get(links[2]).content.decode())
    assert "48 days in hand" in tried and "−1 day" in tried


def test_one_change_and_several_are_spelled_for_the_slip():
    assert slip_query({"12": 2}) == "what=task-12&days=-2"
    assert slip_query({"12": 2, "7": 1}) == (
        "a-0-what=task-12&a-0-days=-2&a-1-what=task-7&a-1-days=-1"
    )


def test_another_way_to_win_the_first_day_is_dearer(priced, ada):
    others = page_of(ada, priced).split("Other ways to win the first day")[1]
    assert "Weld lantern frame 1 day shorter" in others and "$400" in others


def test_tasks_without_a_price_lead_to_their_form(priced, ada):
    page = page_of(ada, priced)
    assert priced.url("task-edit", priced.task("Encroach").pk) in page
    assert "Give a price" in page


def test_without_any_price_the_page_teaches(place, ada):
    page = page_of(ada, place)
    assert "No task has a price" in page and "a second seamstress" in page


def test_a_price_that_does_not_help_is_told(place, ada):
    price(place, "Encroach", 2, 100)
    page = page_of(ada, place)
    assert "Nothing that has a price would make the plan earlier." in page


def test_finished_work_has_no_price_any_more(priced, ada):
    priced.project.tasks.filter(name__startswith="Weld").update(started_on=TODAY, finished_on=TODAY)
    recompute(priced.project, TODAY)
    assert "Weld lantern frame 1 day shorter" not in page_of(ada, priced)


def test_a_reader_sees_what_days_cost_and_a_stranger_nothing(priced, cyd, dee):
    page = page_of(cyd, priced)
    assert costs(page) and "Give a price" not in page
    assert dee.get(priced.url("shorten")).status_code == 404
