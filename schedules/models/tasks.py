"""What is to be done, and what waits for what."""

from __future__ import annotations

from decimal import Decimal

from django.core.validators import MinValueValidator
from django.db import models

from projects.models import Project, Stage
from schedules.models.calendars import Calendar, Lane
from suppliers.models import Order


class Task(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="tasks")
    name = models.CharField(max_length=120)
    lane = models.ForeignKey(Lane, models.PROTECT, related_name="tasks")
    phase = models.CharField(max_length=60, blank=True)
    calendar = models.ForeignKey(
        Calendar, models.PROTECT, null=True, blank=True, related_name="tasks"
    )  # none: the lane's, else its supplier's, else the project's
    also = models.ManyToManyField(Lane, blank=True, related_name="also_tasks")  # such as the lift
    waits = models.BooleanField(default=False)  # a review or a delivery: takes nobody's hands
    days = models.DecimalField(
        max_digits=6, decimal_places=2, validators=[MinValueValidator(Decimal(0))]
    )
    low_days = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    high_days = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    returns_percent = models.PositiveSmallIntegerField(null=True, blank=True)  # it comes back
    returns_days = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    crash_days = models.PositiveSmallIntegerField(null=True, blank=True)  # at most shorter by
    crash_day_cents = models.PositiveBigIntegerField(null=True, blank=True)
    closes = models.BooleanField(default=False)  # of no length: shown on the day that it ends
    outdoor = models.BooleanField(default=False)
    daylight = models.BooleanField(default=False)
    not_before = models.DateField(null=True, blank=True)
    not_before_reason = models.CharField(max_length=200, blank=True)
    stage = models.OneToOneField(Stage, models.SET_NULL, null=True, blank=True, related_name="task")
    order = models.ForeignKey(Order, models.SET_NULL, null=True, blank=True, related_name="tasks")
    note = models.TextField(blank=True)
    started_on = models.DateField(null=True, blank=True)
    finished_on = models.DateField(null=True, blank=True)
    remaining_days = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    remaining_on = models.DateField(null=True, editable=False)  # the morning it was said of
    said_on = models.DateField(null=True, editable=False)  # when somebody last said how far it is
    ahead_reason = models.CharField(max_length=200, blank=True)  # why it need not wait, once begun
    position = models.PositiveIntegerField(default=0)

    # The plan, as instants (minutes of the project's local time since 2000-01-01) and minutes.
    early_start = models.IntegerField(null=True, editable=False)
    early_finish = models.IntegerField(null=True, editable=False)
    late_start = models.IntegerField(null=True, editable=False)
    late_finish = models.IntegerField(null=True, editable=False)
    total_float = models.IntegerField(null=True, editable=False)
    free_float = models.IntegerField(null=True, editable=False)
    to_end = models.BooleanField(default=False, editable=False)
    chain_position = models.PositiveIntegerField(null=True, editable=False)  # carries the date
    drivers = models.JSONField(default=list, editable=False)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.name


class LinkKind(models.TextChoices):
    FS = "FS", "starts after it is finished"
    SS = "SS", "starts after it has started"
    FF = "FF", "finishes after it is finished"
    SF = "SF", "finishes after it has started"


class LagClock(models.TextChoices):
    WORK = "work", "working days"  # of the task that is waited for
    SUCCESSOR = "after", "working days of the task that waits"
    PROJECT = "project", "working days of the project"
    ELAPSED = "elapsed", "hours on the clock, day and night"


class Link(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="links")
    before = models.ForeignKey(Task, models.CASCADE, related_name="links_out")
    after = models.ForeignKey(Task, models.CASCADE, related_name="links_in")
    kind = models.CharField(max_length=2, choices=LinkKind, default=LinkKind.FS)
    lag = models.DecimalField(max_digits=8, decimal_places=2, default=Decimal(0))
    lag_clock = models.CharField(max_length=7, choices=LagClock, default=LagClock.WORK)
    reason = models.CharField(max_length=120, blank=True)  # what is waited for
    same_hands = models.BooleanField(default=False, editable=False)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["before", "after", "kind"], name="one_link_of_a_kind_a_pair"
            ),
            models.CheckConstraint(
                condition=~models.Q(before=models.F("after")), name="no_link_to_itself"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.after} {self.get_kind_display()}: {self.before}"


class Hammock(models.Model):
    """A hire or supervision: it lasts from the first of some tasks to the last of others."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="hammocks")
    name = models.CharField(max_length=120)
    lane = models.ForeignKey(Lane, models.PROTECT, related_name="hammocks")
    order = models.ForeignKey(
        Order, models.SET_NULL, null=True, blank=True, related_name="hammocks"
    )
    day_cents = models.PositiveBigIntegerField(null=True, blank=True)  # a working day of it
    from_tasks = models.ManyToManyField(Task, related_name="opens_hammocks")
    to_tasks = models.ManyToManyField(Task, related_name="closes_hammocks")
    note = models.TextField(blank=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.name
