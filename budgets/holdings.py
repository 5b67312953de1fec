"""What a lower app may show of the money."""

from __future__ import annotations

from budgets.selectors.orders import order_money
from projects import hooks

hooks.order_money.register("budgets.orders")(order_money)
