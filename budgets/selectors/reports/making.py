"""Every kind of report under its name."""

from __future__ import annotations

from budgets.models import Fund
from budgets.selectors.reports.budget import budget_report
from budgets.selectors.reports.federal import federal_report
from budgets.selectors.reports.matching import match_report
from budgets.selectors.reports.source import Source
from budgets.selectors.reports.spending import spending_report
from budgets.selectors.reports.table import Report
from budgets.selectors.reports.whole import whole_report

WHOLE = "project"
OF_A_FUND = ("budget", "match", "spending", "federal")


def report_of(source: Source, fund: Fund | None, key: str, *, final: bool = False) -> Report:
    """The report of that name; of the whole project when there is no fund."""
    if fund is None:
        return whole_report(source)
    fund = next(row for row in source.books.funds if row.pk == fund.pk)
    if key == "federal":
        return federal_report(source, fund, final=final)
    makers = {"budget": budget_report, "match": match_report, "spending": spending_report}
    return makers[key](source, fund)
