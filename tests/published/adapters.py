"""Every published kind of row, and the code that answers it.

An adapter takes the whole row and returns a dict that holds at least its result keys.
It translates words and units; the numbers are those of the code under test.
"""

from collections.abc import Callable

from tests.published import (
    money_cash,
    money_claims,
    money_facts,
    money_gifts,
    money_orders,
    money_reports,
    money_rules,
    trade_access,
    trade_cloth,
    trade_cutting,
    trade_fill,
    trade_loads,
    trade_paint,
    trade_power,
    trade_weather,
    trade_working,
)
from tests.published.calendar_adapters import CALENDAR_ADAPTERS
from tests.published.chance_adapters import CHANCE_ADAPTERS
from tests.published.crash_adapters import CRASH_ADAPTERS
from tests.published.money_adapters import MONEY_ADAPTERS
from tests.published.progress_adapters import PROGRESS_ADAPTERS
from tests.published.record_adapters import RECORD_ADAPTERS
from tests.published.schedule_adapters import SCHEDULE_ADAPTERS

MONEY: dict[str, Callable[[dict], dict]] = {
    **MONEY_ADAPTERS,
    **money_cash.ADAPTERS,
    **money_claims.ADAPTERS,
    **money_facts.ADAPTERS,
    **money_gifts.ADAPTERS,
    **money_orders.ADAPTERS,
    **money_reports.ADAPTERS,
    **money_rules.ADAPTERS,
}
TRADE: dict[str, Callable[[dict], dict]] = {
    **trade_access.ADAPTERS,
    **trade_cloth.ADAPTERS,
    **trade_cutting.ADAPTERS,
    **trade_fill.ADAPTERS,
    **trade_loads.ADAPTERS,
    **trade_paint.ADAPTERS,
    **trade_power.ADAPTERS,
    **trade_weather.ADAPTERS,
    **trade_working.ADAPTERS,
}
ADAPTERS: dict[str, Callable[[dict], dict]] = {
    **SCHEDULE_ADAPTERS,
    **PROGRESS_ADAPTERS,
    **CALENDAR_ADAPTERS,
    **CHANCE_ADAPTERS,
    **CRASH_ADAPTERS,
    **MONEY,
    **RECORD_ADAPTERS,
    **TRADE,
}
