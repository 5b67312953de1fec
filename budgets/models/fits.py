"""A best fit that was accepted: what it changed, so that it can be put back."""

from __future__ import annotations

from django.db import models

from projects.models import Project


class AcceptedFit(models.Model):
    """`was` and `became`: by expense, who pays which cents and what they count for."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="accepted_fits")
    at = models.DateTimeField(auto_now_add=True)
    on = models.DateField()
    who = models.CharField(max_length=150)
    sentence = models.CharField(max_length=500)
    was = models.JSONField(default=dict)
    became = models.JSONField(default=dict)
    undone_at = models.DateTimeField(null=True)
    undone_by = models.CharField(max_length=150, blank=True)

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return self.sentence
