"""What comes in: money that came, claims that wait or will be made, advances, milestones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from budgets import engine
from budgets.engine.cash import Flow
from budgets.engine.money import largest_remainder, share_ceil, share_floor
from budgets.engine.paying import Payment, claim_days, payment_of, report_dates
from budgets.fit.forecast import Forecast
from budgets.fit.planned import forecast_value
from budgets.flow.asked import AS_AGREED, Asked
from budgets.flow.going import dues_of
from budgets.flow.ground import Charge, Ground, charge
from budgets.flow.overhead import overhead_of
from budgets.flow.parts import falls_on
from budgets.models import GRANTS, Claim, Fund, FundStatus, Milestone
from projects.words import day as in_words

AT_THE_END = Payment(back=True)  # a grant that does not say how it pays: late, to be careful


def fund_flows(ground: Ground, fund: Fund, asked: Asked) -> Iterator[Flow]:
    """What a signed fund pays ahead, for claims that wait, and for claims to come.

    After the last claim nothing is asked for any more, and what came beyond it goes back.
    """
    payment = asked.payment(fund.pk, payment_in(ground, fund))
    yield from awaited(ground, fund, payment)
    if any(row.is_final for row in claims_of(ground, fund)):
        yield from to_pay_back(ground, fund)
        return
    yield from advance(ground, fund, payment)
    yield from claims_to_come(ground, fund, payment, asked)


def says_how_it_pays(ground: Ground, fund: Fund) -> bool:
    """Or is taken to pay back at its end, as grants mostly do."""
    payment = payment_in(ground, fund)
    return payment.said or payment.back


def payment_in(ground: Ground, fund: Fund) -> Payment:
    said = payment_of(ground.books.fund_values[fund.pk])
    return AT_THE_END if not said.said and fund.kind in GRANTS else said


def came(ground: Ground) -> Iterator[Flow]:
    names = {fund.pk: fund.name for fund in ground.books.funds}
    for row in ground.income:
        if row.day >= ground.book.opening_on:
            yield Flow(
                day=row.day,
                cents=row.cents,
                what=names[row.fund_id],
                why=row.what or ("Paid back." if row.went_back else "Came in."),
                key=f"fund-{row.fund_id}",
                sure=True,
            )


def advance(ground: Ground, fund: Fund, payment: Payment) -> Iterator[Flow]:
    """What the fund pays ahead and has not paid yet."""
    left = advance_of(fund, payment) - ground.received["fund", fund.pk]
    if left > 0:
        start = payment.ahead_on or fund.issued_on or ground.today
        day = start + timedelta(payment.ahead_lag_days)
        yield flow(
            fund,
            ground.to_come_on(day, payment.ahead_lag_days),
            left,
            "Paid ahead, by its agreement.",
        )


def advance_of(fund: Fund, payment: Payment) -> int:
    return share_floor(fund.award_cents, payment.ahead_basis_points)


def awaited(ground: Ground, fund: Fund, payment: Payment) -> Iterator[Flow]:
    """Claims that are filed and not paid in full, and what was held back of all of them."""
    claims = claims_of(ground, fund)
    for claim in claims:
        if claim.state != "filed" or claim.kind != "claim":
            continue
        left = claim.due_cents - ground.received["claim", claim.pk]
        filed = claim.filed_on or ground.today
        day = claim.expected_on or filed + timedelta(payment.lag_days)
        if left > 0:
            why = f"Claim {claim.number}, filed {in_words(filed)}."
            yield flow(fund, ground.to_come_on(day, payment.lag_days), left, why, key="claim")
    held = sum(claim.held_back_cents - claim.released_cents for claim in claims)
    if held > 0 and not any(claim.is_final for claim in claims):
        yield flow(fund, held_day(ground, fund, payment), held, "Held back until the final report.")


def claims_of(ground: Ground, fund: Fund) -> list[Claim]:
    return [row for row in ground.claims if row.fund_id == fund.pk]


def claims_to_come(ground: Ground, fund: Fund, payment: Payment, asked: Asked) -> Iterator[Flow]:
    """Every claim takes what was paid since the last and its overhead.

    Less what was paid ahead, and what is held.
    """
    days = days_to_claim(ground, fund, payment)
    waiting, ahead, held = charges(ground, fund, asked), ahead_left(ground, fund, payment), 0
    overhead = overhead_of(ground, fund)
    for day in days:
        taken = [row for row in waiting if row.day <= day]
        amount = sum(row.cents for row in taken)
        if not amount or (amount < payment.smallest_cents and day != days[-1]):
            continue
        amount += overhead.take(taken)
        waiting = [row for row in waiting if row.day > day]
        netted = min(ahead, amount)
        keep = share_ceil(amount - netted, payment.held_basis_points)
        ahead, held = ahead - netted, held + keep
        if cash := amount - netted - keep:
            why = f"What was paid until {in_words(day)}, claimed then."
            on = ground.to_come_on(day + timedelta(payment.lag_days), payment.lag_days)
            yield flow(fund, on, cash, why)
    if held:
        yield flow(fund, held_day(ground, fund, payment), held, "Held back until the final report.")


def days_to_claim(ground: Ground, fund: Fund, payment: Payment) -> list[date]:
    start = fund.period_start or ground.book.opening_on
    end = fund.period_end or ground.last_day
    return [day for day in claim_days(payment, start, end) if day >= ground.today]


def ahead_left(ground: Ground, fund: Fund, payment: Payment) -> int:
    """What was or will be paid ahead and is not accounted for by a claim yet."""
    came = max(advance_of(fund, payment), ground.received["fund", fund.pk])
    return max(0, came + to_account_for(ground, fund))


def to_account_for(ground: Ground, fund: Fund) -> int:
    """What claims took back, less what they netted and what was paid back, in cents."""
    ahead = sum(row.ahead_cents for row in claims_of(ground, fund))
    return ahead + ground.received["back", fund.pk]


def to_pay_back(ground: Ground, fund: Fund) -> Iterator[Flow]:
    """What came and no claim accounts for, by the last report."""
    over = ground.received["fund", fund.pk] + to_account_for(ground, fund)
    if over > 0:
        day = ground.to_pay_on(last_report(ground, fund))
        yield flow(fund, day, -over, "Came, and no claim accounts for it: to be paid back.")


def charges(ground: Ground, fund: Fund, asked: Asked = AS_AGREED) -> list[Charge]:
    """What the fund pays of bills and of what is still to be spent, less what was claimed."""
    found = list(ground.spent.get(fund.pk, ()))
    for forecast in ground.forecasts:
        cents = min(ground.planned.get(forecast.key, {}).get(fund.pk, 0), forecast.cents)
        if cents:
            value = engine.Share(expense=forecast_value(forecast), fund=str(fund.pk), cents=cents)
            found += planned(ground, forecast, value, asked)
    return found


def planned(ground: Ground, row: Forecast, share: engine.Share, asked: Asked) -> list[Charge]:
    """What is still to be spent, on the days on which it is paid: an order by its terms."""
    dues = dues_of(ground, row.order, asked) if row.order else ()
    if not dues:
        return [charge(ground.to_pay_on(row.day), [share])]
    parts = largest_remainder(share.cents, [due.cents for due in dues])
    return [
        charge(due.day or row.day, [replace(share, cents=cents)])
        for due, cents in zip(dues, parts, strict=True)
        if cents
    ]


def unclaimable(ground: Ground, fund: Fund, payment: Payment) -> int:
    """Cents that are paid after the last claim: they are never paid back."""
    days = days_to_claim(ground, fund, payment)
    if not payment.back or not days:
        return 0
    return sum(row.cents for row in charges(ground, fund) if row.day > days[-1])


def held_day(ground: Ground, fund: Fund, payment: Payment) -> date:
    day = last_report(ground, fund) + timedelta(payment.held_lag_days)
    return ground.to_come_on(day, payment.held_lag_days)


def last_report(ground: Ground, fund: Fund) -> date:
    public = ground.days.public_on if ground.days else None
    reports = report_dates(ground.books.fund_values[fund.pk], public_on=public)
    return reports[-1].on if reports else fund.period_end or ground.last_day


def part(ground: Ground, row: Milestone, asked: Asked) -> Iterator[Flow]:
    """A milestone that is not paid in full, on the plan."""
    left = row.cents - ground.received["milestone", row.pk]
    fund = next(f for f in ground.books.funds if f.pk == row.fund_id)
    if left <= 0 or fund.status != FundStatus.SIGNED:
        return
    due = row.invoiced_on or falls_on(row, ground.days) or ground.last_day
    sooner = asked.sooner_days if asked.milestone == row.pk else 0
    day = due + timedelta(row.pay_days - sooner)
    on = ground.to_come_on(day, row.pay_days - sooner)
    yield flow(fund, on, left, f"{row.title}, {in_words(due)}.")


def flow(fund: Fund, day: date, cents: int, why: str, key: str = "") -> Flow:
    return Flow(day=day, cents=cents, what=fund.name, why=why, key=key or f"fund-{fund.pk}")
