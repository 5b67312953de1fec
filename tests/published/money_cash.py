"""Published checks of cash, loans and forecasts: translated, no numbers here."""

from collections.abc import Callable
from typing import Any

Row = dict[str, Any]

ADAPTERS: dict[str, Callable[[Row], Row]] = {}
