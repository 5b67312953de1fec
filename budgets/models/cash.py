"""What the cash balance starts from, what the bank's file says, and dated facts of one's own."""

from __future__ import annotations

from django.db import models

from projects.models import Project


class CashBook(models.Model):
    project = models.OneToOneField(Project, models.CASCADE, related_name="cash_book")
    opening_cents = models.BigIntegerField(default=0)
    opening_on = models.DateField()
    floor_cents = models.BigIntegerField(default=0)  # the balance should not go below it
    step_cents = models.PositiveBigIntegerField(default=1)  # a loan comes in steps of this
    loan_basis_points = models.PositiveIntegerField(default=0)  # a year's interest
    loan_basis = models.PositiveSmallIntegerField(default=365)  # days in the lender's year

    def __str__(self) -> str:
        return f"Cash of {self.project}"


class BankLayout(models.Model):
    """Which column of a bank's file holds what: told once, used for every file of that bank."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="bank_layouts")
    name = models.CharField(max_length=80)
    header = models.JSONField(default=list)  # the column names by which a file is known again
    columns = models.JSONField(default=dict)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name


class BankFile(models.Model):
    """A bank's file on its way in; what was chosen for each row is kept until it is done."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="bank_files")
    layout = models.ForeignKey(
        BankLayout, models.SET_NULL, null=True, blank=True, related_name="files"
    )
    name = models.CharField(max_length=120)
    text = models.TextField()
    sha256 = models.CharField(max_length=64)
    choices = models.JSONField(default=dict)  # by row: a line, or left out
    done = models.BooleanField(default=False)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return self.name


class DatedFact(models.Model):
    """A rate or threshold that the project adds to those that come with the planner."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="dated_facts")
    name = models.CharField(max_length=40)  # which fact: a key of fixtures/facts
    value = models.DecimalField(max_digits=14, decimal_places=4)
    valid_from = models.DateField()
    valid_to = models.DateField(null=True, blank=True)
    source = models.CharField(max_length=240)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["name", "valid_from", "pk"]

    def __str__(self) -> str:
        return f"{self.name} from {self.valid_from}"
