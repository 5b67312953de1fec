"""Three small commissions whose figures are known: habit loses, the optimum does not."""

from datetime import date
from typing import Any

from budgets.engine import Expense, Fund, Match, Rule, rule_from
from budgets.engine.best import Problem

DAY = date(2031, 3, 3)
PAPERS = frozenset({"receipt", "payment"})


def expense(key: str, cents: int, category: str = "materials", **given: Any) -> Expense:
    values: dict[str, Any] = {"day": DAY, "papers": PAPERS}
    return Expense(key=key, amount=cents, category=category, **(values | given))


def gift(key: str, cents: int, category: str = "install", **given: Any) -> Expense:
    return expense(key, cents, category, in_kind=True, papers=frozenset({"timesheet"}), **given)


def fund(key: str, award: int, *rules: Rule, **given: Any) -> Fund:
    return Fund(key=key, name=f"{key.capitalize()} fund", award=award, rules=rules, **given)


def only(*categories: str) -> Rule:
    return rule_from("allowed_categories", {"categories": categories})


def never(*categories: str) -> Rule:
    return rule_from("barred_categories", {"categories": categories})


def two_papers() -> Rule:
    return rule_from("papers_needed", {"papers": ["receipt", "payment"]})


def case_a() -> Problem:
    """A fund for anything and one for lighting; the lamps come first."""
    lamps = expense("1 lamps", 5000_00, "lighting", day=date(2031, 2, 3))
    paint = expense("2 paint", 5000_00)
    funds = (fund("flex", 5000_00), fund("lights", 5000_00, only("lighting")))
    return Problem(expenses=(lamps, paint), funds=funds)


def case_b() -> Problem:
    """A federal award, one to one, and a private one for lighting that may match it."""
    return Problem(
        expenses=(
            expense("1 lamps", 3000_00, "lighting"),
            expense("2 paint", 4000_00),
            expense("3 steel", 2000_00),
            gift("4 volunteers", 1000_00),
        ),
        funds=(
            fund("match", 4000_00, federal=True, match=Match()),
            fund("lights", 3000_00, only("lighting")),
        ),
    )


def case_c() -> Problem:
    """A small commission: 16 bills, two gifts in kind, three awards."""
    rows = (
        ("01 planters", 300_00, "planters"),
        ("02 lamps", 1000_00, "lighting"),
        ("03 cable", 600_00, "lighting"),
        ("04 workshops", 1700_00, "community"),
        ("05 booklet", 2000_00, "documentation"),
        ("06 fee", 4000_00, "artist_fee"),
        ("07 steel", 2400_00, "materials"),
        ("08 walks", 900_00, "community"),
        ("09 film", 600_00, "documentation"),
        ("10 more steel", 1999_00, "materials"),
        ("11 lorry", 1150_00, "transport"),
        ("12 crane", 1150_00, "install"),
        ("14 canopy cloth", 1400_00, "canopy"),
        ("15 canopy poles", 1000_00, "canopy"),
        ("16 opening", 250_00, "food"),
    )
    unproved = expense("13 bolts", 583_33, papers=frozenset({"receipt"}))
    gifts = (gift("17 volunteers", 2600_00), gift("18 workshop room", 1400_00))
    others = ("artist_fee", "canopy", "install", "lighting", "materials", "transport")
    return Problem(
        expenses=(*(expense(*row) for row in rows), unproved, *gifts),
        funds=(
            fund(
                "nation",
                12_000_00,
                never("food"),
                rule_from("match_only", {"categories": ["canopy"]}),
                two_papers(),
                federal=True,
                match=Match(),
                period_end=date(2032, 6, 30),
            ),
            fund(
                "city",
                5500_00,
                rule_from("match_only", {"categories": others}),
                never("food"),
                two_papers(),
                match=Match(cash_basis_points=5000),
                period_end=date(2031, 12, 31),
            ),
            fund(
                "garden",
                4000_00,
                only("canopy", "lighting", "planters"),
                two_papers(),
                period_end=date(2031, 9, 30),
            ),
        ),
    )
