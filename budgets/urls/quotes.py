"""Quotes asked for, compared, and chosen."""

from django.urls import path

from budgets.views import quotes

urls = [
    path("money/quotes/", quotes.quotes, name="quotes"),
]
