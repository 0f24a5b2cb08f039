"""Every rule is led to by something a person opens or runs."""

from __future__ import annotations

from reachable import reached, read_all, read_names
from test_rules import RULES


def test_every_rule_is_reachable() -> None:
    """From a command, the desk, a document or a notebook, by the names that the code mentions."""
    seen = {f"{module}.{name}".removeprefix("estimating.") for module, name in reached(read_all())}
    assert sorted(set(RULES) - seen) == []


def test_a_rule_that_nothing_mentions_is_seen() -> None:
    """A definition beside others is not reached by standing there; one that is called is, also under another name."""
    command = "from estimating.sums import used as door\n\n\ndef main(): door()"
    sums = "def used(): return inner()\ndef inner(): ...\ndef dead(): inner()"
    modules = {
        "estimating.__main__": read_names(command, "estimating"),
        "estimating.sums": read_names(sums, "estimating"),
    }
    found = {name for module, name in reached(modules) if module == "estimating.sums" and name}
    assert found == {"used", "inner"}
