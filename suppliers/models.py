"""Who makes, lends, checks and sells."""

from __future__ import annotations

from pathlib import PurePath

from django.db import models

from projects.models import Part, Project, random_name
from projects.words import span


class SupplierKind(models.TextChoices):
    MAKER = "maker", "Maker or fabricator"
    SHOP = "shop", "Shop"
    HIRE = "hire", "Hire company"
    ADVISER = "adviser", "Engineer or adviser"
    CREW = "crew", "Crew or volunteers"


class Supplier(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="suppliers")
    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=10, choices=SupplierKind, default=SupplierKind.MAKER)
    trades = models.CharField(max_length=200, blank=True)
    contact = models.CharField(max_length=120, blank=True)
    email = models.EmailField(blank=True)
    phone = models.CharField(max_length=40, blank=True)
    lead_days = models.PositiveIntegerField(null=True, blank=True)  # working days from order
    note = models.TextField(blank=True)

    class Meta:
        ordering = ["name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["project", "name"], name="one_supplier_of_a_name")
        ]

    def __str__(self) -> str:
        return self.name


class Making(models.Model):
    """Who makes a part."""

    part = models.OneToOneField(Part, models.CASCADE, related_name="making")
    supplier = models.ForeignKey(Supplier, models.CASCADE, related_name="makings")

    def __str__(self) -> str:
        return f"{self.supplier} makes {self.part}"


class DocumentKind(models.TextChoices):
    INSURANCE = "insurance", "Insurance certificate"
    LICENCE = "licence", "Licence or registration"
    TAX_FORM = "tax_form", "Taxpayer form"
    AGREEMENT = "agreement", "Signed agreement"
    OTHER = "other", "Other paper"


def document_name(instance: Document, filename: str) -> str:
    return random_name(f"documents/{instance.supplier_id}", PurePath(filename).suffix.lower())


class Document(models.Model):
    supplier = models.ForeignKey(Supplier, models.CASCADE, related_name="documents")
    kind = models.CharField(max_length=12, choices=DocumentKind, default=DocumentKind.INSURANCE)
    title = models.CharField(max_length=160)
    file = models.FileField(upload_to=document_name, blank=True)
    issued_on = models.DateField(null=True, blank=True)
    expires_on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["expires_on", "pk"]

    def __str__(self) -> str:
        return self.title


class OrderState(models.TextChoices):
    PLANNED = "planned", "Planned"
    PLACED = "placed", "Placed"
    DELIVERED = "delivered", "Delivered"
    CANCELLED = "cancelled", "Cancelled"


class Order(models.Model):
    """A commitment: a purchase, a piece of work or a hire, with the days it covers."""

    supplier = models.ForeignKey(Supplier, models.CASCADE, related_name="orders")
    title = models.CharField(max_length=160)
    state = models.CharField(max_length=10, choices=OrderState, default=OrderState.PLANNED)
    cents = models.PositiveBigIntegerField()
    placed_on = models.DateField(null=True, blank=True)
    window_start = models.DateField(null=True, blank=True)
    window_end = models.DateField(null=True, blank=True)
    delivered_on = models.DateField(null=True, blank=True)
    deposit_basis_points = models.PositiveSmallIntegerField(default=0)  # due when it is placed
    net_days = models.PositiveSmallIntegerField(default=0)  # from delivery to the balance
    retainage_basis_points = models.PositiveSmallIntegerField(default=0)  # kept from each bill
    retainage_stop_basis_points = models.PositiveSmallIntegerField(null=True, blank=True)
    retainage_after_basis_points = models.PositiveSmallIntegerField(null=True, blank=True)
    retainage_release_half = models.BooleanField(default=False)  # once the stop is reached
    retainage_days = models.PositiveSmallIntegerField(default=30)  # from delivery to its release
    left_to_do_cents = models.PositiveBigIntegerField(default=0)  # worth of what is to be put right
    quote = models.OneToOneField(
        "Quote", models.SET_NULL, null=True, blank=True, related_name="order"
    )
    number = models.CharField(max_length=60, blank=True)  # of the contract or purchase order
    note = models.TextField(blank=True)

    class Meta:
        ordering = ["window_start", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(window_end__gte=models.F("window_start")),
                name="order_window_runs_forward",
                violation_error_message="The last day is before the first.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.title} ({self.supplier})"

    @property
    def window(self) -> str:
        return span(self.window_start, self.window_end)

    @property
    def changed_cents(self) -> int:
        """The approved changes together; read them beforehand where there are many orders."""
        return sum(change.cents for change in self.changes.all())

    @property
    def total_cents(self) -> int:
        """What was agreed, with its changes."""
        return max(0, self.cents + self.changed_cents)


class OrderChange(models.Model):
    """An agreed change of an order's price, up or down."""

    order = models.ForeignKey(Order, models.CASCADE, related_name="changes")
    cents = models.BigIntegerField()
    day = models.DateField()
    reason = models.CharField(max_length=240)

    class Meta:
        ordering = ["day", "pk"]

    def __str__(self) -> str:
        return f"{self.cents} cents on {self.order}"


class QuoteRequest(models.Model):
    """What several suppliers are asked a price for, in the same words."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="quote_requests")
    title = models.CharField(max_length=160)
    what = models.TextField()  # quantities, sizes, finish, where and how it is delivered
    part = models.ForeignKey(
        Part, models.SET_NULL, null=True, blank=True, related_name="quote_requests"
    )
    wanted_on = models.DateField(null=True, blank=True)  # the day it must be there
    answer_by = models.DateField(null=True, blank=True)
    is_closed = models.BooleanField(default=False)
    reason = models.CharField(max_length=240, blank=True)  # why the chosen quote was chosen
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["is_closed", "-pk"]

    def __str__(self) -> str:
        return self.title


class QuoteState(models.TextChoices):
    ASKED = "asked", "Asked"
    RECEIVED = "received", "Received"
    DECLINED = "declined", "Declined to quote"
    CHOSEN = "chosen", "Chosen"
    NOT_CHOSEN = "not_chosen", "Not chosen"


ANSWERED = (QuoteState.RECEIVED, QuoteState.CHOSEN, QuoteState.NOT_CHOSEN)


def quote_name(instance: Quote, filename: str) -> str:
    return random_name(f"quotes/{instance.request_id}", PurePath(filename).suffix.lower())


class Quote(models.Model):
    """One supplier's answer to a request."""

    request = models.ForeignKey(QuoteRequest, models.CASCADE, related_name="quotes")
    supplier = models.ForeignKey(Supplier, models.CASCADE, related_name="quotes")
    state = models.CharField(max_length=10, choices=QuoteState, default=QuoteState.ASKED)
    asked_on = models.DateField(null=True, blank=True)
    received_on = models.DateField(null=True, blank=True)
    cents = models.PositiveBigIntegerField(null=True, blank=True)  # without tax and delivery
    tax_cents = models.PositiveBigIntegerField(default=0)
    delivery_cents = models.PositiveBigIntegerField(default=0)
    lead_days = models.PositiveSmallIntegerField(null=True, blank=True)  # working days from order
    valid_until = models.DateField(null=True, blank=True)
    deposit_basis_points = models.PositiveSmallIntegerField(default=0)
    net_days = models.PositiveSmallIntegerField(default=0)
    note = models.TextField(blank=True)
    file = models.FileField(upload_to=quote_name, blank=True)
    media_type = models.CharField(max_length=40, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["request", "supplier"], name="one_quote_a_supplier")
        ]

    def __str__(self) -> str:
        return f"{self.supplier} on {self.request}"

    @property
    def total_cents(self) -> int | None:
        """All in: the price, its tax and the delivery."""
        return None if self.cents is None else self.cents + self.tax_cents + self.delivery_cents
