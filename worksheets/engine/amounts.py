"""Read an amount with its unit as people write it, and show one in both systems.

Amounts are floats in SI: metres, kilograms, newtons, pascals, seconds, degrees Celsius.
"""

from __future__ import annotations

import math
import re
from functools import cache
from typing import Literal

from worksheets.engine.dimensions import DIMENSIONS, INCH, Dimension, System

Toward = Literal["near", "up", "down"]
VULGAR = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
NUMBER = re.compile(
    r"\s*(?P<sign>[-−+])?\s*(?:(?P<whole>\d[\d,]*(?:\.\d*)?|\.\d+)(?:\s+(?P<top>\d+)/(?P<under>\d+))?"
    r"|)(?P<rest>.*)",
    re.DOTALL,
)
BARE_FRACTION = re.compile(r"\s*(?P<top>\d+)\s*/\s*(?P<under>\d+)(?P<rest>.*)", re.DOTALL)
WORD = re.compile(r"[^\d\s.,]+")
SIXTEENTHS = 16
MOST_PLACES = 9


class AmountError(ValueError):
    """A text that is no such amount; the message is the sentence to show."""


class NotAnAmount(AmountError):
    pass


class WrongUnit(AmountError):
    """The unit measures something else, or is not known."""


def parse(text: str, of: str, system: System = System.US) -> float:
    """The amount in SI. ``of`` is a key of DIMENSIONS; several amounts in a row are added.

    A number without a unit is taken in the unit that ``system`` shows. Raises NotAnAmount and
    WrongUnit, each with a sentence that says what would be right.

    >>> round(parse("6 ft 4 1/2 in", "length"), 4), parse("1.94 m", "length")
    (1.9431, 1.94)
    >>> parse("50 °F", "temperature"), parse("15 %", "fraction"), parse("0.15", "fraction")
    (10.0, 0.15, 0.15)
    >>> try:
    ...     parse("3 kg", "length")
    ... except WrongUnit as error:
    ...     print(error)
    “3 kg” is a mass. Write a length, such as 6 ft 4 1/2 in or 1.94 m.
    """
    dimension = DIMENSIONS[of]
    plain = " ".join(_spelled(text).split())
    pieces = _pieces(plain, dimension)
    if len(pieces) == 1 and not pieces[0][1]:
        return _bare(pieces[0][0], dimension, system)
    below = len(pieces) > 1 and pieces[0][0] < 0
    amounts = [_in_si(abs(n) if below else n, unit, plain, dimension) for n, unit in pieces]
    return -sum(amounts) if below else sum(amounts)


def _bare(number: float, dimension: Dimension, system: System) -> float:
    if dimension.key == "fraction":
        return number
    unit = dimension.unit(system)
    return (number + unit.shift) * unit.factor


def _spelled(text: str) -> str:
    for sign, words in VULGAR.items():
        text = text.replace(sign, words)
    return text.replace("\u00a0", " ").replace("\u202f", " ").replace("⁄", "/")


def _pieces(text: str, dimension: Dimension) -> list[tuple[float, str]]:
    """Numbers, each with the unit that follows it."""
    found: list[tuple[float, str]] = []
    rest = text
    while rest.strip():
        # A hyphen between feet and inches, as drawings write 6'-4", joins them.
        rest = rest.lstrip(" -") if found else rest
        number, rest = _number(rest, text, dimension)
        unit, rest = _unit(rest.lstrip())
        found.append((number, unit))
    if not found or (len(found) > 1 and not all(unit for _, unit in found)):
        raise _no_amount(text, dimension)
    return found


def _unit(rest: str) -> tuple[str, str]:
    """The longest unit that is written here, and what follows it."""
    known = _known().match(rest) or WORD.match(rest)
    return (known[0], rest[known.end() :]) if known else ("", rest)


@cache
def _known() -> re.Pattern[str]:
    """Every way to write a unit, the longest first; no letter may follow one that ends in one."""
    units = [unit for each in DIMENSIONS.values() for unit in each.units]
    words = {word for unit in units for word in (unit.symbol, *unit.words)}
    ends = {True: r"(?![^\W\d_])", False: ""}
    told = (re.escape(w) + ends[w[-1].isalpha()] for w in sorted(words, key=len, reverse=True))
    return re.compile("|".join(told), re.IGNORECASE)


def _number(rest: str, text: str, dimension: Dimension) -> tuple[float, str]:
    if match := BARE_FRACTION.fullmatch(rest):
        return _over(match["top"], match["under"], text, dimension), match["rest"]
    match = NUMBER.fullmatch(rest)
    if match is None or match["whole"] is None:
        raise _no_amount(text, dimension)
    value = float(_without_groups(match["whole"], text, dimension))
    if match["top"]:
        value += _over(match["top"], match["under"], text, dimension)
    return (-value if match["sign"] in ("-", "−") else value), match["rest"]


def _over(top: str, under: str, text: str, dimension: Dimension) -> float:
    if int(under) == 0:
        raise _no_amount(text, dimension)
    return int(top) / int(under)


def _without_groups(digits: str, text: str, dimension: Dimension) -> str:
    """Commas group thousands; one anywhere else could be read in two ways."""
    if "," in digits and not re.fullmatch(r"\d{1,3}(?:,\d{3})+(?:\.\d*)?", digits):
        raise NotAnAmount(
            f"“{_short(text)}” could be read in two ways. Write a point before decimals, "
            f"such as {dimension.example}."
        )
    return digits.replace(",", "")


def _in_si(number: float, word: str, text: str, dimension: Dimension) -> float:
    unit = dimension.named(word)
    if unit is None:
        raise _wrong_unit(word, text, dimension)
    return (number + unit.shift) * unit.factor


def _wrong_unit(word: str, text: str, dimension: Dimension) -> WrongUnit:
    other = next((d for d in DIMENSIONS.values() if d.named(word)), None)
    is_what = f"is {other.noun}" if other else f"has a unit that is not known here, “{word[:12]}”"
    return WrongUnit(
        f"“{_short(text)}” {is_what}. Write {dimension.noun}, such as {dimension.example}."
    )


def _no_amount(text: str, dimension: Dimension) -> NotAnAmount:
    return NotAnAmount(
        f"“{_short(text)}” is not {dimension.noun}. Write one such as {dimension.example}."
    )


def _short(text: str) -> str:
    return text if len(text) <= 24 else text[:24] + "…"


def show(
    value: float, of: str, system: System, *, toward: Toward = "near", places: int | None = None
) -> str:
    """One amount in one system, rounded at last: up for what is bought, down for what is allowed.

    >>> show(1.9431, "length", System.US), show(1.9431, "length", System.METRIC)
    ('6 ft 4 1/2 in', '1.94 m')
    >>> show(0.0101, "volume", System.METRIC, toward="up", places=1)
    '10.1 L'
    """
    dimension = DIMENSIONS[of]
    if of in ("length", "small_length") and system == System.US and places is None:
        return _feet_and_inches(value, toward, inches_only=of == "small_length")
    unit = dimension.unit(system)
    number = value / unit.factor - unit.shift
    decimals = places if places is not None else dimension.places
    shown = figure(number, decimals, toward)
    return f"{shown}{'' if unit.symbol == '°' else ' '}{unit.symbol}"


def both(
    value: float, of: str, system: System, *, toward: Toward = "near", places: int | None = None
) -> str:
    """The person's own system first: “24 ft (7.32 m)”; once where both have one unit.

    >>> both(7.3152, "length", System.US), both(0.15, "fraction", System.US)
    ('24 ft (7.32 m)', '15 %')
    """
    other = System.METRIC if system == System.US else System.US
    first = show(value, of, system, toward=toward, places=places)
    second = show(value, of, other, toward=toward, places=places)
    return first if first == second or _same_unit(of) else f"{first} ({second})"


def _same_unit(of: str) -> bool:
    return DIMENSIONS[of].us == DIMENSIONS[of].metric


def figure(number: float, places: int | None, toward: Toward = "near") -> str:
    """A number with thousands grouped; three figures where no places are given.

    >>> figure(1234.5, 0, "up"), figure(0.04567, None), figure(-0.001, 1)
    ('1,235', '0.0457', '0')
    """
    if not math.isfinite(number):
        return "unlimited" if number > 0 else "none"
    if places is None:
        size = math.floor(math.log10(abs(number))) if number else 0
        places = min(max(0, 2 - size), MOST_PLACES)
    scaled = number * 10**places
    nearest = round(scaled)
    if toward != "near" and abs(scaled - nearest) > 1e-9 * max(1.0, abs(scaled)):
        nearest = math.ceil(scaled) if toward == "up" else math.floor(scaled)
    text = f"{nearest / 10**places:,.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def counted(number: int, noun: str) -> str:
    """A whole number of things.

    >>> counted(1, "hole"), counted(3, "hole")
    ('1 hole', '3 holes')
    """
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _feet_and_inches(value: float, toward: Toward, *, inches_only: bool) -> str:
    exact = value / INCH * SIXTEENTHS
    count = round(exact)
    if toward != "near" and abs(exact - count) > 1e-6:
        count = math.ceil(exact) if toward == "up" else math.floor(exact)
    sign, count = ("-" if count < 0 else ""), abs(count)
    inches, parts = divmod(count, SIXTEENTHS)
    feet, inches = (0, inches) if inches_only else divmod(inches, 12)
    common = math.gcd(parts, SIXTEENTHS)
    fraction = f"{parts // common}/{SIXTEENTHS // common}" if parts else ""
    words = " ".join(word for word in (str(inches) if inches else "", fraction) if word)
    said = [f"{feet:,} ft"] if feet else []
    return sign + " ".join(said + ([f"{words or '0'} in"] if words or not feet else []))
