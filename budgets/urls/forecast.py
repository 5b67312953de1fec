"""What it will all have cost, and the contingency."""

from django.urls import path

from budgets.views import forecast

urls = [
    path("money/forecast/", forecast.forecast, name="forecast"),
]
