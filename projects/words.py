"""Figures in words."""

from __future__ import annotations

from datetime import date

SYMBOLS = {"USD": "$", "CAD": "$", "AUD": "$", "NZD": "$", "GBP": "£", "EUR": "€"}


def money(cents: int | None, currency: str = "USD", *, whole: bool = False) -> str:
    """``418000`` gives “$4,180”; cents are shown only where there are any."""
    if cents is None:
        return ""
    sign = "−" if cents < 0 else ""
    units, rest = divmod(abs(cents), 100)
    tail = "" if whole or not rest else f".{rest:02d}"
    return f"{sign}{SYMBOLS.get(currency, currency + ' ')}{units:,}{tail}"


def day(value: date) -> str:
    """“Sat 24 Oct”."""
    return f"{value:%a} {value.day} {value:%b}"


def day_year(value: date) -> str:
    """“Sat 24 Oct 2026”."""
    return f"{day(value)} {value.year}"


def span(first: date | None, last: date | None) -> str:
    """“12 to 17 Oct”, “28 Sep to 3 Oct”, “12 Oct”; “from 12 Oct” and “until 17 Oct” when open."""
    if first is None or last is None:
        one = first or last
        return f"{'from' if first else 'until'} {one.day} {one:%b}" if one else ""
    if first.year != last.year:
        return f"{first.day} {first:%b %Y} to {last.day} {last:%b %Y}"
    if first == last:
        return f"{first.day} {first:%b}"
    month = "" if first.month == last.month else f" {first:%b}"
    return f"{first.day}{month} to {last.day} {last:%b}"


def whose(name: str) -> str:
    """“Third Bell Canvas Loft's”, “Saltglaze Metalworks'”."""
    return f"{name}'" if name.endswith("s") else f"{name}'s"


def plural(count: int, noun: str, many: str = "") -> str:
    """“1 task”, “3 tasks”."""
    word = noun if abs(count) == 1 else (many or noun + "s")
    return f"{count:,} {word}".replace("-", "−")


def hundredths(value: int | None) -> str:
    """``250`` gives “2.5”, ``120000`` “1,200”."""
    if value is None:
        return ""
    whole, rest = divmod(value, 100)
    return f"{whole:,}" + (f".{rest:02d}".rstrip("0") if rest else "")


def listed(names: list[str]) -> str:
    """“the frame, the skin and the lift”."""
    if len(names) < 2:
        return "".join(names)
    return ", ".join(names[:-1]) + " and " + names[-1]


def millimetres(value: int | None) -> str:
    """“3,658 mm (12 ft 0 in)”."""
    if value is None:
        return ""
    feet, inches = divmod(value / 25.4, 12)
    whole = round(inches)
    if whole == 12:
        feet, whole = feet + 1, 0
    return f"{int(feet)} ft {whole} in ({value / 1000:.2f} m)"


def megabytes(size: int | None) -> str:
    if size is None:
        return ""
    if size < 100_000:
        return f"{max(1, round(size / 1000))} kB"
    return f"{size / 1_000_000:.1f} MB"
