"""The seven tests before a gift counts, answered from the records where they can be."""

from __future__ import annotations

from dataclasses import dataclass

from budgets.engine import match_bars
from budgets.fit import Books
from budgets.selectors.gift_kinds import tests
from budgets.selectors.gifts import GiftRow
from projects.words import listed

YES, NO, ASK = "holds", "broken", "near"
WORDS = {YES: "yes", NO: "not yet", ASK: "ask"}


@dataclass(frozen=True)
class Test:
    question: str
    state: str  # holds, broken or near, as on every page
    why: str

    @property
    def word(self) -> str:
        return WORDS[self.state]


def seven_tests(books: Books, row: GiftRow) -> list[Test]:
    """In the order of 2 CFR 200.306(b)."""
    answers = {
        "records": records(row),
        "once": once(books, row),
        "needed": needed(row),
        "allowable": allowable(books, row),
        "not_federal": (YES, "Nobody is paid for it: it is a gift."),
        "budgeted": budgeted(books, row),
        "terms": (ASK, "Only the award’s own paper says. Read it, or ask its holder."),
    }
    return [Test(question, *answers[key]) for key, question in tests().items()]


def records(row: GiftRow) -> tuple[str, str]:
    if row.gaps:
        return NO, f"{'. '.join(row.gaps)}."
    return YES, "All that its kind asks for is here."


def once(books: Books, row: GiftRow) -> tuple[str, str]:
    counted = {fund for fund, _ in books.counted_of.get(row.expense.pk, {})}
    named = [f.name for f in books.funds if f.pk in counted and f.federal_money]
    if len(named) > 1:
        return NO, f"It counts for {listed(named)}. Take it out of all but one."
    return YES, f"It counts for {named[0]} only." if named else "It counts for no federal award."


def needed(row: GiftRow) -> tuple[str, str]:
    expense = row.expense
    if expense.need.strip() and expense.basis.strip():
        return YES, expense.need
    lacks = "why the work needed it" if expense.basis.strip() else "where the value comes from"
    return NO, f"Write down {lacks}."


def allowable(books: Books, row: GiftRow) -> tuple[str, str]:
    """Whatever bars a charge bars the match too, fund by fund."""
    value = books.expense_values[row.expense.pk]
    asking = [fund for fund in books.funds if books.fund_values[fund.pk].match]
    if not asking:
        return ASK, "No fund of this project asks for match yet."
    barred = {f.name: match_bars(books.fund_values[f.pk], value) for f in asking}
    open_to = [name for name, reasons in barred.items() if not reasons]
    if open_to:
        return YES, f"{listed(open_to)} would take it as match."
    return NO, " ".join(reasons[0].sentence for reasons in barred.values())


def budgeted(books: Books, row: GiftRow) -> tuple[str, str]:
    category = row.expense.line.category
    plans = [fund.name for fund in books.funds if category in (fund.approved or {})]
    if plans:
        return YES, f"The budget that {listed(plans)} approved names this category."
    return ASK, "No approved budget is kept here that names it. Look whether the award asks."
