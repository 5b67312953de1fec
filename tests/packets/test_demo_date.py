"""The public date that the demo finds, whatever the day on which it is loaded."""

from datetime import date
from types import SimpleNamespace

import pytest
from django.core.management.base import CommandError

from packets.management.demo import when
from packets.management.demo.days import Days
from schedules.models import KeyDate

MONDAY = date(2031, 3, 3)


@pytest.fixture
def chances(monkeypatch):
    """The chance of each Saturday that is tried, the last one for all that follow."""

    def told(*percents):
        first = date(2031, 3, 29)

        def chance_on(public, days):
            assert public.on.weekday() == when.SATURDAY
            return percents[min((public.on - first).days // 7, len(percents) - 1)]

        monkeypatch.setattr(when, "chance_on", chance_on)

    return told


def found():
    return when.find_public_date(KeyDate(), Days(MONDAY))


def test_the_first_saturday_with_a_fair_chance_is_taken(chances):
    chances(0.0, 40.0, 85.0, 99.0)
    assert found() == date(2031, 4, 12)


def test_an_earlier_saturday_is_taken_where_the_next_is_all_but_sure(chances):
    chances(0.0, 60.0, 99.0)
    assert found() == date(2031, 4, 5)


def test_a_sure_saturday_is_taken_where_the_one_before_is_hopeless(chances):
    chances(0.0, 20.0, 99.0)
    assert found() == date(2031, 4, 12)


def test_a_plan_that_is_never_ready_ends_the_search_with_a_plain_error(chances):
    chances(0.0)
    with pytest.raises(CommandError, match="No Saturday within 52 weeks"):
        found()


def test_a_public_date_that_nothing_leads_to_is_told_at_once(monkeypatch):
    nothing = SimpleNamespace(in_hand_days=None)
    monkeypatch.setattr(KeyDate, "save", lambda self: None)
    monkeypatch.setattr(KeyDate, "project", None)
    monkeypatch.setattr(when.plan, "recompute", lambda project, today: nothing)
    with pytest.raises(CommandError, match="Nothing leads to the demo's public date"):
        found()
