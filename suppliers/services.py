"""Every change to suppliers, their papers and orders; each writes its own line of the log."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import partial

from django.core.files.base import ContentFile
from django.db import transaction

from projects import log
from projects.access import type_user
from projects.files import Clean
from projects.models import Project
from projects.words import listed, money, whose
from suppliers.models import Document, Order, Quote, Supplier
from suppliers.selectors import paid_orders

COPIED = ("name", "kind", "trades", "contact", "email", "phone", "lead_days", "note")


class Refused(Exception):
    """A change that would lose something; the message is a sentence."""


def note(project: Project, user: type_user, sentence: str) -> str:
    log.write(project=project, user=user, about="suppliers", sentence=sentence)
    return sentence


@transaction.atomic
def supplier_save(*, supplier: Supplier, user: type_user) -> str:
    verb = "was changed" if supplier.pk else "was added to the suppliers"
    supplier.save()
    return note(supplier.project, user, f"{supplier.name} {verb}.")


@transaction.atomic
def supplier_delete(*, supplier: Supplier, user: type_user) -> str:
    """Refused while money was spent on its orders."""
    paid = [f"“{order.title}”" for order in paid_orders(supplier)]
    if paid:
        raise Refused(
            f"{supplier.name} cannot be deleted: money was spent on {listed(paid)}. "
            "Take the order off those expenses on the money sheet first."
        )
    if asked := evidence(supplier):
        raise Refused(
            f"{supplier.name} cannot be deleted: its quote shows how {listed(asked)} was chosen, "
            "and a funder may ask for it."
        )
    papers: list[Document | Quote] = list(supplier.documents.exclude(file=""))
    papers += supplier.quotes.exclude(file="")
    supplier.delete()
    drop_files(papers)
    return note(supplier.project, user, f"{supplier.name} was deleted from the suppliers.")


def evidence(supplier: Supplier) -> list[str]:
    """What was chosen with a quote of theirs beside it."""
    settled = supplier.quotes.filter(request__is_closed=True, cents__isnull=False)
    return [f"“{title}”" for title in settled.values_list("request__title", flat=True)]


def drop_files(papers: Iterable[Document | Quote]) -> None:
    """Stored files go once the rows are gone for good."""
    for paper in papers:
        transaction.on_commit(partial(paper.file.storage.delete, str(paper.file.name)))


@transaction.atomic
def supplier_bring(
    *, source: Supplier, project: Project, user: type_user, today: date
) -> tuple[Supplier, str]:
    """A copy for this project: who they are, and their papers that have not ended."""
    copy = Supplier(project=project, **{name: getattr(source, name) for name in COPIED})
    copy.save()
    for paper in source.documents.all():
        if paper.expires_on is None or paper.expires_on >= today:
            document_copy(paper, copy)
    sentence = f"{copy.name} was brought in from {source.project.name}."
    return copy, note(project, user, sentence)


def document_copy(paper: Document, supplier: Supplier) -> None:
    copy = Document(
        supplier=supplier,
        kind=paper.kind,
        title=paper.title,
        issued_on=paper.issued_on,
        expires_on=paper.expires_on,
    )
    if paper.file:
        with paper.file.open("rb") as stored:
            copy.file.save(str(paper.file.name), ContentFile(stored.read()), save=False)
    copy.save()


@transaction.atomic
def document_save(*, document: Document, upload: Clean | None, user: type_user) -> str:
    verb = "was changed" if document.pk else "was added"
    if upload:
        if document.file:
            drop_files([Document(file=document.file.name)])
        document.file.save(upload.content.name or "file", upload.content, save=False)
    document.save()
    supplier = document.supplier
    sentence = f"“{document.title}” {verb} among {whose(supplier.name)} papers."
    return note(supplier.project, user, sentence)


@transaction.atomic
def document_delete(*, document: Document, user: type_user) -> str:
    supplier = document.supplier
    document.delete()
    if document.file:
        drop_files([document])
    sentence = f"“{document.title}” was taken out of {whose(supplier.name)} papers."
    return note(supplier.project, user, sentence)


@transaction.atomic
def order_save(*, order: Order, user: type_user) -> str:
    project = order.supplier.project
    verb = "was changed" if order.pk else "was added"
    order.save()
    amount = money(order.total_cents, project.currency)
    booked = f", {order.window}" if order.window else ""
    sentence = (
        f"The order “{order.title}” from {order.supplier.name} {verb}: "
        f"{order.get_state_display().lower()}, {amount}{booked}."
    )
    return note(project, user, sentence)


@transaction.atomic
def order_delete(*, order: Order, user: type_user) -> str:
    """Refused while money was spent on it."""
    if paid_orders(order.supplier).filter(pk=order.pk).exists():
        raise Refused(
            f"“{order.title}” cannot be deleted: money was spent on it. "
            "Mark it cancelled, or take it off those expenses on the money sheet first."
        )
    project = order.supplier.project
    order.delete()
    return note(project, user, f"The order “{order.title}” from {order.supplier.name} was deleted.")
