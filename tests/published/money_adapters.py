"""Published money checks as calls of the engine: words and units translated, no numbers here."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from fractions import Fraction
from math import lcm
from typing import Any

from budgets.engine import Expense, Fund, Match, Share, cash_needed, match_needed, rule_from
from budgets.engine.judge import room
from budgets.engine.match import (
    grant_at_most,
    least_total,
    match_for_grant_share,
    match_of_total,
    total_for_share,
)
from budgets.engine.money import (
    WHOLE,
    Rounding,
    largest_remainder,
    lower_quotas,
    portion,
)
from projects.amounts import parse_amount, plain_amount

Row = dict[str, Any]
WAYS = {"down": Rounding.FLOOR, "up": Rounding.CEIL, "half_up": Rounding.HALF_UP}
ANY_DAY = date.max


def hamilton(row: Row) -> Row:
    weights = [int(weight) for weight in row["inputs"]["weights"]]
    seats = int(row["inputs"]["seats"])
    parts = largest_remainder(seats, weights)
    return {"seats": list(parts), "lower_sum": sum(lower_quotas(seats, weights))}


def split(row: Row) -> Row:
    shares = [Fraction(share) for share in row["inputs"]["shares"]]
    common = lcm(*(share.denominator for share in shares))
    weights = [int(share * common) for share in shares]
    return {"parts": shown(largest_remainder(parse_amount(row["inputs"]["total"]), weights))}


def nested(row: Row) -> Row:
    """One fund, one category for each group; every item is charged as far as the fund has room."""
    groups = {str(place): group for place, group in enumerate(row["inputs"]["groups"])}
    rules = [
        rule_from("category_cap", {"categories": [key], "cents": parse_amount(group["cap"])})
        for key, group in groups.items()
    ]
    fund = Fund(key="", name="", award=parse_amount(row["inputs"]["cap"]), rules=tuple(rules))
    shares: list[Share] = []
    for key, group in groups.items():
        for place, item in enumerate(group["items"]):
            cost = Expense(
                key=f"{key} {place}", amount=parse_amount(item), day=ANY_DAY, category=key
            )
            shares.append(Share(expense=cost, fund="", cents=room(fund, cost, shares)))
    return {"paid": plain_amount(sum(share.cents for share in shares))}


def pct_of(row: Row) -> Row:
    """An amount that is at most a share of a base: a cap, rounded down."""
    base, rate = parse_amount(row["inputs"]["base"]), ratio(row["inputs"]["rate"])
    return {"amount": plain_amount(portion(base, *rate, Rounding.FLOOR))}


def pfa(row: Row) -> Row:
    base, rate = parse_amount(row["inputs"]["base"]), ratio(row["inputs"]["rate"])
    art = portion(base, *rate, Rounding.HALF_UP)
    parts = [portion(art, *ratio(part), Rounding.HALF_UP) for part in row["inputs"]["parts"]]
    return {"art": plain_amount(art), "parts": shown(parts)}


def tax3(row: Row) -> Row:
    price, rate = parse_amount(row["inputs"]["price"]), ratio(row["inputs"]["rate"])
    return {"tax": plain_amount(portion(price, *rate, Rounding.HALF_UP))}


def match_share(row: Row) -> Row:
    """Printed sheets round to the nearest whole coin they print, unless the row says otherwise."""
    given = row["inputs"]
    total, match = total_for_share(
        parse_amount(given["award"]),
        *ratio(given["grantor_share"]),
        rounding=WAYS[given.get("round", "half_up")],
        unit=coin(given["award"]),
    )
    return {"total": plain_amount(total), "match": plain_amount(match)}


def of_total(row: Row) -> Row:
    given = row["inputs"]
    match, grant = match_of_total(parse_amount(given["total"]), *ratio(given["match_pct"]))
    return {"match": plain_amount(match), "grant": plain_amount(grant)}


def of_award(row: Row) -> Row:
    numerator, denominator = ratio(row["inputs"]["match_pct"])
    rule = Match(numerator=numerator, denominator=denominator)
    return {"match": plain_amount(match_needed(rule, parse_amount(row["inputs"]["award"])))}


def match_ratio(row: Row) -> Row:
    given = row["inputs"]
    rule = Match(numerator=int(given["num"]), denominator=int(given["den"]))
    award = parse_amount(given["award"])
    return {
        "match": plain_amount(match_needed(rule, award)),
        "min_total": plain_amount(least_total(rule, award)),
    }


def half_cash(row: Row) -> Row:
    given = row["inputs"]
    share = ratio(given["max_grant_share"])
    grant = grant_at_most(parse_amount(given["total"]), *share, award=parse_amount(given["cap"]))
    cash = int(Decimal(given["cash_share_of_match"]) * WHOLE)
    rule = match_for_grant_share(*share, cash_basis_points=cash)
    return {
        "max_grant": plain_amount(grant),
        "min_cash_match": plain_amount(cash_needed(rule, grant)),
    }


def ratio(text: str) -> tuple[int, int]:
    return Decimal(text).as_integer_ratio()


def coin(text: str) -> int:
    """The step in which an amount is printed: whole dollars, or cents when it shows them."""
    return parse_amount(str(Decimal((0, (1,), Decimal(text).as_tuple().exponent))))


def shown(parts: Any) -> list[str]:
    return [plain_amount(part) for part in parts]


MONEY_ADAPTERS: dict[str, Callable[[Row], Row]] = {
    f"money:{adapter.__name__}": adapter
    for adapter in (
        hamilton,
        split,
        nested,
        pct_of,
        pfa,
        tax3,
        match_share,
        of_total,
        of_award,
        match_ratio,
        half_cash,
    )
}
