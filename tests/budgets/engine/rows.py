"""Rows of whole numbers added up by hand, apart from the code that makes them."""

from collections.abc import Iterable

from budgets.engine import Counted, Row, Share, Sum, Term


def left_side(
    row: Row, charged: Iterable[Share], counted: Iterable[Counted] = (), indirect: int = 0
) -> int:
    charged, counted = list(charged), list(counted)
    return sum(term.weight * total(term, charged, counted, indirect) for term in row.terms)


def total(term: Term, charged: list[Share], counted: list[Counted], indirect: int) -> int:
    direct = sum(share.cents for share in charged if inside(term, share.expense))
    gifts = [row for row in counted if row.expense.in_kind]
    cash = [row for row in counted if not row.expense.in_kind]
    return {
        Sum.CHARGED: direct,
        Sum.OVER: max(0, direct - term.base),
        Sum.INDIRECT: indirect,
        Sum.MATCH_CASH: sum(row.cents for row in cash),
        Sum.MATCH_KIND: sum(row.cents for row in gifts),
    }[term.of]


def inside(term: Term, expense) -> bool:  # type: ignore[no-untyped-def]
    if term.categories and expense.category not in term.categories:
        return False
    if term.first and expense.day < term.first:
        return False
    return not (term.last and expense.day > term.last)


def holds(row: Row, *given, **more) -> bool:  # type: ignore[no-untyped-def]
    return left_side(row, *given, **more) <= row.most
