"""Each piece is done the cheapest way that may be used, beside the ways taken for the others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_up import charge, plan, round_basis, small_job, task

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import build_up
from estimating.estimate.pricing.choose_methods import Choice, beside, choose_methods, may_be_taken, preferred
from estimating.estimate.pricing.engine import Engine
from estimating.estimate.pricing.plan import Finding, Plan, Suitability


def method(
    name: str, hours: float, cost: float = 0.0, *, share_key: str = "", closed: bool = False, **parts: bool
) -> Plan:
    """Return a method of so many hours and so much besides; `share_key` is 60 dollars, paid for once a job."""
    found = plan(
        task(name, hours),
        charges=(charge("cost", cost), *([charge("hire", 60.0, share_key=share_key)] if share_key else [])),
        findings=(Finding(Suitability.CLOSED, "not recommended here"),) if closed else (),
    )
    return Plan("a room", name, name, found.tasks, charges=found.charges, findings=found.findings, **parts)


def engine() -> Engine:
    return Engine(small_job(), round_basis())


def settled(*choices: Choice) -> list[str]:
    return [each.method for each in choose_methods(choices, engine())]


def test_the_cheapest_way_is_taken() -> None:
    """Two hours, at 40 dollars each with overhead, are dearer than one and 30 dollars besides."""
    assert settled(Choice((method("slow", 2.0), method("quick", 1.0, 30.0)))) == ["quick"]
    assert settled(Choice((method("slow", 2.0), method("quick", 1.0, 50.0)))) == ["slow"]


def test_of_equals_the_first_is_taken() -> None:
    """The order in which ways are planned decides, and nothing else."""
    assert settled(Choice((method("one", 1.0), method("other", 1.0)))) == ["one"]
    assert settled(Choice((method("other", 1.0), method("one", 1.0)))) == ["other"]


def test_a_way_that_is_asked_for_is_taken_and_others_fit_themselves_to_it() -> None:
    """A hire at 60 dollars does not pay for the hour it saves here; once another room hires anyway, it does."""
    one = Choice((method("by hand", 2.0), method("hired", 1.0, share_key="hire")))
    asked = Choice(one.plans, "hired")
    assert settled(one, asked) == settled(asked, one) == ["hired", "hired"]


def test_a_way_that_there_is_not_is_refused_by_its_place() -> None:
    """The sentence names the ways there are."""
    with pytest.raises(InputError, match=r"work\[1\] · method.*slow, quick, or unknown"):
        settled(Choice((method("slow", 2.0),)), Choice((method("slow", 2.0), method("quick", 1.0)), "fly"))


def test_a_closed_way_is_not_taken_and_where_all_are_closed_the_last_is() -> None:
    """However cheap; and what does not finish is no way of doing it."""
    shut, dear, leave = method("shut", 0.1, closed=True), method("dear", 9.0), method("decline", 0.01, finishes=False)
    assert settled(Choice((shut, dear, leave))) == ["dear"]
    assert settled(Choice((shut, leave))) == ["decline"]
    assert [may_be_taken(each) for each in (shut, dear, leave)] == [False, True, False]


methods = st.builds(
    method,
    st.just("a way"),
    st.floats(0.5, 9).map(lambda hours: round(hours, 1)),
    st.sampled_from((0.0, 15.0, 150.0)),
    share_key=st.sampled_from(("", "hire", "other hire")),
    closed=st.sampled_from((False, False, True)),
)
jobs = st.lists(st.lists(methods, min_size=1, max_size=4), min_size=1, max_size=4).map(
    lambda several: [
        tuple(replace(plan, method=f"{place} {number}") for number, plan in enumerate(plans))
        for place, plans in enumerate(several)
    ]
)  # no two pieces have a way in common, which would be tried on both


def by_building_up(choices: Sequence[Sequence[Plan]]) -> list[Plan]:
    """Return what is taken when every way of every piece is built up in full, round after round."""
    job, basis = small_job(), round_basis()
    taken = [plans[0] for plans in choices]
    for _ in range(len(choices) + 1):
        for place, plans in enumerate(choices):
            allowed = [each for each in plans if may_be_taken(each)] or [plans[-1]]
            costs = [build_up(beside(taken, place, each), job, basis).cost.value for each in allowed]
            taken[place] = allowed[costs.index(min(costs))]
    return taken


@settings(max_examples=30, deadline=None)
@given(jobs)
def test_it_is_what_building_up_every_way_would_choose(choices: list[tuple[Plan, ...]]) -> None:
    """What is left out is left out because it could not have been cheaper."""
    found = choose_methods([Choice(plans) for plans in choices], engine())
    assert [id(each) for each in found] == [id(each) for each in by_building_up(choices)]


@settings(max_examples=30, deadline=None)
@given(jobs)
def test_no_piece_gains_by_another_way_alone(choices: list[tuple[Plan, ...]]) -> None:
    """Looked at once more, every piece stays as it is; and doing it twice gives the same."""
    one, again = (choose_methods([Choice(plans) for plans in choices], engine()) for _ in range(2))
    assert [id(each) for each in one] == [id(each) for each in again]
    for place, plans in enumerate(choices):
        assert preferred(plans, one, place, engine()) is one[place]


def test_what_pays_only_for_several_together_is_found() -> None:
    """An hour saved is 40 dollars: a hire at 60 pays for no room alone, but for two of them."""
    one = Choice((method("by hand", 2.0), method("hired", 1.0, share_key="hire")))
    assert settled(one) == ["by hand"]
    assert settled(one, one) == ["hired", "hired"]
    assert settled(one, Choice((method("by hand", 1.0),)), one) == ["hired", "by hand", "hired"]
    assert settled(one, Choice(one.plans, "by hand")) == ["by hand", "by hand"]
