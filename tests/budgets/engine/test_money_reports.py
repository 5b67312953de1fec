"""Whole dollars that add up, moves of a budget, printed totals, federal lines, safe cells."""

from __future__ import annotations

import csv
import io
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine.federal import StillOwed, federal_lines
from budgets.engine.money import NegativeMoney
from budgets.engine.reporting import (
    TotalOutOfReach,
    UnlikeRows,
    in_dollars,
    lines_over,
    matched_by_half,
    moved,
    moved_in_all,
    nearest_dollar,
    new_money,
    safe_cell,
    sum_check,
    table_in_dollars,
)

CENTS = st.integers(-5_000_000, 5_000_000)
AMOUNTS = st.lists(CENTS, max_size=12)
TABLES = st.integers(1, 5).flatmap(
    lambda width: st.lists(st.lists(CENTS, min_size=width, max_size=width), max_size=8)
)
BUDGETS = st.lists(st.tuples(st.integers(0, 10**7), st.integers(0, 10**7)), min_size=1, max_size=8)


@given(AMOUNTS)
def test_whole_dollars_add_up_to_the_rounded_sum(cents):
    assert sum(in_dollars(cents)) == nearest_dollar(sum(cents))


@given(AMOUNTS)
def test_no_line_moves_by_a_dollar_and_whole_dollars_stay(cents):
    for part, dollar in zip(cents, in_dollars(cents), strict=True):
        assert abs(dollar * 100 - part) < 100
        assert part % 100 or dollar * 100 == part


@given(AMOUNTS)
def test_the_larger_remainder_is_never_passed_over_for_a_smaller(cents):
    found = list(zip(cents, in_dollars(cents), strict=True))
    raised = [part % 100 for part, dollar in found if dollar > part // 100]
    cut = [part % 100 for part, dollar in found if dollar == part // 100]
    assert not raised or not cut or min(raised) >= max(cut)


@given(AMOUNTS)
def test_rounding_again_changes_nothing(cents):
    once = in_dollars(cents)
    assert in_dollars([dollar * 100 for dollar in once]) == once


def test_ties_go_to_the_earlier_line():
    assert in_dollars((10_50, 10_50, 10_50)) == (11, 11, 10)


def test_half_a_dollar_goes_up():
    assert in_dollars((2_50,)) == (3,) and in_dollars((2_49,)) == (2,)


def test_a_total_that_lines_cannot_reach_is_refused():
    with pytest.raises(TotalOutOfReach) as refused:
        in_dollars((10_00, 20_00), 31)
    assert refused.value.total == 31


@given(TABLES)
def test_a_table_in_dollars_adds_up_both_ways(rows):
    found = table_in_dollars(rows)
    assert len(found) == len(rows)
    whole = sum(sum(row) for row in rows)
    assert sum(sum(row) for row in found) == nearest_dollar(whole)
    for row, dollars in zip(rows, found, strict=True):
        assert all(abs(100 * new - old) < 100 for old, new in zip(row, dollars, strict=True))
    for column, dollars in zip(zip(*rows, strict=True), zip(*found, strict=True), strict=True):
        assert abs(100 * sum(dollars) - sum(column)) < 100


def test_rows_of_other_lengths_are_refused():
    with pytest.raises(UnlikeRows):
        table_in_dollars([(1, 2), (3,)])


@given(BUDGETS, st.integers(0, 10_000))
def test_a_move_is_what_rises_and_the_limit_is_met_exactly(pairs, limit):
    old, new = zip(*pairs, strict=True)
    found = moved(old, new, limit)
    assert found.moved == sum(max(0, n - o) for o, n in pairs)
    assert found.over == (found.moved * 10_000 > limit * sum(old))


def test_a_move_within_a_budget_nets_nothing_and_still_counts():
    found = moved((8000_00, 6000_00), (9200_00, 4800_00), 1000)
    assert found.moved == 1200_00 and found.basis_points == 857


def test_ten_per_cent_to_the_cent_is_not_over_ten_per_cent():
    assert not moved((20_000_00, 0), (18_000_00, 2000_00), 1000).over
    assert moved((20_000_00, 0), (17_999_99, 2000_01), 1000).over


def test_moves_add_up_over_several_changes():
    steps = [
        {"paint": 8000_00, "steel": 2000_00},
        {"paint": 7400_00, "steel": 2600_00},
        {"paint": 6900_00, "steel": 2600_00, "lift": 500_00},
    ]
    found = moved_in_all(list(pairwise(steps)), 1000)
    assert found.moved == 1100_00 and found.basis_points == 1100 and found.over


def test_a_line_may_rise_by_its_own_share_to_the_cent():
    agreed = {"paint": 1000_00, "steel": 500_00, "lift": 0}
    assert lines_over(agreed, {"paint": 900_00, "steel": 550_00, "lift": 0}, 1000) == ()
    assert lines_over(agreed, {"steel": 550_01, "lift": 1}, 1000) == ("lift", "steel")


def test_no_change_moves_nothing():
    assert not moved_in_all([], 1000).over and moved_in_all([], 1000).moved == 0


def test_a_budget_below_zero_or_of_another_length_is_refused():
    with pytest.raises(NegativeMoney):
        moved((1, 2), (1, -2), 1000)
    with pytest.raises(UnlikeRows):
        moved((1, 2), (1,), 1000)


def test_wrong_printed_total_is_flagged_and_never_adopted():
    """City of Boulder, sample budget of a performance: lines of 4,900 are printed as 4,950."""
    found = sum_check((4000_00, 400_00, 200_00, 200_00, 100_00), 4950_00)
    assert (found.total, found.agrees, found.over) == (4900_00, False, 50_00)


def test_what_is_left_of_an_award_lowers_the_next():
    assert new_money(442_892_00, 62_898_00) == 379_994_00
    with pytest.raises(NegativeMoney):
        new_money(100, 101)


def test_cash_and_gifts_together_must_reach_the_grant():
    assert matched_by_half(1500_00, 0, 1500_00) and not matched_by_half(1500_00, 1499_99, 0)


AMOUNT = st.integers(0, 10**9)


@given(a=AMOUNT, b=AMOUNT, d=AMOUNT, e=AMOUNT, f=AMOUNT, i=AMOUNT, j=AMOUNT)
def test_every_federal_difference_follows_from_its_lines(a, b, d, e, f, i, j):
    found = federal_lines(
        received=a, paid=b, authorised=d, spent=e, owed=f, match_required=i, match_spent=j
    )
    assert (found.c, found.g, found.h, found.k) == (a - b, e + f, d - e - f, i - j)


def test_programme_income_is_left_after_what_was_spent_of_it():
    """Standard Form 425: o is l less m, or l less n."""
    by_deduction = federal_lines(
        received=0, paid=0, authorised=0, spent=0, income=500, deducted=200
    )
    by_addition = federal_lines(received=0, paid=0, authorised=0, spent=0, income=500, added=150)
    assert (by_deduction.o, by_addition.o) == (300, 350)


def test_a_final_federal_report_owes_nothing():
    with pytest.raises(StillOwed) as refused:
        federal_lines(received=0, paid=0, authorised=100, spent=50, owed=1, final=True)
    assert refused.value.owed == 1
    assert federal_lines(received=0, paid=0, authorised=100, spent=50, final=True).f == 0


def test_no_federal_line_is_given_below_zero():
    with pytest.raises(NegativeMoney):
        federal_lines(received=-1, paid=0, authorised=0, spent=0)


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1+2", "@A1", "\t=1", "\r=1", "-", "-1,000"])
def test_a_cell_that_could_be_a_formula_gets_an_apostrophe(text):
    assert safe_cell(text) == f"'{text}"


@pytest.mark.parametrize("text", ["-12.50", "-0", "12", "Paint = blue", "", "a@b.org"])
def test_other_cells_stay_as_they_are(text):
    assert safe_cell(text) == text


@given(st.text(st.characters(codec="utf-8", exclude_characters="\x00")))
def test_no_cell_starts_as_a_formula_and_it_survives_the_file(text):
    out = io.StringIO(newline="")
    csv.writer(out).writerow([safe_cell(text), "end"])
    (back,) = csv.reader(io.StringIO(out.getvalue(), newline=""))
    assert back[0] in (text, f"'{text}")
    plain = back[0].removeprefix("-").replace(".", "", 1)
    assert not back[0].startswith(("=", "+", "-", "@", "\t", "\r")) or plain.isdecimal()
