"""Dated rates and thresholds, each with its source."""

from django.urls import path

from budgets.views import facts

urls = [
    path("money/facts/", facts.facts, name="facts"),
    path("money/facts/add", facts.fact_add, name="fact-add"),
    path("money/facts/<int:pk>/delete", facts.fact_delete, name="fact-delete"),
]
