"""Amounts as people write them, against an independent library of units."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from worksheets.engine.amounts import AmountError, NotAnAmount, WrongUnit, both, figure, parse, show
from worksheets.engine.dimensions import DIMENSIONS, System

UNITS = pint.UnitRegistry()
UNITS.define("kilo_fp = 1000 force_pound")
UNITS.define("kilo_ft = 1000 foot")
OTHER_WORDS = {  # how the library writes what it would read otherwise
    "in": "inch", "ft²": "foot**2", "in²": "inch**2", "yd²": "yard**2", "m²": "m**2",
    "cm²": "cm**2", "mm²": "mm**2", "ft³": "foot**3", "in³": "inch**3", "yd³": "yard**3",
    "m³": "m**3", "fl oz": "fluid_ounce", "gal": "gallon", "qt": "quart", "pt": "pint",
    "ton": "short_ton", "lb/ft³": "lb/foot**3", "kg/m³": "kg/m**3", "oz/yd²": "oz/yard**2",
    "g/m²": "g/m**2", "lb/ft²": "lb/foot**2", "kg/m²": "kg/m**2", "lbf": "force_pound",
    "kip": "kilo_fp", "psf": "force_pound/foot**2", "kN/m²": "kN/m**2",
    "lbf·ft": "force_pound*foot", "kip·ft": "kilo_fp*foot", "N·m": "N*m",
    "kN·m": "kN*m", "mph": "mile/hour", "kn": "knot", "ft²/gal": "foot**2/gallon",
    "m²/L": "m**2/liter", "mil": "thou", "gal/min": "gallon/minute", "gal/h": "gallon/hour",
    "L/min": "liter/minute", "L/h": "liter/hour", "L/s": "liter/second", "m³/h": "m**3/hour",
    "m³/s": "m**3/s", "min": "minute", "h": "hour", "d": "day", "°": "degree",
    "in/day": "inch/day", "hp": "horsepower", "Ah": "ampere*hour", "mAh": "milliampere*hour",
    "Wh": "watt*hour", "kWh": "kilowatt*hour", "ohm/1000 ft": "ohm/kilo_ft",
    "psf/ft": "force_pound/foot**3", "L": "liter", "mL": "milliliter",
}  # fmt: skip
APART = {"temperature", "warmth", "fraction", "angle"}
EVERY = [
    (key, unit.symbol, unit.factor)
    for key, dimension in DIMENSIONS.items()
    for unit in dimension.units
    if key not in APART
]


@pytest.mark.parametrize(("key", "symbol", "factor"), EVERY)
def test_a_unit_has_the_size_that_an_independent_library_gives(
    key: str, symbol: str, factor: float
) -> None:
    """The charge is in coulombs, the energy in joules, the speed in metres a second."""
    expected = UNITS.Quantity(1, OTHER_WORDS.get(symbol, symbol)).to_base_units()
    grams = 1000 if "gram" in str(expected.units) and "kilogram" not in str(expected.units) else 1
    assert factor == pytest.approx(expected.magnitude / grams, rel=1e-9)


@pytest.mark.parametrize(("typed", "celsius"), [("50 °F", 10), ("-40 F", -40), ("21.5 °C", 21.5)])
def test_temperatures_are_shifted_as_well_as_scaled(typed: str, celsius: float) -> None:
    assert parse(typed, "temperature") == pytest.approx(celsius)


@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        ("6 ft 4 1/2 in", 76.5), ("6'4 1/2\"", 76.5), ("6'-4 1/2\"", 76.5), ("76½ in", 76.5),
        ("6.375 ft", 76.5), ("2 yd 4.5 in", 76.5), ("24ft6in", 294), ("1/2 in", 0.5),
        ("1,000 in", 1000), ("-6 ft 4 in", -76), (".5 in", 0.5),
    ],
)  # fmt: skip
def test_feet_and_inches_are_read_as_drawings_write_them(typed: str, inches: float) -> None:
    assert parse(typed, "length") == pytest.approx(inches * 0.0254)


@pytest.mark.parametrize(
    ("typed", "of", "said"),
    [
        ("3 kg", "length", "“3 kg” is a mass. Write a length"),
        ("350 ft2", "spread", "“350 ft2” is an area. Write a spreading rate"),
        ("4 ft 3 kg", "length", "is a mass"),
        ("5 furlong", "length", "has a unit that is not known here, “furlong”"),
    ],
)
def test_a_unit_of_something_else_is_named(typed: str, of: str, said: str) -> None:
    with pytest.raises(WrongUnit, match=said):
        parse(typed, of)


@pytest.mark.parametrize(
    "typed", ["", "abc", "4 ft 6", "1.2.3 m", "2x4", "9/0 in", "nan m", "1,5 m"]
)
def test_what_could_be_read_in_two_ways_or_not_at_all_is_refused(typed: str) -> None:
    with pytest.raises(NotAnAmount):
        parse(typed, "length")


@given(st.floats(-1e6, 1e6, allow_nan=False), st.sampled_from(sorted(DIMENSIONS)))
def test_what_is_shown_reads_back_as_the_same_amount(value: float, of: str) -> None:
    """But for the rounding of what is shown: three figures, fixed places, or a sixteenth."""
    dimension = DIMENSIONS[of]
    for system in System:
        back = parse(show(value, of, system), of, system)
        places = 9 if dimension.places is None else dimension.places
        coarse = 0.51 * 0.0254 / 16 if of.endswith("length") else 0
        coarse += 0.51 * dimension.unit(system).factor * 10**-places
        assert math.isclose(back, value, rel_tol=0.006, abs_tol=coarse)


@given(st.floats(0, 1e6, allow_nan=False), st.sampled_from(sorted(DIMENSIONS)))
def test_what_is_bought_is_rounded_up_and_what_is_allowed_down(value: float, of: str) -> None:
    for system in System:
        assert parse(show(value, of, system, toward="up"), of, system) >= value * (1 - 1e-9) - 1e-9
        assert (
            parse(show(value, of, system, toward="down"), of, system) <= value * (1 + 1e-9) + 1e-9
        )


@given(st.text(max_size=30), st.sampled_from(sorted(DIMENSIONS)))
def test_any_text_gives_an_amount_or_a_sentence(typed: str, of: str) -> None:
    try:
        value = parse(typed, of)
    except AmountError as error:
        assert str(error).endswith((".", "…."))
    else:
        assert math.isfinite(value)


def test_both_systems_are_shown_the_own_one_first() -> None:
    assert both(7.3152, "length", System.US) == "24 ft (7.32 m)"
    assert both(7.3152, "length", System.METRIC) == "7.32 m (24 ft)"


def test_a_mid_step_is_never_rounded() -> None:
    """NIOSH 94-110 (rev. 2021) p. 29 shows what that does: 34.9 in place of 34.8 lb."""
    assert figure(34.84, 1, "down") == "34.8"
    assert show(parse("34.84 lb", "mass"), "mass", System.US, places=2) == "34.84 lb"
