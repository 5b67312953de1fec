"""A prompt to go or to stop, with the clause that it rests on."""

from __future__ import annotations

from dataclasses import dataclass

from worksheets.engine.given import Given
from worksheets.engine.result import Finding, Standing
from worksheets.engine.rules import RuleSet, rule_set


@dataclass(frozen=True, slots=True, kw_only=True)
class Prompt:
    """``stops`` where work must not start as it was entered."""

    about: str
    says: str
    do: str
    clause: str
    standing: Standing = Standing.NOTE
    stops: bool = False

    def finding(self) -> Finding:
        word = "stop" if self.stops else ""
        return Finding(standing=self.standing, says=self.says, rule=self.clause, word=word)


def rules_of(given: Given) -> RuleSet:
    return rule_set("working", given.choice("rules"))


def trade() -> RuleSet:
    return rule_set("working", "trade")


def no_rule(about: str, rules: RuleSet) -> Prompt:
    return Prompt(
        about=about,
        says=f"{rules.title} has no rule on this: the rules of your country apply.",
        do="Ask the authority, or a competent person who knows the rules there.",
        clause=rules.title,
    )
