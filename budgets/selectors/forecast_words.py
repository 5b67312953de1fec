"""What matters now about the forecast, in one sentence, and the one next action."""

from __future__ import annotations

from django.urls import reverse

from budgets.selectors.forecast import ForecastRow, ForecastSheet
from budgets.selectors.sentence import Matters
from projects.models import Project
from projects.words import money, plural


def forecast_matters(project: Project, sheet: ForecastSheet) -> Matters:
    if not sheet.rows:
        url = reverse("budgets:line-add", args=[project.pk])
        return Matters("There is no budget yet to forecast from.", "Add the first line", url)
    if sheet.margin < 0:
        return too_dear(project, sheet)
    if sheet.over:
        return one_over(project, sheet)
    end = f"{at_completion(project, sheet)}, {margin_words(project, sheet)}"
    if sheet.pool.thin and sheet.reserves:
        return Matters(f"{end}; {thin_words(project, sheet)}.")
    return Matters(f"{end}.")


def at_completion(project: Project, sheet: ForecastSheet) -> str:
    return f"It will all have cost {money(sheet.total.completion, project.currency)}"


def margin_words(project: Project, sheet: ForecastSheet) -> str:
    approved = money(sheet.approved, project.currency)
    if not sheet.margin:
        return f"just the budget of {approved}"
    kept = ", contingency included" if sheet.reserves else ""
    below = money(sheet.margin, project.currency)
    return f"{below} below the budget of {approved}{kept}"


def too_dear(project: Project, sheet: ForecastSheet) -> Matters:
    over, approved = (money(c, project.currency) for c in (-sheet.margin, sheet.approved))
    kept = ", contingency included" if sheet.reserves else ""
    says = f"{at_completion(project, sheet)}, {over} more than the budget of {approved}{kept}"
    if not sheet.over:
        return Matters(f"{says}.")
    worst = sheet.over[0]
    url = reverse("budgets:forecast-line", args=[project.pk, worst.line.pk])
    return Matters(f"{says}.", f"Look at {worst.line.name}", url)


def one_over(project: Project, sheet: ForecastSheet) -> Matters:
    worst = sheet.over[0]
    over, left = (money(c, project.currency) for c in (worst.over, sheet.pool.left))
    says = f"{worst.line.name} will cost {over} more than its budget"
    if others := len(sheet.over) - 1:
        says += f", and {plural(others, 'other line')} more than theirs"
    if not sheet.reserves or sheet.pool.left <= 0:
        return Matters(f"{says}, which other lines leave over.")
    if sheet.pool.short:
        return Matters(f"{says}; the contingency holds only {left}.", *draw_for(project, worst))
    return Matters(f"{says}; the contingency of {left} holds it.", *draw_for(project, worst))


def draw_for(project: Project, row: ForecastRow) -> tuple[str, str]:
    url = reverse("budgets:draw-add", args=[project.pk])
    return f"Draw for {row.line.name}", f"{url}?line={row.line.pk}"


def thin_words(project: Project, sheet: ForecastSheet) -> str:
    rest = money(sheet.pool.uncommitted, project.currency)
    return f"the contingency is only {sheet.share} of the {rest} that is not ordered yet"
