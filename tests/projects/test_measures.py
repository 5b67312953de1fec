"""Lengths and masses come back as they were typed.

The pound of 0.45359237 kg and the inch of 25.4 mm: NIST Handbook 44 (2023), appendix C.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from projects.fields import LengthField, MassField


@pytest.mark.parametrize("typed", ["24 ft", "4 ft 6 in", "9 in", "1.2 m", "0.005 m"])
def test_a_length_comes_back_as_it_was_typed(typed):
    field = LengthField()
    assert field.prepare_value(field.clean(typed)) == typed


@pytest.mark.parametrize("typed", ["64 lb", "29 kg", "38.5 kg"])
def test_a_mass_comes_back_as_it_was_typed(typed):
    field = MassField()
    assert field.prepare_value(field.clean(typed)) == typed


@given(st.integers(1, 999_999))
def test_opening_a_form_and_saving_it_changes_no_length(millimetres):
    field = LengthField()
    assert field.clean(field.prepare_value(millimetres)) == millimetres


@given(st.integers(1, 99_999_999))
def test_opening_a_form_and_saving_it_changes_no_mass(grams):
    field = MassField()
    assert field.clean(field.prepare_value(grams)) == grams


def test_an_inch_and_a_pound_are_the_standard_ones():
    assert LengthField().clean("10 in") == 254
    assert MassField().clean("100 lb") == 45_359
