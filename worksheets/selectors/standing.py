"""What is kept of a worksheet: its runs, what it has to hand on, and where that went."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.engine.result import Hand, ToCare, ToLine, ToPart, ToRequest, ToTask
from worksheets.models import Handed, Run, Worksheet
from worksheets.run import Worked

PLACES = {
    ToLine: "a budget line",
    ToPart: "the part",
    ToRequest: "a request to suppliers",
    ToTask: "a task",
    ToCare: "the maintenance plan",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Something the result can hand on, and where it was last handed."""

    hand: Hand
    place: str
    handed: Handed | None
    behind: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    runs: list[Run]
    last: Run | None
    offers: list[Offer]
    stale: bool  # what it rests on has changed since the last run


def standing(worksheet: Worksheet, worked: Worked) -> Standing:
    runs = list(worksheet.runs.select_related("review"))
    handed = {each.key: each for each in worksheet.handed.select_related("line", "part", "task")}
    hands = worked.result.hands if worked.result else ()
    last = runs[0] if runs else None
    says = worked.result.says[:500] if worked.result else ""
    return Standing(
        runs=runs,
        last=last,
        offers=[offer(hand, handed.get(hand.key), last) for hand in hands],
        stale=last is not None and last.says != says,
    )


def offer(hand: Hand, handed: Handed | None, last: Run | None) -> Offer:
    now = {figure["key"]: figure["text"] for figure in last.figures} if last else {}
    old = handed.figures if handed else {}
    return Offer(
        hand=hand,
        place=PLACES[type(hand)],
        handed=handed,
        behind=any(now.get(key) != text for key, text in old.items()),
    )
