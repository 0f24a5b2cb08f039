"""What holds of any job offered: rooms add up, a discount is no saving, an option without changes is the job."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.estimate.pricing.room_prices import room_prices
from estimating.reports.documents.options import versions
from estimating.workbook import Outcome, build_job, estimate_job

FEW = settings(max_examples=6, deadline=None)
LEVELS = ("touch up", "light", "usual", "thorough", "like new")
rooms = st.lists(
    st.fixed_dictionaries(
        {
            "length": st.integers(8, 20),
            "width": st.integers(8, 14),
            "coats": st.integers(1, 3),
            "patches": st.integers(0, 9),
            "level": st.sampled_from(LEVELS),
            "ceiling": st.sampled_from(["yes", "no"]),
        }
    ),
    min_size=1,
    max_size=3,
)


def plain(several: list[dict[str, Any]], **terms: Any) -> dict[str, Any]:
    """Return an invented job of these rooms."""
    job: dict[str, Any] = {"title": "any", "site": {"year_built": 1999, "occupied": "no"}, "terms": terms}
    job["rooms"] = [
        {
            "name": f"room {place}",
            "height": "8 ft",
            "shape": {"kind": "rectangle", "length": f"{each['length']} ft", "width": f"{each['width']} ft"},
        }
        for place, each in enumerate(several)
    ]
    job["work"] = [
        {
            "kind": "interior_repaint",
            "room": f"room {place}",
            "preparation": each["level"],
            "walls": {"painted": "yes", "coats": each["coats"]},
            "ceiling": {"painted": each["ceiling"]},
            "repairs": {"small_patches": each["patches"]},
        }
        for place, each in enumerate(several)
    ]
    return job


def priced(job: dict[str, Any]) -> Outcome:
    return estimate_job(build_job(job))


@FEW
@given(several=rooms, discount=st.sampled_from(["", "5 %", "$200"]), step=st.sampled_from([0, 1, 5]))
def test_the_rooms_add_up(several: list[dict[str, Any]], discount: str, step: int) -> None:
    """To the cent, with a discount and rounded up or not."""
    estimate = priced(plain(several, discount=discount or "unknown", round_up_to=step)).estimate
    assert sum(each.price for each in room_prices(estimate)) == estimate.price


@FEW
@given(several=rooms, discount=st.sampled_from(["1 %", "25 %", "$75"]))
def test_a_discount_never_changes_what_the_work_costs(several: list[dict[str, Any]], discount: str) -> None:
    """Cost, hours, days and methods stay; the price falls."""
    full, less = priced(plain(several)).estimate, priced(plain(several, discount=discount)).estimate
    assert less.cost.value == pytest.approx(full.cost.value)
    assert less.hours.value == pytest.approx(full.hours.value)
    assert [plan.method for plan in less.plans] == [plan.method for plan in full.plans]
    assert less.price < full.price


@FEW
@given(several=rooms)
def test_an_option_without_differences_is_the_job(several: list[dict[str, Any]]) -> None:
    """To the cent."""
    job, option = versions(priced({**plain(several), "option": [{"name": "the same"}]}))
    assert job.outcome.estimate.price == option.outcome.estimate.price
