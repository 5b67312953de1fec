"""Ask for quotes, log what came back: each change writes its own line of the log."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from django.db import transaction
from django.db.models import QuerySet

from budgets.models import Purchase
from budgets.services.expenses import forget_files
from budgets.services.lines import Who, say
from projects.files import Clean
from projects.words import day, listed, money, plural
from suppliers.models import Quote, QuoteRequest, QuoteState, Supplier

ANSWER = (
    "cents",
    "tax_cents",
    "delivery_cents",
    "lead_days",
    "valid_until",
    "deposit_basis_points",
    "net_days",
    "received_on",
    "note",
)


class Refused(Exception):
    """A change that would lose something; the message is a sentence."""


@transaction.atomic
def save_request(
    *,
    request: QuoteRequest,
    purchase: dict[str, Any],
    suppliers: Iterable[Supplier],
    user: Who,
) -> str:
    """With the line that pays, the task whose lead time it sets, and whoever is asked."""
    new = request.pk is None
    request.save()
    Purchase.objects.update_or_create(request=request, defaults=purchase)
    asked = ask_these(request, list(suppliers))
    verb = "Wrote a request for quotes" if new else "Changed the request for quotes"
    of = f", for {listed([row.name for row in asked])}" if asked else ""
    sentence = f"{verb}, “{request.title}”{of}."
    say(request.project, user, sentence)
    return sentence


def ask_these(request: QuoteRequest, suppliers: list[Supplier]) -> list[Supplier]:
    """Adds whoever is new; takes out only those who were not asked yet and said nothing."""
    have = {row.supplier_id for row in request.quotes.all()}
    unasked = request.quotes.filter(state=QuoteState.ASKED, asked_on=None)
    unasked.exclude(supplier__in=suppliers).delete()
    new = [supplier for supplier in suppliers if supplier.pk not in have]
    Quote.objects.bulk_create(Quote(request=request, supplier=row) for row in new)
    return new


@transaction.atomic
def delete_request(*, request: QuoteRequest, user: Who) -> str:
    """Refused once an order came of it: its quotes are the evidence of the purchase."""
    if request.is_closed and request.quotes.filter(order__isnull=False).exists():
        raise Refused(
            "An order came of these quotes, and they show a funder how it was chosen. "
            "Reopen the choice first, if it was wrong."
        )
    names = [str(row.file.name) for row in request.quotes.exclude(file="")]
    sentence = f"Deleted the request for quotes “{request.title}”."
    say(request.project, user, sentence)
    request.delete()
    transaction.on_commit(lambda: forget_files(names))
    return sentence


@transaction.atomic
def mark_asked(*, quotes: QuerySet[Quote], user: Who, today: date) -> str:
    """They were sent the words; who was asked before keeps that day."""
    rows = list(quotes.filter(asked_on=None).select_related("supplier", "request__project"))
    if not rows:
        return "Everybody was asked already."
    Quote.objects.filter(pk__in=[row.pk for row in rows]).update(asked_on=today)
    request = rows[0].request
    sentence = f"Asked {listed([r.supplier.name for r in rows])} for “{request.title}”."
    say(request.project, user, sentence)
    return sentence


@transaction.atomic
def save_answer(*, quote: Quote, values: dict[str, Any], paper: Clean | None, user: Who) -> str:
    """A price came, with its terms and its paper."""
    check_open(quote.request)
    new = quote.state != QuoteState.RECEIVED
    for name in ANSWER:
        setattr(quote, name, values[name])
    quote.state = QuoteState.RECEIVED
    if paper:
        keep_file(quote, paper)
    quote.save()
    verb = "quotes" if new else "changed its quote to"
    sentence = f"{quote.supplier.name} {verb} {priced(quote)} for “{quote.request.title}”."
    say(quote.request.project, user, sentence)
    return sentence


def priced(quote: Quote) -> str:
    amount = money(quote.total_cents, quote.request.project.currency)
    lead = "" if quote.lead_days is None else f" in {plural(quote.lead_days, 'working day')}"
    until = f", until {day(quote.valid_until)}" if quote.valid_until else ""
    return f"{amount}{lead}{until}"


def keep_file(quote: Quote, paper: Clean) -> None:
    if quote.file:
        old = str(quote.file.name)
        transaction.on_commit(lambda: forget_files([old]))
    quote.file.save(paper.content.name or "quote", paper.content, save=False)
    quote.media_type = paper.media_type


@transaction.atomic
def decline(*, quote: Quote, user: Who) -> str:
    """They do not quote, or their quote is taken back; asked anew, they are as before."""
    check_open(quote.request)
    back = quote.state == QuoteState.DECLINED
    quote.state = QuoteState.ASKED if back else QuoteState.DECLINED
    if back and quote.cents is not None:
        quote.state = QuoteState.RECEIVED
    quote.save(update_fields=["state"])
    verb = "may quote after all" if back else "does not quote"
    sentence = f"{quote.supplier.name} {verb} for “{quote.request.title}”."
    say(quote.request.project, user, sentence)
    return sentence


def check_open(request: QuoteRequest) -> None:
    if request.is_closed:
        raise Refused("A quote was chosen already. Reopen the choice before you change an answer.")
