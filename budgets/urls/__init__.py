"""Addresses of the budgets app, under /projects/<project>/: one module for each room."""

from budgets.urls import bank, cash, claims, facts, fit, forecast, gifts, quotes, reports, sheet

app_name = "budgets"
urlpatterns = [
    *sheet.urls,
    *fit.urls,
    *quotes.urls,
    *gifts.urls,
    *claims.urls,
    *cash.urls,
    *forecast.urls,
    *reports.urls,
    *bank.urls,
    *facts.urls,
]
