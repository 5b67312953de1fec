"""Why this date, and the longest path."""

from schedules.engine import Driver, Reason, path_length, paths

from .networks import DAY, MONDAY, at, cure, date_for, link, net, plan, task


def test_the_data_date_drives_what_waits_for_nothing() -> None:
    assert plan(task("draw")).dates["draw"].drivers == (Driver(Reason.DATA_DATE, None, MONDAY),)


def test_every_tie_is_named() -> None:
    found = plan(
        task("frame"), task("skin"), task("hang"),
        link("frame FS hang"), link("skin FS hang"),
        date_for("hang", "no_earlier", "2031-06-17"),
    )  # fmt: skip
    drivers = found.dates["hang"].drivers
    assert {driver.key for driver in drivers} == {"frame FS hang", "skin FS hang", "no_earlier"}


def test_a_link_with_slack_drives_nothing() -> None:
    found = plan(
        task("frame", 3 * DAY), task("skin"), task("hang"),
        link("frame FS hang"), link("skin FS hang"),
    )  # fmt: skip
    assert [driver.key for driver in found.dates["hang"].drivers] == ["frame FS hang"]
    assert found.dates["skin"].free_float == 2 * DAY


def test_a_driver_tells_its_bound_before_snapping() -> None:
    found = plan(task("frame", 5 * DAY), task("hang"), cure("frame FS hang", 12))
    assert found.dates["hang"].drivers == (
        Driver(Reason.LINK, "frame FS hang", at("2031-06-21T05:00")),
    )


def test_a_bound_on_the_finish_is_told_as_a_finish() -> None:
    found = plan(task("frame", 5 * DAY), task("check"), link("frame FF check", -DAY))
    assert found.dates["check"].drivers[0].at == at("2031-06-19T17:00")


def test_bounds_that_snap_to_one_start_tie() -> None:
    """Friday evening and Saturday noon are the same Monday morning for the crew."""
    found = plan(
        task("frame", 5 * DAY), task("sew", 4 * 60, "weekend"), task("hang"),
        link("frame FS hang"), link("sew FS hang"),
    )  # fmt: skip
    assert len(found.dates["hang"].drivers) == 2


def test_the_longest_path_includes_the_links_that_wait() -> None:
    """Mubarak, Example 4.5 in small: the lags belong to the path."""
    found = plan(
        task("A", 2), task("B", 5), task("C", 6), task("E", 7),
        link("A FS B", 2), link("A FS C"), link("B FS E", 3), link("C FS E"),
    )  # fmt: skip
    assert found.chain == ("A", "B", "E")
    assert found.chain_links == ("A FS B", "B FS E")


def test_the_longest_path_stops_at_an_imposed_start() -> None:
    found = plan(
        task("draw"), task("hang"), link("draw FS hang"),
        date_for("hang", "no_earlier", "2031-06-30"),
    )  # fmt: skip
    assert found.chain == ("hang",)


def test_an_empty_network_has_an_empty_plan() -> None:
    found = plan()
    assert (found.dates, found.finish, found.chain) == ({}, MONDAY, ())


def test_every_way_through_is_listed_once_with_its_length() -> None:
    network = net(
        task("A", 2), task("B", 3), task("C", 4), task("D", 1),
        link("A FS B"), link("A FS C", 5), link("B FS D"), link("C FS D"),
    )  # fmt: skip
    start = at("2031-06-16T08:00")
    found = {path: path_length(network, path, data_date=start) for path in paths(network)}
    assert found == {("A", "B", "D"): 6, ("A", "C", "D"): 12}
