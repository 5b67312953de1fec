"""Expenses from a bank's file, and everything out."""

from django.urls import path

from budgets.views import bank

urls = [
    path("money/bank/", bank.bank, name="bank"),
    path("money/bank/open", bank.bank_open, name="bank-open"),
    path("money/bank/<int:pk>/", bank.bank_file, name="bank-file"),
    path("money/bank/<int:pk>/columns", bank.bank_columns, name="bank-columns"),
    path("money/bank/<int:pk>/delete", bank.bank_forget, name="bank-forget"),
    path("money/everything.zip", bank.everything, name="everything"),
]
