"""The sentences of the best fit."""

from __future__ import annotations

from django.urls import reverse

from budgets.fit.best import BestFit, FundFit
from budgets.selectors.sentence import Matters
from projects.words import day_year, money, plural

MATCH = frozenset({"match", "match_cash", "match_kind"})


class Sayer:
    """Money in the project's currency."""

    def __init__(self, found: BestFit) -> None:
        self.currency = found.books.project.currency

    def __call__(self, cents: int) -> str:
        return money(cents, self.currency)


def lede(found: BestFit) -> Matters:
    """What the funds pay now and at best, what would be left over, and the one next action."""
    if not found.funds:
        return Matters("No signed fund is in the books yet but your own money.")
    sentence = " ".join([paying(found), *left_over(found)])
    if found.changes and found.wish.may_be_accepted:
        return Matters(sentence, f"See {plural(len(found.changes), 'change')}", "#best-changes")
    if found.own and any(row.left for row in found.funds):
        return Matters(sentence, "See what could be recovered", "#best-own")
    url = reverse("budgets:claims", args=[found.books.project.pk])
    return Matters(sentence, "Go on to the claims", url)


def paying(found: BestFit) -> str:
    say = Sayer(found)
    now, best = sum(row.sound for row in found.funds), sum(row.best for row in found.funds)
    barred = sum(row.now for row in found.funds) - now
    aside = f" (and {say(barred)} more against their rules)" if barred else ""
    start = f"Your funds pay {say(now)} now{aside}"
    if found.wish.offered:
        return f"{start}; were the offered ones signed, they could pay {say(best)}."
    if found.gain > 0:
        return f"{start}; they can pay {say(best)}, {say(found.gain)} more."
    if found.lost:
        return f"{start}, and left as it is that loses {say(found.lost)} of them in the end."
    return f"{start}, and no way of sharing out has them pay more."


def left_over(found: BestFit) -> list[str]:
    """What is left of the funds with a last day, the largest first named with its reason."""
    say = Sayer(found)
    ending = [row for row in found.funds if row.left > 0 and row.fund.period_end]
    if not ending:
        return []
    most = max(ending, key=lambda row: row.left)
    verb = "would lapse" if found.wish.forecasts else "is left for what is still to be spent"
    total = say(sum(row.left for row in ending))
    if len(ending) == 1:
        start = f"{total} of {most.fund.name} {verb}"
    else:
        start = f"{total} {verb}, {say(most.left)} of it from {most.fund.name}"
    return [f"{start}: {after_colon(why(found, most), most.fund.name)}"]


def why_left(found: BestFit, row: FundFit) -> str:
    """Why no more of it can be used, and by when what is left must be spent."""
    if row.left <= 0:
        return "All of it is used."
    if not row.fund.period_end:
        return f"{why(found, row)} It has no last day."
    return f"{why(found, row)} Until {day_year(row.fund.period_end)}."


def why(found: BestFit, row: FundFit) -> str:
    say, kept = Sayer(found), found.obstacles(row.fund)
    if not kept:
        what = "all" if found.wish.forecasts else "all that is spent so far"
        return f"{what.capitalize()} that it may pay is paid."
    first = kept[0]
    if first.outright:
        return f"The {say(first.cents)} that is left to pay is not for it. {first.sentence}"
    stands = f"It stands in the way of {say(first.cents)} that is left to pay."
    return f"{first.sentence} {stands} {first.todo}".strip()


def match_words(found: BestFit, row: FundFit) -> list[str]:
    say = Sayer(found)
    if not row.match_needed:
        return []
    words = [f"{say(row.match_found)} found of {say(row.match_needed)} needed"]
    if row.cash_needed:
        words.append(f"{say(row.cash_found)} of it in cash, {say(row.cash_needed)} needed")
    return words


def short_words(found: BestFit, row: FundFit) -> str:
    """Where more match would free more of the award."""
    if row.left > 0 and any(one.code in MATCH for one in found.obstacles(row.fund)):
        return "more match would free more of it"
    return ""


def bound(found: BestFit) -> str:
    """How sure it is that there is no better."""
    if found.fit.gap <= 0:
        return "Proven: no way of sharing out uses more."
    return f"Proven: no way of sharing out uses more than {Sayer(found)(found.fit.gap)} more."


def beside(found: BestFit) -> str:
    """First come, first served, told honestly: also where it is as good."""
    say, first = Sayer(found), found.first.used
    start = "Had each bill gone to the first fund that takes it, as the bills come,"
    if first >= found.fit.used:
        return f"{start} the funds would pay as much."
    lost = say(found.fit.used - first)
    return f"{start} the funds would pay {say(first)} of {say(found.fit.used)}: {lost} less."


def own_words(found: BestFit) -> str:
    say, total = Sayer(found), sum(found.own.values())
    if not total:
        return "Funds pay all that is spent so far."
    count = plural(len(found.own), "expense stays", "expenses stay")
    return f"{count} on it in whole or in part, {say(total)} in all."


def what_is_written(found: BestFit) -> str:
    if found.wish.offered:
        return "This is a what-if: nothing of it can be accepted while a fund is not signed."
    return (
        "Accepting writes who pays each ticked expense and what it counts for, as one change. "
        "What is in a filed claim stays as it is. It can be put back as it was."
    )


def nothing_to_change(found: BestFit) -> str:
    if not found.books.expenses:
        return "Nothing is spent yet. Log an expense, and it is shared out here."
    return "Nothing: what is shared out now is as good as it gets."


def after_colon(sentence: str, name: str) -> str:
    """As it stands in a longer sentence; a name keeps its capital."""
    return sentence if sentence.startswith(name) else sentence[:1].lower() + sentence[1:]
