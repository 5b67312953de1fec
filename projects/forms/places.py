"""Countries and their regions, time zones and currencies."""

from __future__ import annotations

from functools import lru_cache

import holidays

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
