"""What the suppliers app shows on the overview."""

from __future__ import annotations

from datetime import date

from django.urls import reverse

from projects import hooks
from projects.hooks import Level, Panel, PanelRow
from projects.models import Project
from projects.words import day as in_words
from projects.words import whose
from suppliers.models import OrderState
from suppliers.selectors import SOON, Booking, Ending, Holding, holdings_of


@hooks.overview.register("suppliers.endings", place=60)
def endings(project: Project, today: date) -> Panel:
    held = holdings_of(project, today)
    papers = [(e.expires, paper_row(project, e)) for h in held for e in h.endings if soon(e)]
    hires = [found for h in held for found in hire_rows(project, h, today)]
    broken = sorted(
        (e for h in held for e in h.endings if e.level == Level.BROKEN), key=lambda e: e.expires
    )
    return Panel(
        title="Papers and hires that end soon",
        rows=tuple(row for _, row in sorted(papers + hires, key=lambda found: found[0])),
        empty="No paper and no hire ends in the next six weeks.",
        url=reverse("suppliers:suppliers", args=[project.pk]),
        sentence=broken[0].sentence if broken else "",
    )


def soon(ending: Ending) -> bool:
    """In the next six weeks, or too early; a paper that ended and nobody needs is left out."""
    if ending.level in (Level.BROKEN, Level.NEAR):
        return True
    return ending.today <= ending.expires <= ending.today + SOON


def paper_row(project: Project, ending: Ending) -> PanelRow:
    return PanelRow(
        text=f"{whose(ending.supplier.name)} {ending.called}",
        detail=ending.says,
        url=reverse("suppliers:supplier", args=[project.pk, ending.supplier.pk]),
        level=ending.level,
    )


def hire_rows(project: Project, held: Holding, today: date) -> list[tuple[date, PanelRow]]:
    """Orders whose last day comes in the next six weeks."""
    return [
        (last, hire_row(project, booking, last, today))
        for booking in held.bookings
        if (last := booking.order.window_end)
        and booking.order.state == OrderState.PLACED
        and last <= today + SOON
    ]


def hire_row(project: Project, booking: Booking, last: date, today: date) -> PanelRow:
    order = booking.order
    verb = "ended" if last < today else "ends"
    return PanelRow(
        text=f"{order.title} from {order.supplier.name}",
        detail=f"{verb} {in_words(last)}",
        url=reverse("suppliers:supplier", args=[project.pk, order.supplier_id]),
        level=Level.BROKEN if last < today else booking.level,
    )
