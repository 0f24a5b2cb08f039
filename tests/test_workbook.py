"""One way through: job in, outcome out, the same every time."""

from __future__ import annotations

import copy
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from places import JOBS as JOBS_DIR

from estimating.errors import EvidenceError, InputError, InputErrors
from estimating.estimate.pricing.build_up import build_up
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.evidence import Basis, OwnValue, load_library
from estimating.job.file import plain_job
from estimating.workbook import Outcome, build_job, estimate_job, own_values, read_job

JOBS = sorted(JOBS_DIR.glob("*.toml"))
DEMO = next(path for path in JOBS if path.stem == "alder_row_sitting_room")


def demo(**parts: Any) -> dict[str, Any]:
    return {**plain_job(read_job(DEMO)), **parts}


def two_rooms(method: str = "unknown") -> dict[str, Any]:
    """Return the demo with a second ceiling like the first, to be done in this way."""
    plain = demo()
    plain["rooms"] = [plain["rooms"][0], {**copy.deepcopy(plain["rooms"][0]), "name": "dining room"}]
    plain["work"] = [plain["work"][0], {**copy.deepcopy(plain["work"][0]), "room": "dining room", "method": method}]
    return plain


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_what_is_priced_is_what_is_compared(path: Path) -> None:
    """The estimate is made of the ways taken, and each comparison shows the way taken at the price of the whole job."""
    outcome = estimate_job(read_job(path))
    assert outcome.estimate.plans == tuple(each.taken.plan for each in outcome.comparisons)
    assert {each.taken.price for each in outcome.comparisons} == {outcome.estimate.price}


@pytest.mark.parametrize("method", ["unknown", "roll", "decline"])
def test_two_pieces_are_compared_beside_the_ways_that_are_taken(method: str) -> None:
    """Not beside the first way of the other, which may be one that is not used: both tables show the same price."""
    outcome = estimate_job(build_job(two_rooms(method)))
    for comparison in outcome.comparisons:
        assert comparison.taken.price == outcome.estimate.price
        assert comparison.recommended.price == min(
            each.price
            for each in comparison.options
            if each.plan.finishes and each.plan.suitability != "not recommended here"
        )
    for place, comparison in enumerate(outcome.comparisons):
        plans = [each.taken.plan for each in outcome.comparisons]
        for option in comparison.options:
            plans[place] = option.plan
            assert build_up(plans, outcome.job, outcome.basis).price == option.price


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_the_same_job_gives_the_same_answer(path: Path) -> None:
    """Read again and priced again: the price, its range, every line and every way."""

    def answer() -> list[object]:
        outcome = estimate_job(read_job(path))
        methods = [(each.plan.method, each.price) for one in outcome.comparisons for each in one.options]
        lines = [(line.key, line.room, line.cost) for line in outcome.estimate.lines]
        return [
            outcome.estimate.price,
            estimate_ranges(outcome.estimate, points=256).cost,
            lines,
            methods,
            outcome.questions,
        ]

    assert answer() == answer()


def price(outcome: Outcome) -> float:
    return float(outcome.estimate.price)


def test_an_own_figure_moves_the_price_and_nothing_else_is_asked() -> None:
    """Dearer labor, dearer job; by the job file or by the contractor's own records."""
    wage = {"business/wage": {"likely": 40.0, "unit": "dollar/hour"}}
    plain = price(estimate_job(build_job(demo())))
    by_job = price(estimate_job(build_job(demo(own=wage))))
    by_records = price(estimate_job(build_job(demo()), own={"business/wage": OwnValue(40.0, "dollar/hour")}))
    assert by_job == by_records > plain


def test_the_job_s_own_figure_goes_before_the_contractor_s() -> None:
    """What was agreed for this job holds for this job."""
    job = build_job(demo(own={"business/wage": {"likely": 40.0, "unit": "dollar/hour", "note": "night work"}}))
    outcome = estimate_job(job, own={"business/wage": OwnValue(30.0, "dollar/hour")})
    assert outcome.basis.used()["business/wage"].value == 40.0
    assert outcome.basis.used()["business/wage"].origin.note == "night work"
    assert own_values(job.own)["business/wage"].likely == 40.0


def test_an_own_figure_in_another_unit_is_the_same_figure() -> None:
    """Hours on the road in minutes or hours, square feet or meters: the price does not move by a cent."""
    row = load_library().row("production", "hang_film", "film", "any")
    feet = {"likely": row.likely, "unit": "ft**2/hour", "low": row.low, "high": row.high}
    meter = 0.3048**2
    meters = {"likely": row.likely * meter, "unit": "m**2/hour", "low": row.low * meter, "high": row.high * meter}
    prices = {price(estimate_job(build_job(demo(own={row.key: each})))) for each in (feet, meters)}
    assert prices == {price(estimate_job(build_job(demo())))}


def test_an_own_figure_of_no_row_is_refused() -> None:
    """Every one of them at once."""
    stray = {"likely": 1.0, "unit": "hour"}
    with pytest.raises(InputErrors) as refused:
        estimate_job(build_job(demo(own={"business/wages": stray, "prices/gold/bar": stray})))
    assert [each.value for each in refused.value.problems] == ["business/wages", "prices/gold/bar"]


def test_a_table_without_a_row_that_is_needed_is_named() -> None:
    """The price is not made up without it."""
    library = load_library()
    tables = {name: rows for name, rows in library.tables.items() if name != "business"}
    with pytest.raises(EvidenceError, match="no table 'business'"):
        estimate_job(build_job(demo()), type(library)(tables, library.sources))


def test_the_same_measurements_in_meters_are_the_same_price() -> None:
    """To the cent: 19 ft 6 in is 5.9436 m, and the rest alike."""
    shape = {
        "kind": "l_shape",
        "length": "5.9436 m",
        "width": "435.61 cm",
        "notch_length": "1879.6 mm",
        "notch_width": "1.4224 m",
    }
    plain = demo()
    metric = [{**plain["rooms"][0], "shape": shape}]
    assert price(estimate_job(build_job(demo(rooms=metric)))) == price(estimate_job(build_job(plain)))


def test_less_sure_measurements_widen_the_range_and_leave_the_price() -> None:
    """A guess is as likely too much as too little."""
    answers = {}
    for measured in ("sure", "guess"):
        plain = demo()
        plain["rooms"] = [{**plain["rooms"][0], "measured": measured}]
        outcome = estimate_job(build_job(plain))
        spread = estimate_ranges(outcome.estimate).amounts
        paint = next(line for line in outcome.estimate.lines if line.key == "protect_floor")
        answers[measured] = outcome.estimate.price, spread[paint].high - spread[paint].low
    assert answers["sure"][0] == answers["guess"][0]
    assert answers["guess"][1] > answers["sure"][1]


def test_unknown_answers_are_asked_and_those_given_are_not() -> None:
    """The demo leaves nothing open that it was asked; a bare job leaves much, and is priced all the same."""
    assert estimate_job(build_job(demo())).questions == ()
    bare = estimate_job(
        build_job(
            {
                "title": "a ceiling",
                "rooms": [{"name": "attic", "height": "8 ft",
                           "shape": {"kind": "rectangle", "length": "12 ft", "width": "10 ft"}}],
                "work": [{"kind": "textured_ceiling", "room": "attic", "texture": "popcorn"}],
            }
        )
    )  # fmt: skip
    fields = {question.field for question in bare.questions}
    assert {"site · year_built", "site · asbestos_test", 'work "attic" · history'} <= fields
    assert bare.estimate.price > 0


def test_a_job_without_a_height_is_not_guessed_at() -> None:
    """The one answer a price cannot do without."""
    plain = demo()
    plain["rooms"] = [{**plain["rooms"][0], "height": "unknown"}]
    with pytest.raises(InputError, match="the height of the room"):
        estimate_job(build_job(plain))


def test_assumptions_that_were_used_can_be_listed() -> None:
    """By address, so that each can be looked at and changed."""
    outcome = estimate_job(build_job(demo()))
    assert "business/wage" in outcome.basis.used()
    assert isinstance(outcome.basis, Basis)
    assert all(figure.key == key for key, figure in outcome.basis.used().items())


@pytest.mark.parametrize("least", [500.0, 701.37, 1234.56])
def test_a_job_at_the_minimum_charge_costs_it_to_the_cent(least: float) -> None:
    """Though each of its lines is rounded; and so says the engine that chose its method."""
    plain: dict[str, Any] = {
        "title": "a small ceiling",
        "site": {"year_built": 1999, "occupied": "no"},
        "rooms": [{"name": "den", "shape": {"kind": "rectangle", "length": "6 ft", "width": "5 ft"}, "height": "8 ft"}],
        "work": [{"kind": "interior_repaint", "room": "den", "method": "roll", "ceiling": {"painted": "yes"}}],
    }
    plain["work"][0] |= {"walls": {"painted": "no"}, "trim": {"painted": "no"}}
    own = {"business/minimum_charge": OwnValue(least, "dollar"), "business/minimum_hours": OwnValue(0.0, "hour")}
    outcome = estimate_job(build_job(plain), own=own)
    assert outcome.estimate.price == Decimal(str(least))
    assert outcome.engine.likely(outcome.estimate.plans).price == outcome.estimate.price
