"""A supplier's papers: add, change, delete, renew and download."""

from __future__ import annotations

from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.text import slugify
from django.views.decorators.http import require_GET, require_http_methods

from projects.access import project_for
from projects.files import JPEG, PDF, served
from projects.models import Project
from projects.pages import Opened, posted
from suppliers import services
from suppliers.forms import DocumentForm
from suppliers.models import Document
from suppliers.views.pages import supplier_in, supplier_page, to_supplier


@require_http_methods(["GET", "POST"])
def document_add(request: HttpRequest, project_id: int, pk: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    document = Document(supplier=supplier_in(project, pk))
    url = reverse("suppliers:document-add", args=[project.pk, pk])
    opened_as = ("Add a paper", "Add", None)
    return document_form(request, project, document, url, opened_as)


@require_http_methods(["GET", "POST"])
def document_renew(
    request: HttpRequest, project_id: int, pk: int, document_id: int
) -> HttpResponse:
    """A new paper in an old one's place: same kind, same title."""
    project = project_for(request.user, project_id, change=True)
    old = document_in(project, pk, document_id)
    document = Document(supplier=old.supplier, kind=old.kind, title=old.title)
    url = reverse("suppliers:document-renew", args=[project.pk, pk, document_id])
    return document_form(request, project, document, url, (f"Renew “{old.title}”", "Add", None))


@require_http_methods(["GET", "POST"])
def document_edit(request: HttpRequest, project_id: int, pk: int, document_id: int) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    document = document_in(project, pk, document_id)
    url = reverse("suppliers:document-edit", args=[project.pk, pk, document_id])
    opened_as = (f"Change “{document.title}”", "Save", document_id)
    return document_form(request, project, document, url, opened_as)


def document_form(
    request: HttpRequest,
    project: Project,
    document: Document,
    url: str,
    opened_as: tuple[str, str, int | None],
) -> HttpResponse:
    heading, button, pk = opened_as
    data, files = (request.POST, request.FILES) if posted(request) else (None, None)
    form = DocumentForm(data, files, instance=document)
    if posted(request) and form.is_valid():
        upload = form.cleaned_data["upload"]
        says = services.document_save(document=document, upload=upload, user=request.user)
        return to_supplier(request, project, document.supplier_id, says)
    opened = Opened(what="document", action=url, heading=heading, form=form, button=button, pk=pk)
    return supplier_page(request, project, document.supplier_id, opened=opened)


@require_http_methods(["GET", "POST"])
def document_delete(
    request: HttpRequest, project_id: int, pk: int, document_id: int
) -> HttpResponse:
    project = project_for(request.user, project_id, change=True)
    document = document_in(project, pk, document_id)
    if posted(request):
        says = services.document_delete(document=document, user=request.user)
        return to_supplier(request, project, pk, says)
    opened = Opened(
        what="document-delete",
        action=reverse("suppliers:document-delete", args=[project.pk, pk, document_id]),
        heading=f"Delete “{document.title}”?",
        pk=document_id,
        question="Its file goes with it.",
    )
    return supplier_page(request, project, pk, opened=opened)


@require_GET
def document_file(request: HttpRequest, project_id: int, pk: int, document_id: int) -> FileResponse:
    """The stored file, to a member, as a download."""
    document = document_in(project_for(request.user, project_id), pk, document_id)
    if not document.file:
        raise Http404
    is_pdf = str(document.file.name).endswith(".pdf")
    return served(
        document.file,
        name=f"{slugify(document.title) or 'paper'}{'.pdf' if is_pdf else '.jpg'}",
        media_type=PDF if is_pdf else JPEG,
        attach=True,
    )


def document_in(project: Project, supplier_id: int, pk: int) -> Document:
    rows = Document.objects.select_related("supplier__project")
    return get_object_or_404(rows, supplier__project=project, supplier_id=supplier_id, pk=pk)
