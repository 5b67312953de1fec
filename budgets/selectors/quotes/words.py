"""What matters now about a request, in one sentence, and the one next action."""

from __future__ import annotations

from datetime import date

from budgets.engine.choice import Choice, Why
from budgets.selectors.quotes.compare import Asked, Comparison
from budgets.selectors.quotes.rows import QuoteRow
from projects.words import day, money, plural


def sentence(found: Comparison) -> str:
    """The best choice and why; or what is waited for."""
    if found.request.is_closed:
        return closed(found)
    if not found.answers:
        return waits(found)
    best, choice = found.best, found.choice
    assert best is not None
    assert choice is not None
    parts = [named(found, best, choice), *cautions(found, best)]
    return " ".join(parts)


def closed(found: Comparison) -> str:
    chosen = found.chosen
    if chosen is None:
        return "Closed without an order."
    price = cash(found, chosen.price)
    why = f": {found.request.reason}" if found.request.reason else ""
    return f"{chosen.quote.supplier.name} was chosen at {price}{why.rstrip('.')}."


def waits(found: Comparison) -> str:
    count = len(found.waiting) + len(found.declined)
    if not count:
        return "Nobody is asked yet. Choose two or three suppliers and ask them in the same words."
    if len(found.not_asked) == count:
        return f"{plural(count, 'supplier is', 'suppliers are')} chosen and not asked yet."
    if not found.waiting:
        return "Nobody quotes for it. Ask somebody else, or change what is asked for."
    return f"{plural(len(found.waiting), 'answer')} still to come{due_words(found)}."


def due_words(found: Comparison) -> str:
    due = found.request.answer_by
    if due is None:
        return ""
    return f", due {day(due)}" if due >= found.today else f", due since {day(due)}"


def named(found: Comparison, best: QuoteRow, choice: Choice) -> str:
    name, price = best.quote.supplier.name, cash(found, best.price)
    if choice.why == Why.CLOSEST:
        count = len(found.answers)
        none = "The only quote misses" if count == 1 else f"None of {count} quotes keeps"
        return f"{none} the public date: {name} at {price} {leaves(found, best)}."
    if choice.why == Why.ONLY:
        return f"One answer so far: {name} at {price} {leaves(found, best)}."
    if choice.why == Why.CHEAPEST:
        return f"{name} is the cheapest at {price} and {leaves(found, best)}."
    return f"Take {name} at {price}: it {leaves(found, best)}. {cheaper(found, choice)}"


def leaves(found: Comparison, row: QuoteRow) -> str:
    """What a quote leaves of the public date, or when it is there."""
    if row.effect is None:
        return "says nothing of its lead time"
    in_hand = row.effect.in_hand
    if in_hand is None:
        return f"would be there {day(row.effect.ready_on)}"
    if in_hand < 0:
        return f"misses it by {plural(-in_hand, 'working day')}"
    left = plural(in_hand, "day") if in_hand else "no days"
    return f"leaves {left} in hand"


def cheaper(found: Comparison, choice: Choice) -> str:
    """Why the cheapest is not the one to take."""
    row = next(r for r in found.answers if str(r.quote.pk) == choice.cheapest.key)
    breaks = []
    if choice.misses_date and row.effect and row.effect.in_hand is not None:
        date_name = found.trial.public_name or "the public date"
        breaks.append(f"misses {date_name} by {plural(-row.effect.in_hand, 'working day')}")
    if choice.expired and row.quote.valid_until:
        breaks.append(f"was priced only until {day(row.quote.valid_until)}")
    if choice.comes_late and not choice.misses_date:
        breaks.append(f"comes {plural(row.after_wanted, 'day')} after it is wanted")
    broken = " and ".join(breaks) or "breaks more"
    return f"{row.quote.supplier.name} is {cash(found, choice.dearer)} cheaper but {broken}."


def cautions(found: Comparison, best: QuoteRow) -> list[str]:
    """What to do about the best one, the most pressing first."""
    said = []
    if best.expired and best.quote.valid_until:
        said.append(f"Its price ended {day(best.quote.valid_until)}: ask whether it still holds.")
    elif best.effect and best.effect.latest and not best.missed_order:
        said.append(f"Order it by {day(last_day(best))} at the latest.")
    left = best.left_after
    if left is not None and left < 0 and found.purchase.line:
        said.append(f"It is {cash(found, -left)} more than “{found.purchase.line}” has left.")
    if best.insurance:
        said.append(f"Before you order: {best.insurance}.")
    return said + [asks(found, row) for row in found.short_of[:1]]


def asks(found: Comparison, row: Asked) -> str:
    """How many quotes a fund wants to see, and how many there are."""
    above, have = cash(found, row.above), plural(len(found.answers), "has come", "have come")
    return f"{row.fund.name} asks for {row.quotes} quotes above {above}; {have}."


def last_day(row: QuoteRow) -> date:
    """The earlier of the last day that keeps the date and the last day of the price."""
    assert row.effect is not None
    assert row.effect.latest is not None
    return min(row.effect.latest, row.quote.valid_until or row.effect.latest)


def cash(found: Comparison, cents: int | None) -> str:
    return money(cents, found.request.project.currency)
