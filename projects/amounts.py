"""Read an amount that a person typed, or say what is wrong with it and what would be right."""

import re

MOST_CENTS = 999_999_999_99
SYMBOLS = ("$", "£", "€", "¥")
CURRENCIES = {
    "USD": "US dollars",
    "CAD": "Canadian dollars",
    "AUD": "Australian dollars",
    "NZD": "New Zealand dollars",
    "GBP": "pounds",
    "EUR": "euros",
    "CHF": "Swiss francs",
    "JPY": "yen",
    "MXN": "Mexican pesos",
    "SEK": "Swedish kronor",
    "NOK": "Norwegian kroner",
    "DKK": "Danish kroner",
    "PLN": "zloty",
}
SIGN_OF = {"£": ("GBP",), "€": ("EUR",), "¥": ("JPY",), "$": ("USD", "CAD", "AUD", "NZD", "MXN")}
SHOWN = 24  # characters of a wrong text that a sentence repeats

_SPACES = str.maketrans({"\u00a0": " ", "\u2007": " ", "\u2009": " ", "\u202f": " ", "\t": " "})
_MINUS = ("-", "\u2212", "\u2013", "\u2014", "(")
_LOOKALIKES = str.maketrans({"O": "0", "o": "0", "l": "1", "I": "1", "S": "5", "B": "8"})
_CODE = "|".join([*CURRENCIES, *map(re.escape, SYMBOLS)])
_SIGNED = re.compile(
    rf"(?P<before>{_CODE})?\s*(?P<bare>.*?)\s*(?P<after>{_CODE})?", re.IGNORECASE | re.DOTALL
)
_ELSEWHERE = re.compile(  # as other countries group thousands
    r"(?P<whole>[1-9]\d{0,2}(?:[.'’ ]\d{3})+),(?P<cents>\d\d)"
    r"|(?P<marked>[1-9]\d{0,2}(?:['’]\d{3})+)(?:\.(?P<after>\d\d))?"
    r"|(?P<points>[1-9]\d{0,2}(?:\.\d{3}){2,})",
    re.ASCII,
)
_GROUPED = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+|[1-9]\d{0,2}(?: \d{3})+|\d+", re.ASCII)


class AmountError(ValueError):
    """A text that is not an amount: `wrong` says why, `right` says what would do."""

    code = "amount"

    def __init__(self, text: str, wrong: str, right: str) -> None:
        super().__init__(f"{wrong} {right}")
        self.text, self.wrong, self.right = text, wrong, right


class EmptyAmount(AmountError):
    code = "empty_amount"


class NotANumber(AmountError):
    code = "not_a_number"


class NegativeAmount(AmountError):
    code = "negative_amount"


class TooManyPoints(AmountError):
    code = "too_many_points"


class TooManyDecimals(AmountError):
    code = "too_many_decimals"


class UnclearGrouping(AmountError):
    code = "unclear_grouping"


class AmountTooLarge(AmountError):
    code = "amount_too_large"


class OtherCurrency(AmountError):
    code = "other_currency"


def parse_amount(text: str, *, most: int = MOST_CENTS, currency: str = "") -> int:
    """Cents of an amount typed by a person, from zero to `most`.

    A point stands before cents; commas or spaces may group thousands. With a `currency`, its own
    code may stand beside the figure and the sign or code of another is refused. Raises a kind of
    AmountError.

    >>> [parse_amount(text) for text in ("1,200", "1200.5", "$1,200.00", " 1 200 ", ".75")]
    [120000, 120050, 120000, 120000, 75]
    >>> try:
    ...     parse_amount("1,2O0")
    ... except AmountError as error:
    ...     print(error.wrong, error.right, sep="\\n")
    “1,2O0” has “O” where a digit should be.
    Write 1,200 if that is what you mean.
    """
    plain = text.translate(_SPACES).strip()
    bare = _in_currency(text, plain, currency) if currency else _without_symbol(plain)
    _refuse_other_signs(text, bare)
    whole, _, cents = bare.partition(".")
    _refuse_bad_cents(text, whole, cents)
    if whole and not _GROUPED.fullmatch(whole):
        _refuse_grouping(text, whole, cents)
    digits = re.sub("[, ]", "", whole).lstrip("0")
    if len(digits) > len(str(most)):
        raise _too_large(text, most)
    total = int(digits or "0") * 100 + int(cents.ljust(2, "0"))
    if total > most:
        raise _too_large(text, most)
    return total


def plain_amount(cents: int) -> str:
    """Money as it stands in a form field: no symbol, no grouping, no empty cents.

    >>> plain_amount(1200_00), plain_amount(1200_50), plain_amount(-5)
    ('1200', '1200.50', '-0.05')
    """
    whole, rest = divmod(abs(cents), 100)
    return f"{'-' if cents < 0 else ''}{whole}" + (f".{rest:02d}" if rest else "")


def _too_large(text: str, most: int) -> AmountTooLarge:
    shown = f"{most // 100:,}.{most % 100:02d}".removesuffix(".00")
    return AmountTooLarge(
        text, f"{_quoted(text)} is too large.", f"The most is {shown}; check the digits."
    )


def _without_symbol(text: str) -> str:
    return text[1:].strip() if text.startswith(SYMBOLS) else text


def _in_currency(text: str, plain: str, currency: str) -> str:
    """The figure without the sign or the code of its own currency."""
    found = _SIGNED.fullmatch(plain)
    assert found
    for side in ("before", "after"):
        sign = (found[side] or "").upper()
        if sign and currency not in SIGN_OF.get(sign, (sign,)):
            raise _other_currency(text, sign, currency)
    return found["bare"]


def _other_currency(text: str, sign: str, currency: str) -> OtherCurrency:
    names = [CURRENCIES[code] for code in SIGN_OF.get(sign, (sign,))]
    here = CURRENCIES.get(currency, currency)
    which = names[0] if len(names) == 1 else "dollars"
    return OtherCurrency(
        text, f"{_quoted(text)} is in {which}; this is kept in {here}.", f"Write it in {here}."
    )


def _refuse_other_signs(text: str, bare: str) -> None:
    if not bare:
        raise EmptyAmount(text, "There is no amount.", "Write one such as 1200 or 1,200.50.")
    if bare.startswith(_MINUS):
        raise NegativeAmount(
            text, f"{_quoted(text)} is below zero.", "Write an amount of zero or more."
        )
    if habit := _ELSEWHERE.fullmatch(bare):
        raise _other_habit(text, habit)
    odd = next((sign for sign in bare if sign not in "0123456789., "), None)
    if odd is not None:
        shown = f"“{odd}”" if odd.isprintable() else "a sign that cannot be seen"
        raise NotANumber(
            text,
            f"{_quoted(text)} has {shown} where a digit should be.",
            _without_letters(bare),
        )
    if not any(sign.isdigit() for sign in bare):
        raise NotANumber(
            text,
            f"{_quoted(text)} has no digits.",
            "Write an amount such as 1200 or 1,200.50.",
        )


def _other_habit(text: str, habit: re.Match[str]) -> UnclearGrouping:
    whole = habit["whole"] or habit["marked"] or habit["points"]
    cents = habit["cents"] or habit["after"]
    figure = f"{int(re.sub(r'[^0-9]', '', whole)):,}" + (f".{cents}" if cents else "")
    return UnclearGrouping(
        text,
        f"{_quoted(text)} is written as in other countries; here a comma groups thousands and a "
        "point stands before the cents.",
        f"Write {figure} if that is what you mean.",
    )


def _without_letters(bare: str) -> str:
    guess = bare.translate(_LOOKALIKES)
    if len(bare) <= SHOWN and re.fullmatch(rf"(?:{_GROUPED.pattern})(?:\.\d\d?)?", guess, re.ASCII):
        return f"Write {guess} if that is what you mean."
    return "Write digits only, such as 1200 or 1,200.50."


def _refuse_bad_cents(text: str, whole: str, cents: str) -> None:
    if "." in cents:
        raise TooManyPoints(
            text,
            f"{_quoted(text)} has more than one point.",
            "Write one point, before the cents: 1200.50.",
        )
    if not re.fullmatch(r"\d*", cents, re.ASCII):
        raise UnclearGrouping(
            text,
            f"{_quoted(text)} has a comma or a space after the point.",
            "Write thousands first: 1,200.50.",
        )
    if len(cents) > 2:
        other = (
            f" or {whole},{cents}"
            if re.fullmatch(r"[1-9]\d{0,2}", whole) and len(cents) == 3
            else ""
        )
        raise TooManyDecimals(
            text,
            f"{_quoted(text)} has {len(cents)} places after the point; cents have two.",
            f"Write {_short(whole) or '0'}.{cents[:2]}{other}.",
        )


def _refuse_grouping(text: str, whole: str, cents: str) -> None:
    right = "Write it without commas or spaces, such as 1200."
    before, comma, after = whole.partition(",")
    if (
        comma
        and not cents
        and before.isdigit()
        and after.isdigit()
        and len(whole) <= SHOWN
        and len(after) == 2
    ):
        right = f"Write {before}.{after} if these are cents, or {before}{after} if they are not."
    raise UnclearGrouping(text, f"{_quoted(text)} could be read in two ways.", right)


def _quoted(text: str) -> str:
    return f"“{_short(' '.join(text.split()))}”"


def _short(text: str) -> str:
    shown = "".join(sign if sign.isprintable() else "?" for sign in text[: SHOWN + 1])
    return shown if len(shown) <= SHOWN else shown[:SHOWN] + "…"
