"""The worked examples in the docstrings of the rules."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

from estimating import trade

MODULES = [each.name for each in pkgutil.walk_packages(trade.__path__, "estimating.trade.") if not each.ispkg]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_come_to_what_they_say(name: str) -> None:
    """Each is worked as it stands there."""
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_there_are_examples_to_look_at() -> None:
    """A search that found none would pass on nothing."""
    assert sum(doctest.testmod(importlib.import_module(name)).attempted for name in MODULES) >= 15
