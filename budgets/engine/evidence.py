"""What a gift in kind must show before it counts, and what of it is missing."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from budgets.engine.gifts import QUOTES, Line

LETTER, QUOTE, RECEIPT, TIMESHEET = "letter", "quote", "receipt", "timesheet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gift:
    """A gift as its records show it: `papers` are counted by kind, `legs` are trips kept."""

    lines: tuple[Line, ...] = ()
    supervised: frozenset[str] = frozenset()  # keys of lines that name who saw the work
    basis: str = ""
    papers: Mapping[str, int]
    legs: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A missing piece: how many of the lines lack it; 0 of 0 where it is about the whole gift."""

    key: str
    lacking: int = 0
    of: int = 0


def gap(key: str, lacking: bool) -> Gap | None:
    return Gap(key=key) if lacking else None


def of_lines(key: str, gift: Gift, good: Callable[[Line], bool]) -> Gap | None:
    bad = sum(not good(line) for line in gift.lines)
    return Gap(key=key, lacking=bad, of=len(gift.lines)) if bad else None


def has(gift: Gift, kind: str, count: int = 1) -> bool:
    return gift.papers.get(kind, 0) >= count


CHECKS: Mapping[str, Callable[[Gift], Gap | None]] = {
    "rows": lambda gift: gap("rows", not gift.lines),
    "times": lambda gift: of_lines("times", gift, lambda line: bool(line.starts and line.ends)),
    "signed": lambda gift: of_lines("signed", gift, lambda line: line.signed),
    "supervised": lambda gift: of_lines(
        "supervised", gift, lambda line: line.key in gift.supervised
    ),
    "basis": lambda gift: gap("basis", not gift.basis.strip()),
    "timesheet": lambda gift: gap("timesheet", not has(gift, TIMESHEET)),
    "letter": lambda gift: gap("letter", not has(gift, LETTER)),
    "letter_or_invoice": lambda gift: gap(
        "letter_or_invoice", not (has(gift, LETTER) or has(gift, RECEIPT))
    ),
    "letter_or_quotes": lambda gift: gap(
        "letter_or_quotes", not (has(gift, LETTER) or has(gift, QUOTE, QUOTES))
    ),
    "invoice": lambda gift: gap("invoice", not has(gift, RECEIPT)),
    "legs": lambda gift: gap("legs", not gift.legs),
}


def missing(asked: Sequence[str], gift: Gift) -> tuple[Gap, ...]:
    """What a gift lacks of the evidence that its kind asks for, in the order asked.

    The kinds of evidence are those of 2 CFR 200.306 and of guides of states; which gift asks for
    which is data. Raises KeyError for a kind of evidence that nobody can check.

    >>> bare = Gift(papers={"quote": 2}, basis="Rate card")
    >>> [each.key for each in missing(["basis", "letter_or_quotes"], bare)]
    ['letter_or_quotes']
    """
    found = [CHECKS[key](gift) for key in asked]
    return tuple(each for each in found if each)


def stands(cents: int, gaps: Sequence[Gap], signed: int) -> int:
    """The cents of a gift that its evidence carries today.

    Where only signatures are missing, the signed lines stand (`signed` cents of it); a paper or
    a basis that is missing takes the whole gift down.

    >>> gaps = (Gap(key="signed", lacking=1, of=3),)
    >>> stands(90_00, gaps, 60_00), stands(90_00, (), 0)
    (6000, 9000)
    """
    keys = {each.key for each in gaps}
    if not keys:
        return cents
    return signed if keys == {"signed"} else 0
