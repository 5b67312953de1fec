"""The best assignment of expenses to funds."""

from django.urls import path

from budgets.views import fit

urls = [
    path("money/best/", fit.best, name="best"),
]
