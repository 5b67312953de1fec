"""Writes the rows of every fund, of every class and of every flow of match."""

from collections import defaultdict
from dataclasses import replace

from budgets.engine.best.aims import objectives
from budgets.engine.best.classes import NOBODY, Classes
from budgets.engine.best.problem import BestError, TooManyToKeepWhole
from budgets.engine.best.program import Parts, Program
from budgets.engine.best.terms import Asked, Filter, filter_of
from budgets.engine.model import Row, Sum, Term

CHOICES = 2000  # of a fund for an expense that is kept whole


class NotLinear(BestError):
    """A row that gives back room for going over its budget: no rule means that."""

    code = "not_linear"


def program_of(classes: Classes) -> Program:
    program = Program()
    for number, bucket in enumerate(classes.buckets):
        for fund in bucket.funds:
            award = classes.funds[fund].award
            most = bucket.most(fund)
            program.charge[number, fund] = program.unknown(
                most if award is None else min(most, award)
            )
        parts = {program.charge[number, fund]: 1 for fund in bucket.funds}
        program.limit(parts, bucket.total)
        if classes.problem.policy.whole_expenses:
            program.whole.append(
                [(program.charge[number, f], bucket.most(f)) for f in bucket.funds]
            )
    if sum(map(len, program.whole)) > CHOICES:
        raise TooManyToKeepWhole(sum(map(len, program.whole)), CHOICES)
    add_match(program, classes)
    for place, one in enumerate(classes.asked):
        Writer(program, classes, place, one).write()
    program.objectives = objectives(program, classes)
    return program


def add_match(program: Program, classes: Classes) -> None:
    """A cent is match once at most inside a pool, and only if its payer paid it."""
    for number, flow in enumerate(classes.flows):
        whole = flow.fixed + sum(
            bucket.total if flow.payer == NOBODY else bucket.most(flow.payer)
            for bucket in (classes.buckets[key] for key in flow.buckets)
        )
        pools: dict[str, list[int]] = defaultdict(list)
        for award in flow.awards:
            program.match[number, award] = program.unknown(whole)
            pools[classes.pools[award]].append(award)
        paid, constant = paid_parts(program, classes, number)
        for pool, awards in pools.items():
            parts = {program.match[number, award]: 1 for award in awards}
            program.limit({**parts, **paid}, constant - flow.locked[pool])


def paid_parts(program: Program, classes: Classes, number: int) -> tuple[Parts, int]:
    """Minus what a payer pays, on the side of the unknowns, and what is certain."""
    flow = classes.flows[number]
    if flow.payer != NOBODY:
        return {program.charge[key, flow.payer]: -1 for key in flow.buckets}, flow.fixed
    taken = {
        program.charge[key, fund]: 1 for key in flow.buckets for fund in classes.buckets[key].funds
    }
    return taken, flow.fixed + sum(classes.buckets[key].total for key in flow.buckets)


class Writer:
    """Writes the rows of one fund."""

    def __init__(self, program: Program, classes: Classes, place: int, asked: Asked) -> None:
        self.program, self.classes, self.place, self.asked = program, classes, place, asked
        self.mine = [n for n, bucket in enumerate(classes.buckets) if place in bucket.funds]
        self.pieces = [
            (classes.expenses[spot], cents)
            for spot, payer, cents in classes.locks.pieces()
            if payer == place
        ]
        self.charged: dict[Filter, tuple[Parts, int]] = {}

    def write(self) -> None:
        claimed = self.classes.problem.locked_indirect
        self.program.claimed[self.place] = claimed.get(self.asked.fund.key, 0)
        if self.asked.indirect is not None:
            self.add_overhead()
        for row in self.asked.rows:
            self.add_row(row)

    def add_row(self, row: Row) -> None:
        parts: Parts = defaultdict(int)
        constant = 0
        for term in row.terms:
            found, fixed = self.sum_of(term)
            constant += term.weight * fixed
            for unknown, weight in found.items():
                parts[unknown] += term.weight * weight
        kept = {unknown: weight for unknown, weight in parts.items() if weight}
        self.program.limit(kept, row.most - constant, self.place, row)

    def sum_of(self, term: Term) -> tuple[Parts, int]:
        if term.of is Sum.CHARGED:
            return self.charges(filter_of(term))
        if term.of is Sum.INDIRECT:
            unknown = self.program.overhead.get(self.place)
            parts = {} if unknown is None else {unknown: 1}
            return parts, self.program.claimed[self.place]
        if term.of is Sum.OVER:
            return {self.over(term): 1}, 0
        return self.matched(filter_of(term), kind=term.of is Sum.MATCH_KIND)

    def charges(self, rule: Filter) -> tuple[Parts, int]:
        known = self.charged.get(rule)
        if known is None:
            bit, buckets, charge = self.asked.bits[rule], self.classes.buckets, self.program.charge
            parts = {
                charge[number, self.place]: 1
                for number in self.mine
                if buckets[number].patterns[self.place] & bit
            }
            fixed = sum(
                cents for item, cents in self.pieces if rule.lets_in(item.category, item.day)
            )
            known = self.charged[rule] = parts, fixed
        return known

    def matched(self, rule: Filter, kind: bool) -> tuple[Parts, int]:
        bit, match = self.asked.bits[rule], self.program.match
        parts = {
            match[number, self.place]: 1
            for number, flow in enumerate(self.classes.flows)
            if flow.kind is kind and self.place in flow.awards and flow.patterns[self.place] & bit
        }
        fixed = 0
        for (spot, _), counted in self.classes.locks.match.items():
            item = self.classes.expenses[spot]
            if item.in_kind is kind and rule.lets_in(item.category, item.day):
                fixed += counted[self.place]
        return parts, fixed

    def over(self, term: Term) -> int:
        """An unknown that is at least what is charged beyond the base of a term."""
        if term.weight < 0:
            raise NotLinear("A row gives room for going over a budget.")
        bare = replace(term, weight=1)
        unknown = self.program.over.get((self.place, bare))
        if unknown is None:
            parts, fixed = self.charges(filter_of(term))
            reach = fixed + sum(self.program.upper[key] for key in parts)
            unknown = self.program.unknown(reach - term.base)
            self.program.over[self.place, bare] = unknown
            self.program.limit({**parts, unknown: -1}, term.base - fixed)
        return unknown

    def add_overhead(self) -> None:
        """Overhead is at most the rate of its base, rounded down: whole cents, multiplied out."""
        rule, program = self.asked.indirect, self.program
        assert rule is not None
        base, fixed = self.base_of()
        reach = fixed + sum(program.upper[key] for key in base)
        claimed = program.claimed[self.place]
        unknown = program.unknown(reach * rule.basis_points // 10_000 - claimed)
        program.overhead[self.place] = unknown
        parts = {key: -rule.basis_points * weight for key, weight in base.items()}
        program.limit({**parts, unknown: 10_000}, rule.basis_points * fixed - 10_000 * claimed)

    def base_of(self) -> tuple[Parts, int]:
        rule, high = self.asked.indirect, 1 << len(self.asked.bits)
        assert rule is not None
        parts: Parts = {}
        fixed = 0
        partners: dict[str, Parts] = defaultdict(dict)
        locked: dict[str, int] = defaultdict(int)
        for number in self.mine:
            bucket = self.classes.buckets[number]
            if bucket.patterns[self.place] & high:
                unknown = self.program.charge[number, self.place]
                into = partners[bucket.partner] if self.capped(bucket.partner) else parts
                into[unknown] = 1
        for item, cents in self.pieces:
            if self.asked.bears_overhead(item.category):
                if self.capped(item.partner):
                    locked[item.partner] += cents
                else:
                    fixed += cents
        for partner in sorted({*partners, *locked}):
            unknown = self.within(partners[partner], locked[partner], rule.partner_cents or 0)
            parts[unknown] = 1
        return parts, fixed

    def capped(self, partner: str) -> bool:
        rule = self.asked.indirect
        return bool(partner) and rule is not None and rule.partner_cents is not None

    def within(self, parts: Parts, fixed: int, cap: int) -> int:
        """What one partner's part adds to the base: the cap holds once over the whole award."""
        reach = fixed + sum(self.program.upper[key] for key in parts)
        unknown = self.program.unknown(min(reach, cap))
        self.program.limit({unknown: 1, **dict.fromkeys(parts, -1)}, fixed)
        return unknown
