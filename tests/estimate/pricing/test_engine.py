"""The likely price in plain numbers is that of the build-up, to the cent."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_up import charge, made, masks, paint, plan, round_basis, small_job, tape, task
from places import JOBS as JOBS_DIR

from estimating.estimate.pricing.build_up import build_up
from estimating.estimate.pricing.engine import Engine
from estimating.estimate.pricing.plan import Phase, Plan, Risk
from estimating.evidence import Basis, load_library
from estimating.job.model import Job
from estimating.scopes.registry import KINDS
from estimating.workbook import read_job

JOBS = sorted(JOBS_DIR.glob("*.toml"))


def agrees(plans: list[Plan], job: Job, basis: Basis) -> None:
    found, built = Engine(job, basis).likely(plans), build_up(plans, job, basis)
    assert found.price == built.price
    assert found.cost == pytest.approx(built.cost.value, rel=1e-12)
    assert found.hours == pytest.approx(built.hours.value, rel=1e-12)
    assert found.days == built.schedule.days.value
    assert found.gallons == pytest.approx(built.gallons, rel=1e-12)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_it_is_the_price_of_the_build_up_whatever_ways_are_mixed(path: Path) -> None:
    """Every demo job, its pieces done in ways picked at random: price to the cent, cost, hours, days and gallons."""
    job, basis, pick = read_job(path), Basis(load_library()), Random(path.stem)
    choices = [KINDS[item.kind].plans(item, job, basis) for item in job.work]
    for _ in range(2):
        agrees([pick.choice(plans) for plans in choices], job, basis)


def risky(chance: float, cost: float) -> Risk:
    share, mending = made(chance, "dimensionless"), made(cost, "dollar")
    return Risk("it comes down", "It comes down", share, mending, made(cost * chance, "dollar"))


tasks = st.builds(
    task,
    st.just("a task"),
    st.floats(0.01, 20),
    st.sampled_from(Phase),
    st.none() | st.floats(0, 30),
    st.sampled_from(("", "", "covers", "sprayer")),
)
plans = st.builds(
    plan,
    *(tasks, tasks),
    materials=st.lists(st.builds(paint, st.floats(0, 9), st.sampled_from(("white", "blue"))), max_size=2).map(tuple),
    supplies=st.lists(
        st.builds(tape, st.floats(0, 900)) | st.builds(masks, st.integers(0, 3).map(float)), max_size=2
    ).map(tuple),
    charges=st.lists(
        st.builds(
            charge,
            st.just("fee"),
            st.floats(0, 90),
            share_key=st.sampled_from(("", "fee")),
            machine=st.sampled_from(("", "sprayer")),
        ),
        max_size=2,
    ).map(tuple),
    risks=st.lists(st.builds(risky, st.floats(0, 1), st.floats(0, 999)), max_size=1).map(tuple),
)


@settings(max_examples=25, deadline=None)
@given(st.lists(plans, min_size=1, max_size=3), st.integers(1, 3), st.none() | st.integers(0, 90))
def test_it_shares_charges_and_rounds_as_the_build_up_does(several: list[Plan], people: int, drive: int | None) -> None:
    """Made-up plans with things done once, charges by the day, waits, risks and a drive."""
    site = {} if drive is None else {"travel_minutes": drive}
    agrees(several, small_job(people, **site), round_basis(sales_tax=7.0, minimum_charge=300.0))


def test_no_work_costs_nothing() -> None:
    """Nobody comes, so nothing is charged, not even the least charge."""
    found = Engine(small_job(), round_basis(minimum_charge=300.0)).likely([plan()])
    assert (found.price, found.hours, found.days) == (Decimal("0.00"), 0, 0)


def test_the_order_of_plans_moves_nothing() -> None:
    """Asked for the same plans the other way round, the engine gives the same price."""
    several = [plan(task("paint", 14.5)), plan(task("roll", 7.25, wait=60.0), task("again", 7.25))]
    engine = Engine(small_job(), round_basis())
    assert engine.likely(several) == engine.likely(several[::-1])


def test_of_a_few_rooms_the_choice_goes_by_the_likely_price() -> None:
    """One room: a wait that takes another visit counts as it will be paid."""
    engine = Engine(small_job(), round_basis())
    waited = [plan(task("paint", 2.0, wait=20.0), task("again", 2.0))]
    assert engine.judged(waited) == engine.likely(waited)
    assert engine.judged(waited).price > engine.judged([plan(task("paint", 4.0))]).price
