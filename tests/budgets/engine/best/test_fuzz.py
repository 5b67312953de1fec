"""New books every night: the best fit against every cent, the checker and its own bound.

A few in the usual run; with GIORNATA_FUZZ_SECONDS so many seconds of new ones (scripts/nightly).
GIORNATA_FUZZ_SEED repeats a night.
"""

import os
from datetime import date
from itertools import count
from time import monotonic

from budgets.engine.best import best_fit, check
from tests.budgets.engine.best.books import random_books, with_locks
from tests.budgets.engine.best.brute import optimum
from tests.budgets.engine.best.tiny import problem_of, random_tiny

SECONDS = float(os.environ.get("GIORNATA_FUZZ_SECONDS", "0"))
NIGHT = date.today().toordinal() * 100_000 if SECONDS else 0


def test_new_books_are_shared_out_soundly_and_tiny_ones_exactly() -> None:
    first, until = int(os.environ.get("GIORNATA_FUZZ_SEED", NIGHT)), monotonic() + SECONDS
    for seed in count(first):
        tiny = random_tiny(seed, strict=seed % 5 == 0, whole=seed % 7 == 0)
        fit = best_fit(problem_of(tiny))
        assert (fit.used, fit.steady) == optimum(tiny), seed
        books = random_books(seed, minimum_charge=1_00 * (seed % 2))
        for problem in (books, with_locks(books, seed)):
            fit = best_fit(problem)
            assert check(problem, fit) == (), seed
            assert fit.gap <= 1 or seed % 2, seed
        if monotonic() >= until and seed >= first + 20:
            return
