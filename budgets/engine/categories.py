"""Budget categories: one list for budget lines, expenses and the rules of funds."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

CATEGORIES: Mapping[str, str] = MappingProxyType(
    {
        "artist_fee": "Artist's fee",
        "design": "Design and engineering",
        "materials": "Materials",
        "fabrication": "Fabrication",
        "site": "Site preparation",
        "install": "Installation and equipment",
        "transport": "Transport",
        "permits": "Permits and insurance",
        "admin": "Administration",
        "community": "Community part",
        "food": "Food and hospitality",
        "documentation": "Photographs and records",
        "care": "Care and maintenance",
        "contingency": "Contingency",
    }
)


def label(key: str) -> str:
    """The name of a category on pages; a key outside the list is read as words.

    >>> label("install"), label("night_watch")
    ('Installation and equipment', 'Night watch')
    """
    return CATEGORIES.get(key) or key.replace("_", " ").capitalize()


def in_words(keys: Iterable[str]) -> str:
    """Category names as they stand inside a sentence, in the order of the list.

    >>> in_words({"install", "materials"})
    'materials or installation and equipment'
    >>> in_words(["food", "admin", "contingency"])
    'administration, food and hospitality or contingency'
    """
    order = list(CATEGORIES)
    ranked = sorted(
        set(keys),
        key=lambda key: (order.index(key) if key in order else len(order), key),
    )
    names = [_lower_first(label(key)) for key in ranked]
    return " or ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _lower_first(text: str) -> str:
    return text[:1].lower() + text[1:]
