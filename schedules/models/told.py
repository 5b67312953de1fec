"""What was changed, and who is told of it."""

from __future__ import annotations

from uuid import uuid4

from django.db import models

from projects.models import Project
from suppliers.models import Supplier


class AppliedSlip(models.Model):
    """A slip that was applied: what it changed, so that it can be taken back."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="slips")
    at = models.DateTimeField(auto_now_add=True)
    on = models.DateField()
    who = models.CharField(max_length=150)
    sentence = models.CharField(max_length=500)
    reason = models.CharField(max_length=500, blank=True)
    was = models.JSONField(default=dict)  # the fields of tasks and key dates before
    became = models.JSONField(default=dict)
    undone_at = models.DateTimeField(null=True)
    undone_by = models.CharField(max_length=150, blank=True)

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return self.sentence


class Told(models.TextChoices):
    MAIL = "mail", "by e-mail"
    PHONE = "phone", "by telephone"
    PAPER = "paper", "on paper"
    SPOKEN = "spoken", "in person"


class Notice(models.Model):
    """What one party is told of the dates that a slip moved, and when it was told."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="notices")
    slip = models.ForeignKey(AppliedSlip, models.CASCADE, related_name="notices")
    supplier = models.ForeignKey(
        Supplier, models.SET_NULL, null=True, blank=True, related_name="notices"
    )
    party = models.CharField(max_length=160)
    email = models.EmailField(blank=True)
    phone = models.CharField(max_length=40, blank=True)
    subject = models.CharField(max_length=200)
    body = models.TextField()
    dates = models.JSONField(default=dict)  # what it tells: the days known before, and the new
    told_on = models.DateField(null=True, blank=True)
    told_how = models.CharField(max_length=10, choices=Told, blank=True)
    told_by = models.CharField(max_length=150, blank=True)

    class Meta:
        ordering = ["-slip", "pk"]

    def __str__(self) -> str:
        return f"To {self.party}: {self.subject}"


class Feed(models.Model):
    """A calendar that others subscribe to, by an address that only they know."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="feeds")
    supplier = models.ForeignKey(
        Supplier, models.CASCADE, null=True, blank=True, related_name="feeds"
    )  # none: the whole project
    serial = models.PositiveIntegerField(default=1)  # renewed: the old address is dead
    uid = models.UUIDField(default=uuid4, unique=True, editable=False)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["project", "supplier"], name="one_feed_a_supplier"),
            models.UniqueConstraint(
                fields=["project"], condition=models.Q(supplier=None), name="one_feed_of_the_whole"
            ),
        ]

    def __str__(self) -> str:
        return f"Calendar of {self.supplier or self.project}"


class FeedEntry(models.Model):
    """The last that was said of one entry of the feeds: a new date is a new sequence."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="feed_entries")
    key = models.CharField(max_length=40)  # “task-12”, “date-3”, “hire-1”
    sequence = models.PositiveIntegerField(default=0)
    said = models.CharField(max_length=64)  # a digest of the entry
    changed_at = models.DateTimeField()

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["project", "key"], name="one_feed_entry")]

    def __str__(self) -> str:
        return f"{self.key}, sequence {self.sequence}"
