"""What funders accept, on paper and as tables; requests to change a budget."""

from django.urls import path

from budgets.selectors.reports.making import OF_A_FUND, WHOLE
from budgets.views import changes, reports

FORMS = {"": reports.report, "pdf": reports.report_pdf, "csv": reports.report_csv}


def of(key: str, folder: str) -> list[object]:
    """A report as a page, as a PDF and as a table."""
    return [
        path(
            f"{folder}/{key}.{form}" if form else f"{folder}/{key}/",
            view,
            {"key": key},
            name=f"report-{key}-{form}" if form else f"report-{key}",
        )
        for form, view in FORMS.items()
    ]


urls = [
    path("money/reports/", reports.reports, name="reports"),
    *of(WHOLE, "money/reports"),
    *(found for key in OF_A_FUND for found in of(key, "money/funds/<int:pk>/reports")),
    path("money/funds/<int:pk>/agreed", changes.agreed, name="agreed"),
    path("money/funds/<int:pk>/changes/", changes.changes, name="changes"),
    path("money/funds/<int:pk>/changes/add", changes.change_add, name="change-add"),
    path("money/changes/<int:pk>/", changes.change, name="change"),
    path("money/changes/<int:pk>/edit", changes.change_edit, name="change-edit"),
    path("money/changes/<int:pk>/send", changes.change_send, name="change-send"),
    path("money/changes/<int:pk>/answer", changes.change_answer, name="change-answer"),
    path("money/changes/<int:pk>/delete", changes.change_delete, name="change-delete"),
    path("money/changes/<int:pk>/request.pdf", changes.change_pdf, name="change-pdf"),
    path("money/changes/<int:pk>/request.csv", changes.change_csv, name="change-csv"),
]
