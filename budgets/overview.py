"""The money block of the overview."""

from __future__ import annotations

from datetime import date

from django.urls import reverse

from budgets import fit, flow
from budgets.models import AcceptedFit, FundStatus
from budgets.selectors.claims.panel import claim_lines
from budgets.selectors.expenses import NO_RECEIPT, OPEN, has_receipt
from budgets.selectors.funds import FundRow, fund_rows
from budgets.selectors.quotes.expiring import waiting_rows
from budgets.selectors.quotes.listing import request_rows
from projects import hooks
from projects.hooks import Level, Panel, PanelRow
from projects.models import Project
from projects.words import day, money, plural


@hooks.overview.register("budgets.money", place=40)
def money_panel(project: Project, today: date) -> Panel:
    books = fit.read(project)
    url = reverse("budgets:money", args=[project.pk])
    signed = [row for row in fund_rows(books, today) if row.fund.status == FundStatus.SIGNED]
    rows = [fund_line(project, row) for row in signed]
    return Panel(
        title="Money",
        rows=(*rows, *loose_ends(books, url)),
        empty="No fund is signed yet. Add the first one on the Money sheet.",
        url=url,
    )


def fund_line(project: Project, row: FundRow) -> PanelRow:
    left = row.state.charged if row.open_ended else row.state.left
    verb = "paid so far" if row.open_ended else "left"
    last = f"until {day(row.fund.period_end)}" if row.fund.period_end else ""
    level = row.level if row.level in (Level.BROKEN, Level.NEAR) else Level.PLAIN
    detail = ", ".join(part for part in (last, row.says if level != Level.PLAIN else "") if part)
    return PanelRow(
        text=f"{row.fund.name}: {money(left, project.currency)} {verb}",
        detail=detail,
        url=reverse("budgets:fund", args=[project.pk, row.fund.pk]),
        level=level,
    )


def loose_ends(books: fit.Books, url: str) -> list[PanelRow]:
    """What nobody pays yet, and what has no receipt: counted, without a row for each expense."""
    papers, waiting = books.papers_of, books.unassigned.values()
    bare = sum(1 for e in books.expenses if not e.in_kind and not has_receipt(papers.get(e.pk, ())))
    found = []
    if waiting:
        total = money(sum(waiting), books.project.currency)
        text = f"{total} in {plural(len(waiting), 'expense')} without a fund"
        found.append(PanelRow(text=text, url=f"{url}?show={OPEN}", level=Level.NEAR))
    if bare:
        text = f"{plural(bare, 'expense')} without a receipt"
        found.append(PanelRow(text=text, url=f"{url}?show={NO_RECEIPT}", level=Level.NEAR))
    return found


@hooks.overview.register("budgets.claims", place=41)
def claims_panel(project: Project, today: date) -> Panel | None:
    """Money that may be asked for, is awaited or late; nothing while none is."""
    books = fit.read(project)
    rows = claim_lines(project, today, books)
    if not rows:
        return None
    url = reverse("budgets:claims", args=[project.pk])
    return Panel(title="Claims", rows=tuple(rows), empty="", url=url)


@hooks.overview.register("budgets.cash", place=42)
def cash_panel(project: Project, today: date) -> Panel | None:
    """How low the balance gets; nothing while no money is known to move."""
    found = flow.cash_of(flow.read(project, today))
    low = found.ahead.lowest
    if low is None:
        return None
    currency, url = project.currency, reverse("budgets:cash", args=[project.pk])
    if not found.book.pk:
        text = "Say what is in the account, and this tells how low it gets"
        return Panel(title="Cash", rows=(PanelRow(text=text, url=url),), empty="", url=url)
    row = PanelRow(
        text=f"Cash is lowest on {day(low.day)}: {money(found.low, currency)}",
        detail=f"{money(found.bridge, currency)} must be bridged" if found.bridge else "",
        url=url,
        level=Level.BROKEN if found.bridge else Level.HOLDS,
    )
    return Panel(title="Cash", rows=(row,), empty="", url=url)


@hooks.overview.register("budgets.quotes", place=45)
def quotes_panel(project: Project, today: date) -> Panel | None:
    """What is asked for and not chosen; nothing while nobody was asked."""
    rows = waiting_rows(request_rows(project, today))
    if not rows:
        return None
    url = reverse("budgets:quotes", args=[project.pk])
    return Panel(title="Quotes to choose from", rows=tuple(rows), empty="", url=url)


@hooks.takebacks.register("budgets.fits")
def ways_back(project: Project) -> dict[str, str]:
    """The page on which an accepted fit can be put back, by its entry in the log."""
    url = reverse("budgets:best", args=[project.pk]) + "#accepted"
    fits = AcceptedFit.objects.filter(project=project, undone_at=None)
    return {fit.sentence: url for fit in fits.order_by("pk")}
