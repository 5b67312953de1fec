"""What the money is for: budget lines, the orders paid from them, and moves out of contingency."""

from __future__ import annotations

from django.core.validators import MinValueValidator
from django.db import models

from budgets.engine.categories import CATEGORIES
from projects.models import Project
from schedules.models import Task
from suppliers.models import Order, QuoteRequest

CATEGORY_CHOICES = list(CATEGORIES.items())


class BudgetLine(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="budget_lines")
    name = models.CharField(max_length=120)
    category = models.CharField(max_length=20, choices=CATEGORY_CHOICES)
    planned_cents = models.PositiveBigIntegerField(default=0)
    to_come_cents = models.PositiveBigIntegerField(null=True, blank=True)  # none: what is left
    quantity_hundredths = models.PositiveBigIntegerField(null=True, blank=True)
    unit = models.CharField(max_length=20, blank=True)
    unit_cents = models.PositiveBigIntegerField(null=True, blank=True)  # the latest price of one
    in_kind = models.BooleanField(default=False)  # hours or goods that are given
    task = models.ForeignKey(
        Task, models.SET_NULL, null=True, blank=True, related_name="budget_lines"
    )  # what is left of the line is paid when this task ends
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


class Purchase(models.Model):
    """What quotes are asked for: the line that will pay, the task whose lead time they set."""

    request = models.OneToOneField(QuoteRequest, models.CASCADE, related_name="purchase")
    line = models.ForeignKey(
        BudgetLine, models.SET_NULL, null=True, blank=True, related_name="purchases"
    )
    task = models.ForeignKey(Task, models.SET_NULL, null=True, blank=True, related_name="purchases")
    was = models.JSONField(default=dict, blank=True)  # the task's days and order, to go back to

    def __str__(self) -> str:
        return str(self.request)


class Draw(models.Model):
    """Money moved from contingency to the line that needs it, with the reason."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="draws")
    source = models.ForeignKey(BudgetLine, models.PROTECT, related_name="draws_out")
    target = models.ForeignKey(BudgetLine, models.PROTECT, related_name="draws_in")
    cents = models.PositiveBigIntegerField(validators=[MinValueValidator(1)])
    day = models.DateField()
    reason = models.CharField(max_length=240)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-day", "-pk"]

    def __str__(self) -> str:
        return f"{self.cents} cents from {self.source} to {self.target}"
