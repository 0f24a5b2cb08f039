"""Scenarios: changes put on a job and read off again, and differences that add up to the change of the price."""

from __future__ import annotations

from copy import deepcopy
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from places import JOBS as JOBS_DIR

from estimating.errors import InputError
from estimating.estimate.whatif.scenario import ABSENT, Scenario, apply, changes_between, line_changes, value_at
from estimating.job.file import plain_job
from estimating.workbook import Outcome, build_job, estimate_job, read_job

DEMO = JOBS_DIR / "alder_row_sitting_room.toml"

ANSWERS = st.text(max_size=4) | st.integers(0, 9)
PARTS = st.recursive(
    ANSWERS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text("abc", max_size=2), inner, max_size=4),
    max_leaves=12,
)
JOBS = st.dictionaries(st.text("abc", max_size=2), PARTS, max_size=4)


@pytest.fixture(scope="module")
def plain() -> dict[str, Any]:
    return plain_job(read_job(DEMO))


@pytest.fixture(scope="module")
def priced(plain: dict[str, Any]) -> Outcome:
    return estimate_job(build_job(plain))


@given(JOBS, JOBS)
def test_changes_make_one_job_of_the_other(before: dict[str, Any], after: dict[str, Any]) -> None:
    """Whatever two jobs hold, the changes between them lead from one to the other, and leave the first as it was."""
    kept = deepcopy(before)
    assert apply(before, changes_between(before, after)) == after
    assert before == kept


@given(JOBS)
def test_a_job_does_not_differ_from_itself(job: dict[str, Any]) -> None:
    """No change is found where there is none."""
    assert changes_between(job, deepcopy(job)) == {}


def test_one_input_changed_is_one_change(plain: dict[str, Any]) -> None:
    """A third coat is found at its place, and a scenario puts it there."""
    scenario = Scenario("three coats", {("work", 0, "coats"): 3})
    assert changes_between(plain, scenario.of(plain)) == scenario.changes
    assert build_job(scenario.of(plain)).work[0].coats == 3
    assert plain["work"][0]["coats"] != 3


def test_rows_are_added_and_taken_away_whole(plain: dict[str, Any]) -> None:
    """A further test is one change with the whole row; without it again, one that takes it away."""
    row = {"kind": "water mist", "outcome": "beads", "removed": "unknown", "where": "by the door"}
    tests = plain["work"][0]["tests"]
    place = ("work", 0, "tests", len(tests))
    more = apply(plain, {place: row})
    assert changes_between(plain, more) == {place: row}
    assert changes_between(more, plain) == {place: ABSENT}
    assert apply(more, {place: ABSENT}) == plain


def test_an_own_figure_is_named_by_its_row(plain: dict[str, Any]) -> None:
    """A figure set at the desk is one change at its address."""
    wage = {"likely": 40.0, "unit": "dollar/hour", "note": "new wage"}
    assert changes_between(plain, {**plain, "own": {"business/wage": wage}}) == {("own", "business/wage"): wage}


@pytest.mark.parametrize(
    "path", [(), ("nowhere", "coats"), ("work", 9, "coats"), ("work", "coats"), ("title", 0), ("rooms", 7)]
)
def test_a_place_the_job_does_not_have_is_named(plain: dict[str, Any], path: tuple[str | int, ...]) -> None:
    """Setting or taking away what is not there is refused, with its place."""
    for value in ("3", ABSENT):
        with pytest.raises(InputError, match="a place that this job has") as found:
            apply(plain, {path: value})
        assert found.value.location == path


def test_what_stands_at_a_place(plain: dict[str, Any]) -> None:
    """A place is looked up by its steps; one that is not there is absent, not an error."""
    assert value_at(plain, ("work", 0, "texture")) == "popcorn"
    assert value_at(plain, ("work", 4, "texture")) is ABSENT
    assert value_at(plain, ("title", "texture")) is ABSENT


def test_line_changes_add_up_to_the_change_of_the_price(plain: dict[str, Any], priced: Outcome) -> None:
    """To the cent: whatever differs between two estimates is in the lines listed, each once."""
    for changes in (
        {("work", 0, "coats"): 3},
        {("work", 0, "method"): "scrape"},
        {("site", "travel_minutes"): "unknown"},
    ):
        other = estimate_job(build_job(apply(plain, changes)))
        found = line_changes(priced.estimate, other.estimate)
        assert found
        assert sum((each.change for each in found), Decimal(0)) == other.estimate.price - priced.estimate.price
        back = line_changes(other.estimate, priced.estimate)
        assert sorted(-each.change for each in back) == sorted(each.change for each in found)


def test_lines_that_are_the_same_are_left_out(priced: Outcome, plain: dict[str, Any]) -> None:
    """An estimate does not differ from itself; a longer drive leaves the coats of one method as they are."""
    assert line_changes(priced.estimate, priced.estimate) == []
    method = priced.estimate.plans[0].method
    far = estimate_job(build_job(apply(plain, {("site", "travel_minutes"): 50, ("work", 0, "method"): method})))
    found = [each.line.key for each in line_changes(priced.estimate, far.estimate)]
    assert found == ["travel", "overhead", "markup"]


def test_a_line_that_one_estimate_does_not_have(plain: dict[str, Any], priced: Outcome) -> None:
    """Without driving there is no line for it: it is listed as gone, at what it cost."""
    near = estimate_job(build_job(apply(plain, {("site", "travel_minutes"): "unknown"})))
    gone = [each for each in line_changes(priced.estimate, near.estimate) if each.after is None]
    assert [each.line.key for each in gone] == ["travel"]
    assert gone[0].before is not None
    assert gone[0].change == -gone[0].before.cost


def test_like_lines_of_two_rooms_are_told_apart(plain: dict[str, Any]) -> None:
    """Two rooms with the same work have lines of the same name; each is compared with its own.

    The two are put in by one and the same part, as a caller may: a change to one is none to the other.
    """
    room = {**plain["rooms"][0], "name": "second room"}
    item = {**plain["work"][0], "room": "second room"}
    both = {**plain, "rooms": [*plain["rooms"], room], "work": [*plain["work"], item]}
    before = estimate_job(build_job(both))
    after = estimate_job(build_job(apply(both, {("rooms", 1, "fixtures", "grille"): 5})))
    grilles = [each for each in line_changes(before.estimate, after.estimate) if "grille" in each.line.key]
    assert {each.line.room for each in grilles} == {"second room"}
