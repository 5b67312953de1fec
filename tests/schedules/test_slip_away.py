"""Somebody is away: their lane has days off, and nobody else's has."""

from __future__ import annotations

import pytest

from schedules.models import Calendar, Task
from tests import factories
from tests.schedules.test_slip import page_of
from tests.schedules.test_slip_options import apply, away, changes


def test_a_week_away_moves_the_work_by_five_working_days(place, ada):
    page = page_of(ada, place, changes("a", away(place, on="2031-03-10", days="7")))
    assert "Artist is away from Mon 10 Mar 2031 to Sun 16 Mar 2031" in page
    assert "40 days in hand" in page


def test_days_away_are_put_into_the_hours_of_that_lane_alone(place, ada):
    other = factories.LaneFactory(project=place.project, name="Saltglaze Metalworks")
    Task.objects.filter(name__startswith="Encroachment").update(lane=other)
    apply(ada, place, changes("a", away(place, on="2031-03-10", days="7")))
    assert place.in_hand == 40
    assert place.task("Encroachment").calendar is None
    lane = place.task("Weld").lane
    assert lane.calendar.exceptions.count() == 7
    assert not Calendar.objects.get(is_default=True).exceptions.exists()


AWAY_BAD = [
    ({"days": "5"}, "Choose the first day away."),
    ({"days": "0.5", "on": "2031-03-10"}, "Write how many days in a row, such as 5."),
    ({"days": "5", "on": "2031-03-01"}, "Mon 3 Mar is the earliest day that can be tried."),
]


@pytest.mark.parametrize(("change", "said"), AWAY_BAD)
def test_an_absence_that_cannot_be_is_said_beside_its_field(place, ada, change, said):
    answer = ada.get(place.url("slip"), changes("a", away(place, **change)))
    assert answer.status_code == 422
    assert said in answer.content.decode()
