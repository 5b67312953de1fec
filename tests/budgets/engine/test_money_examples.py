"""The examples in the docstrings of the money engine run."""

import doctest
import importlib
import pkgutil

import pytest

import budgets.engine

MODULES = [module.name for module in pkgutil.iter_modules(budgets.engine.__path__)]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module_are_right(name: str) -> None:
    assert doctest.testmod(importlib.import_module(f"budgets.engine.{name}")).failed == 0
