"""How many samples a laboratory needs of one material."""

from __future__ import annotations

import numpy as np

from estimating.origins import Kind, Origin
from estimating.rules import rule
from estimating.units import Number

SMALL, LARGE = 1000.0, 5000.0  # ft²


@rule(
    "3 up to 1,000 ft², 5 up to 5,000 ft², 7 above; none of no area",
    "dimensionless",
    Origin(
        Kind.MEMORY,
        note="40 CFR 763.86(a), surfacing material in schools; often taken elsewhere, the clause was not seen",
    ),
    area="ft**2, 0 or more",
)
def bulk_samples(*, area: Number) -> Number:
    """Return how many samples of one material are taken; local rules, or whoever samples, may ask for more."""
    return np.select([area <= 0, area <= SMALL, area <= LARGE], [0.0, 3.0, 5.0], 7.0)[()]
