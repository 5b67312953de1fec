"""What would buy the most chance, in words, with where it can be done."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.urls import reverse

from projects.words import money, plural
from schedules import plan
from schedules.models import ChanceResult, KeyDate
from schedules.plan.buys import Kind
from schedules.selectors.chance import of_100
from schedules.selectors.wording import decimal_words

LEAST_GAIN = 0.5  # points that an action must buy to be listed
FIRST = 8
WEEKS = {7: "a week", 14: "two weeks"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Buy:
    """Something to do, the chance with it, what it costs, and where to do it."""

    says: str
    assumes: str
    now: str
    then: str
    gain: float
    cost: str
    url: str
    at: str  # words of the link


@dataclass(frozen=True, slots=True, kw_only=True)
class Buys:
    first: Sequence[Buy]
    others: Sequence[Buy]
    idle: int  # that would buy less than half a point
    best: str

    @property
    def any(self) -> bool:
        return bool(self.first)


def buys(rows: plan.Rows, found: ChanceResult) -> Buys | None:
    """None while it has not been worked out."""
    if "buys" not in found.data or "percent" not in found.data:
        return None
    percent = found.data["percent"]
    words = Words(rows)
    every = [words.buy(row, percent) for row in found.data["buys"] if words.knows(row)]
    gaining = [buy for buy in every if buy.gain >= LEAST_GAIN]
    doing = [b for b, row in zip(every, found.data["buys"], strict=False) if row["kind"] != "later"]
    best = next((b for b in doing if b.gain >= LEAST_GAIN), None)
    return Buys(
        first=gaining[:FIRST],
        others=gaining[FIRST:],
        idle=len(every) - len(gaining),
        best=f"{best.says} ({best.now} → {best.then} of 100)" if best else "",
    )


class Words:
    """The tasks and lanes that the kept rows name."""

    def __init__(self, rows: plan.Rows) -> None:
        self.project = rows.project
        self.tasks = {t.pk: t for t in rows.tasks}
        self.lanes = {t.lane_id: t.lane for t in rows.tasks}
        self.public = rows.public

    def knows(self, row: Mapping[str, Any]) -> bool:
        task, lane = row["task"], row["lane"]
        return (task is None or task in self.tasks) and (lane is None or lane in self.lanes)

    def buy(self, row: Mapping[str, Any], percent: float) -> Buy:
        kind = Kind(row["kind"])
        says, assumes = self.says(kind, row)
        url, at = self.place(kind, row)
        return Buy(
            says=says,
            assumes=assumes,
            now=of_100(percent),
            then=of_100(row["percent"]),
            gain=row["percent"] - percent,
            cost=self.cost(kind, row["cents"]),
            url=url,
            at=at,
        )

    def cost(self, kind: Kind, cents: int | None) -> str:
        if kind is Kind.LATER:
            return "not counted"
        if kind is Kind.ORDER:
            return "nothing more"
        return "not known" if cents is None else money(cents, self.project.currency)

    def says(self, kind: Kind, row: Mapping[str, Any]) -> tuple[str, str]:
        task, lane = self.tasks.get(row["task"]), self.lanes.get(row["lane"])
        days = decimal_words(Decimal(str(round(row["days"], 1))))
        if kind is Kind.SHORTEN:
            said = task is not None and task.crash_days
            assumes = "as its estimate says" if said else "one day, to see what a day is worth"
            return f"make “{task}” {plural(int(row['days']), 'day')} shorter", assumes
        if kind is Kind.SECOND:
            left = f"{days} {'day' if days == '1' else 'days'}"
            return f"a second maker on “{task}”", f"taken as half of what is left: {left}"
        if kind is Kind.COVER:
            return f"a cover over “{task}”", "taken to keep all rain off"
        if kind is Kind.SATURDAYS:
            count = plural(int(row["days"]), "Saturday")
            return f"{lane} works {count}", "with the hours of a Friday"
        if kind is Kind.ORDER:
            return f"place the order “{row['title']}” today", f"“{task}” then waits for nothing"
        name = self.public.name if self.public else "the public date"
        return f"move {name} by {WEEKS[int(row['days'])]}", "nothing else moves"

    def place(self, kind: Kind, row: Mapping[str, Any]) -> tuple[str, str]:
        """Where it is tried or done."""
        pk = self.project.pk
        slip = reverse("schedules:slip", args=[pk])
        if kind in (Kind.SHORTEN, Kind.SECOND):
            less = f"{-round(row['days'], 2):g}"
            return f"{slip}?what=task-{row['task']}&days={less}", "Try it"
        if kind is Kind.LATER:
            return f"{slip}?what=key-{pk_of(self.public)}&days={int(row['days'])}", "Try it"
        if kind is Kind.SATURDAYS:
            return reverse("schedules:calendars", args=[pk]), "Open the calendars"
        if kind is Kind.ORDER:
            args = [pk, row["supplier"], row["order"]]
            return reverse("suppliers:order-edit", args=args), "Open the order"
        return reverse("schedules:task-edit", args=[pk, row["task"]]), "Open the task"


def pk_of(public: KeyDate | None) -> int:
    return public.pk if public else 0
