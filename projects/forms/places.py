"""Countries and their regions, time zones and currencies, and a place on the globe."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache
from typing import Any

import holidays
from django import forms
from django.core.exceptions import ValidationError

COUNTRIES = {
    "US": "United States",
    "AU": "Australia",
    "BE": "Belgium",
    "CA": "Canada",
    "FR": "France",
    "DE": "Germany",
    "IE": "Ireland",
    "IT": "Italy",
    "NL": "Netherlands",
    "NZ": "New Zealand",
    "PT": "Portugal",
    "ES": "Spain",
    "GB": "United Kingdom",
}
CURRENCY_OF = {"US": "USD", "CA": "CAD", "AU": "AUD", "NZ": "NZD", "GB": "GBP"}  # else the euro
CURRENCIES = {
    "USD": "US dollar ($)",
    "AUD": "Australian dollar ($)",
    "CAD": "Canadian dollar ($)",
    "EUR": "Euro (€)",
    "NZD": "New Zealand dollar ($)",
    "GBP": "Pound sterling (£)",
}
ZONES = {
    "United States and Canada": {
        "America/New_York": "New York, Toronto (Eastern)",
        "America/Chicago": "Chicago, Winnipeg (Central)",
        "America/Denver": "Denver, Calgary (Mountain)",
        "America/Phoenix": "Phoenix (Mountain, no summer time)",
        "America/Los_Angeles": "Los Angeles, Vancouver (Pacific)",
        "America/Anchorage": "Anchorage (Alaska)",
        "Pacific/Honolulu": "Honolulu (Hawaii)",
        "America/Halifax": "Halifax (Atlantic)",
        "America/Regina": "Regina (Central, no summer time)",
        "America/St_Johns": "St John’s (Newfoundland)",
        "America/Puerto_Rico": "San Juan (Puerto Rico)",
    },
    "Europe": {
        "Europe/London": "London",
        "Europe/Dublin": "Dublin",
        "Europe/Lisbon": "Lisbon",
        "Europe/Paris": "Paris",
        "Europe/Brussels": "Brussels",
        "Europe/Amsterdam": "Amsterdam",
        "Europe/Berlin": "Berlin",
        "Europe/Madrid": "Madrid",
        "Europe/Rome": "Rome",
    },
    "Australia and New Zealand": {
        "Australia/Sydney": "Sydney, Melbourne",
        "Australia/Brisbane": "Brisbane",
        "Australia/Adelaide": "Adelaide",
        "Australia/Darwin": "Darwin",
        "Australia/Perth": "Perth",
        "Pacific/Auckland": "Auckland",
    },
}
Choices = list[tuple[str, str]]
Groups = list[tuple[str, Choices]]


def currency_of(country: str) -> str:
    return CURRENCY_OF.get(country, "EUR")


def with_own(choices: dict[str, str], own: str) -> Choices:
    """The choices, and the one that is in use should it not be among them."""
    return list(choices.items()) + ([] if own in choices else [(own, own)])


def zone_groups(own: str = "") -> Groups:
    groups = [(name, list(zones.items())) for name, zones in ZONES.items()]
    known = {zone for zones in ZONES.values() for zone in zones}
    return groups + ([("In use", [(own, own)])] if own and own not in known else [])


@lru_cache(maxsize=32)
def regions_of(country: str) -> dict[str, str]:
    """Parts of a country that keep holidays of their own, by code; none if it has no such."""
    try:
        known = holidays.country_holidays(country)
    except NotImplementedError:
        return {}
    names = {code: code for code in known.subdivisions}
    aliases = reversed(known.subdivisions_aliases.items())
    names |= {code: name for name, code in aliases if not name.isupper()}  # some are other codes
    return dict(sorted(names.items(), key=lambda item: item[1]))


POSITION = re.compile(
    r"""^\s*(?P<lat>[+\-−]?\d{1,3}(?:\.\d+)?)\s*°?\s*(?P<ns>[NS])?\s*[,;\s]\s*
        (?P<lon>[+\-−]?\d{1,3}(?:\.\d+)?)\s*°?\s*(?P<ew>[EW])?\s*$""",
    re.VERBOSE | re.IGNORECASE | re.ASCII,
)
POSITION_SAID = (
    "Write latitude, then longitude, in degrees with a point: 42.00, −72.50. "
    "South and west are below zero."
)
Position = tuple[Decimal, Decimal]


class PositionField(forms.CharField):
    """“51.50, −0.12” or “51.50 N 0.12 W”; cleans to latitude and longitude in degrees."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("max_length", 60)
        super().__init__(required=False, **kwargs)

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, tuple):
            return ", ".join(f"{degrees.normalize():f}" for degrees in value)
        return value

    def clean(self, value: Any) -> Position | None:
        text = super().clean(value)
        if not text:
            return None
        found = POSITION.match(text)
        if not found:
            raise ValidationError(POSITION_SAID)
        latitude = degrees_in(found["lat"], found["ns"])
        longitude = degrees_in(found["lon"], found["ew"])
        if abs(latitude) > 90:
            raise ValidationError("The first is the latitude, from −90 to 90. Check the order.")
        if abs(longitude) > 180:
            raise ValidationError("The second is the longitude, from −180 to 180.")
        return latitude, longitude


def degrees_in(figures: str, side: str | None) -> Decimal:
    value = Decimal(figures.replace("−", "-"))
    if side:
        value = abs(value) * (-1 if side.upper() in "SW" else 1)
    return value.quantize(Decimal("0.00001"))
