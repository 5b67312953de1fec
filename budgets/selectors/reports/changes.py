"""A request for other amounts in a budget: what moves, how far, and whether to ask first."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from budgets import engine
from budgets.engine.categories import in_words, label
from budgets.engine.reporting import Moved, in_dollars, lines_over, moved_in_all
from budgets.engine.rules.lines import AgreedBudget
from budgets.models import ChangeRequest, ChangeState, Fund
from budgets.selectors.reports.budget import facts_of
from budgets.selectors.reports.source import Source, in_order
from budgets.selectors.reports.table import Column, Finding, Kind, Report, Row, Table
from projects.hooks import Level
from projects.words import day_year

CENTS = 100
USUAL = 1000  # 10 % of the budget: 2 CFR 200.308 and arts agencies' own pages
COLUMNS = (
    Column("Category"),
    Column("Agreed", Kind.MONEY),
    Column("Asked for", Kind.MONEY),
    Column("Change", Kind.MONEY),
)


@dataclass(frozen=True, kw_only=True)
class Consent:
    """How far a request goes, with those agreed before it, and what the fund's rule says."""

    moved: Moved  # with the changes agreed before
    here: int  # cents that this one moves
    over: tuple[str, ...]  # categories beyond their own tolerance
    of_line: bool
    is_own_rule: bool

    @property
    def needed(self) -> bool:
        return bool(self.over) if self.of_line else self.moved.over

    @property
    def says(self) -> str:
        share = engine.percent(self.moved.limit)
        if self.of_line:
            if not self.over:
                return f"No category rises by more than {share} of its own amount: tell the fund."
            return (
                f"More than {share} of its own amount is added to {in_words(self.over)}: ask first."
            )
        whose = "this fund lets" if self.is_own_rule else "most funds let"
        reach = engine.percent(self.moved.basis_points)
        tail = (
            "so ask first" if self.needed else "so telling it is enough unless its paper asks more"
        )
        return f"{reach} of the budget would then have moved in all; {whose} {share} move, {tail}."


def changes_of(fund: Fund) -> list[ChangeRequest]:
    return list(fund.change_requests.all())


def starting_from(request: ChangeRequest) -> dict[str, int]:
    """The budget that a request changes: what was agreed when it was sent."""
    return request.before or request.fund.approved or {}


def consent_of(request: ChangeRequest) -> Consent:
    rule = tolerance_of(request.fund)
    limit = rule.basis_points if rule else USUAL
    before, after = starting_from(request), request.revised
    earlier = [
        (row.before, row.revised)
        for row in reversed(changes_of(request.fund))
        if row.state == ChangeState.AGREED and row.pk != request.pk
    ]
    mine = [(before, after)]
    return Consent(
        moved=moved_in_all([*earlier, *mine], limit),
        here=moved_in_all(mine, limit).moved,
        over=lines_over(before, after, limit),
        of_line=rule is not None and rule.of == "line",
        is_own_rule=rule is not None,
    )


def tolerance_of(fund: Fund) -> AgreedBudget | None:
    """The fund's own rule on how far its agreed budget may move."""
    for row in fund.rules.all():
        if row.code == AgreedBudget.code:
            rule = engine.rule_from(row.code, row.params)
            return rule if isinstance(rule, AgreedBudget) else None
    return None


@dataclass(frozen=True)
class ChangeRow:
    """A request in the list of a fund's requests."""

    request: ChangeRequest

    @cached_property
    def consent(self) -> Consent:
        return consent_of(self.request)

    @property
    def standing(self) -> str:
        row = self.request
        if row.state == ChangeState.SENT and row.sent_on:
            return f"Sent {day_year(row.sent_on)}"
        if row.state in (ChangeState.AGREED, ChangeState.REFUSED) and row.answered_on:
            return f"{row.get_state_display()} {day_year(row.answered_on)}"
        return str(row.get_state_display())


def change_report(source: Source, request: ChangeRequest) -> Report:
    consent = consent_of(request)
    fund = request.fund
    facts = [*facts_of(source, fund), ("Standing", ChangeRow(request).standing)]
    facts += [
        ("Moved here", source.words(consent.here)),
        ("Moved in all", source.words(consent.moved.moved)),
    ]
    return Report(
        key="change",
        title="Change of budget",
        sentence=f"{source.words(consent.here)} of the budget of {fund.name} goes elsewhere.",
        through=source.through,
        facts=tuple(facts),
        tables=(change_table(source, request),),
        findings=(Finding(consent.says, Level.NEAR if consent.needed else Level.HOLDS),),
        notes=(
            f"Reason: {request.reason}",
            "Moved is the sum of what rises; what falls pays for it, so the whole stays the same.",
        ),
        whole=source.whole,
    )


def change_table(source: Source, request: ChangeRequest) -> Table:
    before, after = starting_from(request), request.revised
    keys = in_order({*before, *after})
    old, new = [before.get(key, 0) for key in keys], [after.get(key, 0) for key in keys]
    if source.whole:
        old, new = ([CENTS * part for part in in_dollars(column)] for column in (old, new))
    rows = [Row((label(k), o, n, n - o)) for k, o, n in zip(keys, old, new, strict=True)]
    return Table(
        key="change",
        heading="Amounts by category",
        columns=COLUMNS,
        rows=tuple(rows),
        total=Row(("In all", sum(old), sum(new), sum(new) - sum(old))) if rows else None,
        whole=source.whole,
    )
