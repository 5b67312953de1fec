"""The best fit: classes, the LP and its bound, whole cents, and back to the expenses."""

from dataclasses import dataclass, replace

from budgets.engine.best.bound import bound
from budgets.engine.best.checker import Checker
from budgets.engine.best.classes import Classes, classify
from budgets.engine.best.exact import Whole, settle
from budgets.engine.best.mend import barred_locks, loosen, strictly
from budgets.engine.best.problem import BestError, Finding, Fit, LocksBreak, Problem
from budgets.engine.best.program import Program
from budgets.engine.best.rows import program_of
from budgets.engine.best.spread import fit_of, locked_use


class Unsound(BestError):
    """The answer does not pass its own check: a defect of the solver, never of the books."""

    code = "unsound"

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(" ".join(finding.sentence for finding in findings[:3]))
        self.findings = findings


@dataclass(frozen=True, slots=True)
class Solved:
    classes: Classes
    program: Program
    whole: Whole
    bound: int
    findings: tuple[Finding, ...]

    @property
    def used(self) -> int:
        """Money that lapses, in cents, with what is locked."""
        return self.whole.objective(self.program.objectives[0]) + locked_use(self.classes)


def best_fit(problem: Problem) -> Fit:
    """The most money that lapses, then money that does not, then narrow and early money first.

    Amounts in integer cents. No assignment under the same rules uses more than `bound` cents; it
    is added up in whole numbers, and the answer is checked again expense by expense. The same
    problem has the same answer, in whatever order it is given. What claims hold already stays; a
    rule that it breaks is among the `findings`, and binds the rest as far as it can.

    >>> from datetime import date
    >>> from budgets.engine import Expense, Fund, rule_from
    >>> lit = rule_from("allowed_categories", {"categories": ["lighting"]})
    >>> flex = Fund(key="flex", name="Ward fund", award=5000_00)
    >>> lights = Fund(key="lights", name="Lights fund", award=5000_00, rules=(lit,))
    >>> lamp = Expense(key="lamp", amount=5000_00, day=date(2031, 2, 3), category="lighting")
    >>> paint = Expense(key="paint", amount=5000_00, day=date(2031, 3, 3), category="materials")
    >>> fit = best_fit(Problem(expenses=(lamp, paint), funds=(flex, lights)))
    >>> fit.used, fit.bound, [(share.expense.key, share.fund) for share in fit.shares]
    (1000000, 1000000, [('lamp', 'lights'), ('paint', 'flex')])
    """
    solved = solve(problem)
    fit = fit_of(problem, solved.classes, solved.program, solved.whole.values)
    fit = replace(fit, bound=max(fit.used, solved.bound), findings=solved.findings)
    found = Checker(problem, fit, barred_too=False).findings()  # bars were sifted before
    broken = tuple(finding for finding in found if not known(finding, solved.findings))
    if broken:
        raise Unsound(broken)
    return fit


def known(finding: Finding, findings: tuple[Finding, ...]) -> bool:
    """Whether locked shares break this rule of this fund already."""
    return any((one.code, one.fund) == (finding.code, finding.fund) for one in findings)


def solve(problem: Problem) -> Solved:
    classes = classify(problem)
    return solve_program(problem, classes, program_of(classes))


def solve_program(problem: Problem, classes: Classes, program: Program) -> Solved:
    """The program in whole cents, with what the locks break already."""
    solved = settled(problem, classes, program)
    return replace(solved, findings=barred_locks(problem, classes) + solved.findings)


def most_used(classes: Classes) -> int:
    """The first objective alone, in cents, with what is locked: for what a change is worth."""
    program = program_of(classes)
    program.objectives = program.objectives[:1]
    return settled(classes.problem, classes, program).used


def settled(problem: Problem, classes: Classes, program: Program) -> Solved:
    findings: tuple[Finding, ...] = ()
    try:
        relaxed = strictly(problem, program)
    except LocksBreak as broken:
        findings, relaxed = broken.findings, loosen(program)
    most = bound(program, relaxed.prices)
    whole = settle(program, relaxed, most)
    reached = whole.objective(program.objectives[0])
    ends = reached if whole.proven else max(most, reached)
    return Solved(classes, program, whole, ends + locked_use(classes), findings)
