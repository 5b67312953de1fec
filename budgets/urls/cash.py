"""The daily balance on the computed schedule."""

from django.urls import path

from budgets.views import cash

urls = [
    path("money/cash/", cash.cash, name="cash"),
    path("money/cash/settings", cash.cash_settings, name="cash-settings"),
]
