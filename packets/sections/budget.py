"""The budget by lines, and where the money comes from."""

from __future__ import annotations

from datetime import date

from budgets import fit
from budgets.models import BudgetLine, Fund
from packets.outline import Context, Place, Section
from projects.models import Project
from projects.words import money


class Budget(Section):
    key = "budget"
    title = "Budget and income"
    place = Place("budgets:money", "Open the money")

    def rows(self, project: Project, today: date) -> Context:
        lines, funds = fit.lines_of(project), fit.funds_of(project)
        cost = sum(line.planned_cents for line in lines)
        income = sum(fund.award_cents for fund in funds)
        return {
            "lines": [line_row(line) for line in lines],
            "funds": [fund_row(fund) for fund in funds],
            "cost": cost,
            "income": income,
            "gap": cost - income,
            "surplus": income - cost,
            "currency": project.currency,
        }

    def row_facts(self, context: Context) -> list[tuple[str, str]]:
        code = context["currency"]
        costs = [(row["name"], money(row["cents"], code)) for row in context["lines"]]
        kinds = [(f"{row['name']}: category", row["category"]) for row in context["lines"]]
        return [*costs, *kinds, *fund_facts(context["funds"], code)]

    def missing(self, context: Context) -> str:
        if not context["lines"]:
            return "No budget lines yet"
        return "" if context["funds"] else "No funds yet"


def fund_facts(rows: list[dict[str, object]], code: str) -> list[tuple[str, str]]:
    facts = []
    for row in rows:
        terms = ", ".join(filter(None, [str(row["status"]), str(row["match"])]))
        facts.append((str(row["name"]), money(row["cents"], code)))  # type: ignore[arg-type]
        facts.append((f"{row['name']}: terms", terms))
    return facts


def line_row(line: BudgetLine) -> dict[str, object]:
    return {
        "name": line.name,
        "category": line.get_category_display(),
        "cents": line.planned_cents,
    }


def fund_row(fund: Fund) -> dict[str, object]:
    return {
        "name": fund.name,
        "kind": fund.get_kind_display(),
        "status": fund.get_status_display(),
        "match": match_of(fund),
        "cents": fund.award_cents,
    }


def match_of(fund: Fund) -> str:
    """“1 for 1”: what must be found elsewhere for each part of the award."""
    rule = next((rule for rule in fund.rules.all() if rule.code == "match"), None)
    if rule is None:
        return ""
    return f"{rule['numerator'] or 1} for {rule['denominator'] or 1}"


section = Budget()
