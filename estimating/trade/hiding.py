"""Hiding an old color: coats with and without a tinted barrier, and the chance that one more is wanted.

How many coats a change of color takes stands in a table, by contrast and base: a low, a likely and a high number. The
likely number is planned; the rest of the range is a risk.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment
from estimating.rules import rule
from estimating.trade._numbers import require
from estimating.units import Number


@rule(
    "coats = coats over a barrier + barrier coats · finish coats that each saves",
    "dimensionless",
    judgment("what the barrier saved has to be put on as finish where it is left out"),
    coats="dimensionless, 0 coats or more",
    barrier="dimensionless, 0 barrier coats or more",
    saved="dimensionless, 0 finish coats or more",
)
def coats_without_barrier(*, coats: Number, barrier: Number, saved: Number) -> Number:
    """Return the finish coats that hide without the tinted or gray barrier that is usual under them."""
    return coats + barrier * saved


@rule(
    "tail where low > planned, + 1 − 2 tail where likely > planned, + tail where high > planned",
    "dimensionless",
    judgment("the low, likely and high number of coats stand for the whole range, weighted tail, the rest, tail"),
    planned="dimensionless",
    low="dimensionless",
    likely="dimensionless",
    high="dimensionless",
    tail="dimensionless, 0 to 0.5",
)
def chance_of_more_coats(*, planned: Number, low: Number, likely: Number, high: Number, tail: Number) -> Number:
    """Return the chance that the planned coats do not hide, from the range of coats that such a change takes."""
    require((low <= likely) & (likely <= high), "likely", likely, "no less than low and no more than high")
    ends = np.where(low > planned, tail, 0.0) + np.where(high > planned, tail, 0.0)
    return (ends + np.where(likely > planned, 1 - 2 * tail, 0.0))[()]


@rule(
    "chance = 1 − (1 − one) · (1 − other)",
    "dimensionless",
    definition("either of two events that do not depend on each other"),
    one="dimensionless, a chance from 0 to 1",
    other="dimensionless, a chance from 0 to 1",
)
def either_chance(*, one: Number, other: Number) -> Number:
    """Return the chance that at least one of two independent things happens.

    >>> round(either_chance(one=0.1, other=0.2), 2)
    0.28
    """
    return 1 - (1 - one) * (1 - other)
