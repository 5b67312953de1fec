"""Write what the balance starts from."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from budgets.models import CashBook
from budgets.services.lines import Who, say
from projects.words import day_year, money


@transaction.atomic
def save_cash_book(*, book: CashBook, values: dict[str, Any], user: Who) -> str:
    for name, value in values.items():
        setattr(book, name, value)
    book.save()
    currency = book.project.currency
    sentence = (
        f"The balance starts from {money(book.opening_cents, currency)} "
        f"on {day_year(book.opening_on)}"
    )
    if book.floor_cents:
        sentence += f" and should not sink below {money(book.floor_cents, currency)}"
    say(book.project, user, f"{sentence}.")
    return f"{sentence}."
