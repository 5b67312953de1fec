"""Expenses from a bank's file: opened, its columns told once, its lines brought in."""

from __future__ import annotations

from tempfile import SpooledTemporaryFile

from django.contrib import messages
from django.http import FileResponse, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.text import slugify
from django.views.decorators.http import require_GET, require_http_methods

from budgets.forms.bank import BankFileForm, ColumnsForm, RowsForm, columns_initial
from budgets.models import BankFile, BudgetLine
from budgets.selectors.bank import bank_rows, bank_sheet, columns_of, files_of, table_of
from budgets.selectors.export import write_archive
from budgets.services import bank as services
from budgets.views.pages import shown
from projects.access import project_for
from projects.clock import today
from projects.models import Project
from projects.pages import data_of, posted

IN_MEMORY = 8_000_000  # bytes; a larger archive waits on the disk
MEANWHILE = (
    "Something chosen here was brought in or changed meanwhile. Nothing was brought in; "
    "look at the lines as they are now."
)


def file_in(project: Project, pk: int) -> BankFile:
    return get_object_or_404(
        BankFile.objects.select_related("project", "layout"), project=project, pk=pk
    )


@require_GET
def bank(request: HttpRequest, project_id: int) -> HttpResponse:
    return bank_page(request, project_for(request.user, project_id), BankFileForm())


def bank_page(
    request: HttpRequest, project: Project, form: BankFileForm, status: int = 200
) -> HttpResponse:
    context = {"form": form, "files": files_of(project)}
    return shown(request, project, "bank.html", context, status=status)


@require_http_methods(["GET", "POST"])
def bank_open(request: HttpRequest, project_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    if not posted(request):
        return redirect("budgets:bank", project.pk)
    form = BankFileForm(request.POST, request.FILES)
    if not form.is_valid():
        return bank_page(request, project, form, status=422)
    found = form.cleaned_data["file"]
    kept = services.keep_file(
        project=project, name=found.name, text=found.text, sha256=found.sha256, user=request.user
    )
    name = "budgets:bank-file" if kept.layout else "budgets:bank-columns"
    return redirect(name, project.pk, kept.pk)


@require_http_methods(["GET", "POST"])
def bank_columns(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    file = file_in(project, pk)
    table = table_of(file)
    columns = columns_of(file, table)
    form = ColumnsForm(data_of(request), table=table, initial=columns_initial(columns))
    if posted(request) and form.is_valid():
        services.keep_columns(file=file, columns=form.columns(), user=request.user)
        return redirect("budgets:bank-file", project.pk, pk)
    context = {
        "form": form,
        "file": file,
        "table": table,
        "sample": table.rows[:4],
        "found": columns,
    }
    status = 422 if posted(request) else 200
    return shown(request, project, "bank_columns.html", context, status=status)


@require_http_methods(["GET", "POST"])
def bank_file(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=posted(request))
    file = file_in(project, pk)
    if posted(request):
        return bring_in(request, project, file)
    return file_page(request, project, file)


def file_page(
    request: HttpRequest, project: Project, file: BankFile, problem: str = "", status: int = 200
) -> HttpResponse:
    sheet = bank_sheet(file, today(project), page=request.GET.get("page", "1"))
    form = RowsForm(rows=sheet.rows, lines=lines_of(project))
    context = {"b": sheet, "form": form, "file": file, "problem": problem}
    return shown(request, project, "bank_file.html", context, status=status)


def bring_in(request: HttpRequest, project: Project, file: BankFile) -> HttpResponse:
    """What was chosen for the lines that were shown, wherever they stand by now."""
    rows = [row for row in bank_rows(file, today(project)) if row.field in request.POST]
    form = RowsForm(request.POST, rows=rows, lines=lines_of(project))
    try:
        if not form.is_valid():
            raise services.Changed
        says = services.bring_in(
            file=file, chosen=form.chosen(), today=today(project), user=request.user
        )
    except services.Changed:
        return file_page(request, project, file, MEANWHILE, status=409)
    messages.success(request, says)
    return redirect("budgets:bank-file", project.pk, file.pk)


def lines_of(project: Project) -> list[BudgetLine]:
    return list(BudgetLine.objects.filter(project=project))


@require_GET
def everything(request: HttpRequest, project_id: int) -> FileResponse:
    """All tables and papers in one archive, for whoever audits the work or moves on."""
    project = project_for(request.user, project_id)
    archive = SpooledTemporaryFile(max_size=IN_MEMORY)  # noqa: SIM115 (the answer closes it)
    write_archive(project, archive, today(project).isoformat())
    archive.seek(0)
    name = f"{slugify(project.name) or 'project'}-money-{today(project).isoformat()}.zip"
    return FileResponse(archive, as_attachment=True, filename=name)


@require_http_methods(["GET", "POST"])
def bank_forget(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    file = file_in(project, pk)
    if posted(request):
        messages.success(request, services.forget_file(file=file, user=request.user))
        return redirect("budgets:bank", project.pk)
    context = {
        "heading": f"Take “{file.name}” away?",
        "warning": "What was brought in from it stays.",
        "back": reverse("budgets:bank", args=[project.pk]),
    }
    return shown(request, project, "confirm.html", context)
