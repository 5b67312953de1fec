"""Choose a quote: an order, its budget line, its task and the plan, as one change; and go back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django.db import transaction

from budgets.models import Commitment, Purchase
from budgets.selectors.quotes.trial import set_lead, trial
from budgets.services.lines import Who
from budgets.services.quotes import Refused, check_open
from projects.log import write
from projects.models import Project
from projects.words import day, money
from schedules import plan
from schedules.models import Task
from schedules.selectors.wording import outcome_words
from suppliers.models import Order, OrderState, Quote, QuoteRequest, QuoteState

SET_BY_CHOICE = ("days", "low_days", "high_days", "not_before", "not_before_reason", "order_id")


@dataclass(frozen=True, kw_only=True)
class Deal:
    """What is agreed beside the quote: when it is ordered, and what the contract keeps back."""

    on: date
    placed: bool
    reason: str
    number: str = ""
    retainage_basis_points: int = 0
    retainage_days: int = 30


@transaction.atomic
def accept(*, quote: Quote, deal: Deal, user: Who, today: date) -> tuple[Order, str]:
    """Raises Refused, or ``ScheduleError`` when the plan cannot be computed."""
    project = Project.objects.select_for_update().get(pk=quote.request.project_id)
    request = QuoteRequest.objects.select_for_update().get(pk=quote.request_id)
    check_open(request)
    if quote.state != QuoteState.RECEIVED or quote.total_cents is None:
        raise Refused("This supplier has not quoted a price. Log the answer first.")
    purchase = Purchase.objects.select_related("line", "task").get_or_create(request=request)[0]
    before = trial(project, today, purchase.task)
    order = make_order(quote, deal, before.effect(quote.lead_days or 0, deal.on).ready_on)
    if purchase.line:
        Commitment.objects.create(order=order, line=purchase.line)
    if purchase.task and before.ties:
        tie(purchase, purchase.task, order, quote, deal, today)
    settle(request, quote, deal.reason)
    state = plan.recompute(project, today)
    cover(order, purchase.task)
    days = (before.now, state.in_hand_days) if purchase.task else (None, None)
    return order, told(request, order, deal, days, user)


def make_order(quote: Quote, deal: Deal, ready_on: date) -> Order:
    return Order.objects.create(
        supplier=quote.supplier,
        title=quote.request.title,
        state=OrderState.PLACED if deal.placed else OrderState.PLANNED,
        cents=quote.total_cents or 0,
        placed_on=deal.on if deal.placed else None,
        window_start=deal.on,
        window_end=max(deal.on, ready_on),
        deposit_basis_points=quote.deposit_basis_points,
        net_days=quote.net_days,
        retainage_basis_points=deal.retainage_basis_points,
        retainage_days=deal.retainage_days,
        quote=quote,
        number=deal.number,
    )


def tie(
    purchase: Purchase, task: Task, order: Order, quote: Quote, deal: Deal, today: date
) -> None:
    """The task takes as long as the quote says; what it was is kept, to go back to."""
    was = kept(task)
    set_lead(task, quote.lead_days or 0, deal.on, today)
    task.order = order
    task.save()
    purchase.was = {"task": task.pk, "fields": was, "left": kept(task)}
    purchase.save(update_fields=["was"])


def kept(task: Task) -> dict[str, Any]:
    task_fields = {name: getattr(task, name) for name in SET_BY_CHOICE}
    return {name: value if value is None else text(value) for name, value in task_fields.items()}


def text(value: Any) -> Any:
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    return value.isoformat() if isinstance(value, date) else value


def settle(request: QuoteRequest, quote: Quote, reason: str) -> None:
    """Whoever answered and was not taken is told apart from who never answered."""
    request.quotes.filter(state=QuoteState.RECEIVED).update(state=QuoteState.NOT_CHOSEN)
    request.quotes.filter(pk=quote.pk).update(state=QuoteState.CHOSEN)
    request.is_closed, request.reason = True, reason
    request.save(update_fields=["is_closed", "reason"])


def cover(order: Order, task: Task | None) -> None:
    """The days of the order hold the days of its task, as the plan has them now."""
    if task is None:
        return
    task.refresh_from_db()
    first, last = plan.early_days(task)
    order.window_start = min(order.window_start or first, first)
    order.window_end = max(order.window_end or last, last)
    order.save(update_fields=["window_start", "window_end"])


def told(
    request: QuoteRequest,
    order: Order,
    deal: Deal,
    days: tuple[int | None, int | None],
    user: Who,
) -> str:
    before, after = days
    amount = money(order.cents, request.project.currency)
    verb = "placed" if deal.placed else "planned"
    date_words = ""
    if after is not None:
        date_words = f"; {outcome_words(before)} before, {outcome_words(after)} now"
    sentence = (
        f"Chose {order.supplier.name} for “{request.title}” at {amount}: "
        f"the order is {verb} for {day(deal.on)}{date_words}."
    )
    write(
        project=request.project, user=user, about="budgets", sentence=sentence, reason=deal.reason
    )
    return sentence


@transaction.atomic
def reopen(*, request: QuoteRequest, reason: str, user: Who, today: date) -> str:
    """The order goes, the task is as it was; refused once money was spent on the order."""
    project = Project.objects.select_for_update().get(pk=request.project_id)
    order = Order.objects.filter(quote__request=request).select_related("supplier").first()
    if order:
        take_away(order)
    left_alone = untie(Purchase.objects.filter(request=request).first())
    answered = (QuoteState.CHOSEN, QuoteState.NOT_CHOSEN)
    request.quotes.filter(state__in=answered).update(state=QuoteState.RECEIVED)
    request.is_closed, request.reason = False, ""
    request.save(update_fields=["is_closed", "reason"])
    plan.recompute(project, today)
    sentence = f"Reopened the choice for “{request.title}”{left_alone}."
    write(project=project, user=user, about="budgets", sentence=sentence, reason=reason)
    return sentence


def take_away(order: Order) -> None:
    """A cancelled order stays in the books; one that cost money cannot be undone."""
    if order.state == OrderState.CANCELLED:
        order.quote = None
        order.save(update_fields=["quote"])
        return
    if order.expenses.exists():
        raise Refused(
            f"Money was spent on the order “{order.title}”. Cancel the order first: what was paid "
            "stays in the books."
        )
    order.delete()


def untie(purchase: Purchase | None) -> str:
    """Gives the task back what the choice changed, unless somebody changed it since."""
    if purchase is None or not purchase.was:
        return ""
    was, purchase.was = purchase.was, {}
    purchase.save(update_fields=["was"])
    task = Task.objects.filter(pk=was["task"]).first()
    if task is None:
        return ""
    now, left = kept(task), was["left"]
    same = all(now[name] == left[name] for name in SET_BY_CHOICE if name != "order_id")
    if not same or task.started_on:
        return f"; “{task.name}” was changed since and stays as it is"
    Task.objects.filter(pk=task.pk).update(**{**was["fields"], "order_id": task_order(was)})
    return ""


def task_order(was: dict[str, Any]) -> int | None:
    """The order it had before, if there still is one."""
    found: int | None = was["fields"]["order_id"]
    return found if found and Order.objects.filter(pk=found).exists() else None
