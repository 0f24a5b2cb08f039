"""What holds of every job, whatever kind of work is in it: looked for at the sizes of the demo jobs."""

from __future__ import annotations

import copy
import csv
import io
import math
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from places import JOBS as JOBS_DIR

from estimating.estimate.pricing.lines import Section, sum_of
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.job.file import plain_job
from estimating.reports.documents.change_order import changes
from estimating.reports.exports.summary_csv import summary_csv
from estimating.reports.format import UnitSystem, shown_value
from estimating.scopes.shared.products import WALL_PAINT
from estimating.units import convert, read_length
from estimating.workbook import Outcome, build_job, estimate_job, read_job

JOBS = sorted(JOBS_DIR.glob("*.toml"))
FEW = settings(max_examples=5, deadline=None)
every_job = pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
LENGTHS = {"length", "width", "height", "drop", "notch_length", "notch_width"}
growth = st.floats(1.0, 1.25)
Plain = dict[str, Any]


def plain(path: Path) -> Plain:
    return plain_job(read_job(path))


def priced(job: Plain) -> Outcome:
    return estimate_job(build_job(job))


def longer(text: str, times: float) -> str:
    """Return a tape reading so many times as long."""
    return f"{read_length(text).value * times!r} ft"


def grown(job: Plain, along: float, up: float = 1.0) -> Plain:
    """Return the job with every room longer and higher; openings, fixtures and the widths of papered walls stay."""
    job = copy.deepcopy(job)
    for room in job["rooms"]:
        room["shape"]["length"] = longer(room["shape"]["length"], along)
        if room.get("height") not in (None, "unknown"):  # a deck has none
            room["height"] = longer(room["height"], up)
    return job


def as_done(outcome: Outcome) -> Plain:
    """Return the job with every piece told to be done the way it is done now."""
    job = plain_job(outcome.job)
    for item, plan in zip(job["work"], outcome.estimate.plans, strict=True):
        item["method"] = plan.method
    return job


def gallons(outcome: Outcome, *products: str) -> dict[tuple[str, str], float]:
    """Return what is needed of each product and color."""
    return {
        (order.product, order.color): order.need.value
        for order in outcome.estimate.paint
        if not products or order.product in products
    }


def waited(outcome: Outcome) -> float:
    return float(outcome.estimate.schedule.idle.value)


def days(outcome: Outcome) -> float:
    return float(outcome.estimate.schedule.days.value)


def worked(outcome: Outcome) -> float:
    """Return the hours of the tasks themselves, without what hangs on days: waits, the road, a machine's care."""
    tasks = (task for task in outcome.estimate.schedule.on_site if not (task.machine and task.around is not None))
    return float(sum(task.hours.value for task in tasks))


@every_job
@FEW
@given(along=growth, up=growth)
def test_more_area_never_costs_less(path: Path, along: float, up: float) -> None:
    """Longer and higher rooms take no less paint and work, each piece done as before, nor less money for them.

    Less may be waited on pay, or a day be saved, where the work happens to fall otherwise: that can cost less.

    Papered walls only grow higher: where strips fall is a real effect, and a wider wall may save a part strip.
    """
    small = priced(plain(path))
    large = priced(grown(as_done(small), along, up))
    before, after = gallons(small), gallons(large)
    assert all(after[batch] >= need * (1 - 1e-12) for batch, need in before.items())
    assert worked(large) >= worked(small) * (1 - 1e-12)
    if waited(large) >= waited(small) and days(large) >= days(small):
        assert large.estimate.price >= small.estimate.price


openings = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(("door", "window", "arch")),
        "width": st.floats(1.5, 5.0).map(lambda feet: f"{feet!r} ft"),
        "height": st.floats(1.5, 7.0).map(lambda feet: f"{feet!r} ft"),
        "count": st.integers(1, 2),
    }
)


@every_job
@FEW
@given(opening=openings, where=st.integers(0, 20))
def test_an_added_opening_never_adds_wall_paint(path: Path, opening: Plain, where: int) -> None:
    """It takes wall off or leaves it; what it adds is lines to cut in, and casing."""
    before = priced(plain(path))
    job = as_done(before)
    room = job["rooms"][where % len(job["rooms"])]
    room["openings"] = [*room["openings"], opening]
    after = gallons(priced(job), WALL_PAINT)
    assert all(after[batch] <= need * (1 + 1e-12) for batch, need in gallons(before, WALL_PAINT).items())


@every_job
def test_the_unit_switch_changes_nothing_but_what_is_shown(path: Path) -> None:
    """Not a price, a range of money, a line or its order; a quantity is the same quantity in another unit."""
    outcome = priced(plain(path))
    sure = estimate_ranges(outcome.estimate, points=256)
    us, metric = (
        list(csv.DictReader(io.StringIO(summary_csv(outcome, sure, shown), newline="")))
        for shown in (UnitSystem.US, UnitSystem.METRIC)
    )
    kept = ("section", "item", "room", "cost", "cost low", "cost high", "origin")
    assert [[row[name] for name in kept] for row in us] == [[row[name] for name in kept] for row in metric]
    for line, one, other in zip(outcome.estimate.lines, us, metric, strict=False):
        for name in ("low", "likely", "high", "quantity"):
            if one[name]:
                times = shown_value(1.0, line.quantity.unit, UnitSystem.METRIC) / shown_value(
                    1.0, line.quantity.unit, UnitSystem.US
                )
                assert float(other[name]) == pytest.approx(float(one[name]) * times, rel=0.01)


@every_job
def test_a_house_measured_in_meters_is_the_same_house(path: Path) -> None:
    """To the cent: what was typed decides nothing but how it is shown."""
    feet = plain(path)
    meters = copy.deepcopy(feet)
    for room in meters["rooms"]:
        for place in (room, room["shape"], *room["soffits"], *room["openings"]):
            for name in LENGTHS & set(place):
                if place[name] != "unknown":
                    place[name] = f"{read_length(place[name]).value * 0.3048:.12f} m"
    assert priced(meters).estimate.price == priced(feet).estimate.price


@every_job
@FEW
@given(along=growth, up=growth)
def test_no_less_is_ordered_than_needed(path: Path, along: float, up: float) -> None:
    """Cans hold the paint, and rolls hold the run."""
    estimate = priced(grown(plain(path), along, up)).estimate
    for order in estimate.paint:
        assert order.containers.gallons_bought >= order.need.value * (1 - 1e-8)
        assert order.leftover >= -1e-8
    for bought in estimate.supplies:
        holds = dict(bought.count.inputs).get("holds")
        each = float(convert(holds.value, holds.unit, bought.need.unit)) if holds else 1.0
        assert bought.count.value * each >= bought.need.value * (1 - 1e-8)


@every_job
@FEW
@given(along=growth, up=growth, dearer=st.floats(0.8, 1.6))
def test_the_old_job_and_its_change_order_are_the_new_job(path: Path, along: float, up: float, dearer: float) -> None:
    """To the cent, whatever is changed: sizes, rates, and with them ways, days and cans."""
    before = priced(plain(path))
    job = grown(plain(path), along, up)
    job["own"] = {"business/wage": {"likely": 26.0 * dearer, "unit": "dollar/hour"}}
    after = priced(job)
    rows = sum((change.amount for change in changes(before.estimate, after.estimate)), Decimal("0.00"))
    assert before.estimate.price + rows == after.estimate.price


@every_job
@FEW
@given(along=growth, up=growth)
def test_lines_add_up_to_the_price(path: Path, along: float, up: float) -> None:
    """Section by section and to the cent; and rounding moves no line by more than half of one."""
    estimate = priced(grown(plain(path), along, up)).estimate
    assert sum((sum_of(estimate.section(section)) for section in Section), Decimal("0.00")) == estimate.price
    assert sum(line.cost for line in estimate.lines) == estimate.price
    assert abs(float(estimate.price) - estimate.amount.value) <= 0.005 * len(estimate.lines)
    assert all(abs(float(line.cost) - line.amount.value) <= 0.005 + 1e-9 for line in estimate.lines)


def halves(length: float, width: float, cut: float, height: float) -> tuple[Plain, Plain]:
    """Return one room, and the same room cut in two by a line that is open from wall to wall and floor to ceiling."""
    one = {"length": f"{length!r} ft", "width": f"{width!r} ft"}
    gap = {"kind": "arch", "width": one["width"], "height": f"{height!r} ft"}
    parts = [{**one, "length": f"{length * share!r} ft"} for share in (cut, 1 - cut)]
    whole = {"rooms": [_room("whole", one, height)]}
    return whole, {"rooms": [_room(f"part {n}", part, height, gap) for n, part in enumerate(parts)]}


def _room(name: str, shape: Plain, height: float, *openings: Plain) -> Plain:
    return {"name": name, "height": f"{height!r} ft", "shape": {"kind": "rectangle", **shape}, "openings": [*openings]}


PIECES: dict[str, Plain] = {
    "textured ceiling": {"kind": "textured_ceiling", "texture": "popcorn", "history": "painted once, primer unknown"},
    "repaint": {
        "kind": "interior_repaint",
        "walls": {"painted": "yes", "color_wanted": "soft white", "change": "strong"},
        "ceiling": {"painted": "yes", "color_wanted": "flat white"},
        "trim": {"painted": "no"},
    },
}


@pytest.mark.parametrize(
    ("piece", "method"),
    [("textured ceiling", "roll"), ("textured ceiling", "spray"), ("repaint", "roll"), ("repaint", "spray")],
)
@settings(max_examples=15, deadline=None)
@given(st.floats(12, 40), st.floats(9, 20), st.floats(0.3, 0.7), st.floats(7.5, 9.0))
def test_an_imaginary_line_changes_no_paint(
    piece: str, method: str, length: float, width: float, cut: float, height: float
) -> None:
    """A room cut in two by a line in the air takes the same paint; done one way, its two halves as it.

    Real effects are left out by holding to the paint: the line in the air is an edge to cut in and to mask, and each
    half is a room to get ready. The opening in it is as large as the wall it stands in, so all of that wall comes off.
    """
    needs = []
    for job in halves(length, width, cut, height):
        job["title"] = "a line in the air"
        job["work"] = [{**PIECES[piece], "room": room["name"], "method": method} for room in job["rooms"]]
        needs.append(gallons(priced(job)))
    whole, parts = needs
    assert set(parts) == set(whole)
    assert all(math.isclose(parts[batch], need, rel_tol=1e-9) for batch, need in whole.items())
