"""The draws against closed forms. Seeds are fixed, so nothing here can come out otherwise.

Mean and variance of the beta distribution of three points: Vose, Risk Analysis (3rd ed.,
2008), the modified PERT distribution; also our own arithmetic from the beta distribution.
"""

from datetime import date
from itertools import pairwise
from math import comb, sqrt
from statistics import NormalDist

import numpy as np
import pytest

from schedules.engine import Calendar, UnknownActivity, instant
from schedules.engine.chance import (
    Simulator,
    Spread,
    SpreadOutOfOrder,
    TooWet,
    chance_by,
    chance_of_all,
    expected,
    simulate,
)

from .networks import DAY, MONDAY, at, date_for, link, net, task

LONG = 100 * 1440  # minutes: rounding to one does not count
DRAWS = 20_000
DAILY = Calendar(key="daily", week=(((480, 1020),),) * 7)
ALWAYS_WET = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
HALF_WET = [days / 2 for days in ALWAYS_WET]


def drawn(*parts, spreads, data_date=MONDAY, draws=DRAWS, end="walk", **more):
    return simulate(net(*parts, end=end), spreads, data_date=data_date, draws=draws, **more)


def one(spread, **more):
    """One task round the clock, then the walk."""
    pour = task("pour", LONG, "always", **more)
    return drawn(pour, task("walk", 0, "always"), link("pour FS walk"), spreads={"pour": spread})


def test_durations_keep_the_mean_and_the_variance_of_three_points():
    low, high = LONG // 2, 3 * LONG
    taken = one(Spread(low=low, high=high)).ready - MONDAY
    mean = expected(low, LONG, high)
    variance = (mean - low) * (high - mean) / 7
    assert abs(taken.mean() - mean) < 4 * sqrt(variance / DRAWS)
    assert taken.var() == pytest.approx(variance, rel=0.03)
    assert taken.min() >= low and taken.max() <= high


def test_a_task_without_a_range_takes_its_duration_in_every_draw():
    found = one(Spread(low=LONG, high=LONG))
    assert set(found.ready) == {MONDAY + LONG}
    assert (found.chance(MONDAY + LONG - 1), found.chance(MONDAY + LONG)) == (0, 1)


def test_both_of_two_like_tasks_are_done_by_the_likely_day_in_a_quarter_of_the_draws():
    """The greater of two that share nothing: the product of their chances, 0.5 times 0.5."""
    parts = [task("pour", LONG, "always"), task("weld", LONG, "always")]
    even = Spread(low=LONG // 2, high=LONG * 3 // 2)
    links = link("pour FS walk"), link("weld FS walk")
    walk = task("walk", 0, "always")
    found = drawn(*parts, walk, *links, spreads={"pour": even, "weld": even})
    assert found.chance(MONDAY + LONG) == pytest.approx(0.25, abs=4 * found.error(MONDAY + LONG))
    assert found.carried["pour"] == pytest.approx(0.5, abs=0.015)
    assert found.carried["pour"] + found.carried["weld"] == pytest.approx(1, abs=0.001)


def paths(count):
    """Two chains of like tasks that meet at the walk: each nearly a normal distribution."""
    keys = [[f"{name}{n}" for n in range(count)] for name in "ab"]
    parts = [task(key, LONG, "always") for chain in keys for key in chain]
    ties = [link(f"{x} FS {y}") for chain in keys for x, y in pairwise(chain)]
    ends = [link(f"{chain[-1]} FS walk") for chain in keys]
    return keys, parts, [*ties, *ends]


def test_two_paths_that_meet_are_both_on_time_as_often_as_the_product_says():
    """Merge bias: the product of two normal chances, not the chance of one path."""
    keys, parts, links = paths(9)
    spread = Spread(low=LONG // 2, high=2 * LONG)
    spreads = {key: spread for chain in keys for key in chain}
    found = drawn(*parts, task("walk", 0, "always"), *links, spreads=spreads)
    mean = expected(spread.low, LONG, spread.high)
    path = NormalDist(9 * mean, sqrt(9 * (mean - spread.low) * (spread.high - mean) / 7))
    by = int(path.mean + path.stdev)
    alone = chance_by(path.mean, path.variance, by)
    both = chance_of_all([alone, alone])
    assert alone > 0.84 and both == pytest.approx(0.708, abs=0.001)
    assert found.chance(MONDAY + by) == pytest.approx(
        both, abs=4 * found.error(MONDAY + by) + 0.005
    )


def test_what_is_left_of_begun_work_is_drawn_in_the_same_proportion():
    spread = Spread(low=LONG // 2, high=2 * LONG)
    whole = one(spread).ready - MONDAY
    begun = one(spread, actual_start=MONDAY - LONG, remaining=LONG // 10).ready - MONDAY
    assert abs(begun - whole / 10).max() <= 1


def test_finished_work_is_not_drawn_again():
    spread = Spread(low=1, high=2 * LONG)
    found = one(spread, actual_start=MONDAY - LONG, actual_finish=MONDAY - 60)
    assert set(found.ready) == {MONDAY}


def test_a_review_comes_back_as_often_as_its_estimate_says():
    taken = one(Spread(low=LONG, high=LONG, returns=0.3, again=DAY)).ready - MONDAY
    assert set(taken) == {LONG, LONG + DAY}
    assert (taken > LONG).mean() == pytest.approx(0.3, abs=4 * sqrt(0.21 / DRAWS))


def outdoors(*parts, wet_days, spreads=None, **more):
    calendars = {"daily": DAILY}
    network = net(*parts, end="walk")
    network = type(network)(
        activities=network.activities, links=network.links, end="walk",
        calendars={**network.calendars, **calendars}, project_calendar="daily",
    )  # fmt: skip
    spreads = spreads or {"paint": Spread(low=5 * DAY, high=5 * DAY, outdoor=True)}
    return simulate(network, spreads, data_date=MONDAY, wet_days=wet_days, draws=DRAWS, **more)


PAINT = task("paint", 5 * DAY, "daily"), task("walk", 0, "always"), link("paint FS walk")


def test_five_dry_days_come_as_seldom_as_the_negative_binomial_says():
    """Every day is wet with a chance of one half: own arithmetic."""
    found = outdoors(*PAINT, wet_days=HALF_WET)
    for days in (5, 7, 10, 14):
        chance = sum(comb(days, dry) for dry in range(5, days + 1)) / 2**days
        by = MONDAY + days * 1440
        assert found.chance(by) == pytest.approx(chance, abs=4 * found.error(by) + 1e-9)


def test_outdoor_tasks_share_the_same_wet_days():
    prime = task("prime", 5 * DAY, "daily")
    wet = Spread(low=5 * DAY, high=5 * DAY, outdoor=True)
    spreads = {"paint": wet, "prime": wet}
    both = outdoors(*PAINT, prime, link("prime FS walk"), wet_days=HALF_WET, spreads=spreads)
    alone = outdoors(*PAINT, wet_days=HALF_WET)
    assert (both.ready == alone.ready).all()
    assert both.carried["paint"] == both.carried["prime"] == 1


def test_wet_days_count_in_their_month_and_outdoors_alone():
    january = [0] * 12
    january[0] = 31
    dry = {MONDAY + 4 * 1440 + 1020}
    assert set(outdoors(*PAINT, wet_days=january).ready) == dry
    indoors = {"paint": Spread(low=5 * DAY, high=5 * DAY)}
    assert set(outdoors(*PAINT, wet_days=HALF_WET, spreads=indoors).ready) == dry


def test_a_month_that_is_always_wet_is_waited_out():
    wet = [0] * 12
    wet[5], wet[6] = 30, 31
    assert set(outdoors(*PAINT, wet_days=wet).ready) == {at("2031-08-05T17:00")}


def test_weather_that_is_never_dry_is_refused_at_last():
    with pytest.raises(TooWet):
        Simulator(data_date=MONDAY, wet_days=ALWAYS_WET, draws=5000).run(
            net(task("paint", DAY), task("walk", 0), link("paint FS walk"), end="walk"),
            {"paint": Spread(low=DAY, high=DAY, outdoor=True)},
        )


def test_what_lies_beyond_the_first_look_ahead_is_not_cut_off():
    """The first look reaches half as far again as the plan: to some 4,200 days here."""
    spread = {"pour": Spread(low=1000 * DAY, high=6000 * DAY)}
    pour, walk = task("pour", 2000 * DAY), task("walk", 0)
    far = drawn(pour, walk, link("pour FS walk"), draws=50, spreads=spread)
    assert far.ready_with(1) > MONDAY + 4500 * 1440


def test_looking_further_leaves_earlier_days_and_durations_as_they_were():
    short = Simulator(data_date=MONDAY, wet_days=HALF_WET, draws=500, days=70)
    long = Simulator(data_date=MONDAY, wet_days=HALF_WET, draws=500, days=700)
    network = net(task("paint", 5 * DAY), task("walk", 0), link("paint FS walk"), end="walk")
    spreads = {"paint": Spread(low=3 * DAY, high=9 * DAY, outdoor=True)}
    assert (short.run(network, spreads).ready == long.run(network, spreads).ready).all()


def test_the_same_draws_come_again_whatever_else_is_planned():
    spread = {"pour": Spread(low=DAY, high=LONG)}
    pour, walk = task("pour", 5 * DAY), task("walk", 0)
    alone = drawn(pour, walk, link("pour FS walk"), spreads=spread)
    tidy = task("tidy", 5), link("tidy FS walk")
    again = drawn(*tidy, pour, walk, link("pour FS walk"), spreads=spread)
    assert (alone.ready == again.ready).all()


def test_a_shorter_task_is_late_in_no_draw_that_was_on_time():
    def with_days(days):
        spread = {"pour": Spread(low=days * DAY // 2, high=days * DAY * 2)}
        pour = task("pour", days * DAY)
        return drawn(pour, task("walk", 0), link("pour FS walk"), spreads=spread).ready

    assert (with_days(8) <= with_days(10)).all()


def test_the_public_date_itself_is_not_waited_for():
    walk = date_for("walk", "event", "2031-07-12T18:00")
    found = drawn(task("pour", DAY), task("walk", 0), link("pour FS walk"), walk,
                  spreads={"pour": Spread(low=DAY, high=DAY)})  # fmt: skip
    assert found.chance(walk.at) == 1 and found.ready_with(1) == at("2031-06-16T17:00")


@pytest.mark.parametrize(("closes", "hour"), [(True, "17:00"), (False, "08:00")])
def test_a_milestone_falls_where_work_ends_or_where_it_goes_on(closes, hour):
    done = task("walk", 0, finish_milestone=closes)
    spread = {"pour": Spread(low=DAY, high=DAY, returns=0.5, again=DAY)}
    found = drawn(task("pour", DAY), done, link("pour FS walk"), spreads=spread)
    first = 16 if closes else 17
    assert set(found.ready) == {at(f"2031-06-{day}T{hour}") for day in (first, first + 1)}
    assert found.carried["pour"] == 1


def test_nothing_that_leads_to_the_end_has_no_chance():
    walk = date_for("walk", "event", "2031-07-12T18:00")
    assert drawn(task("pour", DAY), task("walk", 0), walk, spreads={}) is None


def test_points_out_of_order_and_an_end_that_is_not_there_are_refused():
    with pytest.raises(SpreadOutOfOrder) as refused:
        one(Spread(low=LONG + 1, high=2 * LONG))
    assert refused.value.activity == "pour"
    with pytest.raises(UnknownActivity):
        drawn(task("pour"), spreads={}, end="opening")


def by_hand(calendar, start, minutes, wet, first):
    """The finish of outdoor work, span by span over its days."""
    day = start // 1440
    while True:
        for opens, closes in () if wet[day - first] else calendar.week[(day + 5) % 7]:
            begin = max(start, day * 1440 + opens)
            worked = max(0, day * 1440 + closes - begin)
            if worked >= minutes:
                return begin + minutes
            minutes -= worked
        day += 1


@pytest.mark.parametrize("name", ["split", "weekend", "night"])
def test_outdoor_work_stands_still_on_wet_days_whatever_its_calendar(name):
    weeks = {
        "split": (((480, 720), (780, 1000)),) * 5 + ((), ()),
        "weekend": ((),) * 5 + (((540, 900),), ((600, 720),)),
        "night": (((0, 300), (1200, 1440)),) * 7,
    }
    calendar = Calendar(key=name, week=weeks[name])
    network = net(task("walk", 0, "always"), link("paint FS walk"), end="walk")
    network = type(network)(
        activities=(*network.activities, task("paint", 1000, name)), links=network.links,
        calendars={**network.calendars, name: calendar}, end="walk", project_calendar=name,
    )  # fmt: skip
    simulator = Simulator(data_date=MONDAY + 500, wet_days=HALF_WET, draws=300, days=2000)
    spread = Spread(low=400, high=3000, outdoor=True)
    walk = simulator.walk(network, {"paint": spread})
    row, first = 1, MONDAY // 1440 - 2
    for draw in range(300):
        minutes, wet = int(walk.length[row][draw]), walk.sky._wet[:, draw]
        assert walk.finish[row][draw] == by_hand(calendar, MONDAY + 500, minutes, wet, first)


def test_the_curve_counts_each_day_to_its_end():
    found = one(Spread(low=LONG // 2, high=2 * LONG))
    days = found.by_day()
    assert days[-1][1] == 1 and all(at % 1440 == 0 for at, _ in days)
    assert [share for _, share in days] == sorted(share for _, share in days)
    half = found.ready_with(0.5)
    assert np.mean(found.ready <= half) >= 0.5 > np.mean(found.ready < half)


def test_the_wet_days_of_a_month_are_spread_over_its_days():
    from schedules.engine.chance.weather import rates

    found = rates([1.0] * 12, instant(date(2028, 2, 28)) // 1440, 3)
    assert found.tolist() == pytest.approx([1 / 29, 1 / 29, 1 / 31])
