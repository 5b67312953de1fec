"""A place on the globe, as maps and telephones write it."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

SAID = (
    "Write latitude, then longitude, in degrees with a point: 42.00, −72.50. "
    "South and west are below zero."
)
FIGURE = r"\d{1,3}(?:\.\d+)?"
MINUTES = rf"(?:({FIGURE})\s*['′’]\s*)"
SECONDS = rf"(?:({FIGURE})\s*(?:[\"″”]|'')\s*)"
HALF = rf"([+\-−]?{FIGURE})\s*°?\s*(?:{MINUTES}{SECONDS}?)?([NSEW])?"
PAIR = re.compile(rf"{HALF}\s*[,;/\s]\s*{HALF}", re.IGNORECASE | re.ASCII)
LEADING = re.compile(r"([NSEW])\s*([^NSEW,;/]+)", re.IGNORECASE)
UNSEEN = str.maketrans({"\u00a0": " ", "\u202f": " ", "\u200e": None, "(": None, ")": None})
AXIS = {"": "", "N": "y", "S": "y", "E": "x", "W": "x"}
Position = tuple[Decimal, Decimal]
Half = tuple[Decimal, str]  # degrees, and the letter beside them if there is one


class PositionField(forms.CharField):
    """“51.50, −0.12”, “51.50 N 0.12 W” or “51°30′0″ N 0°7′12″ W”; cleans to degrees."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("max_length", 60)
        super().__init__(required=False, **kwargs)

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, tuple):
            return ", ".join(f"{degrees.normalize():f}" for degrees in value)
        return value

    def clean(self, value: Any) -> Position | None:
        text = plain(super().clean(value))
        if not text:
            return None
        latitude, longitude = in_order(*halves(text))
        if abs(latitude) > 90:
            raise ValidationError("The first is the latitude, from −90 to 90. Check the order.")
        if abs(longitude) > 180:
            raise ValidationError("The second is the longitude, from −180 to 180.")
        return latitude, longitude


def plain(text: str) -> str:
    """Without what comes along when copied; letters after figures, a point for a comma."""
    text = text.translate(UNSEEN).strip().removeprefix("geo:")
    if text[:1].upper() in AXIS:
        text = LEADING.sub(r"\2\1 ", text).strip()
    return text.replace(",", ".") if ";" in text and "." not in text else text


def halves(text: str) -> tuple[Half, Half]:
    found = PAIR.fullmatch(text)
    if not found:
        raise ValidationError(SAID)
    parts = found.groups()
    return half(*parts[:4]), half(*parts[4:])


def half(*parts: str | None) -> Half:
    degrees, minutes, seconds, side = ((part or "").upper() for part in parts)
    if any(Decimal(part or 0) >= 60 for part in (minutes, seconds)):
        raise ValidationError(SAID)
    whole = Decimal(degrees.replace("−", "-"))
    small = Decimal(minutes or 0) / 60 + Decimal(seconds or 0) / 3600
    below = side in ("S", "W") or (not side and whole.is_signed())
    size = abs(whole) + small
    return (-size if below and size else size).quantize(Decimal("0.00001")), side


def in_order(first: Half, second: Half) -> Position:
    """Latitude first, also where the letters say that it was written last."""
    sides = AXIS[first[1]], AXIS[second[1]]
    if sides in (("y", "y"), ("x", "x")):
        raise ValidationError(SAID)
    turned = sides[0] == "x" or sides[1] == "y"
    return (second[0], first[0]) if turned else (first[0], second[0])
