"""A word that stays the same as long as nothing changes from which something was computed."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from functools import cache
from typing import Any

PLAIN = frozenset({str, int, bool, date, type(None)})  # mostly it is one of these


def basis_of(*values: Any) -> str:
    """The same in every process: sets and mappings are told in a fixed order."""
    return hashlib.sha256(repr(told(values)).encode()).hexdigest()[:32]


@cache
def names_of(kind: type[Any]) -> tuple[str, ...]:
    return tuple(f.name for f in fields(kind))


def told(value: Any) -> Any:
    if type(value) in PLAIN:
        return value
    if is_dataclass(value) and not isinstance(value, type):
        facts = [getattr(value, name) for name in names_of(type(value))]
        plainly = [fact if type(fact) in PLAIN else told(fact) for fact in facts]
        return type(value).__name__, plainly
    if isinstance(value, Mapping):
        return sorted((repr(told(key)), told(item)) for key, item in value.items())
    if isinstance(value, set | frozenset):
        return sorted(repr(told(item)) for item in value)
    if isinstance(value, str | bytes):
        return str(value)
    if isinstance(value, Iterable):
        return [told(item) for item in value]
    return repr(value)
