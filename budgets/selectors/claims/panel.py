"""Claims in short: what is late, may be asked for, is prepared or awaited."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from django.urls import reverse

from budgets.fit import Books
from budgets.selectors.claims.room import FundClaims, claim_url, claims_room
from projects.hooks import Level, PanelRow
from projects.models import Project
from projects.words import day, money, plural


def claim_lines(project: Project, today: date, books: Books) -> list[PanelRow]:
    """What is broken first."""
    rows = [line for row in claims_room(project, today, books).funds for line in lines_of(row)]
    order = list(Level)
    return sorted(rows, key=lambda line: order.index(line.level))


def lines_of(row: FundClaims) -> Iterator[PanelRow]:
    fund, project = row.fund, row.fund.project
    page = reverse("budgets:fund", args=[project.pk, fund.pk])
    room = reverse("budgets:claims", args=[project.pk]) + f"#fund-{fund.pk}"
    for one in row.awaited:
        late = f"{plural(one.late_days, 'day')} late" if one.late_days else ""
        by = f"by {day(one.claim.expected_on)}" if one.claim.expected_on and not late else late
        level = Level.BROKEN if late else Level.PLAIN
        text = f"{fund.name}: {money(one.left, project.currency)} awaited"
        yield PanelRow(text=text, detail=by, url=claim_url(project, one.claim), level=level)
    for part in row.parts:
        amount = money(part.left, project.currency)
        if part.late_days:
            late = f"{plural(part.late_days, 'day')} late"
            text = f"{fund.name}: {amount} invoiced"
            yield PanelRow(text=text, detail=late, url=page, level=Level.BROKEN)
        elif part.may_be_asked:
            text = f"{fund.name}: {amount} may be invoiced"
            yield PanelRow(text=text, detail=part.row.title, url=page, level=Level.NEAR)
    if row.lost:
        text = f"{fund.name}: {money(row.lost, project.currency)} is paid too late to come back"
        yield PanelRow(text=text, url=room, level=Level.BROKEN)
    if draft := row.ledger.draft:
        text = f"{fund.name}: claim {draft.number} is not filed yet"
        yield PanelRow(text=text, url=claim_url(project, draft), level=Level.NEAR)
    elif row.claimable:
        text = f"{fund.name}: {money(row.claimable, project.currency)} can be claimed now"
        yield PanelRow(text=text, url=room, level=Level.NEAR)
