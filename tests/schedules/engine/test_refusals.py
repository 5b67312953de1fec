"""What cannot be computed is refused, with the culprit."""

from dataclasses import replace
from datetime import date

import pytest

from schedules.engine import (
    Activity,
    BadWeek,
    BeyondHorizon,
    Calendar,
    Cycle,
    DuplicateActivity,
    DuplicateLink,
    KeyDate,
    KeyDateRole,
    Link,
    NegativeDuration,
    Network,
    NoWorkingTime,
    ScheduleError,
    SelfLink,
    UnknownActivity,
    UnknownCalendar,
    UnknownZone,
    solve,
)

from .networks import CALENDARS, DAY, HOURS, cure, date_for, link, net, plan, task

EVENT = KeyDateRole.EVENT
PAIR = (task("cut"), task("weld"))


def refusal(*parts: object, **more: object) -> ScheduleError:
    with pytest.raises(ScheduleError) as refused:
        plan(*parts, **more)
    return refused.value


def test_a_loop_is_named_in_the_order_of_its_links() -> None:
    found = refusal(
        *PAIR, task("paint"), task("plan"), task("hang"),
        link("plan FS cut"), link("cut FS weld"), link("weld SS paint"),
        link("paint FF cut"), link("paint FS hang"),
    )  # fmt: skip
    assert isinstance(found, Cycle)
    assert (found.code, found.activities) == ("cycle", ("cut", "weld", "paint"))


def test_a_long_loop_does_not_exhaust_anything() -> None:
    tasks = [task(f"{n:05}", 1) for n in range(5_000)]
    links = [link(f"{n:05} FS {(n + 1) % 5_000:05}") for n in range(5_000)]
    found = refusal(*tasks, *links)
    assert isinstance(found, Cycle) and len(found.activities) == 5_000


def test_a_link_to_itself_is_named() -> None:
    found = refusal(*PAIR, link("cut FS cut"))
    assert isinstance(found, SelfLink) and found.link == "cut FS cut"


def test_two_links_that_say_the_same_are_named() -> None:
    twin = Link(key="again", before="cut", after="weld", lag=5)
    found = refusal(*PAIR, link("cut FS weld"), twin)
    assert isinstance(found, DuplicateLink) and found.links == ("cut FS weld", "again")


def test_a_working_and_an_elapsed_lag_between_the_same_two_may_both_stand() -> None:
    wait = cure("cut FS weld", 72)
    both = plan(*PAIR, link("cut FS weld", DAY), Link(**(_fields(wait) | {"key": "dry"})))
    assert len(both.dates["weld"].drivers) == 1


def _fields(row: Link) -> dict:
    return {name: getattr(row, name) for name in Link.__slots__}


@pytest.mark.parametrize(
    ("parts", "more", "activity"),
    [
        ((link("cut FS glue"),), {}, "glue"),
        ((link("glue FS cut"),), {}, "glue"),
        ((date_for("walk", "event", "2031-06-28"),), {}, "walk"),
        ((), {"end": "opening"}, "opening"),
    ],
)
def test_a_name_that_is_not_in_the_plan(parts: tuple, more: dict, activity: str) -> None:
    found = refusal(*PAIR, *parts, **more)
    assert isinstance(found, UnknownActivity) and found.activity == activity


def test_one_key_for_two_activities() -> None:
    found = refusal(task("cut"), task("cut"))
    assert isinstance(found, DuplicateActivity) and found.activity == "cut"


@pytest.mark.parametrize("wrong", [{"minutes": -1}, {"actual_start": 0, "remaining": -5}])
def test_a_duration_below_zero(wrong: dict) -> None:
    found = refusal(task("cut", **wrong))
    assert isinstance(found, NegativeDuration) and found.activity == "cut"


def test_a_calendar_that_is_missing() -> None:
    found = refusal(task("cut", calendar="moon"))
    assert isinstance(found, UnknownCalendar)
    assert (found.activity, found.calendar) == ("cut", "moon")
    with pytest.raises(UnknownCalendar):
        solve(
            Network(activities=(), links=(), calendars=CALENDARS, project_calendar="moon"),
            data_date=0,
        )


def test_a_duration_of_centuries_is_refused_not_looped_over() -> None:
    found = refusal(task("cut", 10**12))
    assert isinstance(found, NoWorkingTime) and found.calendar == "crew"


def test_a_zone_that_does_not_exist() -> None:
    assert isinstance(refusal(*PAIR, zone="Moon/Base"), UnknownZone)


def test_every_refusal_is_a_sentence_without_code_words() -> None:
    for error in (Cycle(("a", "b")), SelfLink("k"), NoWorkingTime("crew"), UnknownZone("x")):
        assert str(error).endswith(".") and error.code


@pytest.mark.parametrize(
    "wrong",
    [
        {"week": (HOURS,) * 6},
        {"week": (((480, 1500),),) * 7},
        {"week": (((-60, 480),),) * 7},
        {"week": (((1200, 120),),) * 7},
        {"week": (HOURS,) * 7, "exceptions": {date(2031, 6, 17): ((0, 1441),)}},
    ],
)
def test_a_week_that_is_no_week(wrong: dict) -> None:
    network = replace(net(*PAIR), calendars={"crew": Calendar(key="crew", **wrong)})
    with pytest.raises(BadWeek) as refused:
        solve(network, data_date=0)
    assert refused.value.calendar == "crew"


@pytest.mark.parametrize(
    ("parts", "more", "key"),
    [
        ((task("cut", 10**9, "always"),), {}, "cut"),
        ((task("cut", 60, "always", actual_finish=10**10),), {}, "cut"),
        ((task("cut", 10**9, "always", actual_finish=0),), {}, "cut"),
        ((task("cut"), KeyDate(key="far", activity="cut", at=-(10**9), role=EVENT)), {}, "far"),
        ((*PAIR, cure("cut FS weld", 10**7)), {}, "weld"),
        ((), {"data_date": 10**9}, None),
    ],
)
def test_a_date_that_no_calendar_shows(parts: tuple, more: dict, key: str | None) -> None:
    parts = tuple(replace(p, calendar="always") if isinstance(p, Activity) else p for p in parts)
    found = refusal(*parts, **more)
    assert isinstance(found, BeyondHorizon) and found.key == key
