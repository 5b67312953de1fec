"""What an expense must show: papers, a place, a reason, and nobody too near."""

from dataclasses import dataclass
from typing import ClassVar

from budgets.engine.categories import in_words
from budgets.engine.model import Charge, Expense, Refusal, Rule
from budgets.engine.money import dollars
from budgets.engine.registry import need_names, need_number, refuse, rule_kind

PAPERS = {
    "receipt": "receipt or invoice",
    "payment": "proof of payment",
    "letter": "giver's letter or rate card",
    "timesheet": "signed time sheet",
    "contract": "contract or order",
}
LETTER, TIMESHEET = "letter", "timesheet"
OF_GIFTS = frozenset({LETTER, TIMESHEET})
BY_HOURS = frozenset({"skilled", "flat", "own_hours"})


@rule_kind
@dataclass(frozen=True, slots=True)
class PapersNeeded(Rule):
    """Every one of `papers` must be attached to an expense of `cents` or more.

    A gift has no bill: of the papers asked for, it needs the time sheet or the letter that fits it.
    Source of the pattern: Arts Council of New Orleans, expenditure form (two papers an expense).
    """

    code: ClassVar[str] = "papers_needed"
    mendable: ClassVar[bool] = True
    papers: frozenset[str]
    cents: int = 0

    def __post_init__(self) -> None:
        need_names(self.code, self.papers, "paper")
        need_number(self.code, self.cents, "The smallest expense in cents")

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        start = f" of {dollars(self.cents, symbol)} or more" if self.cents else ""
        return f"Every expense{start} needs: {_papers(self.papers)}."

    def asked(self, expense: Expense) -> frozenset[str]:
        """The papers that this rule asks of one expense."""
        if expense.amount < self.cents:
            return frozenset()
        if not expense.in_kind:
            return self.papers - {LETTER}
        fits = TIMESHEET if expense.gift in BY_HOURS else LETTER
        return self.papers & ({fits} if expense.gift else OF_GIFTS)

    def check(self, charge: Charge) -> Refusal | None:
        missing = self.asked(charge.expense) - charge.expense.papers
        if not missing:
            return None
        words = f"{charge.fund.name} needs a paper that this expense lacks: {_papers(missing)}."
        return refuse(self, charge, words, self.papers, missing)


def _papers(papers: frozenset[str]) -> str:
    return ", ".join(sorted(PAPERS.get(paper, paper.replace("_", " ")) for paper in papers))


@rule_kind
@dataclass(frozen=True, slots=True)
class Places(Rule):
    """Money that stays in a town; `categories` names the costs it is about (none: all).

    Source of the pattern: City of Madison, arts grant restrictions (no travel out of town).
    """

    code: ClassVar[str] = "places"
    places: frozenset[str]
    categories: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        need_names(self.code, self.places, "place")

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        what = f" for {in_words(self.categories)}" if self.categories else ""
        return f"Pays{what} only in {self.names()}."

    def names(self) -> str:
        return " or ".join(sorted(self.places))

    def check(self, charge: Charge) -> Refusal | None:
        expense, found = charge.expense, charge.expense.place.strip()
        concerned = not self.categories or expense.category in self.categories
        if not concerned or (expense.forecast and not found) or self.inside(found):
            return None
        words = f"{charge.fund.name} pays only in {self.names()}"
        tail = f"this was {found}" if found else "write where this was"
        return refuse(self, charge, f"{words}: {tail}.", self.places, found or None)

    def inside(self, found: str) -> bool:
        return any(place.strip().casefold() in found.casefold() for place in self.places)


RELATIONS = {
    "related": "work by a relative or one's own business",
    "own_space": "one's own space or equipment",
    "regular": "the regular duties of a paid job",
    "fundraising": "raising money",
}


@rule_kind
@dataclass(frozen=True, slots=True)
class BarredRelations(Rule):
    """Source of the pattern: Region 2 Arts Council, budget guidelines; TFFF, in-kind (labour)."""

    code: ClassVar[str] = "barred_relations"
    relations: frozenset[str] = frozenset(RELATIONS)

    def __post_init__(self) -> None:
        need_names(self.code, self.relations, "kind of payee")

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        known = [words for key, words in RELATIONS.items() if key in self.relations]
        start = ", ".join(known[:-1])
        return f"Does not pay for {start + ' or ' if start else ''}{known[-1]}."

    def check(self, charge: Charge) -> Refusal | None:
        found = charge.expense.relation
        if found not in self.relations:
            return None
        words = f"{charge.fund.name} does not pay for {RELATIONS.get(found, found)}."
        return refuse(self, charge, words, self.relations, found)


@rule_kind
@dataclass(frozen=True, slots=True)
class ReasonNeeded(Rule):
    """Source: 2 CFR 200.403(a), a cost is necessary and reasonable; the amount is the funder's."""

    code: ClassVar[str] = "reason_needed"
    mendable: ClassVar[bool] = True
    cents: int

    def __post_init__(self) -> None:
        need_number(self.code, self.cents, "The amount in cents")

    @property
    def binds_match(self) -> bool:
        return True

    def sentence(self, symbol: str = "$") -> str:
        above = dollars(self.cents, symbol)
        return f"Every expense above {above} says why it was necessary and its price fair."

    def check(self, charge: Charge) -> Refusal | None:
        expense = charge.expense
        if expense.reasoned or expense.amount <= self.cents:
            return None
        above = dollars(self.cents, charge.symbol)
        words = f"{charge.fund.name} asks why an expense above {above} was necessary: write it down"
        return refuse(self, charge, f"{words}.", self.cents, expense.amount)
