"""The worksheets, one file each; found by module, in the order of their groups and places."""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module

from worksheets.engine.sheet import Group, Sheet


@cache
def sheets() -> dict[str, Sheet]:
    """Every worksheet by its key."""
    names = sorted(each.name for each in pkgutil.iter_modules(__path__))
    found = [import_module(f"{__name__}.{name}").SHEET for name in names]
    order = list(Group)
    ranked = sorted(found, key=lambda sheet: (order.index(sheet.group), sheet.place))
    return {sheet.key: sheet for sheet in ranked}
