"""Adapters for the published rows of fixtures/published/trade-power.json."""

from collections.abc import Callable

ADAPTERS: dict[str, Callable[[dict], dict]] = {}
