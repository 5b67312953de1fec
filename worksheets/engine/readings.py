"""Forecasts and site readings: one line an hour, pasted as they come, read into SI.

Columns stand in any order under a header; which line is wrong, and why, is said.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, tzinfo

from worksheets.engine import air, amounts
from worksheets.engine.clock_words import NotATime, read_moment
from worksheets.engine.dimensions import DIMENSIONS, System

NAMES = {
    "time": ("time", "when", "hour", "datetime", "timestamp", "valid"),
    "day": ("day", "date"),
    "air": ("air", "temperature", "temp", "drybulb", "dry"),
    "humidity": ("humidity", "rh", "relative"),
    "surface": ("surface", "wall", "substrate"),
    "wet_bulb": ("wetbulb", "wet"),
    "wind": ("wind", "windspeed"),
    "rain": ("rain", "precipitation", "precip", "showers"),
}
ORDERS = {
    3: ("time", "air", "humidity"),
    5: ("time", "air", "humidity", "wind", "rain"),
    6: ("time", "air", "humidity", "surface", "wind", "rain"),
}
PASSED = ("dew", "dewpoint", "feels", "apparent", "chill", "index", "soil", "gust", "gusts",
          "direction")  # fmt: skip
RANGES = {  # dimension, least and most in SI, what it is
    "air": ("temperature", -40.0, 50.0, "air"),
    "surface": ("temperature", -40.0, 90.0, "surface"),
    "wet_bulb": ("temperature", 0.0, 50.0, "wet bulb"),
    "humidity": ("fraction", 0.05, 1.0, "humidity"),
    "wind": ("speed", 0.0, 60.0, "wind"),
}
NOTHING = ("", "-", "–", "—", "n/a", "na", "null", "none")
DRY = (*NOTHING[1:3], "0", "no", "dry", "false", "clear")
WET = ("yes", "rain", "wet", "true", "showers", "drizzle", "snow")
MOST_LINES = 400


class LineWrong(ValueError):
    """A line that cannot be read: its number, from 1, and the sentence."""

    def __init__(self, line: int, says: str) -> None:
        super().__init__(f"Line {line}: {says}")
        self.line = line


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """The air at a time by the wall clock: °C, share of 1, m/s. ``surface`` where it was measured;
    ``wet`` is None where nothing was told of rain, ``wind`` where nothing was of wind."""

    at: datetime
    air: float
    humidity: float
    surface: float | None = None
    wind: float | None = None
    wet: bool | None = None
    measured: bool = False

    @property
    def dew(self) -> float:
        return air.dew_point(self.air, self.humidity)


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """How bare numbers are meant: ``chance`` of rain, from 0 to 1, from which on it counts."""

    system: System = System.US
    zone: tzinfo | None = None
    chance: float = 0.3


def read_block(text: str, manner: Manner | None = None) -> tuple[Reading, ...]:
    """Every line of a pasted block, in the order of time. Raises LineWrong.

    >>> block = "RH %,air °C,time\\n55,30,2031-06-14 09:00"
    >>> [(r.air, r.humidity, r.at.hour) for r in read_block(block)]
    [(30.0, 0.55, 9)]
    """
    how = manner or Manner()
    lines = [(n, line) for n, line in enumerate(text.splitlines(), 1) if line.strip()]
    if not lines:
        return ()
    if len(lines) > MOST_LINES:
        raise LineWrong(MOST_LINES + 1, f"at most {MOST_LINES} lines can be read.")
    mark = mark_of(lines[0][1])
    heads, rest = header(lines, mark)
    found = [(n, read_line(cells(line, mark), heads, n, how, mark)) for n, line in rest]
    return in_order(found)


def mark_of(line: str) -> str:
    """What stands between columns: tab, semicolon, bar or comma; else spaces."""
    return next((mark for mark in "\t;|," if mark in line), " ")


def cells(line: str, mark: str) -> list[str]:
    if mark != " ":
        return [cell.strip().strip('"').strip() for cell in line.strip(" |").split(mark)]
    return joined(line.split())


def joined(words: Sequence[str]) -> list[str]:
    """Words between spaces; a clock joins the day before it, a unit the number before it."""
    found: list[str] = []
    for word in words:
        clock = re.fullmatch(r"\d{1,2}:\d{2}(:\d{2})?([ap]m)?", word, re.IGNORECASE)
        half = re.fullmatch(r"[ap]\.?m\.?", word, re.IGNORECASE)
        unit = re.fullmatch(r"\(?(%|°?[CF]|mph|m/s|km/h|mm|in)\)?", word)
        if found and (half or unit or (clock and re.search(r"\d[-/.]\d", found[-1]))):
            found[-1] += f" {word}"
        else:
            found.append(word)
    return found


@dataclass(frozen=True, slots=True)
class Head:
    name: str  # a key of NAMES, or empty for a column that is not needed
    unit: str = ""
    chance: bool = False


Numbered = tuple[int, str]


def header(lines: Sequence[Numbered], mark: str) -> tuple[list[Head], Sequence[Numbered]]:
    """The columns, from the first line if it names them, else from how many there are."""
    number, first = lines[0]
    heads = [head(cell) for cell in cells(first, mark)]
    if any(each.name for each in heads) and not re.search(r"\d{1,2}:\d{2}", first):
        return checked(heads, number), lines[1:]
    names = ORDERS.get(len(heads))
    if names is None:
        raise LineWrong(number, "name the columns in a first line, such as: time, air, humidity.")
    return [Head(name) for name in names], lines


def head(text: str) -> Head:
    """“Air (°C)” is air in °C; “chance of rain” is a share."""
    low = text.lower().replace("_", " ").replace("-", " ")
    words = re.findall(r"[a-z]+", low)
    name = next((key for word in words for key, known in NAMES.items() if word in known), "")
    if any(word in PASSED for word in words):
        return Head("")
    if "wet" in words and "bulb" in words:
        name = "wet_bulb"
    of = RANGES[name][0] if name in RANGES else "small_length"
    symbols = [u.symbol for u in DIMENSIONS[of].units] + ["F", "C"] * (of == "temperature")
    tail = re.split(r"[\s_()\[\],]+", text)
    unit = next((word for word in reversed(tail) if word in symbols), "")
    chance = name == "rain" and ("%" in text or "chance" in words or "probability" in words)
    return Head(name, unit, chance)


def checked(heads: list[Head], number: int) -> list[Head]:
    names = [each.name for each in heads if each.name]
    twice = next((name for name in names if names.count(name) > 1), "")
    if twice:
        raise LineWrong(number, f"two columns are named “{twice.replace('_', ' ')}”. Leave one.")
    if "time" not in names and "day" not in names:
        raise LineWrong(number, "no column is named “time”.")
    if "air" not in names:
        raise LineWrong(number, "no column is named “air” or “temperature”.")
    if "humidity" not in names and "wet_bulb" not in names:
        raise LineWrong(number, "no column is named “humidity” (or “wet bulb”).")
    return heads


def read_line(
    texts: Sequence[str], heads: Sequence[Head], number: int, how: Manner, mark: str
) -> Reading:
    if len(texts) < len(heads) - 1 or len(texts) > len(heads):
        raise LineWrong(number, f"{len(texts)} columns stand here, {len(heads)} in the first line.")
    told = {h.name: (text, h) for h, text in zip(heads, texts, strict=False) if h.name}
    try:
        return reading(told, how, mark)
    except (NotATime, amounts.AmountError, ValueError) as error:
        raise LineWrong(number, str(error)) from None


Told = Mapping[str, tuple[str, Head]]


def reading(told: Told, how: Manner, mark: str) -> Reading:
    when = " ".join(told[name][0] for name in ("day", "time") if name in told)
    amount = {name: quantity(name, *told[name], how, mark) for name in RANGES if name in told}
    warm, share = amount.get("air"), amount.get("humidity")
    at = read_moment(when, how.system, how.zone)
    if warm is None:
        raise ValueError("the temperature of the air is missing.")
    if share is None and amount.get("wet_bulb") is not None:
        share = air.humidity_from_wet_bulb(warm, amount["wet_bulb"] or 0.0)
    if share is None:
        raise ValueError("the humidity is missing.")
    return Reading(
        at=at,
        air=warm,
        humidity=share,
        surface=amount.get("surface"),
        wind=amount.get("wind"),
        wet=is_wet(pointed(told["rain"][0], mark), told["rain"][1], how)
        if "rain" in told
        else None,
    )


def quantity(name: str, text: str, told: Head, how: Manner, mark: str) -> float | None:
    """A cell in SI, within its range; None where nothing stands in it."""
    if text.lower() in NOTHING:
        return None
    of, least, most, what = RANGES[name]
    plain = pointed(text, mark)
    value = share_of(plain) if of == "fraction" else amount_of(plain, of, told.unit, how.system)
    if not least <= value <= most:
        ends = (amounts.both(end, of, how.system) for end in (least, most))
        shown = amounts.both(value, of, how.system)
        raise ValueError(f"{what} {shown} is out of range. Write {' to '.join(ends)}.")
    return value


def amount_of(text: str, of: str, unit: str, system: System) -> float:
    """In SI; a bare number is in the column's unit, else in that of the system."""
    if not re.fullmatch(r"[-−+]?\d+(\.\d+)?", text):
        bare = re.fullmatch(r"[-−+]?[\d.,]+", text) is not None
        return amounts.parse(f"{text} {unit}" if bare else text, of, system)
    dimension = DIMENSIONS[of]
    meant = (dimension.named(unit) if unit else None) or dimension.unit(system)
    return (float(text.replace("−", "-")) + meant.shift) * meant.factor


def pointed(text: str, mark: str) -> str:
    """A decimal comma as a point, where commas do not part the columns."""
    return text if mark == "," else re.sub(r"(?<=\d),(?=\d{1,2}\b)", ".", text)


def share_of(text: str) -> float:
    """“65”, “65 %” and “0.65” alike."""
    plain = re.fullmatch(r"\d+(\.\d+)?", text)
    value = float(text) if plain else amounts.parse(text, "fraction")
    return value if "%" in text or value <= 1 else value / 100


def is_wet(text: str, told: Head, how: Manner) -> bool | None:
    """An amount above nothing, a word, or a chance of rain from the limit on."""
    low = text.lower()
    if low in DRY:
        return False
    if low in NOTHING:
        return None
    if low in WET:
        return True
    if told.chance or "%" in text:
        return share_of(text if "%" in text else f"{text} %") >= how.chance
    value = amounts.parse(text, "small_length", how.system)
    if value < 0:
        raise ValueError("rain cannot be less than nothing.")
    return value > 0


def in_order(found: Iterable[tuple[int, Reading]]) -> tuple[Reading, ...]:
    seen: dict[datetime, int] = {}
    for number, each in found:
        if each.at in seen:
            raise LineWrong(number, f"it has the same time as line {seen[each.at]}. Leave one.")
        seen[each.at] = number
    return tuple(sorted((each for _, each in found), key=lambda each: each.at))
