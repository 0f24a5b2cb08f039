"""Every figure opens to its origin: the whole tree under a price, in every job and by every way."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

import pytest
from places import JOBS as JOBS_DIR

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate
from estimating.evidence import load_library
from estimating.figures import Figure, is_luck, leaf, random_draw, work
from estimating.job.file import plain_job
from estimating.origins import Kind, Origin
from estimating.reports.exports.explain import explain, explain_method
from estimating.reports.format import UnitSystem
from estimating.reports.provenance import origin_words, trail
from estimating.rules import card_of
from estimating.trade import measuring
from estimating.units import is_unit
from estimating.workbook import Outcome, build_job, estimate_job, read_job

JOBS = sorted(JOBS_DIR.glob("*.toml"))
SOURCES = load_library().sources
NOTED = (Kind.JUDGMENT, Kind.MEMORY, Kind.COMMON_PRACTICE)
PLACED = (Kind.MEASURED, Kind.ENTERED)


@pytest.fixture(scope="module", params=JOBS, ids=lambda path: path.stem)
def outcome(request: pytest.FixtureRequest) -> Outcome:
    return estimate_job(read_job(request.param))


@pytest.fixture(scope="module")
def demo() -> Outcome:
    (path,) = [path for path in JOBS if path.stem == "alder_row_sitting_room"]
    return estimate_job(read_job(path))


@pytest.fixture(scope="module")
def sprayed(demo: Outcome) -> Outcome:
    plain = plain_job(demo.job)
    plain["work"][0]["method"] = "spray"
    return estimate_job(build_job(plain))


def shown(estimate: Estimate) -> Iterator[Figure]:
    """Yield every figure of an estimate that is put on a page or in a file."""
    yield from (estimate.amount, estimate.cost, estimate.hours, estimate.schedule.days, estimate.schedule.elapsed)
    for line in estimate.lines:
        yield from (line.quantity, line.amount)
        if line.unit_cost is not None:
            yield line.unit_cost
    for order in (*estimate.paint, *estimate.supplies):
        yield from (order.need, order.cost)
    for plan in estimate.plans:
        yield from plan.figures
        for risk in plan.risks:
            yield from (risk.chance, risk.cost_if, risk.expected)
        yield from (task.wait for task in plan.tasks if task.wait is not None)


def whole_tree(outcome: Outcome) -> set[Figure]:
    """Return every figure under what is shown, in the estimate and in each way that it was compared with."""
    estimates = [outcome.estimate, *(option.estimate for each in outcome.comparisons for option in each.options)]
    pivots = [
        comparison.decision_figure for comparison in outcome.comparisons if comparison.decision_figure is not None
    ]
    tops = [*pivots, *(figure for estimate in estimates for figure in shown(estimate))]
    return {figure for top in dict.fromkeys(tops) for figure in top.walk()}


def complaint(figure: Figure) -> str:
    """Return what a figure lacks; nothing where it says all it should."""
    if not figure.name or not is_unit(figure.unit):
        return "no name or unit"
    origin = figure.origin
    if not isinstance(origin, Origin) or origin.kind not in Kind:
        return "no origin"
    if figure.rule is not None:
        whole = figure.inputs and figure.formula and card_of(figure.rule).origin is origin
        return "" if whole else "no formula or inputs"
    if not is_luck(figure) and not math.isfinite(figure.value):
        return "no number"
    if origin.source and not set(origin.source.split("; ")) <= set(SOURCES):
        return f"no such source: {origin.source}"
    if origin.kind is Kind.PUBLISHED and not (origin.source and origin.place):
        return "published, without source or place"
    if origin.kind in NOTED and not origin.note:
        return f"{origin.kind}, without a note"
    if origin.kind in PLACED and not origin.place:
        return f"{origin.kind}, without saying where"
    if origin.kind is Kind.DEFINITION and not (origin.place or origin.note):
        return "a definition of what"
    if origin.kind is Kind.INVENTED and not origin.note:
        return "invented, without saying so"
    return ""


def test_no_figure_is_without_its_origin(outcome: Outcome) -> None:
    """Each leaf has a kind of evidence and what goes with it; each worked figure its formula and what it is made of."""
    tree = whole_tree(outcome)
    assert len(tree) > 200
    wrong = {f"{figure.name} [{figure.key}]: {said}" for figure in tree if (said := complaint(figure))}
    assert wrong == set()


def test_the_check_sees_what_is_missing() -> None:
    """A figure that lacks something is complained of, each in its own way."""

    def bare(kind: Kind, source: str = "", place: str = "", note: str = "") -> Figure:
        return leaf("wage", 28.0, "dollar/hour", Origin(kind, source, place, note))

    assert "without source" in complaint(bare(Kind.PUBLISHED, place="p. 3"))
    assert "no such source" in complaint(bare(Kind.PUBLISHED, "nobody-1999", "p. 3"))
    assert "without a note" in complaint(bare(Kind.JUDGMENT))
    assert "without a note" in complaint(bare(Kind.MEMORY))
    assert "without saying where" in complaint(bare(Kind.MEASURED))
    assert complaint(bare(Kind.DEFINITION)) == "a definition of what"
    assert complaint(bare(Kind.ENTERED, place="site · travel_minutes")) == ""


def test_what_was_measured_or_entered_leads_to_its_field(outcome: Outcome) -> None:
    """The place begins as the job file has it."""
    fields = ("rooms ", "work ", "site · ", "crew · ", "client ", "terms ", "in place of ")
    for figure in whole_tree(outcome):
        if figure.rule is None and figure.origin.kind in PLACED:
            assert figure.origin.place.startswith(fields), figure.origin.place


def test_an_assumption_leads_to_its_row(outcome: Outcome) -> None:
    """Its key is the address at which it can be changed."""
    library = load_library()
    tables = tuple(f"{name}/" for name in library.tables)
    rows = {figure.key for figure in whole_tree(outcome) if figure.key.startswith(tables)}
    assert len(rows) > 40
    assert all(library.has(key) for key in rows)


def test_a_line_is_explained_from_the_tape_to_the_dollar(sprayed: Outcome) -> None:
    """A reading as it was typed, a reference row by its address, a value entered by hand, formulas, units, sources."""
    with_crew_note = explain(sprayed, "travel") + explain(sprayed, "hang_film") + explain(sprayed, "ceiling_flat")
    assert 'rooms "sitting room" · length, 19\' 6"' in with_crew_note
    assert "measured on site" in with_crew_note
    assert "production/hang_film/film/any" in with_crew_note
    assert "entered by hand, site · travel_minutes" in with_crew_note
    assert "cost = hours · loaded wage" in with_crew_note
    assert "spread by a method = spread by hand × (1 − loss of the method) ÷ (1 − loss by hand)" in with_crew_note
    assert "published, " in with_crew_note
    assert re.search(r": \d+ ft²/h \(\d+ ft²/h to \d+ ft²/h\)", with_crew_note)


def test_a_line_is_found_by_its_key_or_its_words(sprayed: Outcome) -> None:
    """In any case; words that fit several lines explain them all."""
    assert explain(sprayed, "hang_film") == explain(sprayed, "HANG_FILM") == explain(sprayed, "hang the wall drape")
    cost = next(line.cost for line in sprayed.estimate.lines if line.key == "hang_film")
    assert explain(sprayed, "hang_film").startswith(f"Hang the wall drape from the paper: ${cost}\n")
    assert explain(sprayed, "spray the ceiling").count("Spray the ceiling, coat") >= 2


def test_the_price_is_explained_whole(demo: Outcome) -> None:
    """All of it, each shared part once."""
    with_crew_note = explain(demo, "price")
    assert with_crew_note.startswith("price: $")
    assert "(as above)" in with_crew_note
    assert all(line.amount.name in with_crew_note for line in demo.estimate.lines)


@pytest.mark.parametrize("words", ["method", "methods", "recommendation", "Method"])
def test_the_way_is_explained_with_its_odds(demo: Outcome, words: str) -> None:
    """By any of its words, as the comparison is."""
    assert explain(demo, words) == explain_method(demo.comparisons[0])


@pytest.mark.parametrize("words", ["plumbing", "", "  "])
def test_what_is_no_line_is_refused_with_the_lines_there_are(demo: Outcome, words: str) -> None:
    """So that one of them can be asked for."""
    with pytest.raises(InputError, match="method, price, or one of the lines: mobilize") as refused:
        explain(demo, words)
    assert all(line.key in str(refused.value) for line in demo.estimate.lines)


def test_an_own_figure_is_explained_as_one() -> None:
    """With the row it stands in for, its note and its date."""
    (path,) = [path for path in JOBS if path.stem == "alder_row_sitting_room"]
    own = {"business/wage": {"likely": 31.0, "unit": "dollar/hour", "note": "new hire", "date": "2026-05-04"}}
    with_crew_note = explain(estimate_job(build_job({**plain_job(read_job(path)), "own": own})), "mobilize")
    assert "entered by hand, in place of business/wage" in with_crew_note
    assert "new hire" in with_crew_note
    assert "$31.00/h" in with_crew_note


def test_a_trail_indents_by_depth_and_says_repeats_once() -> None:
    """Inputs below what they are used in, with ranges where there are any; luck is not drawn."""
    length = leaf("length", 12.0, "ft", Origin(Kind.MEASURED, place="tape"), low=11.0, high=13.0)
    square = work(measuring.rectangle_area, "square", length=length, width=length)
    both = work(measuring.net_area, "nothing left", gross_area=square, deductions=square)
    assert trail(both).splitlines() == [
        "nothing left: 0 ft²  = A = gross area − deductions  [definition, subtraction]",
        "  square: 144 ft²  = A = length · width  [definition, plane geometry]",
        "    length: 12 ft (11 ft to 13 ft)  [measured on site, tape]",
        "    length: 12 ft (11 ft to 13 ft)  [measured on site, tape]",
        "  square: 144 ft²  (as above)",
    ]
    assert trail(random_draw("release")).startswith("release: not drawn")


def test_in_metric_the_numbers_change_and_the_readings_do_not(sprayed: Outcome) -> None:
    """What was typed stays as it was typed."""
    with_crew_note = explain(sprayed, "hang_film", UnitSystem.METRIC)
    assert "m²/h" in with_crew_note
    assert "19' 6\"" in with_crew_note


def test_the_kinds_of_evidence_are_counted_weakest_first() -> None:
    """With the sources, each once."""
    tape = Origin(Kind.MEASURED, place="tape")
    printed = Origin(Kind.PUBLISHED, "roll-book; other-book", "p. 3")
    length, width = leaf("length", 12.0, "ft", tape), leaf("width", 10.0, "ft", printed)
    area = work(measuring.rectangle_area, "area", length=length, width=width)
    assert origin_words(area) == "measured on site (1), published (1); sources: other-book, roll-book"
    assert origin_words(random_draw("release")) == "definition"
