"""Rates, losses and films of paint."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine import paint
from worksheets.engine.dimensions import FOOT, GALLON, INCH

shares = st.floats(0.1, 1.0)
films = st.floats(5e-6, 1e-3)
rates = st.floats(500.0, 20_000.0)
losses = st.floats(0.0, 0.6)


def test_a_loss_divides_and_does_not_multiply() -> None:
    """Of 14.08 L bought at 15 % loss 11.97 L reach the wall; 1.15 times that would be 13.77 L."""
    bought = paint.paint(47.88, 8000.0, 2, 0.15)
    assert bought == pytest.approx(0.0140824, abs=1e-7)
    assert bought * (1 - 0.15) * 8000.0 == pytest.approx(2 * 47.88)
    assert bought > 2 * 47.88 / 8000.0 * 1.15


@given(st.floats(0.1, 1e4), rates, st.integers(1, 6), losses)
def test_what_is_not_lost_covers_the_wall_in_every_coat(
    area: float, rate: float, coats: int, loss: float
) -> None:
    bought = paint.paint(area, rate, coats, loss)
    assert bought * paint.practical(rate, loss) == pytest.approx(area * coats)


@given(shares, films)
def test_a_film_and_its_rate_lead_back_to_each_other(solids: float, dry: float) -> None:
    rate = paint.film_rate(solids, dry)
    assert paint.dry_film(solids, rate) == pytest.approx(dry)
    assert paint.wet_rate(paint.wet_film(dry, solids)) == pytest.approx(rate)


@given(shares, films, st.floats(0.0, 0.3))
def test_the_solids_of_a_wet_film_are_the_dry_film(solids: float, dry: float, more: float) -> None:
    wet = paint.wet_film(dry, solids, more)
    assert wet / (1 + more) * solids == pytest.approx(dry)
    assert wet >= dry


def test_a_gallon_one_mil_thick_covers_1604_square_feet() -> None:
    rate = paint.film_rate(1.0, INCH / 1000) / (FOOT**2 / GALLON)
    assert rate == pytest.approx(231 * 1000 / 144)


def test_what_is_kept_back_comes_on_top_of_what_is_lost() -> None:
    plain = paint.paint(10.0, 5000.0, 1, 0.2)
    assert paint.paint(10.0, 5000.0, 1, 0.2, 0.1) == pytest.approx(plain * 1.1)


def test_a_coat_that_comes_off_is_bought_anew_for_every_cleaning() -> None:
    once = paint.paint(18.0, 7000.0, 2, 0.1)
    assert paint.renewals(18.0, 7000.0, 2, 0.1, 4) == pytest.approx(4 * once)
    assert paint.renewals(18.0, 7000.0, 2, 0.1, 0) == 0


def test_openings_are_taken_off_before_the_rough_surface_counts() -> None:
    assert paint.net_area(20.0, [2.0, 3.0], 1.2) == pytest.approx(18.0)
    with pytest.raises(paint.PaintError, match="larger than the wall"):
        paint.net_area(20.0, [12.0, 9.0])


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: paint.film_rate(0.0, 1e-4), "share above 0"),
        (lambda: paint.film_rate(1.2, 1e-4), "share above 0"),
        (lambda: paint.film_rate(0.5, 0.0), "thicker than nothing"),
        (lambda: paint.practical(0.0, 0.1), "above nothing"),
        (lambda: paint.practical(5000.0, 1.0), "below 100"),
        (lambda: paint.with_loss(1.0, -0.1), "from 0"),
    ],
)
def test_numbers_that_no_paint_has_are_refused_with_the_range(call: object, said: str) -> None:
    with pytest.raises(paint.PaintError, match=said):
        call()  # type: ignore[operator]
