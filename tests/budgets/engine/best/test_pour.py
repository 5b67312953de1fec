"""Classes go back to expenses whole where they fit, and crumbs are swapped away."""

from hypothesis import given
from hypothesis import strategies as st

from budgets.engine.best.pour import Swaps, pour, pour_under


@given(st.lists(st.integers(1, 500), min_size=1, max_size=30), st.data())
def test_everybody_gets_theirs_with_few_splits(cents: list[int], data: st.DataObject) -> None:
    left, wants = sum(cents), list[tuple[int, int]]()
    for taker in range(data.draw(st.integers(1, 5))):
        wanted = data.draw(st.integers(0, left))
        wants.append((taker, wanted))
        left -= wanted
    pieces = pour(enumerate(cents), wants)
    for taker, wanted in wants:
        assert sum(part for (_, who), part in pieces.items() if who == taker) == wanted
    for place, size in enumerate(cents):
        assert sum(part for (where, _), part in pieces.items() if where == place) <= size
    split = [key for key, part in pieces.items() if part < cents[key[0]]]
    assert len(split) <= 2 * len(wants)


def test_the_largest_go_first_and_whole() -> None:
    assert pour([(0, 30), (1, 50), (2, 20)], [(7, 70)]) == {(1, 7): 50, (2, 7): 20}


def test_the_smallest_that_is_enough_is_split() -> None:
    assert pour([(0, 90), (1, 40)], [(7, 30)]) == {(1, 7): 30}


def test_a_taker_with_a_ceiling_goes_first() -> None:
    found = pour_under([(0, 100), (1, 100)], {7: 120, 8: 80}, {7: {0: 60, 1: 60}})
    assert found == {(0, 7): 60, (1, 7): 60, (0, 8): 40, (1, 8): 40}


def test_a_crumb_moves_to_another_expense_of_the_same_fund() -> None:
    """Fund 7 has 2 cents of the first; fund 8 pays the rest of it, and part of the second."""
    pieces = {(0, 7): 2, (0, 8): 498, (1, 7): 300, (1, 8): 200}
    found = Swaps(pieces, {0: 500, 1: 500}, 100).tidy()
    assert found == {(0, 8): 500, (1, 7): 302, (1, 8): 198}


def test_a_crumb_grows_when_it_cannot_go_away() -> None:
    """Fund 8 has just one dollar of the second, so that it cannot give 2 cents of it."""
    pieces = {(0, 7): 2, (0, 8): 498, (1, 7): 400, (1, 8): 100}
    found = Swaps(pieces, {0: 500, 1: 500}, 100).tidy()
    assert found == {(0, 7): 100, (0, 8): 400, (1, 7): 302, (1, 8): 198}


def test_a_crumb_stays_when_moving_it_would_make_another() -> None:
    pieces = {(0, 7): 2, (0, 8): 148, (1, 7): 150}
    assert Swaps(pieces, {0: 150, 1: 150}, 100).tidy() == pieces
