"""When what claims hold already breaks rules: which, and the least by which they give way."""

from dataclasses import replace
from math import ceil

from budgets.engine.bars import bars, match_bars
from budgets.engine.best.classes import NOBODY, Classes
from budgets.engine.best.lp import NoAssignment, Relaxed, relax, shortest
from budgets.engine.best.problem import Finding, LocksBreak, Problem
from budgets.engine.best.program import Limit, Program
from budgets.engine.model import Refusal
from budgets.engine.payers import may_pay_match

NEAR = 1e-6
PAST = frozenset({"closed", "not_signed"})  # how a fund stands today says nothing of its past


def strictly(problem: Problem, program: Program) -> Relaxed:
    """The LP. Raises LocksBreak with the funds and rules that what is locked breaks."""
    try:
        return relax(program)
    except NoAssignment:
        broken = missing(program)
    findings = [broken_row(problem, program.limits[place], over) for place, over in broken.items()]
    raise LocksBreak(tuple(finding for finding in findings if finding))


def loosen(program: Program) -> Relaxed:
    """The LP with the broken rows as loose as the locks need them, and no looser."""
    for place, over in missing(program).items():
        limit = program.limits[place]
        program.limits[place] = replace(limit, most=limit.most + over)
    return relax(program)


def missing(program: Program) -> dict[int, int]:
    """By row, the whole number by which it must at least give way."""
    short = enumerate(shortest(program))
    return {place: ceil(over - NEAR) for place, over in short if over > NEAR}


def broken_row(problem: Problem, limit: Limit, over: int) -> Finding | None:
    if limit.row is None:
        return None
    fund, row = problem.sources[limit.fund], limit.row
    weight = max((abs(term.weight) for term in row.terms), default=1)
    words = f"what is claimed already breaks a rule. {row.sentence}"
    return Finding(
        code=row.code,
        sentence=f"{fund.name}: {words}",
        fund=fund.key,
        cents=-(-over // weight),
    )


def barred_locks(problem: Problem, classes: Classes) -> tuple[Finding, ...]:
    """Locked shares and match that a rule bars whatever else is charged."""
    found = list(classes.locks.findings)
    for place, payer, _ in classes.locks.pieces():
        if payer != NOBODY:
            item, fund = classes.expenses[place], classes.funds[payer]
            reasons = bars(fund, item)
            found += [barred(fund.key, reason) for reason in reasons if reason.code not in PAST]
    for (place, payer), counted in sorted(classes.locks.match.items()):
        item = classes.expenses[place]
        for award in sorted(counted):
            fund = classes.funds[award]
            found += [barred(fund.key, reason) for reason in match_bars(fund, item)]
            source = None if payer == NOBODY else classes.funds[payer]
            if not item.in_kind and not may_pay_match(fund, source):
                words = f"{fund.name}: match that is claimed is paid by money that is no match."
                found.append(
                    Finding(code="match_payer", sentence=words, fund=fund.key, expense=item.key)
                )
    return tuple(dict.fromkeys(found))


def barred(fund: str, reason: Refusal) -> Finding:
    return Finding(
        code=reason.code,
        sentence=f"Claimed already: {reason.sentence}",
        fund=fund,
        expense=reason.expense or "",
    )
