"""What `bench.pages` measures: every sheet as the browser asks for it, and every slow change."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

PIECE = {"HTTP_HX_REQUEST": "true", "HTTP_HX_TARGET": "sheet"}
SHEETS = ("parts", "schedule", "money", "suppliers", "packets", "log")
MONEY_ROOMS = (
    "best",
    "quotes",
    "gifts",
    "claims",
    "cash",
    "forecast",
    "reports",
    "bank",
    "facts",
)
ROOMS = ("update", "hands", "shorten", "record", "health", "calendars", "notices", "feeds")

Act = Callable[[int], Any]


def acts_of(project: Any) -> dict[str, Act]:
    """What is measured, by name; each is called with the number of the run."""
    from django.contrib.auth.models import User
    from django.test import Client

    client = Client()
    user = User.objects.get(username="ada")
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    found = {name: getting(client, place) for name, place in places(project).items()}
    late = {name: getting(client, place, **PIECE) for name, place in late_pieces(project).items()}
    every = found | late | anew(client, project)
    return every | changes(client, project) | drawn(client, project)


def getting(client: Any, place: str, **headers: str) -> Act:
    def act(run: int) -> None:
        answer = client.get(place, **headers)
        assert answer.status_code == 200, f"{answer.status_code} at {place}"

    return act


def places(project: Any) -> dict[str, str]:
    home = f"/projects/{project.pk}/"
    supplier, fund, expense = (
        getattr(project, rows).order_by("pk").first().pk
        for rows in ("suppliers", "funds", "expenses")
    )
    return {
        "your projects": "/",
        "overview": home,
        **{name: f"{home}{name}/" for name in SHEETS},
        "one supplier": f"{home}suppliers/{supplier}/",
        "one fund": f"{home}money/funds/{fund}/",
        "one expense": f"{home}money/expenses/{expense}/",
        **money_rooms(project, f"{home}money/"),
        "one packet": f"{home}packets/{project.packets.first().pk}/",
        **rooms(project, f"{home}schedule/"),
    }


def money_rooms(project: Any, money: str) -> dict[str, str]:
    """The rooms of money, and one page of each kind that they lead to."""
    fund, file = project.funds.order_by("pk").first().pk, project.bank_files.first().pk
    request, order = project.quote_requests.first().pk, project.suppliers.first().orders.first().pk
    claim = project.funds.order_by("pk").first().claims.first().pk
    return {
        **{name: f"{money}{name}/" for name in MONEY_ROOMS},
        "one request": f"{money}quotes/{request}/",
        "one order": f"{money}orders/{order}/",
        "one claim": f"{money}claims/{claim}/",
        "a bank's file": f"{money}bank/{file}/",
        "budget report": f"{money}funds/{fund}/reports/budget/",
    }


def late_pieces(project: Any) -> dict[str, str]:
    """What comes into a page after it is there."""
    money = f"/projects/{project.pk}/money/"
    expense = project.expenses.filter(shares=None, in_kind=False).first().pk
    return {
        "why not": f"{money}expenses/{expense}/why",
        "lapse": f"{money}forecast/lapse",
        "worth of papers": f"{money}best/worth",
    }


def rooms(project: Any, schedule: str) -> dict[str, str]:
    """The pages of the schedule; the feed is the file that a phone fetches."""
    from schedules.services.feeds import token_of

    public, task = project.key_dates.first().pk, project.tasks.order_by("-pk")[10].pk
    return {
        "open task": f"{schedule}tasks/{task}/",
        "slip preview": f"{schedule}slip/?what=key-{public}&days=-400",
        "slip of a task": f"{schedule}slip/?what=task-{task}&days=30",
        **{name: f"{schedule}{name}/" for name in ROOMS},
        "hands, first order": f"{schedule}hands/?level=first",
        "hands, searched": f"{schedule}hands/?level=better",
        "feed file": f"/calendar/{token_of(project.feeds.first())}.ics",
    }


def changes(client: Any, project: Any) -> dict[str, Act]:
    """Edit a task as the page does, and the recomputing alone; each run moves many dates."""
    from bench.big_project import TODAY
    from schedules.plan import recompute

    task = project.tasks.order_by("position")[project.tasks.count() // 4]
    place = f"/projects/{project.pk}/schedule/tasks/{task.pk}/"
    fields = {"name": task.name, "lane": task.lane_id, "phase": task.phase}

    def edit(run: int) -> None:
        answer = client.post(place, {**fields, "days": 5 + run % 2 * 20}, **PIECE)
        assert answer.status_code == 200, answer.status_code

    def lay_out(run: int) -> None:
        recompute(project, TODAY)

    def other_days(run: int) -> None:
        project.tasks.filter(pk=task.pk).update(days=6 + run % 2 * 20)

    return {"task edit": edit, "recompute": after(other_days, lay_out)}


def anew(client: Any, project: Any) -> dict[str, Act]:
    """With no best fit kept from before, as after a change of the books."""
    from budgets.fit.solved import forget

    home = f"/projects/{project.pk}/"
    pages = {"overview": home, "cash": f"{home}money/cash/", "best": f"{home}money/best/"}
    return {
        f"{name}, anew": after(lambda run: forget(), getting(client, page))
        for name, page in pages.items()
    }


def drawn(client: Any, project: Any) -> dict[str, Act]:
    """The page of the chance as kept, with all 10,000 draws anew, and what would buy more."""
    from schedules.models import ChanceResult

    def forget(run: int) -> None:
        ChanceResult.objects.filter(project=project).delete()

    page = f"/projects/{project.pk}/schedule/chance/"
    return {
        "chance, kept": getting(client, page),
        "chance, drawn": after(forget, getting(client, page)),
        "what buys chance": after(forget, getting(client, f"{page}buys/")),
    }


def after(prepare: Act, act: Act) -> Act:
    """The act, with what must go before it outside the clock."""

    @wraps(act)
    def both(run: int) -> Any:
        return act(run)

    both.prepare = prepare  # type: ignore[attr-defined]
    return both
