"""Why a fund does not pay an expense, or not all of it, at the best fit."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from budgets.engine.bars import bars, eligible, match_bars
from budgets.engine.best.checker import added, by_day
from budgets.engine.best.problem import Fit, Problem
from budgets.engine.best.worth import ENOUGH_QUOTES, expense_of, mended, worth
from budgets.engine.limits import rows_of
from budgets.engine.match import cash_needed, match_needed
from budgets.engine.model import Expense, Fund, Refusal, Row, Sum
from budgets.engine.money import dollars
from budgets.engine.payers import match_of, may_pay_match, pool_of
from budgets.engine.registry import RULES

AWARD, MATCH, CASH, CEILING = "award", "match", "match_cash", "rate_ceiling"
NO_GAIN = "no_gain"
OF_MATCH = frozenset({MATCH, CASH, "match_kind"})
TODO = {
    "papers_needed": "Attach the paper.",
    "quotes_needed": "Attach the quotes.",
    "reason_needed": "Write why it was necessary and its price fair.",
    "not_signed": "Have the agreement signed.",
    AWARD: "Nothing more can be charged, unless the award grows.",
    MATCH: "Spend more own money on costs it counts, or write down gifts in kind.",
    CASH: "Spend more cash from elsewhere on costs it counts.",
    "agreed_budget": "Ask for a change of budget.",
    CEILING: "What is above the rate stays your own.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why one fund does not pay more of an expense.

    `cents` is the number in it: what is missing, or over. `day` the day that counts. `worth`, when
    it was asked, is what the funds would pay more, in cents, with what `todo` says done.
    """

    fund: str
    code: str
    sentence: str
    cents: int | None = None
    day: date | None = None
    todo: str = ""
    worth: int | None = None

    @property
    def mendable(self) -> bool:
        return self.code in RULES and RULES[self.code].mendable


def explain(
    problem: Problem, fit: Fit, expense: str, *, reckon: bool = False
) -> tuple[Reason, ...]:
    """Fund by fund, why an expense (its key) is not charged to it, or not more of it.

    What bars it outright comes with its day and what to do; else the limit that is reached; else
    that nothing would be gained. With `reckon`, what can be mended is solved anew and its worth
    told in cents. Gifts and expenses that are paid whole have no reasons.

    Raises Unknown for a key that is not among the expenses.

    >>> from datetime import date
    >>> from budgets.engine.best import best_fit
    >>> steel = Expense(key="steel", amount=900_00, day=date(2031, 3, 3), category="materials")
    >>> ward = Fund(key="ward", name="Ward fund", award=500_00)
    >>> problem = Problem(expenses=(steel,), funds=(ward,))
    >>> [reason.sentence for reason in explain(problem, best_fit(problem), "steel")]
    ['The award of Ward fund ($500.00) is used up.']
    """
    return Explainer(problem, fit).reasons(expense, reckon=reckon)


class Explainer:
    """Explains one expense after the other; what they share is added up once."""

    def __init__(self, problem: Problem, fit: Fit) -> None:
        self.problem, self.fit, self.symbol = problem, fit, problem.symbol
        self.pools = {fund.key: self._pool(fund) for fund in problem.sources}

    def _pool(self, fund: Fund) -> str:
        return "all" if self.problem.policy.strict_pools else pool_of(fund)

    def reasons(self, key: str, *, reckon: bool = False) -> tuple[Reason, ...]:
        item = expense_of(self.problem, key)
        if item.in_kind or not self.fit.own.get(key, 0):
            return ()
        found = [row for fund in self.problem.sources for row in self.of_fund(fund, item)]
        return tuple(self.reckoned(item, row) for row in found) if reckon else tuple(found)

    def of_fund(self, fund: Fund, item: Expense) -> list[Reason]:
        barred = bars(fund, item)
        if barred:
            return [self.outright(fund, item, reason) for reason in barred]
        found = list(self.full(fund, item))
        if found:
            return found
        words = f"{fund.name} may pay it, and would then pay less of another: nothing is gained."
        return [Reason(fund=fund.key, code=NO_GAIN, sentence=words)]

    def outright(self, fund: Fund, item: Expense, reason: Refusal) -> Reason:
        day = reason.limit if isinstance(reason.limit, date) else None
        return Reason(
            fund=fund.key,
            code=reason.code,
            sentence=reason.sentence,
            day=day,
            todo=TODO.get(reason.code, ""),
        )

    def full(self, fund: Fund, item: Expense) -> Iterator[Reason]:
        """The limits that one more cent of the expense would break."""
        paid = self.paid.get((item.key, fund.key), 0)
        if paid >= eligible(fund, item):
            words = f"{fund.name} pays at most {self.say(eligible(fund, item))} of it at its rate."
            yield self.reason(fund, CEILING, words, eligible(fund, item))
            return
        left = self.award_left(fund)
        if left is not None and left <= 0:
            words = f"The award of {fund.name} ({self.say(fund.award or 0)}) is used up."
            yield self.reason(fund, AWARD, words, fund.award)
            return
        for row in rows_of(fund, project_total=self.problem.total):
            if row.code not in OF_MATCH and row.code != AWARD and self.tight(fund, row, item):
                yield self.reason(fund, row.code, f"{fund.name}: {row.sentence} That is reached.")
        yield from self.short(fund, item)

    def tight(self, fund: Fund, row: Row, item: Expense) -> bool:
        """Whether a row has no room for one more cent."""
        one = Counter({(item.category, item.day): 1})
        with_it = self.charges(fund) + one
        before, after = self.value(fund, row, self.charges(fund)), self.value(fund, row, with_it)
        return after > row.most and after > before

    def value(self, fund: Fund, row: Row, charges: Counter[tuple[str, date]]) -> int:
        total = 0
        for term in row.terms:
            if term.of is Sum.INDIRECT:
                total += term.weight * self.fit.indirect.get(fund.key, 0)
            else:
                cents = added(term, charges)
                over = max(0, cents - term.base)
                total += term.weight * (over if term.of is Sum.OVER else cents)
        return total

    def short(self, fund: Fund, item: Expense) -> Iterator[Reason]:
        """Match that is missing for what is left of the expense."""
        match = match_of(fund, self.problem.total)
        if match is None:
            return
        claimed = self.fit.charged.get(fund.key, 0) + self.fit.indirect.get(fund.key, 0)
        cash, kind = self.at_hand(fund)
        own = may_pay_match(fund, None) and not match_bars(fund, item)
        lost = 1 if own else 0  # the cent itself was own money that counts
        if match_needed(match, claimed + 1) > cash + kind - lost:
            wanted = match_needed(match, claimed + self.fit.own.get(item.key, 0)) - cash - kind
            words = f"{fund.name} lacks match: {self.say(max(1, wanted))} more for the rest of it."
            yield self.reason(fund, MATCH, words, max(1, wanted))
        elif cash_needed(match, claimed + 1) > cash - lost:
            wanted = cash_needed(match, claimed + self.fit.own.get(item.key, 0)) - cash
            words = f"{fund.name} lacks cash match: {self.say(max(1, wanted))} more for it."
            yield self.reason(fund, CASH, words, max(1, wanted))

    def at_hand(self, fund: Fund) -> tuple[int, int]:
        """Cents of cash and of gifts that count for a fund, or could: nobody in its pool does."""
        taken = Counter[tuple[str, str]]()
        for row in self.fit.counted:
            if row.fund != fund.key and self.pools.get(row.fund) == self.pools[fund.key]:
                taken[row.expense.key, row.payer if row.payer in self.pools else ""] += row.cents
        found = [0, 0]
        for item in self.problem.taking_part:
            if not match_bars(fund, item):
                for payer, cents in self.payers(fund, item):
                    found[item.in_kind] += max(0, cents - taken[item.key, payer])
        return found[0], found[1]

    def payers(self, fund: Fund, item: Expense) -> Iterator[tuple[str, int]]:
        if item.in_kind:
            yield "", item.amount
            return
        for payer in (None, *self.problem.sources):
            if may_pay_match(fund, payer):
                key = payer.key if payer else ""
                own = self.fit.own.get(item.key, 0)
                yield key, self.paid.get((item.key, key), 0) if payer else own

    def reckoned(self, item: Expense, reason: Reason) -> Reason:
        if not reason.mendable:
            return reason
        fund = next(fund for fund in self.problem.sources if fund.key == reason.fund)
        better = mend(item, bars(fund, item))
        return replace(reason, worth=worth(self.problem, self.fit, mended(self.problem, better)))

    def award_left(self, fund: Fund) -> int | None:
        if fund.award is None:
            return None
        charged = self.fit.charged.get(fund.key, 0)
        return fund.award - charged - self.fit.indirect.get(fund.key, 0)

    @cached_property
    def paid(self) -> Counter[tuple[str, str]]:
        found = Counter[tuple[str, str]]()
        for share in self.fit.shares:
            found[share.expense.key, share.fund] += share.cents
        return found

    def charges(self, fund: Fund) -> Counter[tuple[str, date]]:
        mine = [share for share in self.fit.shares if share.fund == fund.key]
        return by_day((share.expense, share.cents) for share in mine)

    def reason(self, fund: Fund, code: str, words: str, cents: int | None = None) -> Reason:
        return Reason(
            fund=fund.key, code=code, sentence=words, cents=cents, todo=TODO.get(code, "")
        )

    def say(self, cents: int) -> str:
        return dollars(cents, self.symbol)


def mend(item: Expense, refusals: tuple[Refusal, ...]) -> Expense:
    """The expense with all that can still be brought for these refusals."""
    for refusal in refusals:
        if refusal.code == "quotes_needed":
            item = replace(item, quotes=ENOUGH_QUOTES)
        elif refusal.code == "reason_needed":
            item = replace(item, reasoned=True)
        elif isinstance(refusal.actual, frozenset):
            item = replace(item, papers=item.papers | refusal.actual)
    return item
