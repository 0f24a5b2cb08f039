"""Which reference row the actuals of a line can correct."""

from __future__ import annotations

import pytest
from places import JOBS

from estimating.estimate.pricing.lines import Section
from estimating.estimate.pricing.order import order_paint
from estimating.estimate.pricing.plan import Material
from estimating.evidence import Basis, load_library
from estimating.figures import leaf
from estimating.job.file import plain_job
from estimating.origins import Kind, Origin
from estimating.row_key import RowKey
from estimating.workbook import Outcome, build_job, estimate_job, read_job

ALDER_ROW = JOBS / "alder_row_sitting_room.toml"
INVENTED = Origin(Kind.INVENTED)


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    return estimate_job(read_job(ALDER_ROW))


def _can(*rows: str, gallons: float = 1.0) -> str:
    amounts = [leaf("paint", each, "gallon", INVENTED) for each in (gallons, *(1.0 for _ in rows[1:]))]
    batch = [
        Material("ceiling_flat", "Flat", amount, "a coat", coverage_key=row)
        for row, amount in zip(rows, amounts, strict=True)
    ]
    (order,) = order_paint(batch, Basis(load_library()))
    return order.coverage_key


def test_a_labor_line_names_the_row_of_its_rate(outcome: Outcome) -> None:
    """Every task with a rate of its own passes the address on; driving has none."""
    rows = {line.key: line.row for line in outcome.estimate.section(Section.LABOR)}
    assert rows["mask_edge"] == "production/mask_edge/paper/any"
    assert rows["travel"] == ""


def test_a_paint_line_names_the_coverage_of_its_surface(outcome: Outcome) -> None:
    """Gallons correct how far a gallon goes on that surface."""
    rows = {line.key: line.row for line in outcome.estimate.section(Section.PAINT)}
    assert RowKey.parse(rows["ceiling_flat"]).below(RowKey.of("coverage", "popcorn_medium"))


def test_the_coverage_that_more_paint_implies_takes_that_much_more(outcome: Outcome) -> None:
    """Where a gallon goes a tenth less far the coats take more; what stays in the roller does not change."""
    keys = {each.key for each in outcome.estimate.amount.walk() if RowKey.parse(each.key).table == "coverage"}
    rows = [load_library().named(key) for key in keys]
    left = load_library().row("losses", "equipment", "roller").likely
    job = read_job(ALDER_ROW)
    own = {
        row.key: {"likely": row.likely / 1.1, "low": row.low / 1.1, "high": row.high / 1.1, "unit": row.unit}
        for row in rows
    }
    shorter = estimate_job(build_job({**plain_job(job), "own": own}))
    before, after = (
        next(each.need.value for each in one.estimate.paint if each.product == "ceiling_flat")
        for one in (outcome, shorter)
    )
    assert after - left == pytest.approx(1.1 * (before - left))


def test_a_can_teaches_the_row_that_most_of_it_rests_on() -> None:
    """A batch on one row has it, what stays in the roller does not count, and two even rows leave it open."""
    assert _can("coverage/a", "coverage/b", gallons=1.5) == "coverage/a"
    assert _can("coverage/a", "coverage/b", "coverage/c", gallons=1.5) == ""
    assert _can("coatings/a/dry_film", "") == "coatings/a/dry_film"
    assert _can("coatings/a/dry_film", "coverage/b") == ""
    assert _can("") == ""
