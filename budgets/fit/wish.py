"""How the best fit is asked for: the switches of its page."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from projects.amounts import plain_amount


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """`least` is the smallest amount, in cents, worth a line in a fund's report."""

    forecasts: bool = True  # what is still to be spent takes part
    strict: bool = False  # a cent is match once anywhere
    whole: bool = False  # no expense is split between funds
    offered: bool = False  # what if: funds that are offered, as if they were signed
    least: int = 1_00

    @property
    def may_be_accepted(self) -> bool:
        return not self.offered

    def as_words(self) -> dict[str, str]:
        """As an address carries it."""
        on = {name: "yes" for name, value in asdict(self).items() if value is True}
        return {"asked": "yes", **on, "least": plain_amount(self.least)}
