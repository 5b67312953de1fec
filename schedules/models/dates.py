"""Days that are given: the public date and all others."""

from __future__ import annotations

from django.db import models

from projects.models import Project
from schedules.models.tasks import Task


class KeyDateKind(models.TextChoices):
    PUBLIC = "public", "Public date"
    HEARING = "hearing", "Hearing or meeting"
    DELIVERY = "delivery", "Delivery slot"
    EXPIRY = "expiry", "Permit or licence expires"
    DUE = "due", "Paper or report due"
    OTHER = "other", "Other"


class KeyDateEffect(models.TextChoices):
    NONE = "none", "only shown on the plan"
    NO_EARLIER = "no_earlier", "the task cannot start before it"
    NO_LATER = "no_later", "the task must be finished by it"
    EVENT = "event", "the task happens on it"


class KeyDate(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="key_dates")
    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=10, choices=KeyDateKind, default=KeyDateKind.OTHER)
    on = models.DateField()
    at = models.TimeField(null=True, blank=True)
    movable = models.BooleanField(default=True)
    task = models.ForeignKey(Task, models.SET_NULL, null=True, blank=True, related_name="key_dates")
    effect = models.CharField(max_length=10, choices=KeyDateEffect, default=KeyDateEffect.NONE)
    reason = models.CharField(max_length=200, blank=True)  # why it is as it is
    source_uid = models.CharField(max_length=255, blank=True, editable=False)

    class Meta:
        ordering = ["on", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["project"], condition=models.Q(kind="public"), name="one_public_date"
            )
        ]

    def __str__(self) -> str:
        return self.name
