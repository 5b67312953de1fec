"""What was asked of each fund, and what it paid."""

from django.urls import path

from budgets.views import claims

urls = [
    path("money/claims/", claims.claims, name="claims"),
]
