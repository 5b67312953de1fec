"""Starting plans hang together: every task leads to the opening or follows it."""

import json
from graphlib import TopologicalSorter
from pathlib import Path
from typing import Any

import pytest

from budgets.engine.categories import CATEGORIES

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "starts"
PLANS = {path.stem: json.loads(path.read_text()) for path in sorted(FOLDER.glob("*.json"))}
STAGES = ["design", "mock-up", "fit check", "make", "finish", "deliver", "install"]

Plan = dict[str, Any]
every_plan = pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS.keys())


def reached(plan: Plan, start: str, near: str, far: str) -> set[str]:
    """Keys reached from a task along links, read from `near` end to `far` end."""
    found, waiting = {start}, [start]
    while waiting:
        here = waiting.pop()
        ahead = {link[far] for link in plan["links"] if link[near] == here} - found
        found |= ahead
        waiting += ahead
    return found


def test_there_is_one_plan_for_each_kind_of_piece() -> None:
    assert set(PLANS) == {
        "mural_masonry",
        "wall_frame_canopy_planters",
        "sculpture_footing",
        "mosaic_ceramic_wall",
        "temporary_light",
    }
    assert all(plan["kind"] == name for name, plan in PLANS.items())


@every_plan
def test_a_plan_has_thirty_tasks_or_more_each_named_once(plan: Plan) -> None:
    names = [task["name"] for task in plan["tasks"]]
    assert len(names) >= 30
    assert len(set(names)) == len(names) == len({task["key"] for task in plan["tasks"]})
    assert all(len(name) <= 45 and "/" not in name for name in names)


@every_plan
def test_every_task_has_a_lane_of_the_plan_and_every_lane_a_task(plan: Plan) -> None:
    lanes = [lane["key"] for lane in plan["lanes"]]
    assert 5 <= len(lanes) == len(set(lanes)) <= 9
    assert {task["lane"] for task in plan["tasks"]} == set(lanes)
    assert {lane["holder"] for lane in plan["lanes"]} <= {"artist", "supplier", "body", "crew"}


@every_plan
def test_low_likely_and_high_days_are_in_order(plan: Plan) -> None:
    assert all(0 <= task["low"] <= task["days"] <= task["high"] for task in plan["tasks"])


@every_plan
def test_the_opening_takes_no_days(plan: Plan) -> None:
    (event,) = [task for task in plan["tasks"] if task["key"] == plan["event"]]
    assert (event["low"], event["days"], event["high"]) == (0, 0, 0)


@every_plan
def test_links_join_two_known_tasks_once(plan: Plan) -> None:
    keys = {task["key"] for task in plan["tasks"]}
    ends = [(link["before"], link["after"], link["kind"]) for link in plan["links"]]
    assert {end for before, after, _ in ends for end in (before, after)} == keys
    assert {kind for *_, kind in ends} <= {"FS", "SS", "FF", "SF"}
    assert len(set(ends)) == len(ends)


@every_plan
def test_links_make_no_loop(plan: Plan) -> None:
    order: TopologicalSorter[str] = TopologicalSorter()
    for link in plan["links"]:
        order.add(link["after"], link["before"])
    assert len(list(order.static_order())) == len(plan["tasks"])


@every_plan
def test_every_task_leads_to_the_opening_or_follows_it(plan: Plan) -> None:
    before = reached(plan, plan["event"], near="after", far="before")
    after = reached(plan, plan["event"], near="before", far="after")
    assert before | after == {task["key"] for task in plan["tasks"]}
    assert before & after == {plan["event"]}


@every_plan
def test_every_wait_says_why(plan: Plan) -> None:
    waits = [link for link in plan["links"] if {"lag_days", "lag_hours"} & set(link)]
    assert waits
    assert all(link["reason"] and isinstance(link["reason"], str) for link in waits)
    assert all(len({"lag_days", "lag_hours"} & set(link)) == 1 for link in waits)


@every_plan
def test_a_cure_runs_through_nights_and_week_ends(plan: Plan) -> None:
    cures = [link for link in plan["links"] if "cure" in link.get("reason", "")]
    assert all("lag_hours" in link for link in cures)


@every_plan
def test_a_stage_of_a_part_is_tied_to_one_task(plan: Plan) -> None:
    parts = {part["name"] for part in plan["parts"]}
    tied = [(task["part"], task["stage"]) for task in plan["tasks"] if task["stage"]]
    assert len(set(tied)) == len(tied)
    assert {part for part, _ in tied} == parts
    assert {stage for _, stage in tied} <= set(STAGES)


@every_plan
def test_budget_lines_use_the_list_of_categories(plan: Plan) -> None:
    assert {line["category"] for line in plan["budget"]} <= set(CATEGORIES)
    assert len({line["name"] for line in plan["budget"]}) == len(plan["budget"]) >= 10
    assert plan["title"] and plan["suits"] and plan["source"]
