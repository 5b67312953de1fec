"""On paper: packets, what a body asks for in them, and the revisions that were made."""

from __future__ import annotations

from django.db import models

from projects.models import Project, random_name


class Packet(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="packets")
    kind = models.CharField(max_length=30)  # a module of packets.kinds
    title = models.CharField(max_length=160)
    reader = models.CharField(max_length=160, blank=True)  # the body it is for
    due_on = models.DateField(null=True, blank=True)
    max_pages = models.PositiveIntegerField(null=True, blank=True)
    max_bytes = models.PositiveBigIntegerField(null=True, blank=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.title


class Ask(models.Model):
    """One thing a body wants in a packet, with its limits."""

    packet = models.ForeignKey(Packet, models.CASCADE, related_name="asks")
    title = models.CharField(max_length=160)
    section = models.CharField(max_length=30)  # the section that answers it
    needed = models.BooleanField(default=True)
    max_words = models.PositiveIntegerField(null=True, blank=True)
    min_pictures = models.PositiveIntegerField(null=True, blank=True)
    max_pictures = models.PositiveIntegerField(null=True, blank=True)
    max_pages = models.PositiveIntegerField(null=True, blank=True)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.title


def revision_name(instance: Revision, filename: str) -> str:
    return random_name(f"packets/{instance.packet.project_id}", ".pdf")


class Revision(models.Model):
    """A packet as it was printed: never changed afterwards."""

    packet = models.ForeignKey(Packet, models.CASCADE, related_name="revisions")
    letter = models.CharField(max_length=3)
    day = models.DateField()  # the date it bears
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.CharField(max_length=150)
    file = models.FileField(upload_to=revision_name)
    size = models.PositiveBigIntegerField()
    pages = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64)
    sources = models.JSONField()  # a hash for each section's data
    shown = models.JSONField(default=dict)  # the figures it shows, to say what changed since
    section_pages = models.JSONField(default=dict)  # how many pages each section takes
    over = models.JSONField(default=list)  # the limits it broke when it was made, as sentences

    class Meta:
        ordering = ["-pk"]
        constraints = [
            models.UniqueConstraint(fields=["packet", "letter"], name="one_revision_of_a_letter")
        ]

    def __str__(self) -> str:
        return f"{self.packet} rev {self.letter}"
