"""A project of any size, in proportion: what stands beside a given number of tasks."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from django.contrib.auth.models import User

from bench.big_money import make_money
from packets.services.start import packet_start
from projects import models as projects
from projects.log import write
from schedules import models as schedules
from schedules.plan import recompute
from schedules.services.feeds import switch_on
from schedules.services.records import keep_plan
from suppliers import models as suppliers

TODAY = date(2031, 3, 3)
PUBLIC = date(2033, 6, 18)
STAGES = ("design", "make", "finish", "install")


def build(size: int) -> projects.Project:
    """``size`` tasks, two links each; a part to 10, a supplier to 8, five expenses to one."""
    user, _ = User.objects.get_or_create(username="ada")
    project = projects.Project.objects.create(name=f"{size} tasks", phase="under_way")
    projects.Membership.objects.create(project=project, user=user, role="owner")
    projects.Site.objects.create(project=project, name="Viaduct pier 4")
    makers = make_suppliers(project, size // 8)
    orders = make_orders(makers)
    stages = make_parts(project, size // 10, makers)
    make_tasks(project, size, makers, orders, stages)
    make_money(project, size, makers, orders)
    packet_start(project=project, key="proposal")
    make_log(project, user, size * 5)
    recompute(project, TODAY)
    keep_plan(project=project, user=user, today=TODAY, reason="As agreed")
    switch_on(project=project, user=user, supplier=None)
    return project


def make_suppliers(project: projects.Project, count: int) -> list[suppliers.Supplier]:
    rows = [
        suppliers.Supplier(project=project, name=f"Maker {n}", lead_days=10) for n in range(count)
    ]
    made = suppliers.Supplier.objects.bulk_create(rows)
    suppliers.Document.objects.bulk_create(
        suppliers.Document(
            supplier=maker, title="Liability insurance", expires_on=TODAY + timedelta(days=30 + n)
        )
        for n, maker in enumerate(made)
    )
    return made


def make_orders(makers: list[suppliers.Supplier]) -> list[suppliers.Order]:
    return suppliers.Order.objects.bulk_create(
        suppliers.Order(
            supplier=maker,
            title=f"Order {n}",
            cents=150_000 + n,
            state="placed",
            deposit_basis_points=5000,
            net_days=15,
            window_start=TODAY + timedelta(days=n),
            window_end=TODAY + timedelta(days=n + 20),
        )
        for n, maker in enumerate(makers)
    )


def make_parts(
    project: projects.Project, count: int, makers: list[suppliers.Supplier]
) -> list[projects.Stage]:
    parts = projects.Part.objects.bulk_create(
        projects.Part(project=project, name=f"Part {n}", kind="frame", position=n, mass_g=9000)
        for n in range(count)
    )
    suppliers.Making.objects.bulk_create(
        suppliers.Making(part=part, supplier=makers[n % len(makers)])
        for n, part in enumerate(parts)
    )
    return projects.Stage.objects.bulk_create(
        projects.Stage(part=part, name=name, position=place)
        for part in parts
        for place, name in enumerate(STAGES)
    )


def make_tasks(
    project: projects.Project,
    size: int,
    makers: list[suppliers.Supplier],
    orders: list[suppliers.Order],
    stages: list[projects.Stage],
) -> None:
    schedules.Calendar.objects.create(project=project, name="Weekdays", is_default=True)
    lanes = schedules.Lane.objects.bulk_create(
        schedules.Lane(project=project, name=maker.name, supplier=maker, position=n, capacity=1)
        for n, maker in enumerate(makers[: max(6, size // 40)])
    )
    tasks = schedules.Task.objects.bulk_create(
        task(project, n, size, lanes, orders, stages) for n in range(size)
    )
    link(project, tasks)
    schedules.KeyDate.objects.create(
        project=project, name="Opening", kind="public", on=PUBLIC, effect="event", task=tasks[-1]
    )
    schedules.Weather.objects.create(project=project, wet_days=[8] * 12)


def task(
    project: projects.Project,
    n: int,
    size: int,
    lanes: list[schedules.Lane],
    orders: list[suppliers.Order],
    stages: list[projects.Stage],
) -> schedules.Task:
    done = TODAY - timedelta(days=28) if n < size // 5 else None
    return schedules.Task(
        project=project,
        name=f"Task {n}",
        lane=lanes[n % len(lanes)],
        phase=f"Phase {n * 8 // size}",
        days=Decimal(0 if n == size - 1 else 1 + n % 4),
        low_days=None if n == size - 1 else Decimal(1 + n % 4) / 2,
        high_days=None if n == size - 1 else Decimal(1 + n % 4) * 2,
        outdoor=n % 10 == 0,
        crash_days=1 if n % 6 == 0 else None,
        crash_day_cents=20_000 + n if n % 6 == 0 else None,
        position=n,
        started_on=done,
        finished_on=done,
        stage=stages[n] if n < len(stages) else None,
        order=orders[n % len(orders)] if n % 3 == 0 else None,
    )


def link(project: projects.Project, tasks: list[schedules.Task]) -> None:
    """Each waits for the tasks five and seven before it, the last for its whole row."""
    pairs = {(n - back, n) for n in range(len(tasks)) for back in (5, 7) if n >= back}
    pairs |= {(n, len(tasks) - 1) for n in range(len(tasks) - 6, len(tasks) - 1)}
    schedules.Link.objects.bulk_create(
        schedules.Link(
            project=project,
            before=tasks[before],
            after=tasks[after],
            lag=Decimal(24 if after % 20 == 0 else 0),
            lag_clock="elapsed" if after % 20 == 0 else "work",
        )
        for before, after in sorted(pairs)
    )


def make_log(project: projects.Project, user: User, count: int) -> None:
    for n in range(count):
        write(project=project, user=user, about="schedules", sentence=f"Changed “Task {n}”.")
