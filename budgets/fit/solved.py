"""The best fit of a problem, solved once: the last answers are kept in the process.

A problem holds all that its fit hangs on, so that equal problems have equal fits; nothing that
is kept can be out of date.
"""

from __future__ import annotations

import pickle
from collections import OrderedDict
from dataclasses import fields
from hashlib import sha256
from threading import Lock

from budgets.engine import best as optimum

KEPT = 24  # answers, about a megabyte each at 600 expenses

_answers: OrderedDict[bytes, optimum.Fit] = OrderedDict()
_lock = Lock()


def best_fit(problem: optimum.Problem) -> optimum.Fit:
    """Raises `optimum.BestError`; no error is kept."""
    key = key_of(problem)
    with _lock:
        if key in _answers:
            _answers.move_to_end(key)
            return _answers[key]
    found = optimum.best_fit(problem)
    with _lock:
        _answers[key] = found
        while len(_answers) > KEPT:
            _answers.popitem(last=False)
    return found


def key_of(problem: optimum.Problem) -> bytes:
    """Of the values only: what a problem has worked out of them is left aside."""
    values = [getattr(problem, field.name) for field in fields(problem)]
    return sha256(pickle.dumps(values)).digest()


def forget() -> None:
    with _lock:
        _answers.clear()
