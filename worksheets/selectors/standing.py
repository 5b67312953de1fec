"""What is kept of a worksheet: its runs, what it has to hand on, and where that went."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.models import Handed, Run, Worksheet
from worksheets.run import Worked, unchanged
from worksheets.selectors.handed import Offer, handed_of, offers


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    runs: list[Run]
    last: Run | None
    offers: list[Offer]
    lost: list[Handed]  # handed on once, and no longer part of the result
    stale: bool  # what it rests on has changed since the last run


def standing(worksheet: Worksheet, worked: Worked) -> Standing:
    runs = list(worksheet.runs.select_related("review"))
    last = runs[0] if runs else None
    handed = handed_of(worksheet)
    offered = offers(worksheet, worked, handed)
    keys = {each.hand.key for each in offered}
    return Standing(
        runs=runs,
        last=last,
        offers=offered,
        lost=[row for key, row in handed.items() if key not in keys],
        stale=last is not None and worked.typed == last.typed and not unchanged(last, worked),
    )
