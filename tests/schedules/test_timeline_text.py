"""Widths of words, against the shipped font."""

from __future__ import annotations

from functools import cache

import pytest
from django.conf import settings
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

from schedules.timeline.text import fitted, width, wrapped

FONT = settings.ROOT / "static" / "fonts" / "plex-sans.woff2"
SENTENCES = (
    "Weld lantern frame",
    "Paper pattern and fit check",
    "Mill Lane Lantern Walk, 24 Oct",
    "Ångström façade: 12½ × 7 ft – “señal” & Łódź",
)


@cache
def weight_of(weight: int) -> TTFont:
    return instantiateVariableFont(TTFont(FONT), {"wght": weight, "wdth": 100})


@pytest.mark.skipif(not FONT.exists(), reason="the fonts are not set up")
@pytest.mark.parametrize("heavy", [False, True])
@pytest.mark.parametrize("words", SENTENCES)
def test_words_are_as_wide_as_in_the_font(words, heavy):
    """Advance widths of the font file itself (hmtx at weight 400 or 600)."""
    face = weight_of(600 if heavy else 400)
    glyphs = face.getBestCmap()
    real = sum(face["hmtx"][glyphs[ord(letter)]][0] for letter in words) * 12.5 / 1000
    assert width(words, 12.5, heavy=heavy) == pytest.approx(real, rel=0.02)


def test_letters_the_font_lacks_still_have_a_width():
    assert width("陶", 10) == 10
    assert width("🎨", 10) > 10
    assert width("e\u0301", 10) == width("e", 10)


def test_a_cut_word_fits_and_says_so():
    cut = fitted("Encroachment permit review", 80, 12.5)
    assert cut.endswith("…")
    assert width(cut, 12.5) <= 80


def test_a_name_is_wrapped_and_its_last_line_cut():
    lines = wrapped("Saltglaze Metalworks of Mill Lane and the upper yard", 110, 13.5, most=2)
    assert len(lines) == 2
    assert lines[0] == "Saltglaze"
    assert lines[1].endswith("…")
