"""Hand a result on, through the services of whoever keeps what it goes to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.db import transaction

from budgets.models import BudgetLine
from budgets.services.draws import quantity_words, say_what_comes
from budgets.services.lines import save_line
from budgets.services.quotes import save_request
from projects.access import type_user
from projects.log import short_name
from projects.models import Part, Project, Text, Topic
from projects.words import day_year, money, plural
from schedules.models import Task
from schedules.selectors.wording import days_words
from schedules.services.parts import part_save
from schedules.services.tasks import save_task
from suppliers.models import QuoteRequest, Supplier
from worksheets.engine.result import ToCare, ToLine, ToPart, ToRequest, ToTask
from worksheets.models import Handed, Worksheet
from worksheets.run import last_run
from worksheets.selectors.desk import Desk, desk_of
from worksheets.selectors.effect import effect
from worksheets.selectors.effect_line import budget, costs, with_quantity
from worksheets.selectors.effect_part import COLUMNS, words
from worksheets.selectors.effect_task import in_proportion
from worksheets.selectors.effect_words import joined, put_there
from worksheets.selectors.handed import care_text
from worksheets.services.saving import note, refreshed


class Overtaken(Exception):
    """What it does is another by now than what was agreed to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Put:
    """Where it went, in words and as a row; ``more`` is what follows from it."""

    says: str
    target: Mapping[str, Any] = field(default_factory=dict)
    put: str = ""
    more: str = ""


@transaction.atomic
def hand_on(
    *, worksheet: Worksheet, key: str, values: Mapping[str, Any], seen: str, user: type_user,
    today: date,
) -> str:  # fmt: skip
    """Raises Overtaken unless ``seen`` is the basis of the effect as things stand."""
    Project.objects.select_for_update().get(pk=worksheet.project_id)
    worksheet = Worksheet.objects.select_related("project", "part").get(pk=worksheet.pk)
    desk = desk_of(worksheet, key, today)
    fresh = reread(values)
    if desk is None or effect(desk, fresh).basis != seen:
        raise Overtaken
    refreshed(worksheet, who=short_name(user), why="Run anew to be handed on.")
    put = WRITERS[type(desk.hand)](desk, fresh, user)
    remember(desk, put)
    sentence = f"Handed on “{desk.hand.label}” of “{worksheet.title}”: {put.says}."
    note(worksheet.project, user, sentence)
    return " ".join(filter(None, (sentence, put.more)))


def reread(values: Mapping[str, Any]) -> dict[str, Any]:
    """The rows that were chosen as they are now; raises Overtaken when one is gone."""
    found = dict(values)
    for name, model in (("line", BudgetLine), ("part", Part), ("request", QuoteRequest),
                        ("task", Task)):  # fmt: skip
        if found.get(name):
            found[name] = model.objects.select_for_update().filter(pk=found[name].pk).first()
            if found[name] is None:
                raise Overtaken
    return found


def remember(desk: Desk, put: Put) -> None:
    last = last_run(desk.worksheet)
    rows = {"line": None, "part": None, "request": None, "task": None, **put.target}
    Handed.objects.update_or_create(
        worksheet=desk.worksheet,
        key=desk.hand.key,
        defaults={
            **rows,
            "run_number": last.number if last else 1,
            "what": desk.words,
            "put": put.put,
            "says": put.says[:300],
        },
    )


def to_line(desk: Desk, values: Mapping[str, Any], user: type_user) -> Put:
    line, planned = values["line"], budget(values)
    if line is None:
        line = BudgetLine(project=desk.project)
        told = {"name": values["name"], "category": values["category"], "planned_cents": planned}
        save_line(line=line, values=told, user=user)
    elif planned != line.planned_cents:
        save_line(line=line, values={"planned_cents": planned}, user=user)
    line = with_quantity(line, values)
    names = ("to_come_cents", "quantity_hundredths", "unit", "unit_cents")
    say_what_comes(line=line, values={name: getattr(line, name) for name in names}, user=user)
    currency = desk.project.currency
    price = f"{quantity_words(line)} at {money(line.unit_cents, currency)}"
    says = f"{price}, {money(costs(values), currency)} in all, to the line “{line.name}”"
    return Put(says=says, target={"line": line})


def to_part(desk: Desk, values: Mapping[str, Any], user: type_user) -> Put:
    """With its maker and stages as they are; what rests on the part is run anew."""
    part = values["part"]
    given = {name: values[name] for name in COLUMNS if values.get(name) is not None}
    said = [f"{COLUMNS[name][0]} {words(desk, name, value)}" for name, value in given.items()]
    for name, value in given.items():
        setattr(part, name, value)
    more = part_save(
        part=part,
        maker=Supplier.objects.filter(makings__part=part).first(),
        stages=list(part.stages.values_list("name", flat=True)),
        user=user,
    )
    says = f"{', '.join(said)} to the part “{part.name}”"
    return Put(says=says, target={"part": part}, more=more)


def to_request(desk: Desk, values: Mapping[str, Any], user: type_user) -> Put:
    found, what = values["request"], values["what"]
    if found is None:
        found = QuoteRequest(project=desk.project, title=values["title"], part=values["part"])
        found.what = what
    else:
        found.what = joined(found.what, put_there(desk, found), what)
    if values["wanted_on"]:
        found.wanted_on = values["wanted_on"]
    asked = [row.supplier for row in found.quotes.select_related("supplier")] if found.pk else []
    save_request(request=found, purchase={}, suppliers=asked, user=user)
    lines = plural(len(what.splitlines()), "line")
    return Put(says=f"{lines} to the request “{found.title}”", target={"request": found}, put=what)


def to_task(desk: Desk, values: Mapping[str, Any], user: type_user) -> Put:
    task, said = values["task"], []
    scaled = in_proportion(task, values)
    if values.get("days") is not None:
        task.days = values["days"]
        said.append(days_words(values["days"]))
    for name, value in scaled.items():
        setattr(task, name, value)
    if values.get("not_before"):
        task.not_before, task.not_before_reason = values["not_before"], values.get("reason") or ""
        said.append(f"not before {day_year(values['not_before'])}")
    save_task(project=desk.project, user=user, today=desk.today, task=task)
    return Put(says=f"{', '.join(said)} to the task “{task.name}”", target={"task": task})


def to_care(desk: Desk, values: Mapping[str, Any], user: type_user) -> Put:
    text, old = values["text"], desk.handed.put if desk.handed else ""
    row, _ = Text.objects.get_or_create(project=desk.project, topic=Topic.CARE)
    row.body = joined(care_text(desk.project), old, text)
    row.save(update_fields=["body"])
    size = plural(len(text.split()), "word")
    return Put(says=f"{size} to the text “{Topic.CARE.label}”", put=text)


Writer = Callable[[Desk, Mapping[str, Any], type_user], Put]
WRITERS: Mapping[type, Writer] = {
    ToLine: to_line,
    ToPart: to_part,
    ToRequest: to_request,
    ToTask: to_task,
    ToCare: to_care,
}
