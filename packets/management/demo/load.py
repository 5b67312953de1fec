"""Lay out the three projects of Wexcombe Mills, dated from the day they are loaded."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date, datetime, time
from typing import Any
from zoneinfo import ZoneInfo

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction

from packets.management.demo import (
    cash,
    chances,
    claims,
    forecast,
    gifts,
    hands,
    hires,
    hours,
    papers,
    people,
    quotes,
    reckoned,
    record,
    reports,
    spent,
    things,
    told,
    when,
)
from packets.management.demo.days import Days
from projects.clock import today
from projects.log import write
from projects.models import LogEntry, Project, Stage
from schedules import plan
from schedules.models import KeyDate

Row = Mapping[str, Any]
FOLDER = settings.ROOT / "fixtures" / "demo"


def read(name: str) -> Any:
    """The rows of a fixture: of a whole project, or a list of them."""
    return json.loads((FOLDER / f"{name}.json").read_text("utf-8"))


@transaction.atomic
def load() -> None:
    people.make_logins()
    told_first = read("hearthlight")
    hearthlight = whole_project(told_first)
    record.tell(hearthlight, read("hearthlight-record"), Days(today(hearthlight)))
    told.tell(hearthlight, read("hearthlight-told"), Days(today(hearthlight)))
    quotes.tell(hearthlight, read("hearthlight-quotes"), Days(today(hearthlight)))
    reports.tell(hearthlight, read("hearthlight-reports"), Days(today(hearthlight)))
    gifts.tell(hearthlight, read("hearthlight-gifts"), Days(today(hearthlight)))
    forecast.tell(hearthlight, read("hearthlight-forecast"), Days(today(hearthlight)))
    claims.tell(hearthlight, read("hearthlight-claims"), Days(today(hearthlight)))
    cash.tell(hearthlight, read("hearthlight-cash"), Days(today(hearthlight)))
    work_out(hearthlight, told_first["parts"])
    whole_project(read("pollen-steps"))
    papers.two_herons(read("two-herons"))


def work_out(project: Project, parts: list[Row]) -> None:
    """Every file of worksheets, in the order of their names."""
    names = {row["key"]: row["name"] for row in parts}
    for path in sorted(FOLDER.glob("hearthlight-worksheets-*.json")):
        reckoned.tell(project, read(path.stem), names, Days(today(project)))


def whole_project(data: Row) -> Project:
    """Things, then the plan, then whatever hangs on its dates."""
    project = things.make_project(data)
    people.join(project)
    days = Days(today(project))
    if "public_on" in data:
        days.public_on = when.saturday_from(days.known(data["public_on"]))
    suppliers = things.make_suppliers(project, data["suppliers"])
    parts = things.make_parts(project, data["parts"], suppliers, days)
    things.make_texts(project, data["texts"])
    things.make_pictures(project, data["pictures"], parts)
    names = {part.pk: key for key, part in parts.items()}
    stages = {(names[s.part_id], s.name): s for s in Stage.objects.filter(part__project=project)}
    tasks = when.make_tasks(project, data, suppliers, stages, days)
    hours.keep(project, data, suppliers)
    chances.keep(project, data, tasks)
    hands.keep(project, data, tasks)
    lay_public_date(project, data, tasks, days)
    hours.close(project, data, days)
    when.make_key_dates(project, data["key_dates"][1:], tasks, days)
    things.make_documents(suppliers, data["suppliers"], days)
    orders = when.make_orders(data.get("orders", []), data, suppliers, tasks, days)
    hires.keep(project, data, tasks, orders, days)
    lines = spent.make_lines(project, data["lines"])
    spent.make_commitments(data.get("orders", []), orders, lines)
    funds = spent.make_funds(project, data["funds"], days)
    for row in data["expenses"]:
        spent.make_expense(project, row, lines, funds, suppliers, orders, days)
    plan.recompute(project, days.today)
    papers.keep(project, data["plan_of_record"])
    papers.make_packets(project, data.get("packets", []), days)
    make_log(project, data["log"], days)
    return project


def lay_public_date(project: Project, data: Row, tasks: Mapping[str, Any], days: Days) -> None:
    row = data["key_dates"][0]
    public = KeyDate(
        project=project,
        name=row["name"],
        kind=row["kind"],
        at=time.fromisoformat(row["at"]),
        task=tasks[row["task"]],
        effect=row["effect"],
        movable=row["movable"],
    )
    if days.public_on:
        public.on = days.public_on
        public.save()
        plan.recompute(project, days.today)
    else:
        when.find_public_date(public, days)
    days.public_on = public.on
    when.remember_dates(tasks, days)


def make_log(project: Project, rows: list[Row], days: Days) -> None:
    user = User.objects.get(username="artist")
    for row in rows:
        entry = write(
            project=project,
            user=user,
            about="projects",
            sentence=row["sentence"],
            reason=row.get("reason", ""),
        )
        LogEntry.objects.filter(pk=entry.pk).update(at=at_four(project, days.worked(row["day"])))


def at_four(project: Project, day: date) -> datetime:
    return datetime.combine(day, time(16), ZoneInfo(project.zone))
