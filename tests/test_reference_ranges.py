"""Every range in the reference tables can be drawn from, so that no row stops an estimate half way."""

from __future__ import annotations

import pytest

from estimating.errors import InputError
from estimating.estimate.uncertainty.ranges import Distribution, fit, usual_bounds
from estimating.evidence import Basis, Row, load_library

LIBRARY = load_library()
VARYING = [
    row for table in LIBRARY.tables.values() for row in table.values() if row.table != "bounds" and row.low < row.high
]


def shape_of(row: Row) -> Distribution:
    """Return the distribution the engine draws this row from."""
    figure = Basis(LIBRARY).figure(row.table, *row.keys)
    return fit(row.low, row.likely, row.high, usual_bounds(figure), name=row.key)


def test_every_row_that_varies_has_a_distribution() -> None:
    """Low, likely and high of each row are the 10th, 50th and 90th percentile of a curve, to a hair."""
    assert VARYING
    for row in VARYING:
        shape = shape_of(row)
        drawn = [float(shape.at(chance)) for chance in (0.1, 0.5, 0.9)]
        assert drawn == pytest.approx([row.low, row.likely, row.high]), row.key


def test_a_row_too_lopsided_is_refused_by_name() -> None:
    """The check above looks: a likely value too close to one end fits no curve, and the row is named."""
    bounds = usual_bounds(Basis(LIBRARY).figure("wallcovering", "roll_metric", "width"))
    with pytest.raises(InputError, match="a roll"):
        fit(10.0, 10.05, 10.65, bounds, name="a roll")
