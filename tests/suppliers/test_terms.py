"""The terms of an order, and what a supplier's quotes hold fast."""

from __future__ import annotations

from datetime import date

import pytest
from django.core.files.base import ContentFile
from django.urls import reverse

from suppliers.models import Order, OrderChange, Quote, QuoteRequest, Supplier
from tests import factories

pytestmark = pytest.mark.django_db

ORDER = {"title": "Lift hire", "state": "placed", "cents": "1,500.00"}


@pytest.fixture
def hire(project):
    return factories.SupplierFactory(project=project, name="Millrace Lift Hire")


def add(client, hire, **typed):
    where = reverse("suppliers:order-add", args=[hire.project_id, hire.pk])
    return client.post(where, {**ORDER, **typed})


def test_the_terms_of_a_contract_are_kept(owner, hire):
    add(
        owner, hire, number="HL-03", deposit_basis_points="33.33", net_days="30",
        retainage_basis_points="5 %", retainage_stop_basis_points="50",
        retainage_after_basis_points="2.5", retainage_release_half="on", retainage_days="45",
        left_to_do_cents="200", placed_on="2031-02-01",
    )  # fmt: skip
    made = Order.objects.get()
    assert (made.number, made.deposit_basis_points, made.net_days) == ("HL-03", 3333, 30)
    assert (made.retainage_basis_points, made.retainage_stop_basis_points) == (500, 5000)
    assert (made.retainage_after_basis_points, made.retainage_release_half) == (250, True)
    assert (made.retainage_days, made.left_to_do_cents) == (45, 20_000)


def test_an_order_without_terms_is_paid_on_delivery(owner, hire):
    add(owner, hire)
    made = Order.objects.get()
    assert (made.deposit_basis_points, made.net_days, made.retainage_basis_points) == (0, 0, 0)
    assert made.retainage_days == 30


@pytest.mark.parametrize(
    ("typed", "right"),
    [
        ({"deposit_basis_points": "120"}, "100 at most"),
        ({"deposit_basis_points": "half"}, "such as 50 or 12.5"),
        ({"net_days": "-1"}, "below zero"),
        ({"net_days": "400"}, "more than 365 days"),
        ({"delivered_on": "2031-03-04", "state": "delivered"}, "has not come yet"),
        (
            {"placed_on": "2031-02-10", "delivered_on": "2031-02-01", "state": "delivered"},
            "when it was placed",
        ),
        ({"delivered_on": "2031-02-10"}, "Choose Delivered"),
        ({"retainage_after_basis_points": "2.5"}, "from which point on"),
    ],
)
def test_wrong_terms_say_what_would_be_right_and_stay_open(owner, hire, typed, right):
    answer = add(owner, hire, **typed)
    assert answer.status_code == 422 and right in answer.content.decode()
    assert not Order.objects.exists()


def test_the_sheet_shows_the_price_with_its_changes(reader, hire):
    made = factories.OrderFactory(supplier=hire, cents=150_000)
    OrderChange.objects.create(order=made, cents=25_000, day=date(2031, 3, 1), reason="A third day")
    page = reader.get(reverse("suppliers:supplier", args=[hire.project_id, hire.pk]))
    assert "$1,750" in page.content.decode()
    directory = reader.get(reverse("suppliers:suppliers", args=[hire.project_id]))
    assert "$1,750" in directory.content.decode()


def delete(client, hire):
    return client.post(reverse("suppliers:supplier-delete", args=[hire.project_id, hire.pk]))


def test_whose_quote_shows_how_an_order_was_chosen_stays(owner, hire):
    request = QuoteRequest.objects.create(
        project=hire.project, title="Lift hire", what="Three days", is_closed=True
    )
    Quote.objects.create(request=request, supplier=hire, state="not_chosen", cents=1)
    answer = delete(owner, hire)
    assert answer.status_code == 409
    assert "its quote shows how “Lift hire” was chosen" in answer.content.decode()
    assert Supplier.objects.exists()


def test_the_paper_of_a_quote_goes_with_its_supplier(
    owner, hire, django_capture_on_commit_callbacks
):
    request = QuoteRequest.objects.create(project=hire.project, title="Lift", what="Three days")
    kept = Quote.objects.create(request=request, supplier=hire, cents=1)
    kept.file.save("quote.jpg", ContentFile(b"kept"))
    name, storage = kept.file.name, kept.file.storage
    with django_capture_on_commit_callbacks(execute=True):
        delete(owner, hire)
    assert not storage.exists(name)
