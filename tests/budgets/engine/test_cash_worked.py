"""One commission worked through by hand: fully funded, and 16,220 short on one day.

Common practice, no source: the terms and figures were worked by hand in this project. Interest
is 9 % on 365 days, on what the balance lacks each night.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

import pytest

from budgets.engine.cash import Course, Flow, bridge, course, loan_interest
from budgets.engine.levers import Lever, rank
from budgets.engine.money import share_ceil
from budgets.engine.terms import Terms, due_payments, milestones

OPEN, GRANT, HELD = 1_500_00, 14_000_00, 1000
ORDERED, FRAMES_HALF_WAY, FRAMES = date(2026, 4, 16), date(2026, 5, 12), date(2026, 7, 11)
CANOPY_ORDERED, CANOPY = date(2026, 6, 18), date(2026, 7, 2)
INVOICED = (date(2026, 3, 7), date(2026, 4, 11), date(2026, 8, 21), date(2026, 10, 7))
CLAIMED, REPORT_PAID = (date(2026, 6, 10), date(2026, 8, 25)), date(2026, 12, 4)
ADVANCE = Flow(day=date(2026, 5, 1), cents=7_000_00, what="Half the grant ahead")
LOW = date(2026, 7, 17)


def out(day: date, cents: int, what: str) -> Flow:
    return Flow(day=day, cents=-cents, what=what)


HALVES = (out(ORDERED, 5_000_00, "Frames"), out(FRAMES, 5_000_00, "Frames"))
THREE_PARTS = (
    out(ORDERED, 3_000_00, "Frames"),
    out(FRAMES_HALF_WAY, 4_000_00, "Frames"),
    out(FRAMES, 3_000_00, "Frames"),
)


def canopy() -> Iterable[Flow]:
    terms = Terms(price=4_200_00, deposit=5000, net_days=15)
    for due in due_payments(terms, CANOPY_ORDERED, CANOPY):
        assert due.day
        yield out(due.day, due.cents, "Canopy")


def costs(frames: Iterable[Flow]) -> tuple[Flow, ...]:
    return (
        *frames,
        *canopy(),
        out(date(2026, 7, 10), 4_000_00, "Paint"),
        out(date(2026, 7, 9), 1_500_00, "Lift"),
        out(date(2026, 5, 15), 2_650_00, "Labour"),
        out(date(2026, 7, 6), 1_370_00, "Other"),
    )


def fee() -> Iterable[Flow]:
    for day, cents in zip(INVOICED, milestones(12_000_00, (2500, 2500, 4000, 1000)), strict=True):
        yield Flow(day=day + timedelta(30), cents=cents, what="Contract")


def claims(paid: tuple[Flow, ...], ahead: int) -> Iterable[Flow]:
    """Each takes what was paid since the last, less a tenth and less what came ahead."""
    left, last = GRANT, date.min
    for day in CLAIMED:
        taken = min(left, -sum(flow.cents for flow in paid if last < flow.day <= day))
        cash = taken - share_ceil(taken, HELD)
        left, last, netted = left - taken, day, min(ahead, cash)
        ahead -= netted
        yield Flow(day=day + timedelta(45), cents=cash - netted, what="Claim")
    assert left == 0
    yield Flow(day=REPORT_PAID, cents=share_ceil(GRANT, HELD), what="Held back")


def job(frames: tuple[Flow, ...] = HALVES, advance: bool = False) -> tuple[Flow, ...]:
    paid = costs(frames)
    ahead = (ADVANCE,) if advance else ()
    return (*paid, *fee(), *ahead, *claims(paid, ADVANCE.cents if advance else 0))


def interest(found: Course) -> int:
    return loan_interest(found, 0, 900, 365, found.days[-1].day)


@pytest.mark.parametrize(
    "flows, low, charged",
    [
        pytest.param(job(), -16_220_00, 225_85, id="as agreed"),
        pytest.param(job(advance=True), -9_220_00, 181_39, id="half the grant in advance"),
        pytest.param(job(THREE_PARTS), -16_220_00, 217_14, id="frames at 30, 40 and 30"),
    ],
)
def test_the_worked_commission(flows: tuple[Flow, ...], low: int, charged: int) -> None:
    found = course(OPEN, flows)
    assert found.lowest is not None
    assert (found.lowest.day, found.lowest.low) == (LOW, low)
    assert (bridge(found), interest(found)) == (-low, charged)


def test_all_its_income_arrives_and_it_closes_above_where_it_began() -> None:
    flows = job()
    came = sum(flow.cents for flow in flows if flow.cents > 0)
    went = -sum(flow.cents for flow in flows if flow.cents < 0)
    assert (came, went, course(OPEN, flows).closing) == (26_000_00, 23_720_00, 3_780_00)


def test_an_advance_beats_a_smaller_deposit_by_all_of_itself() -> None:
    levers = [
        Lever(key="deposit", what="", takes="", flows=job(THREE_PARTS)),
        Lever(key="advance", what="", takes="", flows=job(advance=True)),
    ]
    effects = rank(OPEN, 0, job(), levers)
    assert [(e.lever.key, e.gain) for e in effects] == [("advance", 7_000_00), ("deposit", 0)]
