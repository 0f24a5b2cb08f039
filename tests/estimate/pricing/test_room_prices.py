"""Prices of rooms and surfaces: they add up to the price to the cent, and follow the work that is in them."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from places import JOBS

from estimating.estimate.pricing.room_prices import room_prices, shared_out
from estimating.workbook import build_job, estimate_job

EVERY = sorted(JOBS.glob("*.toml"))
REPAINT = JOBS / "birch_lane_upstairs.toml"
amounts = st.dictionaries(st.text(max_size=3), st.floats(0.01, 1e6), min_size=1, max_size=20)


def plain(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


@given(shares=amounts, total=st.decimals(0, 1_000_000, places=2))
def test_a_total_shared_out_is_shared_out_whole(shares: dict[str, float], total: Decimal) -> None:
    """Nothing is lost, and no part is a cent from its exact share; a dollar where the total is whole dollars."""
    given_out = shared_out(shares, total)
    assert sum(given_out.values()) == total
    whole = sum(shares.values())
    for key, amount in given_out.items():
        step = 1 if total == int(total) else 0.01
        assert abs(float(amount) - float(total) * shares[key] / whole) < 1.01 * step


@pytest.mark.parametrize("path", EVERY, ids=lambda path: path.stem)
def test_rooms_and_surfaces_add_up_to_the_price(path: Path) -> None:
    """To the cent: surfaces to their room, rooms to the job, and every room that is worked in is there."""
    estimate = estimate_job(build_job(plain(path))).estimate
    prices = room_prices(estimate)
    assert sum(each.price for each in prices) == estimate.price
    assert all(sum(each.surfaces.values()) == each.price for each in prices)
    worked = {task.room for task in estimate.schedule.tasks if task.room}
    assert {each.room for each in prices} == worked


@settings(max_examples=8, deadline=None)
@given(
    markup=st.sampled_from([0.0, 35.0, 80.0]),
    least=st.sampled_from([0.0, 450.0, 20_000.0]),
    coats=st.integers(1, 4),
    patches=st.integers(0, 30),
)
def test_they_add_up_whatever_the_job(markup: float, least: float, coats: int, patches: int) -> None:
    """Other coats, repairs, markups, and a minimum charge that lifts the price."""
    job = plain(REPAINT)
    job["own"] = {
        "business/markup": {"likely": markup, "unit": "percent"},
        "business/minimum_charge": {"likely": least, "unit": "dollar"},
    }
    job["work"][0]["walls"]["coats"] = coats
    job["work"][1]["repairs"]["small_patches"] = patches
    estimate = estimate_job(build_job(job)).estimate
    prices = room_prices(estimate)
    assert sum(each.price for each in prices) == estimate.price
    assert all(sum(each.surfaces.values()) == each.price for each in prices)


def test_more_work_in_a_room_is_that_rooms_price() -> None:
    """Twenty more patches in the study cost the study most of what they add."""
    job = plain(REPAINT)
    before = {each.room: each.price for each in room_prices(estimate_job(build_job(job)).estimate)}
    job["work"][1]["repairs"]["small_patches"] += 20
    after = {each.room: each.price for each in room_prices(estimate_job(build_job(job)).estimate)}
    gained = {room: after[room] - before[room] for room in before}
    assert gained["study"] > Decimal("0.7") * sum(gained.values()) > 0


def test_surfaces_are_named_as_a_client_names_them() -> None:
    """An accent wall stands by itself; doors and windows go with the trim."""
    prices = {each.room: each for each in room_prices(estimate_job(build_job(plain(REPAINT))).estimate)}
    bedroom = {"ceiling", "walls", "accent wall, behind the bed", "trim, doors and windows"}
    assert set(prices["front bedroom"].surfaces) == bedroom
    assert set(prices["study"].surfaces) == {"walls", "closets"}
