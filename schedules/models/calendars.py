"""Who works when."""

from __future__ import annotations

from datetime import time

from django.db import models

from projects.models import Project
from suppliers.models import Supplier


class Calendar(models.Model):
    """Working days and hours. Every project has one default calendar."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="calendars")
    name = models.CharField(max_length=80)
    weekdays = models.CharField(max_length=7, default="1111100")  # Monday first, 1 = worked
    opens = models.TimeField(default=time(8))
    closes = models.TimeField(default=time(16))
    keeps_holidays = models.BooleanField(default=True)
    day_hours = models.JSONField(default=dict, blank=True)  # {"5": ["09:00", "13:00"]}: differ
    supplier = models.OneToOneField(
        Supplier, models.SET_NULL, null=True, blank=True, related_name="calendar"
    )  # who keeps these hours: their lanes follow it
    is_default = models.BooleanField(default=False)

    class Meta:
        ordering = ["-is_default", "name"]
        constraints = [
            models.UniqueConstraint(
                fields=["project"], condition=models.Q(is_default=True), name="one_default_calendar"
            )
        ]

    def __str__(self) -> str:
        return self.name


class DayException(models.Model):
    """A day off, or an extra day of work."""

    calendar = models.ForeignKey(Calendar, models.CASCADE, related_name="exceptions")
    day = models.DateField()
    works = models.BooleanField(default=False)
    note = models.CharField(max_length=120, blank=True)

    class Meta:
        ordering = ["day"]
        constraints = [
            models.UniqueConstraint(fields=["calendar", "day"], name="one_exception_a_day")
        ]

    def __str__(self) -> str:
        return f"{self.day} {'worked' if self.works else 'off'}"


class Lane(models.Model):
    """Who does it: a row of the timeline."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="lanes")
    name = models.CharField(max_length=80)
    supplier = models.ForeignKey(
        Supplier, models.SET_NULL, null=True, blank=True, related_name="lanes"
    )
    calendar = models.ForeignKey(
        Calendar, models.SET_NULL, null=True, blank=True, related_name="lanes"
    )  # none: the supplier's, else the project's
    capacity = models.PositiveSmallIntegerField(null=True, blank=True, default=1)  # none: no limit
    day_cents = models.PositiveBigIntegerField(null=True, blank=True)  # what a day of it costs
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["project", "name"], name="one_lane_of_a_name")
        ]

    def __str__(self) -> str:
        return self.name
