"""The money of a project of any size: bills, gifts, papers, a claim, quotes, a bank's file."""

from __future__ import annotations

from datetime import date, timedelta

from budgets import models as budgets
from budgets.selectors.bank import columns_of, table_of
from budgets.services.bank import keep_columns, keep_file
from projects.models import Project
from suppliers import models as suppliers

TODAY = date(2031, 3, 3)
CATEGORIES = ("materials", "fabrication", "install", "permits")
RULES = (
    {
        "barred_categories": {"categories": ["food"]},
        "papers_needed": {"papers": ["receipt", "payment"]},
        "match": {"numerator": 1, "denominator": 4, "basis_points": 2500},
        "paid_back": {"months": 3, "lag_days": 45},
        "held_back": {"basis_points": 1000, "lag_days": 30},
        "report_due": {"what": "Final report", "days": 45, "after": "public_date"},
    },
    {
        "allowed_categories": {"categories": ["materials", "install", "permits"]},
        "category_share_cap": {"categories": ["permits"], "basis_points": 1500},
        "cash_only": {},
        "paid_ahead": {"basis_points": 5000, "lag_days": 20},
        "paid_back": {"lag_days": 30},
    },
    {
        "category_cap": {"categories": ["install"], "cents": 50_000},
        "quotes_needed": {"cents": 500_000, "quotes": 2, "warn_only": True},
        "paid_back": {"months": 1, "lag_days": 30},
    },
    {"paid_by_milestone": {}},
)
KINDS = ("state", "local", "foundation", "sponsor")


def make_money(
    project: Project, size: int, makers: list[suppliers.Supplier], orders: list[suppliers.Order]
) -> None:
    lines = make_lines(project, size // 10, orders)
    funds = [make_fund(project, n) for n in range(4)]
    expenses = make_expenses(project, size * 5, lines, makers, orders)
    share_out(expenses, funds)
    make_papers(expenses)
    make_gifts(project, size // 4, lines[0], funds[0])
    make_claim(funds[0], expenses)
    make_income(funds)
    make_quotes(project, size // 12, makers, lines)
    make_bank_file(project, size)
    budgets.CashBook.objects.create(
        project=project, opening_cents=5_000_000, opening_on=TODAY - timedelta(days=60)
    )


def make_lines(
    project: Project, count: int, orders: list[suppliers.Order]
) -> list[budgets.BudgetLine]:
    """One for each count, and the contingency, of which something was drawn."""
    made = budgets.BudgetLine.objects.bulk_create(
        budgets.BudgetLine(
            project=project, name=f"Line {n}", category=CATEGORIES[n % 4], planned_cents=900_000
        )
        for n in range(count)
    )
    pool = budgets.BudgetLine.objects.create(
        project=project, name="Contingency", category="contingency", planned_cents=1_000_000
    )
    budgets.Draw.objects.create(
        project=project, source=pool, target=made[0], cents=90_000, day=TODAY, reason="Steel rose"
    )
    budgets.Commitment.objects.bulk_create(
        budgets.Commitment(order=order, line=made[n % len(made)]) for n, order in enumerate(orders)
    )
    return made


def make_fund(project: Project, n: int) -> budgets.Fund:
    fund = budgets.Fund.objects.create(
        project=project,
        name=f"Fund {n}",
        kind=KINDS[n],
        status="signed",
        award_cents=3_000_000,
        issued_on=date(2030, 12, 20),
        period_start=date(2031, 1, 1),
        period_end=date(2033, 7, 18),
        approved=dict.fromkeys(CATEGORIES, 750_000) if n < 2 else {},
    )
    for code, params in RULES[n].items():
        budgets.FundRule.objects.create(fund=fund, code=code, params=params)
    return fund


def make_expenses(
    project: Project,
    count: int,
    lines: list[budgets.BudgetLine],
    makers: list[suppliers.Supplier],
    orders: list[suppliers.Order],
) -> list[budgets.Expense]:
    """Bills of the last sixty days; one in eight settles a part of an order, one came back."""
    made = budgets.Expense.objects.bulk_create(
        budgets.Expense(
            project=project,
            line=lines[n % len(lines)],
            payee=f"Maker {n % len(makers)}",
            supplier=makers[n % len(makers)],
            order=orders[n % len(orders)] if n % 8 == 0 else None,
            cents=1_000 + n * 7 % 900,
            day=TODAY - timedelta(days=n % 60),
            paid_on=TODAY - timedelta(days=n % 60),
        )
        for n in range(count)
    )
    budgets.Credit.objects.create(expense=made[1], cents=100, day=TODAY, what="Returned")
    return made


def share_out(expenses: list[budgets.Expense], funds: list[budgets.Fund]) -> None:
    """All but one in ten; what the last fund pays counts as match for the first."""
    budgets.Share.objects.bulk_create(
        budgets.Share(expense=expense, fund=funds[n % 4], cents=expense.cents - 100 * (n == 1))
        for n, expense in enumerate(expenses)
        if n % 10
    )
    budgets.Counted.objects.bulk_create(
        budgets.Counted(expense=expense, fund=funds[0], payer=funds[3], cents=expense.cents)
        for n, expense in enumerate(expenses)
        if n % 10 and n % 4 == 3
    )


def make_papers(expenses: list[budgets.Expense]) -> None:
    """A receipt for all but one in nine, and a proof of payment for most."""
    budgets.Paper.objects.bulk_create(
        budgets.Paper(
            expense=row,
            kind=kind,
            file="receipt.jpg",
            media_type="image/jpeg",
            size=9,
            sha256=f"{kind} {row.pk}",
        )
        for kind, one_in in (("receipt", 9), ("payment", 7))
        for n, row in enumerate(expenses)
        if n % one_in
    )


def make_gifts(project: Project, count: int, line: budgets.BudgetLine, award: budgets.Fund) -> None:
    """Hours that volunteers gave, on time sheets, counted as match."""
    made = budgets.Expense.objects.bulk_create(
        budgets.Expense(
            project=project,
            line=line,
            payee=f"Volunteer {n}",
            cents=6_000,
            day=TODAY - timedelta(days=n % 60),
            in_kind=True,
            gift_kind="flat",
            quantity_hundredths=200,
            unit="hour",
        )
        for n in range(count)
    )
    budgets.Hours.objects.bulk_create(
        budgets.Hours(expense=row, person=row.payee, day=row.day, hundredths=200, what="Painting")
        for row in made
    )
    budgets.Counted.objects.bulk_create(
        budgets.Counted(expense=row, fund=award, cents=row.cents) for row in made[::2]
    )


def make_claim(fund: budgets.Fund, expenses: list[budgets.Expense]) -> None:
    """Filed, for what the fund paid until three weeks ago, with what counts towards it."""
    until = TODAY - timedelta(days=21)
    claim = budgets.Claim.objects.create(
        fund=fund, number=1, state="filed", to_day=until, filed_on=until + timedelta(days=2)
    )
    shares = budgets.Share.objects.filter(fund=fund, expense__day__lte=until)
    budgets.ClaimShare.objects.bulk_create(
        budgets.ClaimShare(claim=claim, expense_id=row.expense_id, cents=row.cents)
        for row in shares
    )
    counted = budgets.Counted.objects.filter(fund=fund, expense__day__lte=until)
    budgets.ClaimMatch.objects.bulk_create(
        budgets.ClaimMatch(
            claim=claim, expense_id=row.expense_id, payer_id=row.payer_id, cents=row.cents
        )
        for row in counted
    )


def make_income(funds: list[budgets.Fund]) -> None:
    """An advance that came, and a fee in five parts of which one was paid."""
    budgets.Income.objects.create(
        fund=funds[1], day=TODAY - timedelta(days=40), cents=1_500_000, what="Paid ahead"
    )
    parts = budgets.Milestone.objects.bulk_create(
        budgets.Milestone(
            fund=funds[3],
            title=f"Part {n}",
            cents=600_000,
            position=n,
            on=TODAY + timedelta(days=90 * n - 30),
            pay_days=30,
        )
        for n in range(5)
    )
    budgets.Income.objects.create(fund=funds[3], milestone=parts[0], day=TODAY, cents=600_000)


def make_quotes(
    project: Project,
    count: int,
    makers: list[suppliers.Supplier],
    lines: list[budgets.BudgetLine],
) -> None:
    """Three answers to every request, of which one was chosen for every other."""
    for n in range(count):
        request = suppliers.QuoteRequest.objects.create(
            project=project, title=f"Request {n}", what="As drawn", is_closed=n % 2 == 0
        )
        budgets.Purchase.objects.create(request=request, line=lines[n % len(lines)])
        suppliers.Quote.objects.bulk_create(
            suppliers.Quote(
                request=request,
                supplier=makers[(n + step) % len(makers)],
                state=("chosen" if step == 0 else "not_chosen") if n % 2 == 0 else "received",
                cents=200_000 + 1_000 * step,
                received_on=TODAY - timedelta(days=9),
                valid_until=TODAY + timedelta(days=9 + n),
            )
            for step in range(3)
        )


def make_bank_file(project: Project, rows: int) -> None:
    """Half of its lines are bills that are known already."""
    days = [TODAY - timedelta(days=n % 60) for n in range(rows)]
    text = "\n".join(
        f"{day.isoformat()},Maker {n % (rows // 8)},-{10 + n % 9}.{n % 100:02}"
        for n, day in enumerate(days)
    )
    file = keep_file(
        project=project,
        name="march.csv",
        text=f"Date,Description,Amount\n{text}\n",
        sha256="0" * 64,
        user=None,
    )
    keep_columns(file=file, columns=columns_of(file, table_of(file)), user=None)
