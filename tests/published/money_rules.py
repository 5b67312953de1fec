"""Published checks of the rules of funds as calls of the code: translated, no numbers here."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

from budgets.engine import Expense, Fund, Indirect, Share, records_until, report_dates, rule_from
from budgets.engine.dated import value_on
from budgets.engine.money import WHOLE
from budgets.engine.rules.indirect import direct_within
from budgets.engine.rules.match import band, tiered_match
from budgets.engine.rules.procurement import procurement_method
from budgets.engine.rules.reporting import progress_due
from budgets.facts import shipped
from budgets.selectors.patterns import patterns
from projects.amounts import parse_amount, plain_amount
from tests.published.money_adapters import coin, ratio, shown

Row = dict[str, Any]


def band_(row: Row) -> Row:
    given = row["inputs"]
    least, most = band(parse_amount(given["award"]), int(given["min_mult"]), int(given["max_mult"]))
    return {"min_total": plain_amount(least), "max_total": plain_amount(most)}


def tier_match(row: Row) -> Row:
    """The steps are those of the pattern that names the same funder."""
    (rule,) = patterns()["steps"].rules
    tiers = rule_from(rule.code, rule.params).tiers
    return {"match": plain_amount(tiered_match(parse_amount(row["inputs"]["total"]), tiers))}


def mtdc(row: Row) -> Row:
    """Each line a category, each partner's part a partner; a year is what it adds to the sum."""
    given = row["inputs"]
    rate = Indirect(
        basis_points=int(Decimal(given["rate"]) * WHOLE),
        excluded=frozenset(given.get("exclude", ())),
        partner_cents=parse_amount(given["sub_cap"]),
    )
    years = range(max(len(amounts) for amounts in given["lines"].values()))
    spent = [[share_of(name, year, given) for name in given["lines"]] for year in years]
    upto = [[share for shares in spent[: year + 1] for share in shares] for year in years]
    return {
        "direct": shown(sum(share.cents for share in shares) for shares in spent),
        "mtdc": shown(steps([rate.base_of(shares) for shares in upto])),
        "indirect": shown(steps([rate.most(shares) for shares in upto])),
    }


def share_of(name: str, year: int, given: Row) -> Share:
    cents = parse_amount(given["lines"][name][year])
    partner = name if name in given.get("subawards", ()) else ""
    bill = Expense(key=f"{name} {year}", amount=cents, day=date.max, category=name, partner=partner)
    return Share(expense=bill, fund="", cents=cents)


def steps(sums: list[int]) -> list[int]:
    return [now - before for before, now in zip([0, *sums], sums, strict=False)]


def backout(row: Row) -> Row:
    given = row["inputs"]
    direct, overhead = direct_within(
        parse_amount(given["award"]),
        parse_amount(given["excluded"]),
        *ratio(given["rate"]),
        unit=coin(given["award"]),
    )
    return {"direct": plain_amount(direct), "indirect": plain_amount(overhead)}


def mpt(row: Row) -> Row:
    """The thresholds are the facts of the day of the purchase."""
    day = date.fromisoformat(row["inputs"]["on"])
    above = [value_on(shipped(), name, day).fact.cents for name in ("quotes_from", "bids_from")]
    return {"method": procurement_method(parse_amount(row["inputs"]["amount"]), *above)}


def twothirds(row: Row) -> Row:
    given = row["inputs"]
    due = progress_due(parse_amount(given["award"]), parse_amount(given["cumulative"]))
    return {"progress_report_due": due}


def addyears(row: Row) -> Row:
    rule = rule_from("records_kept", {"years": int(row["inputs"]["years"])})
    kept = records_until(a_fund(rule), date.fromisoformat(row["inputs"]["from"]))
    return {"until": str(kept)}


def adddays(row: Row) -> Row:
    rule = rule_from("report_due", {"days": int(row["inputs"]["days"])})
    ends = date.fromisoformat(row["inputs"]["from"])
    (due,) = report_dates(a_fund(rule, period_end=ends))
    return {"by": str(due.on)}


def a_fund(rule: Any, **more: Any) -> Fund:
    return Fund(key="", name="", rules=(rule,), **more)


ADAPTERS: dict[str, Callable[[Row], Row]] = {
    "money:band": band_,
    **{
        f"money:{adapter.__name__}": adapter
        for adapter in (tier_match, mtdc, backout, mpt, twothirds, addyears, adddays)
    },
}
