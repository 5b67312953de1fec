"""Amounts as people write them."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from projects.fields import MoneyField


@pytest.mark.parametrize(
    ("typed", "cents"),
    [("1,200", 120_000), ("$1,200.00", 120_000), ("10,000,000", 1_000_000_000)],
)
def test_an_amount_becomes_whole_cents(typed, cents):
    assert MoneyField().clean(typed) == cents


@pytest.mark.parametrize("typed", ["1,2O0", "1.2.3", "-5", "10,000,000.01", "1.234"])
def test_what_is_no_amount_is_refused_in_a_sentence(typed):
    with pytest.raises(ValidationError) as refused:
        MoneyField().clean(typed)
    (sentence,) = refused.value.messages
    assert sentence.endswith(".") and len(sentence) < 140


def test_an_expense_cannot_be_nothing():
    with pytest.raises(ValidationError, match="above zero"):
        MoneyField(min_cents=1).clean("0.00")


def test_kept_cents_come_back_as_they_were_typed():
    field = MoneyField()
    assert field.clean(field.prepare_value(150_050)) == 150_050
