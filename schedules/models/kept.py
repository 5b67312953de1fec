"""What was computed and kept."""

from __future__ import annotations

from django.db import models

from projects.models import Project


class PlanState(models.Model):
    """What the last computation said of the whole plan."""

    project = models.OneToOneField(Project, models.CASCADE, related_name="plan_state")
    finish = models.IntegerField(null=True)
    ready_at = models.IntegerField(null=True)
    in_hand = models.IntegerField(null=True)  # working minutes; negative: late
    in_hand_days = models.IntegerField(null=True)  # whole days, never flattering
    to_start_now = models.PositiveIntegerField(default=0)  # tasks whose latest start has passed
    computed_on = models.DateField()

    def __str__(self) -> str:
        return f"Plan of {self.project}"


class PlanOfRecord(models.Model):
    """A frozen copy of the plan, with its reason."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="plans_of_record")
    letter = models.CharField(max_length=3)
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.CharField(max_length=150)
    reason = models.CharField(max_length=300)
    rows = models.JSONField()

    class Meta:
        ordering = ["-pk"]
        constraints = [
            models.UniqueConstraint(fields=["project", "letter"], name="one_plan_of_a_letter")
        ]

    def __str__(self) -> str:
        return f"Rev {self.letter} of {self.project}"


class Forecast(models.Model):
    """What the plan said of the public date on one day: the slip chart is made of these."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="forecasts")
    on = models.DateField()
    public_on = models.DateField(null=True)
    ready_on = models.DateField(null=True)  # when everything before the public date is done
    in_hand_days = models.IntegerField(null=True)

    class Meta:
        ordering = ["on"]
        constraints = [models.UniqueConstraint(fields=["project", "on"], name="one_forecast_a_day")]

    def __str__(self) -> str:
        return f"{self.project} as seen on {self.on}"


class Weather(models.Model):
    """Wet days of each month at the site, January first."""

    project = models.OneToOneField(Project, models.CASCADE, related_name="weather")
    wet_days = models.JSONField(default=list)
    source = models.CharField(max_length=200, blank=True)

    def __str__(self) -> str:
        return f"Weather of {self.project}"


class ChanceResult(models.Model):
    """The last answer to how likely the public date is, and what it was computed from."""

    project = models.OneToOneField(Project, models.CASCADE, related_name="chance")
    basis = models.CharField(max_length=64)
    percent = models.FloatField(null=True)  # of the draws that make the date
    data = models.JSONField(default=dict)

    def __str__(self) -> str:
        return f"Chance of {self.project}"
