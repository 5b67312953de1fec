"""Whoever keeps a project in euros reads no dollar sign on any page of the money."""

from __future__ import annotations

import json

import pytest
from django.db.models.signals import pre_save

from budgets import models as budgets
from packets.management.demo import load
from projects.models import Project
from suppliers import models as suppliers
from tests.conftest import logged_in
from tests.factories import user
from tests.site.addresses import every_address
from tests.site.cast import Cast

pytestmark = pytest.mark.django_db
FILES = (".pdf", ".csv", ".zip", "/print")
PAGES = [
    address
    for address in every_address()
    if address.name.startswith("budgets:") and not address.route.endswith(FILES)
]


@pytest.fixture
def in_euros(db, monkeypatch):
    """The demo project, told in euros."""

    def euros(sender, instance, **more):
        instance.currency = "EUR"

    def read(name):
        text = (load.FOLDER / f"{name}.json").read_text("utf-8")
        return json.loads(text.replace("$", "€"))

    monkeypatch.setattr(load, "read", read)
    pre_save.connect(euros, sender=Project)
    load.load()
    pre_save.disconnect(euros, sender=Project)
    project = Project.objects.get(name="Hearthlight")
    project.memberships.create(user=user("ada"), role="owner")
    return project


ROUNDS = 2


def casts(project):
    """Some of its funds, claims, requests, orders and expenses, and one of each other thing."""
    many = {
        "funds.pk": budgets.Fund.objects.filter(project=project),
        "claims.pk": budgets.Claim.objects.filter(fund__project=project),
        "quote_id": suppliers.Quote.objects.filter(request__project=project),
        "suppliers.pk": suppliers.Supplier.objects.filter(project=project),
        "orders.pk": suppliers.Order.objects.filter(supplier__project=project),
        "expenses.pk": budgets.Expense.objects.filter(project=project),
        "changes.pk": budgets.ChangeRequest.objects.filter(fund__project=project),
    }
    rows = {key: list(found) for key, found in many.items()}
    for place in range(ROUNDS):
        made = {key: row[len(row) * place // ROUNDS] for key, row in rows.items()}
        yield Cast(project, made={**made, "quotes.pk": made["quote_id"].request})


def test_a_project_in_euros_shows_no_dollar_on_any_money_page(in_euros):
    client, seen = logged_in("ada"), set()
    paths = {cast.path(address) for cast in casts(in_euros) for address in PAGES}
    for path in sorted(paths):
        answer = client.get(path)
        if "html" in answer.headers.get("Content-Type", ""):
            page = answer.content.decode()
            where = page.find("$")
            assert where < 0, f"{path}: {page[max(0, where - 300) : where + 60]}"
            seen.add(path)
    assert len(seen) > 100
