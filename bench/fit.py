"""The best fit against the habit of paying each expense from the first fund that takes it.

Run: python -m bench.fit [projects a cell]

Random projects, 20 in each cell unless told otherwise: 18 categories of cost, 12 % gifts in kind,
6 % without a proof of payment, 3 to 12 funds with periods, lists of categories, caps, match and
an agreed budget. They are drawn, not real books. Every answer is held against the checker, which
shares nothing with the solver, before it counts. Times are of the processor, from the expenses to
the shares, rules read and answer checked. Beside each stands the aim: what a first try of the same
method took on two cores. What a habit loses is told in percent of the money that the best fit
uses; the aim is of the same order (13.3 % in listed order, 9.0 % tightest first, 6.3 % earliest
closing first). Overhead is off on both sides.
"""

import random
import sys
from datetime import date, timedelta
from statistics import mean, median
from time import process_time
from typing import Any

from budgets.engine import Expense, Fund, Match, Rule, rule_from
from budgets.engine.best import Order, Policy, Problem, best_fit, check, first_come
from budgets.engine.categories import CATEGORIES

AIMS = {
    (50, 3): (0.024, 0.05), (50, 6): (0.071, 0.66), (50, 12): (0.112, 1.05),
    (500, 3): (0.033, 0.63), (500, 6): (0.124, 0.47), (500, 12): (0.395, 1.50),
    (5000, 3): (0.037, 0.14), (5000, 6): (0.132, 0.44), (5000, 12): (0.730, 2.74),
}  # fmt: skip
NAMES = sorted({*CATEGORIES, "lighting", "plants", "engineering", "insurance"})
START = date(2031, 1, 1)
PAPERS = frozenset({"receipt", "payment"})


def random_project(seed: int, expenses: int, funds: int) -> Problem:
    rng = random.Random(f"{seed} {expenses} {funds}")
    items = tuple(random_expense(rng, number) for number in range(expenses))
    cash = sum(item.amount for item in items if not item.in_kind)
    sources = tuple(random_fund(rng, number, cash, funds) for number in range(funds))
    return Problem(expenses=items, funds=sources, policy=Policy(minimum_charge=1))


def random_expense(rng: random.Random, number: int) -> Expense:
    gift = rng.random() < 0.12
    papers = {"letter", "timesheet"} if gift else {"receipt"}
    if rng.random() >= 0.06 and not gift:
        papers.add("payment")
    return Expense(
        key=f"{number:05}",
        amount=max(100, int(rng.lognormvariate(10.5, 1.1))),
        day=START + timedelta(days=rng.randrange(400)),
        category=rng.choice(NAMES),
        in_kind=gift,
        papers=frozenset(papers),
        quotes=rng.choice((0, 1, 2, 3)),
        reasoned=rng.random() < 0.9,
    )


def random_fund(rng: random.Random, number: int, cash: int, funds: int) -> Fund:
    opens = START + timedelta(days=rng.randrange(-30, 120))
    award = int(cash * rng.uniform(0.5, 1.5) / funds)
    narrow = rng.random() < 0.4
    rules: list[Rule] = []
    if narrow:
        named = rng.sample(NAMES, rng.randint(2, 6))
        rules.append(rule_from("allowed_categories", {"categories": named}))
    else:
        barred = rng.sample(NAMES, rng.randint(1, 4))
        rules.append(rule_from("barred_categories", {"categories": barred}))
    if rng.random() < 0.6:
        rules.append(rule_from("papers_needed", {"papers": ["receipt", "payment"]}))
    rules += [random_cap(rng, award) for _ in range(rng.randint(0, 2))]
    federal = rng.random() < 0.3
    asks = federal or rng.random() < 0.35
    given = random_budget(rng, award, rules)
    return Fund(
        key=f"fund {number:02}",
        name=f"Fund {number}",
        award=award,
        federal=federal,
        kind="federal" if federal else "grant",
        period_start=opens,
        period_end=opens + timedelta(days=rng.randrange(120, 365)),
        match=random_match(rng) if asks else None,
        pool=rng.choice(("", "", "state")),
        rules=tuple(rules),
        budget=given,
    )


def random_cap(rng: random.Random, award: int) -> Rule:
    named = rng.sample(NAMES, rng.randint(1, 3))
    code = rng.choice(("category_cap", "category_share_cap", "category_claimed_cap"))
    if code == "category_cap":
        return rule_from(code, {"categories": named, "cents": int(award * rng.uniform(0.05, 0.4))})
    return rule_from(
        code, {"categories": named, "basis_points": rng.choice((500, 1000, 1500, 2500))}
    )


def random_match(rng: random.Random) -> Match:
    numerator, denominator = rng.choice(((1, 1), (1, 1), (1, 2), (1, 3), (1, 10)))
    return Match(
        numerator=numerator,
        denominator=denominator,
        in_kind=rng.random() < 0.8,
        cash_basis_points=rng.choice((0, 0, 5000)),
    )


def random_budget(rng: random.Random, award: int, rules: list[Rule]) -> dict[str, int]:
    if rng.random() > 0.25:
        return {}
    rules.append(rule_from("agreed_budget", {"basis_points": 1000}))
    parts = [rng.random() for _ in NAMES]
    return {name: int(award * part / sum(parts)) for name, part in zip(NAMES, parts, strict=True)}


def timed(what: Any, *given: Any) -> tuple[float, Any]:
    begun = process_time()
    found = what(*given)
    return process_time() - begun, found


def main(projects: int) -> None:
    best_fit(random_project(0, 20, 3))  # loads the solvers
    print("expenses funds |  median (aim)    max (aim) s |  habit s | dollars used, mean "
          "| listed tightest closing lose | within 1 cent, worst gap")  # fmt: skip
    losses: dict[Order, list[float]] = {order: [] for order in Order}
    for (expenses, funds), aim in AIMS.items():
        times, habits, used, gaps = [], [], [], []
        lost: dict[Order, list[float]] = {order: [] for order in Order}
        for seed in range(projects):
            problem = random_project(seed, expenses, funds)
            took, fit = timed(best_fit, problem)
            assert not check(problem, fit)
            times.append(took)
            used.append(fit.used)
            gaps.append(fit.gap)
            for order in Order:
                took, habit = timed(first_come, problem, order)
                habits.append(took)
                assert not check(problem, habit) and habit.used <= fit.bound
                lost[order].append(100 * (fit.used - habit.used) / max(1, fit.used))
        for order in Order:
            losses[order] += lost[order]
        part = " ".join(f"{mean(lost[order]):6.1f} %" for order in Order)
        near = sum(gap <= 1 for gap in gaps)
        print(f"{expenses:8} {funds:5} | {median(times):6.3f} ({aim[0]:.3f}) {max(times):6.2f} "
              f"({aim[1]:.2f})  | {median(habits):7.3f}  | {mean(used) / 100:16,.2f}    | {part} "
              f"| {near} of {projects}, {max(gaps)}", flush=True)  # fmt: skip
    for order in Order:
        rows = losses[order]
        print(f"{order.value:9} loses {mean(rows):.1f} % on average, {max(rows):.1f} % at worst")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
