"""Holds any assignment against every rule, expense by expense, apart from what made it.

Plain whole numbers; nothing is shared with the classes or the solver but the rules themselves.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from datetime import date

from budgets.engine.bars import bars, eligible, match_bars
from budgets.engine.best.problem import STEADY, Finding, Fit, Problem
from budgets.engine.limits import indirect_of, rows_of
from budgets.engine.model import Counted, Expense, Fund, Row, Share, Sum, Term
from budgets.engine.money import dollars
from budgets.engine.payers import may_pay_match, pool_of

Sums = Counter[tuple[str, date]]  # cents by category and day


def check(problem: Problem, fit: Fit) -> tuple[Finding, ...]:
    """Everything that an assignment breaks; nothing when it is sound.

    Every share against the bars and ceilings of its fund, every cent of match against its payer
    and its pool, every row of every fund, the sums of each expense, what is locked, and the
    figures of the fit itself. Cents throughout.

    >>> from budgets.engine.best import Problem, best_fit
    >>> check(Problem(expenses=(), funds=()), best_fit(Problem(expenses=(), funds=())))
    ()
    """
    return tuple(Checker(problem, fit).findings())


class Checker:
    """`barred_too` False leaves out what bars a single expense, for whoever sifted it before."""

    def __init__(self, problem: Problem, fit: Fit, *, barred_too: bool = True) -> None:
        self.problem, self.fit = problem, fit
        self.funds = {fund.key: fund for fund in problem.sources}
        self.expenses = {item.key: item for item in problem.taking_part}
        self.barred_too = barred_too
        self.mine: dict[str, list[Share]] = defaultdict(list)
        for share in fit.shares:
            self.mine[share.fund].append(share)
        self.held, self.claimed = Counter[tuple[str, str]](), Counter[str]()
        for share in problem.locked:
            self.held[share.expense.key, share.fund] += share.cents
            self.claimed[share.expense.key] += share.cents

    def findings(self) -> Iterator[Finding]:
        yield from self.sums()
        if self.barred_too:
            for share in self.fit.shares:
                yield from self.share(share)
            for row in self.fit.counted:
                yield from self.match(row)
        yield from self.once()
        for fund in self.funds.values():
            yield from self.rows(fund)
            yield from self.overhead(fund)
        if self.problem.locked or self.problem.locked_match:
            yield from self.locks()
        yield from self.figures()

    def sums(self) -> Iterator[Finding]:
        """Charged and own make the amount; a gift pays no bill."""
        charged = Counter[str]()
        for share in self.fit.shares:
            charged[share.expense.key] += share.cents
        for key, item in self.expenses.items():
            own = item.amount - charged[key] if not item.in_kind else 0
            if own < 0 or own != self.fit.own.get(key, 0):
                yield self.found("conservation", "The parts are not the whole.", expense=key)
            if item.in_kind and charged[key] > self.claimed[key]:
                yield self.found("gifts", "A gift in kind pays no bill.", expense=key)

    def share(self, share: Share) -> Iterator[Finding]:
        fund, item = self.funds.get(share.fund), self.expenses.get(share.expense.key)
        if fund is None or item is None or item != share.expense:
            yield self.found("unknown", "A share of nobody.", share.fund, share.expense.key)
            return
        if share.cents <= self.held[item.key, fund.key]:
            return
        for reason in bars(fund, item):
            yield self.found(reason.code, reason.sentence, fund.key, item.key)
        if share.cents > eligible(fund, item):
            yield self.found("rate_ceiling", "Above a ceiling.", fund.key, item.key)

    def match(self, row: Counted) -> Iterator[Finding]:
        fund, item = self.funds.get(row.fund), self.expenses.get(row.expense.key)
        if fund is None or item is None:
            yield self.found("unknown", "Match of nobody.", row.fund, row.expense.key)
            return
        if row in self.problem.locked_match:
            return
        for reason in match_bars(fund, item):
            yield self.found(reason.code, reason.sentence, fund.key, item.key)
        payer = self.funds.get(row.payer)
        if not item.in_kind and not may_pay_match(fund, payer):
            yield self.found("match_payer", "Money that is no match.", fund.key, item.key)
        allowed = self.problem.policy.match_from
        kind = "in_kind" if item.in_kind else payer.kind if payer else "own"
        if allowed is not None and kind not in allowed:
            yield self.found("match_payer", "Not to be match.", fund.key, item.key)

    def once(self) -> Iterator[Finding]:
        """Inside a pool no cent counts twice, and none that its payer did not pay."""
        counted = Counter[tuple[str, str, str]]()
        for row in self.fit.counted:
            if row.fund in self.funds:
                payer = row.payer if row.payer in self.funds else ""
                counted[row.expense.key, payer, self.pool(row.fund)] += row.cents
        paid = Counter[tuple[str, str]]()
        for share in self.fit.shares:
            paid[share.expense.key, share.fund] += share.cents
        for (expense, payer, pool), cents in counted.items():
            item = self.expenses.get(expense)
            gift = item is not None and item.in_kind
            own = item.amount if item and gift else self.fit.own.get(expense, 0)
            if cents > (paid[expense, payer] if payer else own):
                yield self.found("counted_once", f"Counted twice in {pool}.", expense=expense)

    def pool(self, key: str) -> str:
        return "all" if self.problem.policy.strict_pools else pool_of(self.funds[key])

    def rows(self, fund: Fund) -> Iterator[Finding]:
        charged = by_day((share.expense, share.cents) for share in self.mine[fund.key])
        match = [row for row in self.fit.counted if row.fund == fund.key]
        cash = by_day((row.expense, row.cents) for row in match if not row.expense.in_kind)
        kind = by_day((row.expense, row.cents) for row in match if row.expense.in_kind)
        sums = {Sum.CHARGED: charged, Sum.OVER: charged, Sum.MATCH_CASH: cash, Sum.MATCH_KIND: kind}
        for row in rows_of(fund, project_total=self.problem.total):
            over = self.value(fund, row, sums) - row.most
            if over > 0:
                yield self.found(row.code, f"{fund.name}: {row.sentence}", fund.key, cents=over)

    def value(self, fund: Fund, row: Row, sums: dict[Sum, Sums]) -> int:
        total = 0
        for term in row.terms:
            if term.of is Sum.INDIRECT:
                total += term.weight * self.fit.indirect.get(fund.key, 0)
            else:
                cents = added(term, sums[term.of])
                total += term.weight * (max(0, cents - term.base) if term.of is Sum.OVER else cents)
        return total

    def overhead(self, fund: Fund) -> Iterator[Finding]:
        rule, cents = indirect_of(fund), self.fit.indirect.get(fund.key, 0)
        most = rule.most(self.mine[fund.key]) if rule else 0
        most = max(most, self.problem.locked_indirect.get(fund.key, 0))
        if not 0 <= cents <= most:
            asked, top = dollars(cents, fund.symbol), dollars(most, fund.symbol)
            words = f"{fund.name}: overhead of {asked} is above {top}."
            yield self.found("indirect_rate", words, fund.key, cents=cents - most)

    def locks(self) -> Iterator[Finding]:
        """What is locked is there, unless its expense has become smaller than that."""
        shrunk = {one.expense for one in self.fit.findings if one.code == "more_than_expense"}
        shares = Counter[tuple[str, str]]()
        for share in self.fit.shares:
            shares[share.expense.key, share.fund] += share.cents
        for (expense, fund), cents in self.held.items():
            if fund in self.funds and expense not in shrunk and shares[expense, fund] < cents:
                yield self.found("locked", "Less than what is claimed.", fund, expense)
        match, asked = matched(self.fit.counted), matched(self.problem.locked_match)
        twice = {one.expense for one in self.fit.findings if one.code == "counted_once"}
        for key, cents in asked.items():
            known = key[1] in self.funds and key[0] not in shrunk | twice
            if known and match[key] < cents:
                yield self.found("locked", "Less match than what is claimed.", key[1], key[0])

    def figures(self) -> Iterator[Finding]:
        charged = Counter(self.fit.indirect)
        charged.update(self.fit.charged)
        used = sum(charged[key] for key, fund in self.funds.items() if fund.kind not in STEADY)
        if used != self.fit.used or self.fit.used > self.fit.bound:
            yield self.found("figures", "The figures do not add up.", cents=self.fit.used - used)

    def found(
        self, code: str, sentence: str, fund: str = "", expense: str = "", cents: int = 0
    ) -> Finding:
        return Finding(code=code, sentence=sentence, fund=fund, expense=expense, cents=cents)


def by_day(parts: Iterable[tuple[Expense, int]]) -> Sums:
    found: Sums = Counter()
    for item, cents in parts:
        found[item.category, item.day] += cents
    return found


def added(term: Term, sums: Sums) -> int:
    return sum(
        cents
        for (category, day), cents in sums.items()
        if (not term.categories or category in term.categories)
        and (term.first is None or day >= term.first)
        and (term.last is None or day <= term.last)
    )


def matched(rows: Iterable[Counted]) -> Counter[tuple[str, str, str]]:
    found = Counter[tuple[str, str, str]]()
    for row in rows:
        found[row.expense.key, row.fund, row.payer] += row.cents
    return found
