"""What funders accept, on paper and as tables."""

from django.urls import path

from budgets.views import reports

urls = [
    path("money/reports/", reports.reports, name="reports"),
]
