"""Every field has a bound with its reason; what is beyond is refused or asked about, and what is within it prices."""

from __future__ import annotations

import copy
import math
import re
import time
from collections.abc import Iterator
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from places import JOBS
from pydantic import BaseModel

from estimating.errors import EstimatingError, InputError, InputErrors
from estimating.evidence import OwnValue, load_library
from estimating.job.bounds import Bound, bound_of, hold_own, own_bound, walk
from estimating.job.file import plain_job
from estimating.job.values import Notes
from estimating.scopes.registry import JOB, KINDS
from estimating.units import Reading
from estimating.workbook import Outcome, build_job, estimate_job, read_job

Plain = dict[str, Any]
LIBRARY = load_library()
JOB_FILES = sorted(JOBS.glob("*.toml"))
PLAINS = {path.stem: plain_job(read_job(path)) for path in JOB_FILES}
LONGEST = 20.0  # seconds; what is meant is 2, and a busy machine is slower


def inside(annotation: Any) -> Iterator[Any]:
    """Yield every type an annotation is made of."""
    arguments = get_args(annotation)
    if not arguments:
        yield annotation
    for each in arguments:
        yield from inside(each)


def fields(model: type[BaseModel], part: str) -> Iterator[tuple[str, str]]:
    """Yield each field that holds a number or a list of parts, with the part it stands in."""
    for name, field in model.model_fields.items():
        types = list(inside(field.annotation))
        if any(each in (int, float, Reading) for each in types):
            yield name, part
        for each in types:
            if isinstance(each, type) and issubclass(each, Notes) and name not in ("work", "own"):
                yield name, part
                yield from fields(each, name)


def every_field() -> set[tuple[str, str]]:
    """Return each field of a job that needs a bound, of every kind of work."""
    of_kinds = {found for key, kind in KINDS.items() for found in fields(kind.notes, key)}
    whole = {*fields(JOB, "job"), *of_kinds, ("work", "job")}
    single = {name for name, _ in whole if not several(name)}
    return {(name, part) for name, part in whole if name not in single}


def several(name: str) -> bool:
    """Say whether a field is a number or a list; a part such as `site` needs no bound, its own fields do."""
    models: list[type[BaseModel]] = [JOB, *(kind.notes for kind in KINDS.values())]
    seen = set()
    while models:
        model = models.pop()
        if model in seen:
            continue
        seen.add(model)
        for found, field in model.model_fields.items():
            types = list(inside(field.annotation))
            if found == name and (
                any(each in (int, float, Reading) for each in types) or "tuple[" in str(field.annotation)
            ):
                return True
            models += [each for each in types if isinstance(each, type) and issubclass(each, Notes)]
    return False


def test_every_field_that_holds_a_number_or_a_list_has_a_bound() -> None:
    """Of all kinds of work, found by the registry; a new field fails here until somebody has thought of its bounds."""
    found = every_field()
    assert len(found) > 90
    assert not sorted(each for each in found if bound_of(*each) is None)


def test_every_row_of_the_business_has_a_bound_of_its_own_or_a_multiple() -> None:
    """An own value in place of any row is held to something, and the wage and its like to dollars."""
    for table in LIBRARY.tables.values():
        for row in table.values():
            assert own_bound(row) is not None or row.high <= 0, row.key
    wage = own_bound(LIBRARY.row("business", "wage"))
    assert wage is not None
    assert (wage.least, wage.most) == (5, 300)


@pytest.mark.parametrize("row", LIBRARY.table("bounds").values(), ids=lambda row: row.key)
def test_a_bound_asks_before_it_refuses_and_gives_its_reason(row: Any) -> None:
    """Least, low, usual, high and most rise; the note is the reason in a sentence."""
    bound = bound_of(*row.keys)
    assert bound is not None
    assert bound.least <= bound.low <= bound.usual
    assert bound.usual <= bound.high or row.keys[0] == "year_built"
    assert bound.high <= bound.most or row.keys[0] == "year_built"
    assert re.fullmatch(r"[A-Z].*\.", bound.reason)


@pytest.mark.parametrize("name", PLAINS)
def test_nothing_in_a_demo_job_is_unusual(name: str) -> None:
    """A question about every house would soon be read by nobody."""
    outcome = estimate_job(build_job(PLAINS[name]))
    assert not [each for each in outcome.questions if "priced as it stands" in each.text]


def changed(place: tuple[str | int, ...], value: Any, name: str = "birch_lane_upstairs") -> Plain:
    job = copy.deepcopy(PLAINS[name])
    here: Any = job
    for step in place[:-1]:
        here = here[step]
    here[place[-1]] = value
    return job


IMPOSSIBLE = [
    (("rooms", 0, "height"), "82 ft", "4 ft to 60 ft", "Is it 8' 2\"?"),
    (("rooms", 0, "height"), "8 in", "4 ft to 60 ft", "Is it 8' 0\"?"),
    (("work", 0, "walls", "coats"), 22, "1 to 6", ""),
    (("work", 0, "repairs", "nail_pops"), 600_000, "0 to 2,000", ""),
    (("crew", "people"), 500, "1 to 20", ""),
    (("site", "surface"), "-500 degF", "-60 °F to 180 °F", ""),
    (("site", "year_built"), 3050, "1600 to", ""),
    (("site", "year_built"), 68, "1600 to", ""),
    (("terms", "change_rate"), "0.50", "$1 an hour to $1,000 an hour", ""),
]


@pytest.mark.parametrize(("place", "value", "needed", "meant"), IMPOSSIBLE)
def test_the_impossible_is_refused_with_field_value_and_what_would_be_right(
    place: tuple[str | int, ...], value: Any, needed: str, meant: str
) -> None:
    """A form finds the field by the location."""
    with pytest.raises(InputErrors) as caught:
        build_job(changed(place, value))
    (problem,) = caught.value.problems
    assert problem.location == place
    assert str(place[-1]) in problem.field
    assert str(value) in str(problem.value)
    assert needed in problem.needed
    assert meant in problem.needed


UNUSUAL = [
    (("rooms", 0, "shape", "length"), "194 ft 6 in", "14 times the usual 14 ft", "19' 5.5\""),
    (("rooms", 0, "height"), "8 m", "3 times the usual 8 ft", "8' 0\""),
    (("work", 0, "repairs", "nail_pops"), 600, "75 times the usual 8", "is it 60?"),
    (("site", "air"), "20 degF", "below the usual 68 °F", "20 °C"),
    (("crew", "people"), 20, "10 times the usual 2", "is it 2?"),
    (("work", 0, "walls", "coats"), 6, "3 times the usual 2", "Is it right?"),
    (("terms", "validity_days"), 300, "10 times the usual 30 days", "30 days"),
]


def questions(outcome: Outcome) -> list[tuple[str, str]]:
    return [(each.field, each.text) for each in outcome.questions if "priced as it stands" in each.text]


@pytest.mark.parametrize(("place", "value", "off", "meant"), UNUSUAL)
def test_the_unusual_is_priced_and_asked_about(place: tuple[str | int, ...], value: Any, off: str, meant: str) -> None:
    """The question says how far it is off and what may have been meant; nothing is changed silently."""
    ((field, text),) = questions(estimate_job(build_job(changed(place, value))))
    assert field.endswith(str(place[-1]))
    assert off in text
    assert meant in text


def test_an_own_value_beyond_its_bound_is_refused_and_an_unusual_one_asked_about() -> None:
    """A wage of "28,50" read as 2,850 stops at the door."""
    wage = LIBRARY.row("business", "wage")
    with pytest.raises(InputError, match=r"business/wage: got '2850 dollar/hour', needs \$5 an hour to \$300"):
        hold_own(wage, OwnValue(2850.0, "dollar/hour"))
    with pytest.raises(InputError, match="business/wage"):
        hold_own(wage, OwnValue(math.inf, "dollar/hour"))
    own = {"business/wage": {"likely": 250, "unit": "dollar/hour"}}
    ((field, text),) = questions(estimate_job(build_job({**PLAINS["alder_row_sitting_room"], "own": own})))
    assert field == "own · business/wage"
    assert "9 times the usual $28 an hour; is it $25 an hour?" in text
    with pytest.raises(InputError, match="business/wage"):
        estimate_job(
            build_job(
                {**PLAINS["alder_row_sitting_room"], "own": {"business/wage": {"likely": 1, "unit": "dollar/hour"}}}
            )
        )


def numbers_in(name: str) -> list[tuple[tuple[str | int, ...], Bound, Any]]:
    """Return the place, the bound and the plain value of each single number a demo job holds."""
    job = PLAINS[name]
    found = [(each.place, each.bound) for each in walk(build_job(job))]
    values = []
    for place, bound in found:
        here: Any = job
        for step in place:
            here = here[step]
        if not isinstance(here, list) and "corners" not in place:
            values.append((place, bound, here))
    return values


def typed(value: float, bound: Bound, before: Any) -> Any:
    """Return a value as it would be typed into the field."""
    if bound.unit == "degF":
        return f"{value:.0f} degF"
    if isinstance(before, str) and bound.unit == "ft":
        return f"{value:.4f} ft"
    return int(value) if isinstance(before, int) else value


NUMBERS = [(name, *each) for name in PLAINS for each in numbers_in(name)]


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.integers(0, len(NUMBERS) - 1), st.booleans()), min_size=1, max_size=4))
def test_any_accepted_extreme_makes_a_sound_estimate_in_time(picked: list[tuple[int, bool]]) -> None:
    """At the ends of the bounds a job is priced, finite, adding up and in time, or refused in words."""
    name = NUMBERS[picked[0][0]][0]
    job = copy.deepcopy(PLAINS[name])
    for index, high in picked:
        owner, place, bound, before = NUMBERS[index]
        if owner != name:
            continue
        here: Any = job
        for step in place[:-1]:
            here = here[step]
        here[place[-1]] = typed(bound.most if high else bound.least, bound, before)
    began = time.process_time()
    try:
        outcome = estimate_job(build_job(job))
    except EstimatingError:
        return
    assert time.process_time() - began < LONGEST
    assert outcome.estimate.price >= 0
    assert math.isfinite(float(outcome.estimate.price))
    assert sum(line.cost for line in outcome.estimate.lines) == outcome.estimate.price
