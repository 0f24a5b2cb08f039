import importlib
import inspect
import pkgutil
import pydoc
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

import estimating
from estimating.errors import EvidenceError
from estimating.evidence import load_library
from estimating.origins import Kind, definition, judgment, practice, published
from estimating.rules import SAME, card_of, rule
from estimating.units import Number, is_unit


def every_rule() -> dict[str, Callable[..., Any]]:
    """Return every registered rule of the package, by where it stands."""
    found = {}
    for module in pkgutil.walk_packages(estimating.__path__, "estimating."):
        if ".lab" in module.name or module.name.endswith(("__main__", ".start")):
            continue
        here = importlib.import_module(module.name)
        for name, thing in vars(here).items():
            if inspect.isfunction(thing) and hasattr(thing, "card") and thing.__module__ == module.name:
                found[f"{module.name.removeprefix('estimating.')}.{name}"] = thing
    return found


RULES = every_rule()
each_rule = pytest.mark.parametrize("function", RULES.values(), ids=RULES)


def test_a_registered_function_is_unchanged_and_carries_its_card() -> None:
    """Called plainly it is the plain function; the card says how it is written, in what units, and from where."""

    @rule("A = s²", "ft**2", definition("square"), side="ft")
    def square(*, side: Number) -> Number:
        return side**2

    card = card_of(square)
    assert square(side=3.0) == 9.0
    np.testing.assert_array_equal(square(side=np.array([1.0, 2.0])), [1.0, 4.0])
    assert (card.formula, card.unit, dict(card.arguments), card.rest) == ("A = s²", "ft**2", {"side": "ft"}, None)
    assert card.origin.kind is Kind.DEFINITION


def test_a_function_without_a_card_is_named() -> None:
    """So is anything else that is no rule."""
    with pytest.raises(EvidenceError, match="every_rule is no rule"):
        card_of(every_rule)


def test_there_are_rules_to_look_at() -> None:
    """A mistake in the search would let everything below pass on nothing."""
    assert len(RULES) > 100
    assert "trade.measuring.rectangle_area" in RULES


@each_rule
def test_a_rule_declares_exactly_the_arguments_it_takes(function: Callable[..., Any]) -> None:
    """All of them by keyword, so that no two can change places."""
    taken = inspect.signature(function).parameters.values()
    assert {each.kind for each in taken} <= {inspect.Parameter.KEYWORD_ONLY, inspect.Parameter.VAR_KEYWORD}
    named = {each.name for each in taken if each.kind is inspect.Parameter.KEYWORD_ONLY}
    assert named == set(card_of(function).arguments)
    assert any(each.kind is inspect.Parameter.VAR_KEYWORD for each in taken) == (card_of(function).rest is not None)


@each_rule
def test_no_argument_of_a_rule_has_a_value_of_its_own(function: Callable[..., Any]) -> None:
    """What might be tuned comes in as a figure with an origin."""
    assert all(each.default is inspect.Parameter.empty for each in inspect.signature(function).parameters.values())


@each_rule
def test_the_units_of_a_rule_can_be_read(function: Callable[..., Any]) -> None:
    """Of its answer and of each argument."""
    card = card_of(function)
    units = [card.unit, *card.arguments.values(), card.rest or SAME]
    assert all(unit == SAME or is_unit(unit) for unit in units), units


@each_rule
def test_a_rule_says_what_it_does_how_and_on_whose_word(function: Callable[..., Any]) -> None:
    """A formula, a sentence, and an origin: a source with its place, or a word that says there is none."""
    card = card_of(function)
    assert card.formula.strip()
    assert (function.__doc__ or "").strip()
    origin = card.origin
    if origin.kind is Kind.PUBLISHED:
        assert origin.place
        assert set(origin.source.split("; ")) <= set(load_library().sources)
    elif origin.kind is Kind.DEFINITION:
        assert origin.place
    else:
        assert origin.kind in (Kind.JUDGMENT, Kind.COMMON_PRACTICE, Kind.MEMORY)
        assert origin.note


def test_an_origin_says_its_kind_source_and_place() -> None:
    """In that order, and nothing of what it lacks."""
    assert str(published("nist-handbook-44", "Appendix C")) == "published, nist-handbook-44, Appendix C"
    assert str(judgment("ours")) == "judgment"
    assert str(practice("nobody's")) == "common practice, no source"
    assert str(definition("geometry")) == "definition, geometry"


@each_rule
def test_help_prints_the_whole_card(function: Callable[..., Any]) -> None:
    """Purpose, formula, each argument with its unit and bound, the unit of the answer, and the source."""
    card = card_of(function)
    said = pydoc.render_doc(function, renderer=pydoc.plaintext)
    assert card.formula in said
    for name, unit in card.arguments.items():
        assert f"{name} ({'the unit of the first argument' if unit == SAME else unit})" in said
    assert all(bound.words in said for bound in card.bounds.values())
    answer = said.split("Answer:")[1].split()
    assert answer[0] == (card.unit if card.unit != SAME else "the")
    assert str(card.origin) in said


def test_most_arguments_have_a_bound() -> None:
    """Those without are temperatures, differences, prices that may fall, and what hangs on another argument."""
    arguments = [(function, name) for function in RULES.values() for name in card_of(function).arguments]
    bounded = [name for function, name in arguments if name in card_of(function).bounds]
    assert len(bounded) >= 0.85 * len(arguments)
