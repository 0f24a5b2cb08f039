import json
from decimal import Decimal
from itertools import pairwise
from typing import Any

import pytest
from places import JOBS as JOBS_DIR

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.origins import Kind
from estimating.reports.exports.estimate_json import estimate_dict, estimate_json
from estimating.units import is_unit
from estimating.workbook import Outcome, estimate_job, read_job

JOBS = sorted(JOBS_DIR.glob("*.toml"))


@pytest.fixture(scope="module", params=JOBS, ids=lambda path: path.stem)
def priced(request: pytest.FixtureRequest) -> tuple[Outcome, EstimateRanges]:
    outcome = estimate_job(read_job(request.param))
    return outcome, estimate_ranges(outcome.estimate, points=512)


@pytest.fixture(scope="module")
def demo() -> dict[str, Any]:
    (path,) = [path for path in JOBS if path.stem == "alder_row_sitting_room"]
    outcome = estimate_job(read_job(path))
    return read(estimate_json(outcome, estimate_ranges(outcome.estimate, points=512)))


def refuse(word: str) -> None:
    raise AssertionError(f"{word} is no JSON")


def read(text: str) -> dict[str, Any]:
    """Return what a strict reader makes of the text: NaN and Infinity are no JSON."""
    found: dict[str, Any] = json.loads(text, parse_constant=refuse)
    return found


def test_any_reader_can_read_it(priced: tuple[Outcome, EstimateRanges]) -> None:
    """No number that is not one, and what was read is what was written."""
    text = estimate_json(*priced)
    assert read(text) == json.loads(json.dumps(estimate_dict(*priced)))
    assert text.endswith("}\n")
    assert "\\u" not in text


def test_the_demo_has_every_way_with_its_hours_gallons_cost_and_chance(demo: dict[str, Any]) -> None:
    """Four ways of coating at least, each with a chance of release; whatever the way, hours and cost in their units."""
    (work,) = demo["work"]
    coated = [method for method in work["methods"] if method["release_chance"] is not None]
    assert len(coated) >= 4
    for method in work["methods"]:
        assert method["hours"]["unit"] == "hour"
        assert method["gallons"]["unit"] == "gallon"
        assert method["cost"]["unit"] == method["price"]["unit"] == "dollar"
        assert method["standing"] in ("OK", "OK if", "not recommended here")
    for method in coated:
        assert method["hours"]["value"] > 0
        assert method["gallons"]["value"] > 0
        assert 0 < method["cost"]["value"] < float(method["price"]["value"])
        assert 0 < method["release_chance"]["value"] < 1
        assert method["release_cost"]["value"] > 0


def test_the_demo_says_what_is_recommended_why_and_where_it_turns(demo: dict[str, Any]) -> None:
    """By the words of the job file, so that another program can ask for it."""
    (work,) = demo["work"]
    assert work["recommended"] == work["taken"]
    assert work["recommended"] in {method["method"] for method in work["methods"]}
    assert work["why"]
    assert 0 < work["turns_on"]["value"] < 1
    along = work["recommended_along"]
    assert (along[0]["from"], along[-1]["to"]) == (0, 1)
    assert all(one["to"] == other["from"] for one, other in pairwise(along))
    (here,) = [each for each in along if each["from"] <= work["turns_on"]["value"] < each["to"]]
    assert here["method"] == work["recommended"]
    assert len({each["method"] for each in along}) > 1


def test_the_lines_add_up_to_the_price(priced: tuple[Outcome, EstimateRanges]) -> None:
    """As decimals, to the cent; money is text, because a binary fraction holds no cent."""
    plain = read(estimate_json(*priced))
    assert sum(Decimal(line["cost"]["likely"]) for line in plain["lines"]) == Decimal(plain["price_offered"]["value"])
    assert plain["cost_to_do"]["low"] <= plain["cost_to_do"]["mean"] <= plain["cost_to_do"]["high"]
    bids = [*plain["price_for_chance_of_loss"].values()]
    assert bids == sorted(bids, reverse=True)


def test_every_number_with_a_value_has_a_unit_that_can_be_read(priced: tuple[Outcome, EstimateRanges]) -> None:
    """Wherever it stands."""
    found = list(values_in(read(estimate_json(*priced))))
    assert len(found) > 50
    for each in found:
        assert is_unit(each["unit"])


def values_in(here: Any) -> Any:
    if isinstance(here, dict):
        if "value" in here:
            yield here
        for each in here.values():
            yield from values_in(each)
    elif isinstance(here, list):
        for each in here:
            yield from values_in(each)


def test_every_assumption_has_its_range_and_origin(priced: tuple[Outcome, EstimateRanges]) -> None:
    """By the address at which it can be changed."""
    outcome, _ = priced
    assumptions = read(estimate_json(*priced))["assumptions"]
    assert assumptions.keys() == outcome.basis.used().keys()
    for key, each in assumptions.items():
        assert outcome.basis.library.has(key)
        assert each["low"] <= each["likely"] <= each["high"]
        assert each["origin"] in list(Kind)
        assert is_unit(each["unit"])


def test_a_small_need_is_not_rounded_away(demo: dict[str, Any]) -> None:
    """A spoonful of enamel for four trims keeps its low: not 0.00 gallons."""
    (enamel,) = [line for line in demo["lines"] if line["key"] == "trim_enamel"]
    assert 0 < enamel["quantity"]["low"] < enamel["quantity"]["value"] < enamel["quantity"]["high"]
