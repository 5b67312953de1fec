"""What can be measured, in which units people write it, and how it is shown.

Factors are exact by definition (NIST Special Publication 811, 2008, appendix B) unless said.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

INCH, FOOT, YARD, MILE = 0.0254, 0.3048, 0.9144, 1609.344
POUND, OUNCE, TON = 0.45359237, 0.028349523125, 907.18474
GALLON, QUART, FLUID_OUNCE = 0.003785411784, 0.000946352946, 2.95735295625e-05
GRAVITY = 9.80665  # m/s², standard
POUND_FORCE = POUND * GRAVITY


class System(StrEnum):
    """In which units a person thinks; results are shown in these first."""

    US = "us"
    METRIC = "metric"


@dataclass(frozen=True, slots=True)
class Unit:
    """``value in SI = (number + shift) * factor``; ``words`` are other ways to write it."""

    symbol: str
    factor: float
    words: tuple[str, ...] = ()
    shift: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """``us`` and ``metric`` are the units it is shown in, and taken in where none is written."""

    key: str
    noun: str
    example: str
    units: tuple[Unit, ...]
    us: str
    metric: str
    places: int | None = None  # decimals shown; none: three figures

    def unit(self, system: System) -> Unit:
        symbol = self.us if system == System.US else self.metric
        return next(unit for unit in self.units if unit.symbol == symbol)

    def named(self, word: str) -> Unit | None:
        """The unit written so; capitals count only where two units differ by them."""
        exact = [u for u in self.units if word == u.symbol or word in u.words]
        low = word.lower()
        loose = [u for u in self.units if low in {w.lower() for w in (u.symbol, *u.words)}]
        return next(iter(exact or loose), None)


def dimension(
    key: str,
    noun: str,
    example: str,
    units: list[Unit],
    us: str,
    metric: str,
    places: int | None = None,
) -> Dimension:
    return Dimension(
        key=key,
        noun=noun,
        example=example,
        units=tuple(units),
        us=us,
        metric=metric,
        places=places,
    )


FEET = Unit("ft", FOOT, ("feet", "foot", "'", "′", "’"))
INCHES = Unit("in", INCH, ("inch", "inches", '"', "″", "”", "in."))
METRES = Unit("m", 1.0, ("metre", "metres", "meter", "meters"))
MILLIMETRES = Unit("mm", 0.001, ("millimetre", "millimetres", "millimeter", "millimeters"))
CENTIMETRES = Unit("cm", 0.01, ("centimetre", "centimetres", "centimeter", "centimeters"))
POUNDS = Unit("lb", POUND, ("lbs", "pound", "pounds"))
KILOGRAMS = Unit("kg", 1.0, ("kilogram", "kilograms", "kilo", "kilos"))
SQUARE_FEET = Unit("ft²", FOOT**2, ("ft2", "sq ft", "sqft", "sf", "square feet", "square foot"))
SQUARE_INCHES = Unit("in²", INCH**2, ("in2", "sq in", "square inches"))
SQUARE_METRES = Unit("m²", 1.0, ("m2", "sq m", "sqm", "square metres", "square meters"))
GALLONS = Unit("gal", GALLON, ("gals", "gallon", "gallons", "us gal"))
LITRES = Unit("L", 0.001, ("l", "litre", "litres", "liter", "liters"))

LENGTHS = [
    FEET, INCHES, METRES, MILLIMETRES, CENTIMETRES,
    Unit("yd", YARD, ("yard", "yards")), Unit("km", 1000.0), Unit("mi", MILE, ("mile", "miles")),
]  # fmt: skip
AREAS = [
    SQUARE_FEET, SQUARE_METRES, SQUARE_INCHES, Unit("yd²", YARD**2, ("yd2", "sq yd")),
    Unit("cm²", 1e-4, ("cm2", "sq cm")), Unit("mm²", 1e-6, ("mm2", "sq mm")),
]  # fmt: skip
VOLUMES = [
    GALLONS, LITRES, Unit("qt", QUART, ("quart", "quarts")),
    Unit("ft³", FOOT**3, ("ft3", "cu ft", "cubic feet", "cubic foot")),
    Unit("m³", 1.0, ("m3", "cu m", "cubic metres", "cubic meters")),
    Unit("yd³", YARD**3, ("yd3", "cu yd", "cubic yards")), Unit("in³", INCH**3, ("in3", "cu in")),
    Unit("mL", 1e-6, ("ml", "millilitre", "millilitres")),
    Unit("fl oz", FLUID_OUNCE, ("floz",)), Unit("pt", QUART / 2, ("pint", "pints")),
]  # fmt: skip

DIMENSIONS: dict[str, Dimension] = {
    found.key: found
    for found in (
        dimension("length", "a length", "6 ft 4 1/2 in or 1.94 m", LENGTHS, "ft", "m"),
        dimension("small_length", "a length", "2 1/2 in or 64 mm", LENGTHS, "in", "mm"),
        dimension("area", "an area", "288 ft² or 26.8 m²", AREAS, "ft²", "m²"),
        dimension("small_area", "an area", "0.5 in² or 320 mm²", AREAS, "in²", "mm²"),
        dimension(
            "wire_area", "an area", "1.5 mm²",
            [Unit("mm²", 1e-6, ("mm2", "sq mm")), SQUARE_INCHES], "mm²", "mm²",
        ),
        dimension("volume", "a volume", "2 gal or 7.5 L", VOLUMES, "gal", "L"),
        dimension("bulk", "a volume", "12 ft³ or 340 L", VOLUMES, "ft³", "L"),
        dimension("adhesive", "a volume", "9.5 fl oz or 280 mL", VOLUMES, "fl oz", "mL"),
        dimension(
            "mass", "a mass", "64 lb or 29 kg",
            [POUNDS, KILOGRAMS, Unit("oz", OUNCE, ("ounce", "ounces")),
             Unit("g", 0.001, ("gram", "grams")), Unit("t", 1000.0, ("tonne", "tonnes")),
             Unit("ton", TON, ("tons", "short ton"))], "lb", "kg",
        ),
        dimension(
            "density", "a density", "78 lb/ft³ or 1250 kg/m³",
            [Unit("lb/ft³", POUND / FOOT**3, ("lb/ft3", "pcf")),
             Unit("kg/m³", 1.0, ("kg/m3",)), Unit("kg/L", 1000.0, ("kg/l", "g/cm³", "g/cm3"))],
            "lb/ft³", "kg/m³",
        ),
        dimension(
            "line_mass", "a mass per length", "3.06 lb/ft or 4.55 kg/m",
            [Unit("lb/ft", POUND / FOOT), Unit("kg/m", 1.0)], "lb/ft", "kg/m",
        ),
        dimension(
            "area_mass", "a mass per area", "4 oz/yd² or 136 g/m²",
            [Unit("oz/yd²", OUNCE / YARD**2, ("oz/yd2",)), Unit("g/m²", 0.001, ("g/m2", "gsm")),
             Unit("lb/ft²", POUND / FOOT**2, ("lb/ft2",)), Unit("kg/m²", 1.0, ("kg/m2",))],
            "lb/ft²", "kg/m²",
        ),
        dimension(
            "cloth_mass", "a mass per area", "4 oz/yd² or 136 g/m²",
            [Unit("oz/yd²", OUNCE / YARD**2, ("oz/yd2", "oz")),
             Unit("g/m²", 0.001, ("g/m2", "gsm")), Unit("kg/m²", 1.0, ("kg/m2",)),
             Unit("lb/ft²", POUND / FOOT**2, ("lb/ft2",))],
            "oz/yd²", "g/m²",
        ),
        dimension(
            "force", "a force", "5 lbf or 22 N",
            [Unit("lbf", POUND_FORCE, ("lb", "lbs", "pounds force")), Unit("N", 1.0, ("newton",)),
             Unit("kN", 1000.0), Unit("kip", 1000 * POUND_FORCE, ("kips",))], "lbf", "N",
        ),
        dimension(
            "pressure", "a pressure", "25 psf or 1.2 kPa",
            [Unit("psf", POUND_FORCE / FOOT**2, ("lb/ft²", "lb/ft2", "lbf/ft²")),
             Unit("psi", POUND_FORCE / INCH**2, ("lb/in²", "lbf/in²")), Unit("Pa", 1.0),
             Unit("kPa", 1000.0), Unit("MPa", 1e6, ("N/mm²", "N/mm2")),
             Unit("kN/m²", 1000.0, ("kN/m2",)), Unit("bar", 1e5)], "psf", "kPa",
        ),
        dimension(
            "water_pressure", "a pressure", "10 psi or 70 kPa",
            [Unit("psi", POUND_FORCE / INCH**2, ("lb/in²", "lbf/in²")), Unit("Pa", 1.0),
             Unit("kPa", 1000.0), Unit("bar", 1e5)], "psi", "kPa",
        ),
        dimension(
            "stress", "a stress", "20 ksi or 140 MPa",
            [Unit("psi", POUND_FORCE / INCH**2, ("lb/in²", "lbf/in²")),
             Unit("ksi", 1000 * POUND_FORCE / INCH**2), Unit("Pa", 1.0), Unit("kPa", 1000.0),
             Unit("MPa", 1e6, ("N/mm²", "N/mm2"))], "psi", "MPa",
        ),
        dimension(
            "depth_pressure", "a pressure per depth", "100 psf/ft or 16 kPa/m",
            [Unit("psf/ft", POUND_FORCE / FOOT**3, ("lb/ft²/ft", "lb/ft2/ft")),
             Unit("kPa/m", 1000.0, ("kN/m³", "kN/m3"))], "psf/ft", "kPa/m",
        ),
        dimension(
            "moment", "a moment", "150 lbf·ft or 200 N·m",
            [Unit("lbf·ft", POUND_FORCE * FOOT, ("lb ft", "lb-ft", "ft lb", "ft-lb", "lbf ft")),
             Unit("kip·ft", 1000 * POUND_FORCE * FOOT, ("kip ft", "kip-ft")),
             Unit("N·m", 1.0, ("Nm", "N m")), Unit("kN·m", 1000.0, ("kNm", "kN m"))],
            "lbf·ft", "N·m",
        ),
        dimension(
            "speed", "a speed", "28 mph or 12.5 m/s",
            [Unit("mph", MILE / 3600, ("mi/h",)), Unit("m/s", 1.0),
             Unit("km/h", 1 / 3.6, ("kmh", "kph")), Unit("ft/s", FOOT), Unit("kn", 1852 / 3600)],
            "mph", "m/s",
        ),
        dimension(
            "flow_speed", "a speed", "3 ft/s or 1 m/s",
            [Unit("ft/s", FOOT), Unit("m/s", 1.0), Unit("km/h", 1 / 3.6), Unit("mph", MILE / 3600)],
            "ft/s", "m/s",
        ),
        dimension(
            "temperature", "a temperature", "50 °F or 10 °C",
            [Unit("°F", 5 / 9, ("F", "deg F"), shift=-32.0), Unit("°C", 1.0, ("C", "deg C"))],
            "°F", "°C", 0,
        ),
        dimension(
            "warmth", "a difference of temperature", "5 °F or 3 °C",
            [Unit("°F", 5 / 9, ("F", "deg F")), Unit("°C", 1.0, ("C", "K", "deg C"))],
            "°F", "°C", 1,
        ),
        dimension(
            "spread", "a spreading rate", "350 ft²/gal or 8.6 m²/L",
            [Unit("ft²/gal", FOOT**2 / GALLON, ("ft2/gal", "sq ft/gal")),
             Unit("m²/L", 1000.0, ("m2/L", "m²/l", "m2/l"))], "ft²/gal", "m²/L",
        ),
        dimension(
            "film", "a film thickness", "2 mil or 50 µm",
            [Unit("mil", INCH / 1000, ("mils", "thou")), Unit("µm", 1e-6, ("um", "μm", "micron")),
             Unit("mm", 0.001), Unit("in", INCH)], "mil", "µm", 1,
        ),
        dimension(
            "flow", "a flow", "5 gal/min or 19 L/min",
            [Unit("gal/min", GALLON / 60, ("gpm",)), Unit("L/min", 0.001 / 60, ("l/min", "lpm")),
             Unit("gal/h", GALLON / 3600, ("gph",)), Unit("L/h", 0.001 / 3600, ("l/h",)),
             Unit("L/s", 0.001, ("l/s",)), Unit("m³/h", 1 / 3600, ("m3/h",)),
             Unit("m³/s", 1.0, ("m3/s",))], "gal/min", "L/min",
        ),
        dimension(
            "duration", "a time", "8 h or 45 min",
            [Unit("h", 3600.0, ("hour", "hours", "hr", "hrs")),
             Unit("min", 60.0, ("minute", "minutes")), Unit("s", 1.0, ("sec", "second", "seconds")),
             Unit("d", 86400.0, ("day", "days"))], "h", "h",
        ),
        dimension(
            "short_time", "a time", "2 min or 90 s",
            [Unit("min", 60.0, ("minute", "minutes")), Unit("s", 1.0, ("sec", "second", "seconds")),
             Unit("h", 3600.0, ("hour", "hours", "hr", "hrs"))], "min", "min",
        ),
        dimension(
            "angle", "an angle", "75.5°",
            [Unit("°", 1.0, ("deg", "degree", "degrees"))], "°", "°", 1,
        ),
        dimension(
            "fraction", "a share", "15 % or 0.15",
            [Unit("%", 0.01, ("percent", "per cent"))], "%", "%",
        ),
        dimension(
            "depth_rate", "a depth a day", "0.2 in/day or 5 mm/day",
            [Unit("in/day", INCH / 86400, ("in/d",)), Unit("mm/day", 0.001 / 86400, ("mm/d",))],
            "in/day", "mm/day",
        ),
        dimension("volts", "a voltage", "12 V", [Unit("V", 1.0, ("volt", "volts"))], "V", "V"),
        dimension(
            "amps", "a current", "2.5 A or 350 mA",
            [Unit("A", 1.0, ("amp", "amps")), Unit("mA", 0.001)], "A", "A",
        ),
        dimension(
            "power", "a power", "6 W",
            [Unit("W", 1.0, ("watt", "watts")), Unit("kW", 1000.0), Unit("hp", 745.69987158227)],
            "W", "W",
        ),
        dimension(
            "energy", "an energy", "180 Wh",
            [Unit("Wh", 3600.0, ("watt hours",)), Unit("kWh", 3.6e6), Unit("J", 1.0)], "Wh", "Wh",
        ),
        dimension(
            "charge", "a battery's capacity", "12 Ah",
            [Unit("Ah", 3600.0, ("amp hours",)), Unit("mAh", 3.6)], "Ah", "Ah",
        ),
        dimension(
            "line_resistance", "a resistance per length", "3.07 ohm/1000 ft or 10.1 ohm/km",
            [Unit("ohm/1000 ft", 1 / (1000 * FOOT), ("ohm/kft", "Ω/1000 ft", "Ω/kft")),
             Unit("ohm/km", 0.001, ("Ω/km",)), Unit("ohm/m", 1.0, ("Ω/m",))],
            "ohm/1000 ft", "ohm/km",
        ),
    )
}  # fmt: skip
