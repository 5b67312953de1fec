"""What the changes of an option cost: what has a price, and what has none, named."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from projects.hooks import Level, PlanDays, TaskDays
from projects.models import Project
from projects.words import money, plural, span
from schedules import engine, plan
from schedules.models import Task
from schedules.plan.hires import Hire, hires
from schedules.selectors.trying import NO_DAYS, Slip
from schedules.selectors.wording import days_words
from suppliers.models import Order
from suppliers.selectors import OPEN_ORDERS, needed_days, window_level

NEVER = "Your own time, and whatever a maker or a body may ask for a changed day."


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    says: str
    cents: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """Against the plan as it is now; below zero, saved."""

    costs: Sequence[Cost]
    unpriced: Sequence[str]  # sentences
    currency: str

    @property
    def cents(self) -> int:
        return sum(cost.cents for cost in self.costs)

    @property
    def shown(self) -> str:
        if not self.costs:
            return "no price known" if self.unpriced else "nothing"
        tail = " and more" if self.unpriced else ""
        return f"{signed_money(self.cents, self.currency)}{tail}"

    @property
    def never(self) -> str:
        return NEVER

    @property
    def lines(self) -> list[tuple[str, str]]:
        return [(cost.says, signed_money(cost.cents, self.currency)) for cost in self.costs]


def signed_money(cents: int, currency: str) -> str:
    return f"{'+' if cents > 0 else ''}{money(cents, currency)}"


def bill(
    rows: plan.Rows,
    slips: Sequence[Slip],
    plans: tuple[engine.Plan, engine.Plan],
    days: tuple[PlanDays, PlanDays],
    changed: plan.Rows,
) -> Bill:
    """``plans`` and ``days`` are as they are now, and as they would be."""
    costs, unpriced = task_costs(slips, rows.project.currency)
    more, also = hire_costs(hires(rows, plans[0]), hires(changed, plans[1]), rows.project.currency)
    moved = [booking_words(order, needed) for order, needed in outside(rows.project, *days)]
    return Bill(
        costs=[*costs, *more],
        unpriced=[*unpriced, *also, *moved],
        currency=rows.project.currency,
    )


def task_costs(slips: Sequence[Slip], currency: str) -> tuple[list[Cost], list[str]]:
    shorter: dict[Task, Decimal] = defaultdict(lambda: NO_DAYS)
    longer: list[str] = []
    for slip in slips:
        if slip.task and slip.days and slip.days < 0:
            shorter[slip.task] -= slip.days
        elif slip.task and slip.days:
            longer.append(f"“{slip.task}” {days_words(slip.days)} longer: it has no price a day.")
    costs, unpriced = [], longer
    for task, days in shorter.items():
        costs += crash_cost(task, days, currency)
        unpriced += crash_unpriced(task, days)
    return costs, unpriced


def bought(task: Task, days: Decimal) -> Decimal:
    """The working days that have a price."""
    if task.crash_day_cents is None:
        return NO_DAYS
    return days if task.crash_days is None else min(days, Decimal(task.crash_days))


def crash_cost(task: Task, days: Decimal, currency: str) -> list[Cost]:
    paid = bought(task, days)
    if not paid or task.crash_day_cents is None:
        return []
    price = money(task.crash_day_cents, currency)
    says = f"“{task}” {days_words(paid)} shorter at {price} a day"
    return [Cost(says=says, cents=int(paid * task.crash_day_cents))]


def crash_unpriced(task: Task, days: Decimal) -> list[str]:
    paid = bought(task, days)
    if paid == days:
        return []
    if not paid:
        return [f"“{task}” {days_words(days)} shorter: it has no price for that."]
    return [f"“{task}” {days_words(days)} shorter: only {days_words(paid)} can be bought."]


def hire_costs(
    now: Sequence[Hire], then: Sequence[Hire], currency: str
) -> tuple[list[Cost], list[str]]:
    was = {hire.pk: hire.days for hire in now}
    costs, unpriced = [], []
    for hire in then:
        more = hire.days - was.get(hire.pk, hire.days)
        if not more:
            continue
        side = "longer" if more > 0 else "shorter"
        says = f"“{hire.name}” {plural(abs(more), 'day')} {side}"
        if hire.day_cents is None:
            unpriced.append(f"{says}: it has no price a day.")
        else:
            price = money(hire.day_cents, currency)
            costs.append(Cost(says=f"{says} at {price} a day", cents=more * hire.day_cents))
    return costs, unpriced


def outside(project: Project, before: PlanDays, after: PlanDays) -> list[tuple[Order, str]]:
    """Open orders whose days no longer cover what needs them, and did before."""
    orders = Order.objects.filter(supplier__project=project, state__in=OPEN_ORDERS)
    found = []
    for order in orders:
        was, then = (needed_days(tied(plan, order.pk)) for plan in (before, after))
        if was and then and was != then and window_level(order, *then) == Level.BROKEN:
            found.append((order, span(*then)))
    return found


def tied(days: PlanDays, order: int) -> list[TaskDays]:
    return [task for task in days.tasks.values() if task.order_id == order]


def booking_words(order: Order, needed: str) -> str:
    would = f"is booked {order.window} and would be needed {needed}"
    return f"“{order.title}” {would}: ask what it costs to move it."
