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
from estimating.workbook import Outcome, build_job, estimate_job, read_job

ALDER_ROW = JOBS / "alder_row_sitting_room.toml"
INVENTED = Origin(Kind.INVENTED)


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    return estimate_job(read_job(ALDER_ROW))


def _can(*rows: str) -> str:
    one = leaf("paint", 1.0, "gallon", INVENTED)
    batch = [Material("ceiling_flat", "Flat", one, "a coat", coverage_key=row) for row in rows]
    (order,) = order_paint(batch, Basis(load_library()))
    return order.coverage_key


def test_a_labor_line_names_the_row_of_its_rate(outcome: Outcome) -> None:
    """Every task with a rate of its own passes the address on; driving has none."""
    rows = {line.key: line.row for line in outcome.estimate.section(Section.LABOR)}
    assert rows["mask_edge"] == "production/mask_edge/paper/any"
    assert rows["travel"] == ""


def test_a_paint_line_names_the_film_of_its_product(outcome: Outcome) -> None:
    """Gallons correct how thick a product is laid."""
    rows = {line.key: line.row for line in outcome.estimate.section(Section.PAINT)}
    assert rows["ceiling_flat"] == "coatings/ceiling_flat/dry_film"


def test_the_film_that_more_paint_implies_takes_that_much_more(outcome: Outcome) -> None:
    """With a film a tenth thicker the coats take a tenth more paint; what stays in the sprayer does not change."""
    row = load_library().row("coatings", "ceiling_flat", "dry_film")
    left = load_library().row("losses", "equipment", "sprayer").likely
    job = read_job(ALDER_ROW)
    own = {row.key: {"likely": row.likely * 1.1, "low": row.low * 1.1, "high": row.high * 1.1, "unit": row.unit}}
    thicker = estimate_job(build_job({**plain_job(job), "own": own}))
    before, after = (
        next(each.need.value for each in one.estimate.paint if each.product == "ceiling_flat")
        for one in (outcome, thicker)
    )
    assert after - left == pytest.approx(1.1 * (before - left))


def test_a_can_for_several_rows_teaches_none() -> None:
    """A batch on one row has it, what stays in the roller does not count, and two rows leave it open."""
    assert _can("coatings/a/dry_film", "") == "coatings/a/dry_film"
    assert _can("coatings/a/dry_film", "coverage/b") == ""
    assert _can("") == ""
