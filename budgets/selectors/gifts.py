"""The room of gifts: what was given, what of it counts, and what each still has to show."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from budgets import fit
from budgets.engine.evidence import Gap, Gift, missing, stands
from budgets.engine.gifts import Line, proven
from budgets.fit import Books
from budgets.models import Expense, GiftKind, Hours
from budgets.selectors.gift_kinds import Kind, evidence, kinds
from projects.models import Project
from projects.words import listed, money, plural

NO_KIND = "Say what kind of gift it is, so that its evidence can be checked"


@dataclass(frozen=True, kw_only=True)
class GiftRow:
    """One gift, in cents: its worth, what its evidence carries, what counts as match so far."""

    expense: Expense
    kind: Kind | None
    stands: int
    counted: int
    gaps: tuple[str, ...]

    @property
    def waits(self) -> int:
        return self.expense.cents - self.stands


@dataclass(frozen=True, kw_only=True)
class KindGroup:
    kind: Kind | None
    rows: tuple[GiftRow, ...]

    @property
    def cents(self) -> int:
        return sum(row.expense.cents for row in self.rows)

    @property
    def stands(self) -> int:
        return sum(row.stands for row in self.rows)


@dataclass(frozen=True, kw_only=True)
class GiftSheet:
    groups: tuple[KindGroup, ...]
    sentence: str
    next: GiftRow | None  # the gift with the most to gain

    @property
    def cents(self) -> int:
        return sum(group.cents for group in self.groups)

    @property
    def stands(self) -> int:
        return sum(group.stands for group in self.groups)


def gift_sheet(project: Project) -> GiftSheet:
    books = fit.read(project)
    gifts = [expense for expense in books.expenses if expense.in_kind]
    lines = lines_of(Hours.objects.filter(expense__in=gifts))
    rows = [gift_row(books, gift, lines.get(gift.pk, [])) for gift in gifts]
    groups = [
        KindGroup(kind=kinds().get(key), rows=tuple(r for r in rows if r.expense.gift_kind == key))
        for key in ("", *GiftKind.values)
    ]
    waiting = max(rows, key=lambda row: row.waits, default=None)
    return GiftSheet(
        groups=tuple(group for group in groups if group.rows),
        sentence=sentence(project, rows),
        next=waiting if waiting and waiting.waits else None,
    )


def lines_of(hours: Iterable[Hours]) -> dict[int, list[Hours]]:
    found: dict[int, list[Hours]] = {}
    for row in hours:
        found.setdefault(row.expense_id, []).append(row)
    return found


def gift_row(books: Books, expense: Expense, hours: list[Hours]) -> GiftRow:
    kind = kinds().get(expense.gift_kind)
    lines = tuple(line(row) for row in hours)
    papers = Counter(paper.kind for paper in books.papers_of.get(expense.pk, []))
    gift = Gift(
        lines=lines,
        supervised=frozenset(str(row.pk) for row in hours if row.supervisor.strip()),
        basis=expense.basis,
        papers=papers,
        legs=len(expense.workings.get("legs", [])),
    )
    gaps = missing(kind.evidence, gift) if kind else ()
    signed = proven(expense.cents, lines)
    return GiftRow(
        expense=expense,
        kind=kind,
        stands=stands(expense.cents, gaps, signed) if kind else 0,
        counted=counted_cents(books, expense),
        gaps=tuple(said(gap) for gap in gaps) if kind else (NO_KIND,),
    )


def line(row: Hours) -> Line:
    return Line(
        key=str(row.pk),
        person=row.person,
        day=row.day,
        hundredths=row.hundredths,
        starts=row.starts,
        ends=row.ends,
        signed=row.signed,
    )


def counted_cents(books: Books, expense: Expense) -> int:
    """Cents that count for some fund; for two pools they are the same cents, told once."""
    found = Counter[int]()
    for (fund, _), cents in books.counted_of.get(expense.pk, {}).items():
        found[fund] += cents
    return max(found.values(), default=0)


def said(gap: Gap) -> str:
    return evidence()[gap.key].says.format(n=gap.lacking, all=gap.of)


def sentence(project: Project, rows: list[GiftRow]) -> str:
    """What was given, how much of it counts, and what the rest waits for."""
    if not rows:
        return "No gift yet. Hours, goods and space that others give can stand in for match."
    currency = project.currency
    given = money(sum(row.expense.cents for row in rows), currency)
    counted = sum(row.counted for row in rows)
    waiting = [row for row in rows if row.waits]
    start = f"{given} was given in {plural(len(rows), 'gift')}"
    match = f"{money(counted, currency)} of it counts as match" if counted else "none counts yet"
    if not waiting:
        return f"{start}; {match}. Every gift shows what it must."
    gain = money(sum(row.waits for row in waiting), currency)
    names = listed([row.expense.payee for row in unlike(waiting)[:3]])
    return f"{start}; {match}. {gain} waits for evidence: {names}."


def unlike(rows: list[GiftRow]) -> list[GiftRow]:
    """The dearest first, one for each giver."""
    ranked = sorted(rows, key=lambda row: -row.waits)
    return list({row.expense.payee: row for row in reversed(ranked)}.values())[::-1]
