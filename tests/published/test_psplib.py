"""Levelling against PSPLIB (Kolisch and Sprecher 1997, European Journal of Operational Research
96:205-216): networks of 30, 60 and 120 activities that share four resources.

Best known makespans and lower bounds: `fixtures/published/psplib/best_known.json`, with their
sources. The whole table is printed by `python -m bench.levelling`.
"""

import json
from pathlib import Path

import pytest

from schedules.engine import solve, times
from schedules.engine.levelling import broken, level, overloads
from tests.published.psplib_reader import FOLDER, problem

KNOWN = {
    row["instance"]: row
    for row in json.loads((FOLDER / "best_known.json").read_text())["instances"]
}
SERIAL_GAP = 0.15  # no instance is further from the best known; on the mean see bench.levelling
SOON = ("j301_1", "j305_3", "j3041_1")  # proven soonest within EFFORT
EFFORT = 0.5
SET = sorted(KNOWN)


def test_the_files_are_those_whose_best_makespans_are_known() -> None:
    assert sorted(path.stem for path in Path(FOLDER).glob("*.sm")) == SET


@pytest.mark.parametrize("name", SET)
def test_the_first_order_can_be_done_and_is_near_the_best_known(name: str) -> None:
    network, hands = problem(name)
    found = level(network, hands, data_date=0)
    best = KNOWN[name]["best_known"]
    assert not broken(found.network, hands, found.plan, data_date=0)
    assert found.bound <= KNOWN[name]["best_known"]
    assert KNOWN[name]["lower_bound"] <= found.date <= best * (1 + SERIAL_GAP)


@pytest.mark.parametrize("name", SOON)
def test_the_search_proves_the_best_known(name: str) -> None:
    network, hands = problem(name)
    found = level(network, hands, data_date=0, effort=EFFORT)
    assert not broken(found.network, hands, found.plan, data_date=0)
    assert found.proven and found.date == KNOWN[name]["best_known"]


def test_the_search_is_never_worse_even_when_it_is_cut_short() -> None:
    network, hands = problem("j6013_1")
    first = level(network, hands, data_date=0)
    better = level(network, hands, data_date=0, effort=0.05)
    assert KNOWN["j6013_1"]["lower_bound"] <= better.date <= first.date


def test_the_same_input_gives_the_same_order() -> None:
    network, hands = problem("j301_1")
    one, other = (level(network, hands, data_date=0, effort=EFFORT) for _ in range(2))
    assert one.order == other.order


def test_without_order_links_the_checker_finds_the_overloads() -> None:
    network, hands = problem("j301_1")
    plan = solve(network, data_date=0)
    assert overloads(network, hands, plan, data_date=0)
    assert {b.rule for b in broken(network, hands, plan, data_date=0)} == {"hands"}
    assert max(finish for _, finish, _, _ in times(plan).values()) == 38  # the longest path
