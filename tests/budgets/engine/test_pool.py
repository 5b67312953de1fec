"""The contingency holds no more than was set aside, and says when that is little."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine.pool import DrawTooLarge, Pool, checked_draw


def test_a_draw_of_all_that_is_left_is_the_last() -> None:
    assert checked_draw(500_00, 500_00) == 500_00
    for cents in (500_01, 0, -1):
        with pytest.raises(DrawTooLarge):
            checked_draw(cents, 500_00)


def test_the_share_is_of_what_is_not_ordered_yet() -> None:
    pool = Pool(held=500_00, drawn=100_00, spent=50_00, uncommitted=7_000_00)
    assert (pool.left, pool.basis_points, pool.thin) == (350_00, 500, False)
    assert Pool(held=349_99, uncommitted=7_000_00).thin
    assert not Pool(held=0, uncommitted=0).thin


def test_a_pool_is_short_of_what_lines_are_over_beyond_it() -> None:
    assert Pool(held=300_00, over=300_00).short == 0
    assert Pool(held=300_00, drawn=100_00, over=300_00).short == 100_00
    assert Pool(held=0, spent=20_00, over=300_00).short == 300_00


CENTS = st.integers(0, 10**9)


@given(held=CENTS, draws=st.lists(CENTS, max_size=20))
def test_draws_together_never_exceed_what_was_set_aside(held: int, draws: list[int]) -> None:
    drawn = 0
    for cents in draws:
        left = Pool(held=held, drawn=drawn).left
        try:
            drawn += checked_draw(cents, left)
        except DrawTooLarge:
            continue
    assert 0 <= Pool(held=held, drawn=drawn).left <= held
