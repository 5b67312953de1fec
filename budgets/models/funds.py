"""Where money comes from: funds, their rules, what they are due to pay, and what came in."""

from __future__ import annotations

from typing import Any

from django.core.validators import MinValueValidator
from django.db import models

from projects.models import Project
from schedules.models import KeyDate, Task


class FundKind(models.TextChoices):
    GRANT = "grant", "Grant"
    FEDERAL = "federal", "Federal grant"
    STATE = "state", "State grant"
    LOCAL = "local", "Town or county grant"
    FOUNDATION = "foundation", "Foundation grant"
    SPONSOR = "sponsor", "Sponsor"
    PERCENT = "percent", "Percent for art"
    FEE = "fee", "Commission fee"
    CROWD = "crowd", "Many small gifts"
    OWN = "own", "Own money"
    IN_KIND = "in_kind", "In-kind"


GRANTS = (
    FundKind.GRANT,
    FundKind.FEDERAL,
    FundKind.STATE,
    FundKind.LOCAL,
    FundKind.FOUNDATION,
)


class FundStatus(models.TextChoices):
    APPLIED = "applied", "Applied for"
    OFFERED = "offered", "Offered, not signed"
    SIGNED = "signed", "Signed"
    CLOSED = "closed", "Closed"


OURS = (FundKind.OWN, FundKind.IN_KIND)  # whoever pays, it is no funder
AGREED = (FundStatus.SIGNED, FundStatus.CLOSED)


class FundRole(models.TextChoices):
    """Which rulebook reaches the artist's own books."""

    GRANTEE = "grantee", "I hold the award"
    SUBRECIPIENT = "subrecipient", "I carry out part of somebody's award"
    CONTRACTOR = "contractor", "I am paid by invoice"
    BENEFICIARY = "beneficiary", "Somebody else holds and spends it for the work"


class Fund(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="funds")
    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=10, choices=FundKind, default=FundKind.GRANT)
    status = models.CharField(max_length=10, choices=FundStatus, default=FundStatus.APPLIED)
    award_cents = models.PositiveBigIntegerField(default=0)
    period_start = models.DateField(null=True, blank=True)
    period_end = models.DateField(null=True, blank=True)
    role = models.CharField(max_length=12, choices=FundRole, default=FundRole.GRANTEE)
    holder = models.CharField(max_length=120, blank=True)  # of the award, when it is not the artist
    is_federal = models.BooleanField(default=False)  # follows the money through whoever regrants it
    number = models.CharField(max_length=60, blank=True)
    issued_on = models.DateField(null=True, blank=True)  # the rulebook of that day applies
    pool = models.CharField(max_length=40, blank=True)  # a cent is match once inside a pool
    approved = models.JSONField(default=dict, blank=True)  # the agreed budget: cents by category
    note = models.TextField(blank=True)
    position = models.PositiveIntegerField(default=0)
    version = models.PositiveIntegerField(default=1)

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

    @property
    def federal_money(self) -> bool:
        return self.is_federal or self.kind == FundKind.FEDERAL


class FundRule(models.Model):
    """One rule of a fund; the code names a class of the engine, the parameters are its fields."""

    fund = models.ForeignKey(Fund, models.CASCADE, related_name="rules")
    code = models.CharField(max_length=30)
    params = models.JSONField(default=dict, blank=True)
    starts_on = models.DateField(null=True, blank=True)  # none: for the whole life of the fund
    ends_on = models.DateField(null=True, blank=True)
    clause = models.CharField(max_length=160, blank=True)  # where the fund's own paper says so

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.code} of {self.fund}"

    def __getitem__(self, name: str) -> Any:
        return self.params.get(name)


class Milestone(models.Model):
    """A part of a fee or an award that falls due when something is done."""

    fund = models.ForeignKey(Fund, models.CASCADE, related_name="milestones")
    title = models.CharField(max_length=120)
    cents = models.PositiveBigIntegerField(validators=[MinValueValidator(1)])
    task = models.ForeignKey(
        Task, models.SET_NULL, null=True, blank=True, related_name="milestones"
    )
    key_date = models.ForeignKey(
        KeyDate, models.SET_NULL, null=True, blank=True, related_name="milestones"
    )
    on = models.DateField(null=True, blank=True)  # when no task and no key date decides
    pay_days = models.PositiveSmallIntegerField(default=30)  # from the invoice to the money
    invoice_no = models.CharField(max_length=60, blank=True)
    invoiced_on = models.DateField(null=True, blank=True)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return f"{self.title} of {self.fund}"
