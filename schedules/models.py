"""When: calendars, tasks, links, key dates, and the plan computed from them."""

from __future__ import annotations

from datetime import time
from decimal import Decimal

from django.core.validators import MinValueValidator
from django.db import models

from projects.models import Project, Stage
from suppliers.models import Order, Supplier


class Calendar(models.Model):
    """Working days and hours. Every project has one default calendar."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="calendars")
    name = models.CharField(max_length=80)
    weekdays = models.CharField(max_length=7, default="1111100")  # Monday first, 1 = worked
    opens = models.TimeField(default=time(8))
    closes = models.TimeField(default=time(16))
    keeps_holidays = models.BooleanField(default=True)
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
    position = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["position", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["project", "name"], name="one_lane_of_a_name")
        ]

    def __str__(self) -> str:
        return self.name


class Task(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="tasks")
    name = models.CharField(max_length=120)
    lane = models.ForeignKey(Lane, models.PROTECT, related_name="tasks")
    phase = models.CharField(max_length=60, blank=True)
    calendar = models.ForeignKey(
        Calendar, models.PROTECT, null=True, blank=True, related_name="tasks"
    )  # none: the project's
    days = models.DecimalField(
        max_digits=6, decimal_places=2, validators=[MinValueValidator(Decimal(0))]
    )
    low_days = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    high_days = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    outdoor = models.BooleanField(default=False)
    daylight = models.BooleanField(default=False)
    not_before = models.DateField(null=True, blank=True)
    stage = models.OneToOneField(Stage, models.SET_NULL, null=True, blank=True, related_name="task")
    order = models.ForeignKey(Order, models.SET_NULL, null=True, blank=True, related_name="tasks")
    note = models.TextField(blank=True)
    started_on = models.DateField(null=True, blank=True)
    finished_on = models.DateField(null=True, blank=True)
    remaining_days = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    remaining_on = models.DateField(null=True, editable=False)  # the morning it was said of
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
    WORK = "work", "working days"
    ELAPSED = "elapsed", "hours on the clock, day and night"


class Link(models.Model):
    project = models.ForeignKey(Project, models.CASCADE, related_name="links")
    before = models.ForeignKey(Task, models.CASCADE, related_name="links_out")
    after = models.ForeignKey(Task, models.CASCADE, related_name="links_in")
    kind = models.CharField(max_length=2, choices=LinkKind, default=LinkKind.FS)
    lag = models.DecimalField(max_digits=8, decimal_places=2, default=Decimal(0))
    lag_clock = models.CharField(max_length=7, choices=LagClock, default=LagClock.WORK)
    reason = models.CharField(max_length=120, blank=True)  # what is waited for

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

    class Meta:
        ordering = ["on", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["project"], condition=models.Q(kind="public"), name="one_public_date"
            )
        ]

    def __str__(self) -> str:
        return self.name


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
