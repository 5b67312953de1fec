"""With what money: lines, funds and their rules, expenses and who pays which cents."""

from __future__ import annotations

from pathlib import PurePath

from django.core.validators import MinValueValidator
from django.db import models

from budgets.engine.categories import CATEGORIES
from projects.models import Project, random_name
from suppliers.models import Order, Supplier

CATEGORY_CHOICES = list(CATEGORIES.items())


class BudgetLine(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="budget_lines")
    name = models.CharField(max_length=120)
    category = models.CharField(max_length=20, choices=CATEGORY_CHOICES)
    planned_cents = models.PositiveBigIntegerField(default=0)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.name


class Commitment(models.Model):
    """The budget line an order is paid from."""

    order = models.OneToOneField(Order, models.CASCADE, related_name="commitment")
    line = models.ForeignKey(BudgetLine, models.CASCADE, related_name="commitments")

    def __str__(self) -> str:
        return f"{self.order} from {self.line}"


class FundKind(models.TextChoices):
    GRANT = "grant", "Grant"
    SPONSOR = "sponsor", "Sponsor"
    FEE = "fee", "Commission fee"
    OWN = "own", "Own money"
    IN_KIND = "in_kind", "In-kind"


class FundStatus(models.TextChoices):
    APPLIED = "applied", "Applied for"
    OFFERED = "offered", "Offered, not signed"
    SIGNED = "signed", "Signed"
    CLOSED = "closed", "Closed"


class Fund(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="funds")
    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=10, choices=FundKind, default=FundKind.GRANT)
    status = models.CharField(max_length=10, choices=FundStatus, default=FundStatus.APPLIED)
    award_cents = models.PositiveBigIntegerField(default=0)
    period_start = models.DateField(null=True, blank=True)
    period_end = models.DateField(null=True, blank=True)
    note = models.TextField(blank=True)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(period_end__gte=models.F("period_start")),
                name="fund_period_runs_forward",
                violation_error_message="The period ends before it starts.",
            )
        ]

    def __str__(self) -> str:
        return self.name


class FundRule(models.Model):
    """One rule of a fund; the code names a class of the engine, the numbers are the fund's own."""

    fund = models.ForeignKey(Fund, models.CASCADE, related_name="rules")
    code = models.CharField(max_length=30)
    categories = models.JSONField(default=list, blank=True)
    cents = models.PositiveBigIntegerField(null=True, blank=True)
    basis_points = models.PositiveIntegerField(null=True, blank=True)
    numerator = models.PositiveIntegerField(null=True, blank=True)
    denominator = models.PositiveIntegerField(null=True, blank=True)
    papers = models.JSONField(default=list, blank=True)
    clause = models.CharField(max_length=160, blank=True)  # where the fund's own paper says so

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.code} of {self.fund}"


class Expense(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="expenses")
    line = models.ForeignKey(BudgetLine, models.PROTECT, related_name="expenses")
    payee = models.CharField(max_length=120)
    supplier = models.ForeignKey(
        Supplier, models.SET_NULL, null=True, blank=True, related_name="expenses"
    )
    order = models.ForeignKey(
        Order, models.SET_NULL, null=True, blank=True, related_name="expenses"
    )
    cents = models.PositiveBigIntegerField(validators=[MinValueValidator(1)])
    day = models.DateField()
    what = models.CharField(max_length=240, blank=True)
    in_kind = models.BooleanField(default=False)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-day", "-pk"]

    def __str__(self) -> str:
        return f"{self.payee}, {self.day}"


class Share(models.Model):
    """Cents of an expense that one fund pays."""

    expense = models.ForeignKey(Expense, models.CASCADE, related_name="shares")
    fund = models.ForeignKey(Fund, models.CASCADE, related_name="shares")
    cents = models.PositiveBigIntegerField(validators=[MinValueValidator(1)])

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["expense", "fund"], name="one_share_a_fund")]

    def __str__(self) -> str:
        return f"{self.cents} cents of {self.expense} from {self.fund}"


class PaperKind(models.TextChoices):
    RECEIPT = "receipt", "Receipt or invoice"
    PAYMENT = "payment", "Proof of payment"


def paper_name(instance: Paper, filename: str) -> str:
    folder = f"papers/{instance.expense.project_id}"
    return random_name(folder, PurePath(filename).suffix.lower())


class Paper(models.Model):
    expense = models.ForeignKey(Expense, models.CASCADE, related_name="papers")
    kind = models.CharField(max_length=10, choices=PaperKind, default=PaperKind.RECEIPT)
    file = models.FileField(upload_to=paper_name)
    media_type = models.CharField(max_length=40)
    size = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.get_kind_display()} for {self.expense}"
