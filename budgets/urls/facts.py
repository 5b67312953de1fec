"""Dated rates and thresholds, each with its source."""

from django.urls import path

from budgets.views import facts

urls = [
    path("money/facts/", facts.facts, name="facts"),
]
