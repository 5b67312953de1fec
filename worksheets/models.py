"""What was reckoned, from which inputs, who looked at it, and where it was handed on."""

from __future__ import annotations

from django.db import models

from budgets.models import BudgetLine
from projects.models import Part, Project
from schedules.models import Task
from suppliers.models import QuoteRequest


class Worksheet(models.Model):
    """A calculation kept with the project: its inputs as they were typed."""

    project = models.ForeignKey(Project, models.CASCADE, related_name="worksheets")
    sheet = models.CharField(max_length=40)  # the key of one of worksheets.sheets
    title = models.CharField(max_length=120)
    part = models.ForeignKey(
        Part, models.SET_NULL, null=True, blank=True, related_name="worksheets"
    )
    typed = models.JSONField(default=dict)
    version = models.PositiveIntegerField(default=1)  # grows with every save
    searching = models.JSONField(default=dict, blank=True)  # how far a longer search has come

    class Meta:
        ordering = ["sheet", "title", "pk"]

    def __str__(self) -> str:
        return self.title


class Run(models.Model):
    """One result: what was typed, what was taken from the project, what came out."""

    worksheet = models.ForeignKey(Worksheet, models.CASCADE, related_name="runs")
    number = models.PositiveIntegerField()
    at = models.DateTimeField(auto_now_add=True)
    who = models.CharField(max_length=150)
    why = models.CharField(max_length=300, blank=True)  # what changed, as a sentence
    typed = models.JSONField(default=dict)
    taken = models.JSONField(default=dict)  # facts of the project: name -> [value, where it stood]
    says = models.CharField(max_length=500, blank=True)
    problem = models.CharField(max_length=500, blank=True)  # why there is no result
    figures = models.JSONField(default=list)  # key, label, value, shown text
    findings = models.JSONField(default=list)  # standing, says, rule
    hands = models.JSONField(default=dict)  # what it hands on, in words, by the key of the hand
    kept = models.JSONField(default=dict)  # what took long to find
    rules = models.JSONField(default=dict)  # rule set -> version
    licensed = models.BooleanField(default=False)  # a licensed person must check it
    made_with = models.CharField(max_length=20, blank=True)  # version of the planner

    class Meta:
        ordering = ["-number"]
        constraints = [
            models.UniqueConstraint(fields=["worksheet", "number"], name="one_run_of_a_number")
        ]

    def __str__(self) -> str:
        return f"{self.worksheet}, version {self.number}"


class Review(models.Model):
    """A licensed or competent person has checked one run of a worksheet, by name and day."""

    run = models.OneToOneField(Run, models.CASCADE, related_name="review")
    reviewer = models.CharField(max_length=120)
    licence = models.CharField(max_length=120)  # such as “structural engineer, licence 4821”
    day = models.DateField()
    paper = models.CharField(max_length=200, blank=True)  # letter or drawing, with its number
    note = models.TextField(blank=True)  # what the reviewer asks for
    entered_by = models.CharField(max_length=150)

    def __str__(self) -> str:
        return f"{self.reviewer} on {self.run}"


class Handed(models.Model):
    """A result that was handed on, and to what: so that a later run can say it has changed."""

    worksheet = models.ForeignKey(Worksheet, models.CASCADE, related_name="handed")
    key = models.CharField(max_length=40)  # of the hand in the result
    run_number = models.PositiveIntegerField()
    what = models.TextField()  # as the result said it, to compare with a later run
    put = models.TextField(blank=True)  # the words that were written there, to replace them
    says = models.CharField(max_length=300)
    line = models.ForeignKey(BudgetLine, models.SET_NULL, null=True, blank=True, related_name="+")
    part = models.ForeignKey(Part, models.SET_NULL, null=True, blank=True, related_name="+")
    request = models.ForeignKey(
        QuoteRequest, models.SET_NULL, null=True, blank=True, related_name="+"
    )
    task = models.ForeignKey(Task, models.SET_NULL, null=True, blank=True, related_name="+")
    at = models.DateTimeField(auto_now=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["worksheet", "key"], name="one_hand_of_a_key")
        ]

    def __str__(self) -> str:
        return self.says
