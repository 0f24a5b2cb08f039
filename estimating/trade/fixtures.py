"""Coating fixtures in place, such as the trims of recessed lights: several light passes with flash time between.

Lamps are out and the circuit is off and locked while anything is masked or wet. Detectors and sprinkler heads are
covered and never coated.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment
from estimating.rules import SAME, rule
from estimating.trade._numbers import pick, require
from estimating.trade.film import THOU_FT2_PER_GALLON
from estimating.trade.labor import hours_by_count
from estimating.units import Number

WIDEST_OPENING = 0.98  # of the outside diameter


@rule("A = π / 4 · (outer² − inner²)", "ft**2", definition("area of a ring"), outer="ft", inner="ft, 0 or more")
def ring_area(*, outer: Number, inner: Number) -> Number:
    """Return the face of a round trim (ft²) from its diameters outside and inside (ft)."""
    require(outer > inner, "outer", outer, "more than the inside diameter")
    return np.pi / 4 * (outer**2 - inner**2)


@rule(
    "opening = the smaller of inner and 0.98 · outer",
    SAME,
    judgment("a trim has a rim, however its two diameters were remembered"),
    inner=SAME,
    outer=SAME,
)
def opening_within(*, inner: Number, outer: Number) -> Number:
    """Return the diameter of the opening within a trim, which leaves a rim of at least a hundredth of it all around."""
    most = WIDEST_OPENING * outer
    return pick(inner > most, most, inner)


@rule(
    "gallons = fixtures · ring · passes · wet film / 1604 / (1 − loss)",
    "gallon",
    definition("wet volume laid, over the share that arrives"),
    fixtures="dimensionless, 0 or more",
    outer="ft",
    inner="ft",
    passes="dimensionless, 0 passes or more",
    wet_film="thou, 0 or more",
    loss="dimensionless, 0 or more and less than 1",
)
def trim_paint(
    *, fixtures: Number, outer: Number, inner: Number, passes: Number, wet_film: Number, loss: Number
) -> Number:
    """Return the paint (gallons) for a number of like ring trims.

    wet_film: of one light pass, in thou. loss: share of the paint that misses, large on so small a target.
    """
    laid = fixtures * ring_area(outer=outer, inner=inner) * passes * wet_film / THOU_FT2_PER_GALLON
    return laid / (1 - loss)


@rule(
    "hours = fixtures · passes · minutes / 60",
    "hour",
    definition("minutes of one pass over one fixture"),
    fixtures="dimensionless, 0 or more",
    passes="dimensionless, 0 passes or more",
    minutes="minute, 0 or more",
)
def spot_coat_hours(*, fixtures: Number, passes: Number, minutes: Number) -> Number:
    """Return the person-hours to give every fixture its passes, flash time left out."""
    return hours_by_count(count=fixtures * passes, minutes=minutes)


@rule(
    "wait = (passes − 1) · flash time",
    "hour",
    definition("one flash between each pass and the next"),
    passes="dimensionless, 1 pass or more",
    flash="hour, 0 or more",
)
def flash_wait(*, passes: Number, flash: Number) -> Number:
    """Return how long the passes wait for each other (hours), if nothing else is coated meanwhile.

    >>> flash_wait(passes=4.0, flash=0.5)
    1.5
    """
    return (passes - 1) * flash
