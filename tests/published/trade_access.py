"""Adapters for the published rows of fixtures/published/trade-access.json."""

from collections.abc import Callable

ADAPTERS: dict[str, Callable[[dict], dict]] = {}
