"""What funders accept: on the page, on paper and as tables, from the same rows."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.http import urlencode
from django.utils.text import slugify
from django.views.decorators.http import require_GET

from budgets.forms.reports import AskedForm
from budgets.models import Fund
from budgets.selectors.reports import commas, making
from budgets.selectors.reports.room import reports_room
from budgets.selectors.reports.source import read_source
from budgets.selectors.reports.table import Report
from budgets.views.pages import fund_in, shown
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.paper import print_page

PAPER = "budgets/paper/report.html"


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """A report of a fund (none: of the whole project) as it was asked for."""

    project: Project
    fund: Fund | None
    key: str
    form: AskedForm

    def report(self, *, draw: bool = False) -> Report:
        form = self.form
        source = read_source(self.project, form.through, whole=form.is_whole, draw=draw)
        return making.report_of(source, self.fund, self.key, final=form.is_final)

    @property
    def back(self) -> str:
        return reverse("budgets:reports", args=[self.project.pk])

    def url(self, form: str) -> str:
        """The address of this report in another form, asked for in the same way."""
        args = [self.project.pk, *([self.fund.pk] if self.fund else [])]
        found = reverse(f"budgets:report-{self.key}-{form}", args=args)
        return f"{found}?{urlencode(self.form.asked)}" if self.form.asked else found


def wanted(request: HttpRequest, project_id: int, key: str, pk: int | None) -> Wanted:
    project = project_for(request.user, project_id)
    fund = fund_in(project, pk) if pk else None
    form = AskedForm(request.GET.dict(), today=today(project), federal=key == "federal")
    form.is_valid()
    return Wanted(project=project, fund=fund, key=key, form=form)


@require_GET
def reports(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id)
    context = {"room": reports_room(project, today(project))}
    return shown(request, project, "reports.html", context)


@require_GET
def report(request: HttpRequest, project_id: int, key: str, pk: int | None = None) -> HttpResponse:
    asked = wanted(request, project_id, key, pk)
    context = {"r": asked.report(), "asked": asked, "form": asked.form, "fund": asked.fund}
    context |= {"pdf": asked.url("pdf"), "csv": asked.url("csv")}
    status = 422 if asked.form.errors else 200
    return shown(request, asked.project, "report.html", context, status=status)


@require_GET
def report_pdf(
    request: HttpRequest, project_id: int, key: str, pk: int | None = None
) -> HttpResponse:
    asked = wanted(request, project_id, key, pk)
    found = asked.report(draw=True)
    return as_pdf(asked.project, asked.fund, found)


@require_GET
def report_csv(
    request: HttpRequest, project_id: int, key: str, pk: int | None = None
) -> HttpResponse:
    asked = wanted(request, project_id, key, pk)
    found = asked.report()
    return as_table(asked.project, asked.fund, found, request.GET.get("table", ""))


def as_pdf(project: Project, fund: Fund | None, found: Report) -> HttpResponse:
    about = f"{found.title}, {fund.name}" if fund else found.title
    context = {
        "project": project,
        "heading": about,
        "about": about,
        "day": found.through,
        "r": found,
        "fund": fund,
        "appendix": found.appendix,
    }
    data = print_page(PAPER, context, found.appendix.images)
    return saved(data, "application/pdf", f"{name_of(project, fund, found)}.pdf")


def as_table(project: Project, fund: Fund | None, found: Report, key: str) -> HttpResponse:
    """One of the tables, the first unless another is named."""
    table = next((table for table in found.tables if table.key == key), None)
    table = table or next(iter(found.tables), None)
    data = commas.as_csv(table) if table else commas.MARK.encode()
    tail = f"-{table.key}" if table and table is not found.tables[0] else ""
    return saved(data, "text/csv; charset=utf-8", f"{name_of(project, fund, found)}{tail}.csv")


def name_of(project: Project, fund: Fund | None, found: Report) -> str:
    names = [project.name, fund.name if fund else "", found.title, found.through.isoformat()]
    return "-".join(slugify(name) for name in names if slugify(name)) or "report"


def saved(data: bytes, media_type: str, name: str) -> HttpResponse:
    response = HttpResponse(data, content_type=media_type)
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    response["X-Content-Type-Options"] = "nosniff"
    response["Cache-Control"] = "private, no-store"
    return response
