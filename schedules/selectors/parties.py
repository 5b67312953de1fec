"""Who hangs on which dates: makers and hires by their tasks, funders and bodies by the date."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from projects import hooks
from projects.log import short_name
from projects.models import Project, Role, Site
from projects.selectors.people import members_of
from schedules.models import Hammock, KeyDate, KeyDateKind, Lane, Task
from schedules.plan.once import once
from suppliers.models import Order, Supplier, SupplierKind

OURS = {"artist", "the artist", "me", "myself", "i", "we", "us", "studio", "books and grants"}
PUBLIC = frozenset({str(KeyDateKind.PUBLIC)})


@dataclass(frozen=True, slots=True, kw_only=True)
class Addressee:
    """Somebody outside, and the dates that are theirs, as keys such as “task-12”."""

    name: str
    supplier: Supplier | None = None
    email: str = ""
    phone: str = ""
    keys: frozenset[str] = frozenset()
    hears_public: bool = False  # also when no date of theirs moves

    @property
    def greeting(self) -> str:
        return (self.supplier.contact if self.supplier else "") or self.name


@dataclass
class Gathered:
    """The dates of each supplier, and of each lane that is nobody of the list."""

    suppliers: dict[int, set[str]] = field(default_factory=lambda: defaultdict(set))
    lanes: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))

    def give(self, lane: Lane, key: str) -> None:
        if lane.supplier_id:
            self.suppliers[lane.supplier_id].add(key)
        else:
            self.lanes[lane.name].add(key)


def addressees(project: Project) -> list[Addressee]:
    """Everybody who may have to be told, in a fixed number of queries."""
    gathered = gather(project)
    rows = Supplier.objects.filter(project=project)
    found = [from_supplier(row, gathered.suppliers.get(row.pk, set())) for row in rows]
    ours = OURS | own_names(project)
    found += [
        Addressee(name=name, keys=frozenset(keys))
        for name, keys in gathered.lanes.items()
        if name.casefold() not in ours
    ]
    heard = dates_by_kind(project)
    found += [from_party(party, heard) for party in outside_parties(project)]
    return [one for one in found if one.keys or one.hears_public]


def own_names(project: Project) -> set[str]:
    """Nobody writes to themselves."""
    owners = [m for m in members_of(project) if m.role == Role.OWNER]
    return {short_name(member.user).casefold() for member in owners}


def dates_by_kind(project: Project) -> dict[str, set[str]]:
    found: dict[str, set[str]] = defaultdict(set)
    for pk, kind in KeyDate.objects.filter(project=project).values_list("pk", "kind"):
        found[kind].add(f"date-{pk}")
    return found


def from_supplier(row: Supplier, keys: set[str]) -> Addressee:
    crew = row.kind == SupplierKind.CREW
    return Addressee(
        name=row.name,
        supplier=row,
        email=row.email,
        phone=row.phone,
        keys=frozenset(keys),
        hears_public=crew,
    )


def gather(project: Project) -> Gathered:
    found = Gathered()
    makers = dict(Order.objects.filter(supplier__project=project).values_list("pk", "supplier"))
    tasks = Task.objects.filter(project=project).select_related("lane").prefetch_related("also")
    for task in tasks:
        for lane in (task.lane, *task.also.all()):
            found.give(lane, f"task-{task.pk}")
        if task.order_id:
            found.suppliers[makers[task.order_id]].add(f"task-{task.pk}")
    for hire in Hammock.objects.filter(project=project).select_related("lane"):
        found.give(hire.lane, f"hire-{hire.pk}")
        if hire.order_id:
            found.suppliers[makers[hire.order_id]].add(f"hire-{hire.pk}")
    dates = KeyDate.objects.filter(project=project, task__isnull=False)
    for row in dates.exclude(kind=KeyDateKind.PUBLIC).select_related("task__lane"):
        assert row.task is not None
        found.give(row.task.lane, f"date-{row.pk}")
    return found


def from_party(party: hooks.Party, heard: Mapping[str, set[str]]) -> Addressee:
    keys = set().union(*(heard.get(kind, set()) for kind in party.hears - PUBLIC))
    return Addressee(
        name=party.name,
        email=party.email,
        phone=party.phone,
        keys=frozenset(keys),
        hears_public=bool(party.hears & PUBLIC),
    )


def outside_parties(project: Project) -> list[hooks.Party]:
    """Funders, bodies and the owner of the site; “… Board grant” is the same as “… Board”."""
    found = [party for ask in hooks.parties for party in ask(project)]
    owner = Site.objects.filter(project=project).values_list("owner", flat=True).first()
    if owner:
        found.append(hooks.Party(name=owner))
    merged: list[hooks.Party] = []
    for party in sorted(found, key=lambda p: len(p.name)):
        same = next((m for m in merged if is_same(m.name, party.name)), None)
        if same is None:
            merged.append(party)
        else:
            merged[merged.index(same)] = together(same, party)
    return merged


def is_same(short: str, longer: str) -> bool:
    return f"{longer.casefold()} ".startswith(f"{short.casefold()} ")


def together(one: hooks.Party, other: hooks.Party) -> hooks.Party:
    return replace(
        one,
        hears=one.hears | other.hears,
        email=one.email or other.email,
        phone=one.phone or other.phone,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Matter:
    """One date of the plan, as a letter calls it."""

    name: str
    first: date
    last: date


Matters = Mapping[str, Matter]


def matters(project: Project, days: hooks.PlanDays) -> dict[str, Matter]:
    """Every date that somebody may have to be told, by its key; what is finished left out."""
    found = {
        f"task-{t.pk}": Matter(name=t.name, first=t.start, last=t.finish)
        for t in days.tasks.values()
        if not t.finished
    }
    names = dict(KeyDate.objects.filter(project=project).values_list("pk", "name"))
    for pk, on in days.key_dates.items():
        if pk in names:
            found[f"date-{pk}"] = Matter(name=names[pk], first=on, last=on)
    for hire, span in hire_spans(project, days):
        found[f"hire-{hire.pk}"] = Matter(name=hire.name, first=span[0], last=span[1])
    return found


def hire_spans(
    project: Project, days: hooks.PlanDays
) -> Iterable[tuple[Hammock, tuple[date, date]]]:
    """From the first day of the tasks that open a hire to the last day of those that close it."""
    for hire in once(project, ("hires", None), lambda: hires_of(project)):
        opens = [days.tasks[t.pk] for t in hire.from_tasks.all() if t.pk in days.tasks]
        closes = [days.tasks[t.pk] for t in hire.to_tasks.all() if t.pk in days.tasks]
        if opens and closes and not all(t.finished for t in closes):
            first, last = min(t.start for t in opens), max(t.finish for t in closes)
            yield hire, (first, max(first, last))


def hires_of(project: Project) -> list[Hammock]:
    rows = Hammock.objects.filter(project=project).select_related("order__supplier")
    return list(rows.prefetch_related("from_tasks", "to_tasks"))


def public_key(project: Project) -> str:
    row = KeyDate.objects.filter(project=project, kind=KeyDateKind.PUBLIC).first()
    return f"date-{row.pk}" if row else ""
