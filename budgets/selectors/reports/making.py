"""Every kind of report under its name."""

from __future__ import annotations

from collections.abc import Iterator

from budgets.models import Fund
from budgets.selectors.reports.budget import budget_report
from budgets.selectors.reports.federal import federal_report, is_federal
from budgets.selectors.reports.matching import match_report
from budgets.selectors.reports.source import HOPED, Source, is_gifts, is_own
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


def every_report(source: Source) -> Iterator[tuple[Fund | None, Report]]:
    """All that the project can report up to the day, one after the other."""
    yield None, whole_report(source)
    for fund in source.books.funds:
        if is_own(fund) or is_gifts(fund) or fund.status in HOPED:
            continue
        for key in OF_A_FUND:
            if key != "federal" or is_federal(fund):
                yield fund, report_of(source, fund, key)
