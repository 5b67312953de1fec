"""Packs at the least cost, against every purchase that could be made."""

from __future__ import annotations

from itertools import product
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from worksheets.engine.dimensions import FLUID_OUNCE, GALLON, QUART
from worksheets.engine.packs import Pack, PackError, least_cost, one_size

LITRE = 0.001
US = [5 * GALLON, GALLON, QUART, QUART / 2, 8 * FLUID_OUNCE]
METRIC = [15 * LITRE, 10 * LITRE, 5 * LITRE, 2.5 * LITRE, LITRE, 0.75 * LITRE]
needs = st.just(0.0) | st.floats(1e-6, 24 * LITRE)
offers = st.lists(
    st.builds(Pack, st.sampled_from(US + METRIC), st.integers(0, 40_000)), min_size=1, max_size=3
)


def told(counts: tuple[int, ...], packs: list[Pack]) -> tuple[int, int, int]:
    """Cost, size and number of packs; the size in whole parts of 10⁻¹⁶ m³, which adds exactly."""
    size = sum(n * round(pack.size * 10**16) for n, pack in zip(counts, packs, strict=True))
    return sum(n * pack.cents for n, pack in zip(counts, packs, strict=True)), size, sum(counts)


def every_purchase(need: float, packs: list[Pack]) -> list[tuple[int, int, int]]:
    """Every purchase that holds the need and has no pack too many."""
    ends = [range(ceil(need / pack.size - 1e-9) + 1) for pack in packs]
    every = (told(counts, packs) for counts in product(*ends))
    return [each for each in every if each[1] >= need * (1 - 1e-9) * 10**16]


@settings(max_examples=120, deadline=None)
@given(needs, offers)
def test_no_purchase_at_all_is_cheaper_or_leaves_less_over(need: float, packs: list[Pack]) -> None:
    best = min(every_purchase(need, packs))
    found = least_cost(need, packs)
    assert found.size >= need * (1 - 1e-9)
    assert told(found.counts, packs) == best
    assert found.cents == best[0]


@settings(max_examples=80, deadline=None)
@given(needs, offers)
def test_one_size_is_the_cheapest_of_one_size_and_never_beats_the_mix(
    need: float, packs: list[Pack]
) -> None:
    alone = [min(every_purchase(need, [pack])) for pack in packs]
    found = one_size(need, packs)
    assert told(found.counts, packs) == min(alone)
    assert found.sizes <= 1
    assert least_cost(need, packs).cents <= found.cents


def test_rounding_up_to_the_next_whole_gallon_can_be_dearer() -> None:
    """Two five-gallon pails, one gallon and two quarts: 368; two and two gallons: 376."""
    packs = [Pack(5 * GALLON, 15000), Pack(GALLON, 3800), Pack(QUART, 1500)]
    assert least_cost(11.3 * GALLON, packs).counts == (2, 1, 2)
    assert least_cost(2.6 * GALLON, packs).counts == (0, 3, 0)


def test_at_the_same_cost_the_one_with_less_left_over_is_bought() -> None:
    packs = [Pack(5 * LITRE, 5000), Pack(3 * LITRE, 5000)]
    assert least_cost(2.5 * LITRE, packs).counts == (0, 1)


def test_at_the_same_cost_and_size_the_fewest_packs_are_bought() -> None:
    packs = [Pack(6 * LITRE, 600), Pack(5 * LITRE, 500), Pack(LITRE, 100)]
    assert least_cost(10 * LITRE, packs).counts == (0, 2, 0)


def test_a_need_that_just_fills_a_pack_buys_no_second_one() -> None:
    assert least_cost(0.1 * 3 * LITRE, [Pack(0.3 * LITRE, 700)]).counts == (1,)


def test_packs_of_gallons_and_of_litres_mix() -> None:
    packs = [Pack(GALLON, 4000), Pack(LITRE, 1100)]
    found = least_cost(GALLON + 0.9 * LITRE, packs)
    assert found.counts == (1, 1)


def test_a_great_need_with_many_sizes_is_answered() -> None:
    packs = [Pack(size, round(size * 9_000_000) + 300) for size in US + METRIC[:3]]
    found = least_cost(4000 * LITRE, packs)
    assert found.surplus < 5 * GALLON


def test_a_pack_of_no_size_and_no_pack_at_all_are_refused() -> None:
    with pytest.raises(PackError, match="size is above 0"):
        least_cost(1.0, [Pack(0.0, 100)])
    with pytest.raises(PackError, match="at least one size"):
        least_cost(1.0, [])
