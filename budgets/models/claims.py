"""What was asked of a fund or reported to it, and what it paid. A filed claim locks its shares."""

from __future__ import annotations

from django.db import models

from budgets.models.expenses import Credit, Expense
from budgets.models.funds import Fund, Milestone


class ClaimKind(models.TextChoices):
    CLAIM = "claim", "Request for payment"
    REPORT = "report", "Account of money already paid"


class ClaimState(models.TextChoices):
    DRAFT = "draft", "Being prepared"
    FILED = "filed", "Filed"
    PAID = "paid", "Paid"
    REFUSED = "refused", "Sent back"


LOCKING = (ClaimState.FILED, ClaimState.PAID)


class Claim(models.Model):
    fund = models.ForeignKey(Fund, models.PROTECT, related_name="claims")
    kind = models.CharField(max_length=6, choices=ClaimKind, default=ClaimKind.CLAIM)
    number = models.PositiveSmallIntegerField()
    state = models.CharField(max_length=7, choices=ClaimState, default=ClaimState.DRAFT)
    from_day = models.DateField(null=True, blank=True)
    to_day = models.DateField()
    filed_on = models.DateField(null=True, blank=True)
    due_on = models.DateField(null=True, blank=True)  # when the funder wants it
    expected_on = models.DateField(null=True, blank=True)  # when its money should come
    indirect_cents = models.BigIntegerField(default=0)
    held_back_cents = models.PositiveBigIntegerField(default=0)
    netted_cents = models.PositiveBigIntegerField(default=0)  # paid ahead, and now accounted for
    released_cents = models.PositiveBigIntegerField(default=0)  # held back before, now due
    is_final = models.BooleanField(default=False)
    note = models.TextField(blank=True)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["fund", "number"]
        constraints = [
            models.UniqueConstraint(fields=["fund", "number"], name="one_claim_of_a_number")
        ]

    def __str__(self) -> str:
        return f"Claim {self.number} on {self.fund}"

    @property
    def asked_cents(self) -> int:
        """Reads the claim's shares; prefetch them where there are many claims."""
        return sum(row.cents for row in self.shares.all()) + self.indirect_cents

    @property
    def due_cents(self) -> int:
        """What should arrive, whether it has or not."""
        kept = self.netted_cents + self.held_back_cents
        return self.asked_cents - kept + self.released_cents

    @property
    def ahead_cents(self) -> int:
        """What it takes back and leaves with the artist, less what it accounts for."""
        return max(0, -self.due_cents) - self.netted_cents


class ClaimShare(models.Model):
    """Cents charged in a claim; below zero where it corrects an earlier one, with the reason."""

    claim = models.ForeignKey(Claim, models.CASCADE, related_name="shares")
    expense = models.ForeignKey(Expense, models.PROTECT, related_name="claimed")
    cents = models.BigIntegerField()
    corrects = models.ForeignKey(
        "self", models.PROTECT, null=True, blank=True, related_name="corrections"
    )
    credit = models.ForeignKey(
        Credit, models.PROTECT, null=True, blank=True, related_name="corrections"
    )  # what came back, when that is what it corrects
    reason = models.CharField(max_length=240, blank=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.cents} cents of {self.expense} in {self.claim}"


class ClaimMatch(models.Model):
    """Cents counted as match in a claim, by who paid them."""

    claim = models.ForeignKey(Claim, models.CASCADE, related_name="match")
    expense = models.ForeignKey(Expense, models.PROTECT, related_name="claimed_match")
    payer = models.ForeignKey(
        Fund, models.PROTECT, null=True, blank=True, related_name="claimed_as_match"
    )
    cents = models.BigIntegerField()
    reason = models.CharField(max_length=240, blank=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.cents} cents of {self.expense} as match in {self.claim}"


class Income(models.Model):
    """Money that came from a fund: an advance, a claim, a milestone, a hold-back, a gift.

    Below zero where it was paid back to the fund.
    """

    fund = models.ForeignKey(Fund, models.PROTECT, related_name="income")
    claim = models.ForeignKey(Claim, models.PROTECT, null=True, blank=True, related_name="income")
    milestone = models.ForeignKey(
        Milestone, models.PROTECT, null=True, blank=True, related_name="income"
    )
    day = models.DateField()
    cents = models.BigIntegerField()
    what = models.CharField(max_length=200, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["day", "pk"]
        verbose_name_plural = "income"

    def __str__(self) -> str:
        return f"{self.cents} cents from {self.fund}, {self.day}"

    @property
    def went_back(self) -> bool:
        return self.cents < 0


class ChangeState(models.TextChoices):
    DRAFT = "draft", "Being prepared"
    SENT = "sent", "Sent"
    AGREED = "agreed", "Agreed"
    REFUSED = "refused", "Refused"


class ChangeRequest(models.Model):
    """Other amounts for the budget that a fund agreed to, by category, with the reason."""

    fund = models.ForeignKey(Fund, models.CASCADE, related_name="change_requests")
    state = models.CharField(max_length=7, choices=ChangeState, default=ChangeState.DRAFT)
    before = models.JSONField(default=dict, blank=True)  # what was agreed until then
    revised = models.JSONField(default=dict)  # cents by category
    reason = models.TextField(blank=True)
    sent_on = models.DateField(null=True, blank=True)
    answered_on = models.DateField(null=True, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return f"Change of the budget of {self.fund}"
