"""Rows with fixed values: nothing random, nothing of today."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import factory
from django.contrib.auth.models import User

from budgets import models as budgets
from projects import models as projects
from schedules import models as schedules
from suppliers import models as suppliers

TODAY = date(2031, 3, 3)  # a Monday
PUBLIC = date(2031, 6, 14)  # a Saturday


def user(username: str) -> User:
    found = User.objects.filter(username=username).first()
    return found or User.objects.create_user(username, password="lantern-walk-7")


class ProjectFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = projects.Project

    name = "Hearthlight"
    phase = "under_way"


class CalendarFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = schedules.Calendar

    project = factory.SubFactory(ProjectFactory)
    name = "Weekdays"
    is_default = True
    keeps_holidays = False


class LaneFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = schedules.Lane
        django_get_or_create = ("project", "name")

    project = factory.SubFactory(ProjectFactory)
    name = "Artist"


class TaskFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = schedules.Task

    project = factory.SubFactory(ProjectFactory)
    name = factory.Sequence(lambda n: f"Task {n}")
    lane = factory.SubFactory(LaneFactory, project=factory.SelfAttribute("..project"))
    days = Decimal(5)
    position = factory.Sequence(int)


class LinkFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = schedules.Link

    project = factory.SelfAttribute("after.project")


class KeyDateFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = schedules.KeyDate

    project = factory.SubFactory(ProjectFactory)
    name = "Mill Lane Lantern Walk"
    kind = "public"
    on = PUBLIC
    effect = "event"


class PartFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = projects.Part

    project = factory.SubFactory(ProjectFactory)
    name = "Lantern frame"
    kind = "frame"


class SupplierFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = suppliers.Supplier

    project = factory.SubFactory(ProjectFactory)
    name = "Saltglaze Metalworks"


class OrderFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = suppliers.Order

    supplier = factory.SubFactory(SupplierFactory)
    title = "Lift hire"
    cents = 150_000
    state = "placed"


class LineFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = budgets.BudgetLine

    project = factory.SubFactory(ProjectFactory)
    name = "Paint"
    category = "materials"
    planned_cents = 400_000


class FundFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = budgets.Fund

    project = factory.SubFactory(ProjectFactory)
    name = "Wexcombe Arts Board small works grant"
    kind = "grant"
    status = "signed"
    award_cents = 1_000_000
    period_start = date(2031, 1, 1)
    period_end = date(2031, 7, 14)


class ExpenseFactory(factory.django.DjangoModelFactory):
    class Meta:
        model = budgets.Expense

    project = factory.SubFactory(ProjectFactory)
    line = factory.SubFactory(LineFactory, project=factory.SelfAttribute("..project"))
    payee = "Ledger Street Paints"
    cents = 12_345
    day = date(2031, 3, 1)


def peopled_project(**fields: object) -> projects.Project:
    """Ada owns it, Ben is a partner, Cyd reads; Dee is a stranger."""
    made = ProjectFactory(**fields)
    for name, role in (("ada", "owner"), ("ben", "partner"), ("cyd", "reader")):
        projects.Membership.objects.create(project=made, user=user(name), role=role)
    user("dee")
    CalendarFactory(project=made)
    return made


def planned_project() -> projects.Project:
    """A frame, then its skin, then the walk; and a permit that waits for nobody."""
    made = peopled_project()
    frame = TaskFactory(project=made, name="Weld lantern frame", days=10)
    skin = TaskFactory(project=made, name="Cut and sew skin", days=20)
    TaskFactory(project=made, name="Encroachment permit review", days=15)
    walk = TaskFactory(project=made, name="Lantern walk", days=0)
    LinkFactory(before=frame, after=skin)
    LinkFactory(before=skin, after=walk)
    KeyDateFactory(project=made, task=walk)
    return made
