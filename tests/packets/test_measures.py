"""Sizes and masses as a drawing gives them. One foot is 304.8 mm, one pound 453.59237 g
(international yard and pound agreement of 1959, from memory)."""

from __future__ import annotations

import pytest

from packets.measures import both, feet, mass, metres, size


@pytest.mark.parametrize(
    ("millimetres", "words"),
    [(7315, "24 ft"), (1372, "4 ft 6 in"), (229, "9 in"), (305, "1 ft"), (3, "0 in")],
)
def test_lengths_are_said_in_feet_and_inches(millimetres, words):
    assert feet(millimetres) == words


def test_a_size_leaves_out_what_is_not_known():
    assert size(3658, None, 7315) == "12 ft × 24 ft"
    assert metres(3658, 7315).split() == ["3.66", "×", "7.32", "m"]
    assert both(None, None) == ""


def test_light_parts_keep_a_decimal():
    assert mass(41_000) == "90 lb (41 kg)"
    assert mass(1_200) == "2.6 lb (1.2 kg)"
    assert mass(None) == ""
