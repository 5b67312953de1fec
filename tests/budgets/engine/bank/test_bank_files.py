"""Files as banks write them. Layouts: common practice, no source; all names are the demo's."""

from __future__ import annotations

import csv
from datetime import date
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from budgets.engine.bank import (
    BankError,
    DayOrder,
    Entry,
    Wrong,
    cents_in,
    day_in,
    guess,
    read_table,
)
from budgets.engine.bank import entries as read_entries

CHECKING = """Account number: ...4471
Statement period: 1 March to 31 March 2031

Date,Description,Reference,Amount,Balance
03/03/2031,LEDGER STREET PAINTS,0091,-212.40,"4,310.22"
03/14/2031,"Weir Bakery, Mill Lane",0092,-86.40,"4,223.82"
03/20/2031,WEXCOMBE ARTS BOARD,,"3,125.00","7,348.82"
Totals,,,,
"""
CARD = """Transaction Date;Post Date;Merchant;Debit;Credit
13.03.2031;14.03.2031;Millrace Lift Hire;1.650,00;
15.03.2031;16.03.2031;Spindle Electrical Supply;;45,10
"""


def read(text: str) -> list[Entry | Wrong]:
    table = read_table(text)
    return list(read_entries(table, guess(table)))


def told(text: str) -> list[tuple[str, str, int]]:
    return [(e.day.isoformat(), e.payee, e.cents) for e in read(text) if isinstance(e, Entry)]


def test_a_checking_account_with_lines_above_the_header_and_a_balance() -> None:
    assert told(CHECKING) == [
        ("2031-03-03", "LEDGER STREET PAINTS", 212_40),
        ("2031-03-14", "Weir Bakery, Mill Lane", 86_40),
        ("2031-03-20", "WEXCOMBE ARTS BOARD", -3_125_00),
    ]


def test_a_card_statement_with_two_columns_and_commas() -> None:
    assert told(CARD) == [
        ("2031-03-13", "Millrace Lift Hire", 1_650_00),
        ("2031-03-15", "Spindle Electrical Supply", -45_10),
    ]


def test_a_card_statement_that_counts_spending_upward() -> None:
    text = "Date,Merchant,Amount\n2031-03-03,Weir Bakery,12.40\n2031-03-04,Tannery Print Shop,8\n"
    assert [cents for *_, cents in told(text)] == [12_40, 8_00]


def test_a_file_without_a_header_is_read_by_its_content() -> None:
    assert told("2031-03-03\tWeir Bakery\t-12.40\n2031-03-05\tCounty clerk\t-26.00\n") == [
        ("2031-03-03", "Weir Bakery", 12_40),
        ("2031-03-05", "County clerk", 26_00),
    ]


def test_a_reference_that_looks_like_an_amount_is_no_amount() -> None:
    table = read_table("Date,Check number,Payee,Amount\n2031-03-03,1041,Weir Bakery,-12.40\n")
    columns = guess(table)
    assert (columns.reference, columns.amount, columns.payee) == (1, 3, 2)


def test_days_that_leave_the_month_open_are_not_taken_for_sure() -> None:
    table = read_table("Date,Payee,Amount\n03/04/2031,Weir Bakery,-12.40\n")
    assert not guess(table).order_sure
    sure = read_table("Date,Payee,Amount\n03/04/2031,Weir Bakery,-1\n13/04/2031,Weir Bakery,-1\n")
    assert (guess(sure).order, guess(sure).order_sure) == (DayOrder.DAY_FIRST, True)


def test_a_row_that_cannot_be_read_is_told_and_not_dropped() -> None:
    rows = "".join(f"2031-03-{day:02d},Weir Bakery,-{day}.40\n" for day in range(1, 20))
    odd = "2031-02-30,Weir Bakery,-3.00\n2031-03-20,Weir Bakery,-1.234.5\n"
    found = read(f"Date,Payee,Amount\n{odd}{rows}")
    wrong = [e for e in found if isinstance(e, Wrong)]
    assert len(found) == 21
    assert [e.row for e in wrong] == [0, 1]
    assert "“2031-02-30” is no day" in wrong[0].sentence
    assert "“-1.234.5” is no amount" in wrong[1].sentence


def test_two_lines_that_are_alike_are_two_and_keep_their_keys_in_another_file() -> None:
    line = "2031-03-03,Weir Bakery,-12.40\n"
    first = [e.key for e in read(f"Date,Payee,Amount\n{line}{line}") if isinstance(e, Entry)]
    again = [e.key for e in read(f"Date,Payee,Amount\n2031-03-01,Tolls,-1\n{line}{line}{line}")]
    assert len(set(first)) == 2
    assert again[1:3] == first and again[3] not in first


@pytest.mark.parametrize(
    "text", ["", "hello", "a,b\nc,d\n", "Date,Payee\n2031-03-03,Weir Bakery\n", "\x00\x01,\x02"]
)
def test_what_is_no_bank_file_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(BankError, match=r"\.$"):
        guess(read_table(text))


def test_a_file_of_more_rows_than_anybody_checks_is_refused() -> None:
    with pytest.raises(BankError, match="5,001 rows"):
        read_table("Date,Payee,Amount\n" + "2031-03-03,Weir Bakery,-1.00\n" * 5_001)


@pytest.mark.parametrize(
    ("text", "cents"),
    [
        ("1 234.50", 123_450),
        ("+5", 500),
        ("\u221212.00", -1_200),
        ("USD 3.10", 310),
        ("(1,000.00)", -100_000),
        ("0.00", 0),
        ("1'000.00", 100_000),
    ],
)
def test_amounts_as_banks_write_them(text: str, cents: int) -> None:
    assert cents_in(text) == cents


@pytest.mark.parametrize(
    "text", ["1,23", "1.234,50", "12.345", "1,2345", "abc", "", "1e5", "1.2.3"]
)
def test_an_amount_of_another_locale_is_never_guessed_at(text: str) -> None:
    with pytest.raises(BankError):
        cents_in(text)


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("4 Mar 2031", DayOrder.MONTH_FIRST),
        ("March 4, 2031", DayOrder.DAY_FIRST),
        ("04.03.31", DayOrder.DAY_FIRST),
        ("3/4/2031", DayOrder.MONTH_FIRST),
        ("2031-03-04T10:20:00", DayOrder.DAY_FIRST),
        ("2031/03/04 10:20", DayOrder.DAY_FIRST),
    ],
)
def test_days_as_banks_write_them(text: str, order: DayOrder) -> None:
    assert day_in(text, order) == date(2031, 3, 4)


FORMS = {
    DayOrder.YEAR_FIRST: "%Y-%m-%d",
    DayOrder.DAY_FIRST: "%d/%m/%Y",
    DayOrder.MONTH_FIRST: "%m/%d/%Y",
}
NAMES = st.sampled_from(["Weir Bakery", "Ledger Street; Paints", 'The "Third" Bell, Loft', "Tolls"])
ROWS = st.lists(
    st.tuples(
        st.dates(min_value=date(2031, 1, 13), max_value=date(2031, 12, 31)),
        NAMES,
        st.integers(min_value=-9_999_999_99, max_value=9_999_999_99).filter(bool),
    ),
    min_size=1,
    max_size=12,
)


@given(
    rows=ROWS,
    order=st.sampled_from(DayOrder),
    comma=st.booleans(),
    two=st.booleans(),
    mark=st.sampled_from([",", ";", "\t"]),
)
def test_whatever_way_a_bank_writes_them_the_same_cents_come_out(
    rows: list[tuple[date, str, int]], order: DayOrder, comma: bool, two: bool, mark: str
) -> None:
    rows = [(date(2031, 5, 25), "Tolls", 1_00), (date(2031, 5, 26), "Tolls", -1_00), *rows]
    out = StringIO()
    writer = csv.writer(out, delimiter=mark)
    writer.writerow(["Day", "Payee", *(["Out", "In"] if two else ["Amount"])])
    for day, payee, cents in rows:
        writer.writerow([day.strftime(FORMS[order]), payee, *written(cents, comma, two)])
    assert told(out.getvalue()) == [
        (day.isoformat(), " ".join(payee.split()), cents) for day, payee, cents in rows
    ]


def written(cents: int, comma: bool, two: bool) -> list[str]:
    whole, rest = divmod(abs(cents), 100)
    text = f"{whole:,}.{rest:02d}"
    if comma:
        text = text.translate(str.maketrans(",.", ".,"))
    if two:
        return [text, ""] if cents > 0 else ["", text]
    return [("-" if cents > 0 else "") + text]
