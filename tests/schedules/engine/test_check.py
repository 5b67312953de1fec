"""Findings about open ends and impossible progress. Open and dangling ends: DCMA-EA PAM 200.1
(2012), section 4, first metric, as restated in trade guides."""

from schedules.engine import Finding, check

from .networks import DAY, MONDAY, date_for, link, net, task


def codes(*parts: object, **more: object) -> set[tuple[str, str]]:
    return {(f.code, f.activity) for f in check(net(*parts, **more))}


def test_one_open_start_and_one_open_finish_are_as_they_should_be() -> None:
    assert codes(task("A"), task("B"), link("A FS B")) == set()
    assert codes(task("A"), task("B"), link("A FS B"), end="B") == set()


def test_a_second_open_start_or_finish_is_found() -> None:
    found = codes(task("A"), task("B"), task("C"), link("A FS B"))
    assert ("no_predecessor", "C") in found and ("no_successor", "C") in found


def test_a_task_beside_the_way_to_the_end_is_found() -> None:
    found = codes(task("A"), task("B"), task("C"), link("A FS B"), link("A FS C"), end="B")
    assert found == {("no_successor", "C"), ("no_path_to_end", "C")}


def test_a_start_that_nothing_holds_is_found() -> None:
    assert ("dangling_start", "B") in codes(task("A"), task("B"), link("A FF B"))


def test_a_finish_that_nobody_uses_is_found() -> None:
    found = codes(task("A"), task("B"), link("A SS B"), end="B")
    assert found == {("dangling_finish", "A")}


def test_progress_from_the_future_or_backwards_is_found() -> None:
    wrong = task("A", actual_start=MONDAY + DAY, actual_finish=MONDAY + 1)
    found = check(net(wrong), data_date=MONDAY)
    assert [f.code for f in found] == ["actual_after_data_date", "finish_before_start"]


def test_a_key_date_on_finished_work_is_found() -> None:
    done = task("A", actual_start=0, actual_finish=DAY)
    found = check(net(done, date_for("A", "no_later", "2031-06-28")))
    assert found == (Finding(code="key_date_on_finished", activity="A", key_date="no_later"),)


def test_a_loop_does_not_stop_the_check() -> None:
    found = codes(task("A"), task("B"), task("end"), link("A FS B"), link("B FS A"), end="end")
    assert ("no_path_to_end", "A") in found
