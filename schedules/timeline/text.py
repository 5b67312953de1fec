"""How wide words are in the shipped sans, and how to make them fit."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from schedules.timeline.widths import REGULAR, SEMIBOLD

ELLIPSIS = "…"
OTHER = 700  # a letter that the font lacks and another one will lend
WIDE = 1000  # an ideograph
PICTURE = 1375  # an emoji


def by_letter(table: dict[int, str]) -> dict[str, int]:
    return {letter: width for width, letters in table.items() for letter in letters}


TABLES = {False: by_letter(REGULAR), True: by_letter(SEMIBOLD)}


def lent(letter: str) -> int:
    """A guess, on the safe side, for letters outside the font."""
    if unicodedata.category(letter) in {"Mn", "Me", "Cf", "Cc"}:
        return 0
    if unicodedata.category(letter) in {"So", "Sk"}:
        return PICTURE
    return WIDE if unicodedata.east_asian_width(letter) in {"W", "F"} else OTHER


@lru_cache(maxsize=8192)
def thousandths(words: str, heavy: bool = False) -> int:
    table = TABLES[heavy]
    return sum(table[letter] if letter in table else lent(letter) for letter in words)


def width(words: str, size: float, *, heavy: bool = False) -> float:
    """The width of ``words`` at ``size``, both in the same unit.

    >>> round(width("Weld lantern frame", 12.5), 1)
    107.8
    """
    return thousandths(words, heavy) * size / 1000


def fitted(words: str, limit: float, size: float, *, heavy: bool = False) -> str:
    """The words, or as many letters as ``limit`` allows and an ellipsis."""
    if width(words, size, heavy=heavy) <= limit:
        return words
    room = limit - width(ELLIPSIS, size, heavy=heavy)
    kept = 0
    while kept < len(words) and width(words[: kept + 1], size, heavy=heavy) <= room:
        kept += 1
    return words[:kept].rstrip() + ELLIPSIS


def wrapped(words: str, limit: float, size: float, *, most: int, heavy: bool = False) -> list[str]:
    """Lines that fit ``limit``: at most ``most`` of them, the last with an ellipsis if need be."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, size, heavy=heavy) <= limit:
            lines[-1] = longer
        else:
            lines.append(word)
    if len(lines) > most:
        lines = [*lines[: most - 1], " ".join(lines[most - 1 :])]
    return [fitted(line, limit, size, heavy=heavy) for line in lines]
