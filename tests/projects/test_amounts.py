"""Amounts as people type them. The shapes are common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from projects.amounts import MOST_CENTS, AmountError, parse_amount, plain_amount
from projects.words import money

ACCEPTED = {
    "1,200": 1200_00,
    "1200.5": 1200_50,
    "$1,200.00": 1200_00,
    " 1 200 ": 1200_00,
    "1\u00a0200": 1200_00,
    "$ 12": 12_00,
    ".75": 75,
    "5.": 5_00,
    "0": 0,
    "007": 7_00,
    "999,999,999.99": MOST_CENTS,
}

REFUSED = {
    "": "empty_amount",
    "  $ ": "empty_amount",
    "1,2O0": "not_a_number",
    "twelve": "not_a_number",
    "1e5": "not_a_number",
    "٣": "not_a_number",
    "<b>5</b>": "not_a_number",
    ".": "not_a_number",
    "12\n34": "not_a_number",
    "1.2.3": "too_many_points",
    "12,34": "unclear_grouping",
    "1,23,456": "unclear_grouping",
    "1,200 000": "unclear_grouping",
    "1.200,50": "unclear_grouping",
    "0,200": "unclear_grouping",
    "1.234": "too_many_decimals",
    "-5": "negative_amount",
    "\u22125": "negative_amount",
    "(5)": "negative_amount",
    "$-5": "negative_amount",
    "1000000000": "amount_too_large",
    "9" * 100_000: "amount_too_large",
}


@pytest.mark.parametrize(("text", "cents"), ACCEPTED.items())
def test_an_amount_is_read_as_people_write_it(text: str, cents: int) -> None:
    assert parse_amount(text) == cents


@pytest.mark.parametrize(("text", "code"), REFUSED.items())
def test_an_unclear_amount_is_refused_with_its_kind(text: str, code: str) -> None:
    with pytest.raises(AmountError) as caught:
        parse_amount(text)
    assert caught.value.code == code
    assert caught.value.text == text


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("1,2O0", "Write 1,200 if that is what you mean."),
        ("12,34", "Write 12.34 if these are cents, or 1234 if they are not."),
        ("1.234", "Write 1.23 or 1,234."),
        ("1.234,56", "Write 1,234.56 if that is what you mean."),
        ("1 234,56", "Write 1,234.56 if that is what you mean."),
        ("1'234.50", "Write 1,234.50 if that is what you mean."),
        ("1.234.567", "Write 1,234,567 if that is what you mean."),
        ("1000000000", "The most is 999,999,999.99; check the digits."),
    ],
)
def test_a_refused_amount_says_what_would_be_right(text: str, right: str) -> None:
    with pytest.raises(AmountError) as caught:
        parse_amount(text)
    assert caught.value.right == right
    assert str(caught.value) == f"{caught.value.wrong} {right}"


def test_a_long_text_is_repeated_in_short() -> None:
    with pytest.raises(AmountError) as caught:
        parse_amount("x" * 100_000)
    assert len(str(caught.value)) < 150


def test_another_currency_and_another_bound() -> None:
    assert parse_amount("£1,200") == 1200_00
    with pytest.raises(AmountError, match=r"The most is 100;"):
        parse_amount("£100.01", most=100_00)


@pytest.mark.parametrize("text", ["$1,200", "1200 USD", "usd 1,200.00", "1200"])
def test_its_own_currency_may_stand_beside_an_amount(text: str) -> None:
    assert parse_amount(text, currency="USD") == 1200_00


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("€120", "“€120” is in euros; this is kept in US dollars."),
        ("120 €", "“120 €” is in euros; this is kept in US dollars."),
        ("EUR 120.00", "“EUR 120.00” is in euros; this is kept in US dollars."),
        ("120 cad", "“120 cad” is in Canadian dollars; this is kept in US dollars."),
    ],
)
def test_another_currency_is_refused(text: str, wrong: str) -> None:
    with pytest.raises(AmountError) as caught:
        parse_amount(text, currency="USD")
    assert (caught.value.code, caught.value.wrong) == ("other_currency", wrong)


def test_dollars_are_no_pounds() -> None:
    with pytest.raises(AmountError, match="is in dollars; this is kept in pounds"):
        parse_amount("$120", currency="GBP")


@given(cents=st.integers(0, MOST_CENTS))
def test_what_is_shown_can_be_typed_again(cents: int) -> None:
    assert parse_amount(money(cents)) == cents
    assert parse_amount(plain_amount(cents)) == cents


@given(text=st.text(alphabet="0123456789., $-Oo(\u00a0x"))
def test_any_text_is_read_or_refused_and_never_breaks(text: str) -> None:
    for currency in ("", "USD"):
        try:
            assert 0 <= parse_amount(text, currency=currency) <= MOST_CENTS
        except AmountError as error:
            assert error.wrong and error.right
