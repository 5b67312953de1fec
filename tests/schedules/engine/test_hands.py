"""Levelling and shortening in small networks, each rule alone. Common practice, no source."""

from dataclasses import replace

import pytest

from schedules.engine import LagClock, LinkKind, solve
from schedules.engine.crash import Shortening, curve
from schedules.engine.levelling import Hands, TooFewHands, broken, level, overloads

from .networks import DAY, MONDAY, at, date_for, link, net, task

ONE = Shortening(step=DAY, most=1, cost=100)


def hands(*keys, capacity=1, **more):
    needs = {key: {"artist": 1} for key in keys}
    return Hands(capacity={"artist": capacity}, needs=needs | more)


def order(network, of):
    found = level(network, of, data_date=MONDAY)
    return [(o.before, o.after) for o in found.order]


def test_of_two_tasks_at_once_the_one_that_is_needed_sooner_goes_first():
    network = net(task("paint"), task("wire"), task("sign"), link("paint FS sign"), end="sign")
    assert order(network, hands("paint", "wire")) == [("paint", "wire")]


def test_tasks_that_never_meet_get_no_order_link():
    first = (
        date_for("paint", "no_later", "2031-06-20"),
        date_for("wire", "no_earlier", "2031-08-04"),
    )
    network = net(task("paint"), task("wire"), *first)
    assert order(network, hands("paint", "wire")) == []


def test_an_order_that_follows_from_other_links_is_not_said_again():
    network = net(task("a"), task("b"), task("c"), link("a FS c"), link("c FS b"))
    assert order(network, hands("a", "b")) == []


def test_a_task_that_may_begin_early_is_held_back_by_a_link_of_another_kind():
    network = net(task("a", 3 * DAY), task("b"), link("a FS b", -2 * DAY))
    found = level(network, hands("a", "b"), data_date=MONDAY)
    assert [(o.kind, o.lag) for o in found.order] == [(LinkKind.SS, 3 * DAY)]
    assert not overloads(found.network, hands("a", "b"), found.plan, data_date=MONDAY)


@pytest.mark.parametrize(("clock", "done"), [
    ("work", "2031-06-28T17:00"), ("after", "2031-07-05T17:00"), ("project", "2031-06-24T17:00"),
])  # fmt: skip
def test_hands_wait_by_the_clock_of_each_lag(clock, done):
    """The crew ends on Friday 20 June, volunteers follow on a weekend. By hand:

    four weekdays end on Thursday 26 June, four weekend days on Sunday 29 June, 36 hours on
    Sunday 22 June at 5:00, which leaves the paint for Monday and Tuesday.
    """
    wait = link("pour FS skin", 4 * DAY, LagClock(clock))
    parts = task("pour", 5 * DAY), task("skin", DAY, "weekend"), task("paint", 2 * DAY)
    network = replace(net(*parts, wait), project_calendar="always")
    of = hands("pour", "skin", "paint")
    found = level(network, of, data_date=MONDAY)
    assert found.date == at(done)
    assert not broken(found.network, of, found.plan, data_date=MONDAY)
    early = solve(replace(network, links=(link("pour FS skin"),)), data_date=MONDAY)
    assert "link" in {b.rule for b in broken(network, of, early, data_date=MONDAY)}


def test_four_weekdays_are_no_wait_of_four_weekend_days():
    pair = task("pour", 5 * DAY), task("skin", DAY, "weekend")
    network = net(*pair, link("pour FS skin", 4 * DAY, LagClock.SUCCESSOR))
    early = solve(net(*pair, link("pour FS skin", 4 * DAY)), data_date=MONDAY)
    found = broken(network, hands("pour", "skin"), early, data_date=MONDAY)
    assert [b.rule for b in found] == ["link"]


def test_work_in_progress_is_not_put_off():
    begun = task("weld", 3 * DAY, actual_start=MONDAY - DAY, remaining=2 * DAY)
    network = net(task("fold"), begun)
    assert order(network, hands("fold", "weld")) == [("weld", "fold")]


def test_two_tasks_in_progress_are_told_and_the_third_waits_for_both():
    begun = [
        task(k, n * DAY, actual_start=MONDAY, remaining=n * DAY) for n, k in ((2, "a"), (3, "b"))
    ]
    network, of = net(*begun, task("c")), hands("a", "b", "c")
    found = level(network, of, data_date=MONDAY)
    assert {(o.before, o.after) for o in found.order} == {("a", "c"), ("b", "c")}
    left = overloads(found.network, of, found.plan, data_date=MONDAY)
    assert [o.activities for o in left] == [("a", "b")]


def test_an_event_keeps_its_date_and_the_work_goes_round_it():
    network = net(task("talk", 120), task("paint"), date_for("talk", "event", "2031-06-16T10:00"))
    found = level(network, hands("talk", "paint"), data_date=MONDAY)
    assert found.plan.dates["talk"].early_start == at("2031-06-16T10:00")
    assert [(o.before, o.after) for o in found.order] == [("talk", "paint")]


def test_an_event_keeps_its_date_even_before_more_pressing_work():
    network = net(task("talk", 120), task("paint", 3 * DAY),
                  date_for("talk", "event", "2031-06-17T10:00"),
                  date_for("paint", "no_later", "2031-06-17"))  # fmt: skip
    assert order(network, hands("talk", "paint")) == [("talk", "paint")]


def test_hands_shared_by_weekdays_and_weekends_are_parted_at_the_proven_best():
    ties = link("paint FS open"), link("prime FS open")
    network = net(task("paint", 7 * DAY), task("prime", DAY, "weekend"),
                  task("open", 0, "always"), *ties, end="open")  # fmt: skip
    found = level(network, hands("paint", "prime"), data_date=MONDAY, effort=0.1)
    assert found.proven and found.date == at("2031-06-28T17:00")


def test_hands_are_kept_over_the_weekend_between():
    network, of = (
        net(task("paint", 7 * DAY), task("prime", DAY, "weekend")),
        hands("paint", "prime"),
    )
    found = overloads(network, of, solve(network, data_date=MONDAY), data_date=MONDAY)
    day = [(at("2031-06-21T08:00"), at("2031-06-21T17:00"))]
    assert [(o.start, o.finish) for o in found] == day


def test_a_task_that_needs_more_than_there_is_is_refused():
    with pytest.raises(TooFewHands) as refused:
        level(net(task("hang")), Hands(capacity={"crew": 2}, needs={"hang": {"crew": 3}}),
              data_date=MONDAY)  # fmt: skip
    assert (refused.value.activity, refused.value.lane) == ("hang", "crew")


def test_the_checker_sees_a_link_a_date_and_hands_that_are_broken():
    network = net(task("a"), task("b"))
    loose = level(network, hands(), data_date=MONDAY).plan
    tied = net(task("a"), task("b"), link("a FS b"), date_for("a", "no_earlier", "2031-06-17"))
    found = broken(tied, hands("a", "b"), loose, data_date=MONDAY)
    assert {b.rule for b in found} == {"link", "date", "hands"}


def test_a_task_entered_and_left_by_its_start_is_not_worth_shortening():
    network = net(task("a"), task("b", 3 * DAY), task("c", 9 * DAY), link("a FS b"), link("b SS c"))
    found = curve(network, {"b": ONE}, data_date=MONDAY, unit=DAY)
    assert found.plans == () and found.stop == ("a", "b", "c")


def test_a_task_entered_by_its_finish_and_left_by_its_start_makes_it_later():
    network = net(task("a", 6 * DAY), task("b", 3 * DAY), task("c", 9 * DAY),
                  link("a FF b"), link("b SS c"))  # fmt: skip
    cheap = {"a": Shortening(step=DAY, most=2, cost=900), "b": ONE}
    found = curve(network, cheap, data_date=MONDAY, unit=DAY)
    assert [dict(plan.steps) for plan in found.plans] == [{"a": 1}, {"a": 2}]


def test_steps_that_are_shared_by_two_chains_are_bought_once():
    network = net(task("a", 3 * DAY), task("b", 3 * DAY), task("c", 3 * DAY),
                  link("a FS b"), link("a FS c"))  # fmt: skip
    prices = {"a": Shortening(step=DAY, most=1, cost=150), "b": ONE, "c": ONE}
    found = curve(network, prices, data_date=MONDAY, unit=DAY)
    assert [(plan.units, plan.cost) for plan in found.plans] == [(1, 150), (2, 350)]


def test_a_step_that_makes_another_chain_later_is_given_back():
    network = net(task("a", 5 * DAY), task("b", 6 * DAY), task("c", 10 * DAY), task("d", 4 * DAY),
                  link("a FF b"), link("b SS c"), link("b FS d"))  # fmt: skip
    found = curve(network, {
        "b": Shortening(step=DAY, most=2, cost=100),
        "c": Shortening(step=DAY, most=2, cost=300),
        "d": Shortening(step=DAY, most=3, cost=250),
    }, data_date=MONDAY, unit=DAY)  # fmt: skip
    assert [(plan.units, plan.cost) for plan in found.plans] == [(1, 400), (2, 950)]
    assert dict(found.plans[1].steps) == {"b": 1, "c": 2, "d": 1}


def test_a_step_is_given_back_when_another_way_is_cheaper():
    network = net(task("p", 3 * DAY), task("q", 4 * DAY), link("p FS q"))
    prices = {"p": ONE, "q": Shortening(step=2 * DAY, most=1, cost=150)}
    found = curve(network, prices, data_date=MONDAY, unit=DAY)
    assert [(plan.units, plan.cost) for plan in found.plans] == [(1, 100), (2, 150), (3, 250)]


def test_of_work_in_progress_what_is_left_gets_shorter():
    weld = task("weld", 9 * DAY, actual_start=MONDAY - 7 * DAY, remaining=3 * DAY)
    found = curve(net(weld), {"weld": ONE}, data_date=MONDAY, unit=DAY)
    assert [(plan.units, plan.date) for plan in found.plans] == [(1, at("2031-06-17T17:00"))]
