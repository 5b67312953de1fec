"""Expenses from a bank's file, and everything out."""

from django.urls import path

from budgets.views import bank

urls = [
    path("money/bank/", bank.bank, name="bank"),
]
