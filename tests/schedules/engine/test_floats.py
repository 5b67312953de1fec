"""Free, interfering and independent float, and the band of what is near."""

import pytest

from schedules.engine import Plan, critical, near_band, near_critical, solve

from .networks import DAY, MONDAY, at, date_for, link, net, plan, task


def floats(found: Plan, key: str) -> tuple[float, float, float, float]:
    dates = found.dates[key]
    return (
        dates.total_float / DAY,
        dates.free_float / DAY,
        dates.interfering_float / DAY,
        dates.independent_float / DAY,
    )


CHAIN = (
    task("A", 2 * DAY), task("B", 10 * DAY), task("C", DAY), task("D", DAY), task("E", DAY),
    link("A FS C"), link("C FS D"), link("B FS E"), link("D FS E"),
)  # fmt: skip


def test_float_shared_along_a_chain_is_free_at_its_end_only() -> None:
    """Own arithmetic: A, C and D share six days; only D can use them and move nobody."""
    found = plan(*CHAIN)
    assert floats(found, "A") == floats(found, "C") == (6, 0, 6, 0)
    assert floats(found, "D") == (6, 6, 0, 0)
    assert floats(found, "B") == (0, 0, 0, 0)


def test_independent_float_is_left_when_all_before_is_late() -> None:
    """Own arithmetic: C may start on day 1 to 5; its free float ends where D starts (4), and
    A may keep it waiting until 2."""
    found = plan(
        task("X", 2 * DAY), task("Y", 6 * DAY), task("Z", DAY),
        task("A", DAY), task("C", DAY), task("D", 2 * DAY),
        link("X FS Y"), link("A FS Y"), link("Y FS Z"), link("A FS C"), link("C FS D"),
        link("X FS D", 2 * DAY), link("D FS Z"),
    )  # fmt: skip
    assert floats(found, "C") == (4, 2, 2, 1)
    assert floats(found, "D") == (2, 2, 0, 0)


def test_a_negative_float_interferes_with_nothing() -> None:
    found = plan(*CHAIN, date_for("E", "no_later", "2031-06-24"))
    assert floats(found, "B")[0] < 0
    assert floats(found, "B")[1:] == (0, 0, 0)


def test_the_band_of_what_is_near_is_three_days_or_a_twentieth() -> None:
    short, long = net(task("A", 20 * DAY)), net(task("A", 100 * DAY))
    assert near_band(short, solve(short, data_date=MONDAY), data_date=MONDAY) == 3 * DAY
    assert near_band(long, solve(long, data_date=MONDAY), data_date=MONDAY) == 5 * DAY


@pytest.mark.parametrize(("days", "near"), [(8, ("B",)), (7, ("B",)), (6, ())])
def test_what_has_three_days_more_is_near(days: int, near: tuple[str, ...]) -> None:
    network = net(task("A", 10 * DAY), task("B", days * DAY))
    found = solve(network, data_date=MONDAY)
    assert near_critical(network, found, data_date=MONDAY) == near
    assert critical(found) == ("A",)


def test_near_is_counted_from_the_least_float_not_from_zero() -> None:
    walk = (task("walk", 0), link("A FS walk"), link("B FS walk"))
    for day, least in (("2031-06-20", -5), ("2031-07-10", 9)):
        event = date_for("walk", "event", f"{day}T18:00")
        network = net(task("A", 10 * DAY), task("B", 8 * DAY), *walk, event, end="walk")
        found = solve(network, data_date=MONDAY)
        assert found.dates["B"].total_float == (least + 2) * DAY
        assert near_critical(network, found, data_date=MONDAY, leave_out={"walk"}) == ("B",)


def test_a_day_round_the_clock_is_one_day_not_three() -> None:
    network = net(task("A", 10 * DAY), task("cure", 9 * 1440, "always"))
    found = solve(network, data_date=at("2031-06-16T08:00"))
    cure = found.dates["cure"].total_float
    assert 2 * 1440 < cure < 3 * 1440 and cure > 3 * DAY
    assert near_critical(network, found, data_date=MONDAY) == ("cure",)
