"""How a printed least and most are read as the 10th and 90th percentile of a row.

A sheet or a norm prints the ends of what was seen. Of n values drawn from one spread the least and the most lie, on
average, so many standard deviations apart; the 10th and 90th percentile lie 2.563 apart. The ends are moved out or in
by the quotient of the two, on the logarithmic scale, and the likely value stays. Few values seldom reach the tails: the
ends of two printed values are moved out to more than twice their distance. Of many, they lie beyond the percentiles.

How many values stand behind a printed range is hardly ever said. It is read as UNKNOWN. In the coverage table, where
most ranges stand, they are on average two and a half times as wide as the standard deviation between publishers, and so
are the ends of six values. "Up to" prints the upper end alone: the lower one is then left as it stands.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.stats import norm

from estimating.errors import EvidenceError
from estimating.origins import definition
from estimating.rules import rule

PERCENTILES_APART = 2 * 1.2815515655446004  # standard deviations from the 10th to the 90th percentile
UNKNOWN = 6  # values behind a printed range that does not say how many
DIGITS = 4  # of an end that was moved: more would claim what no source printed
COLUMN = "reading"
ENDS, CEILING, VALUES = "ends", "ceiling", "values"


@rule(
    "(z₉₀ - z₁₀) / E(most - least of n standard normal values)",
    "dimensionless",
    definition("expected range of n values of one normal spread, integrated"),
    values="dimensionless, 2 or more",
)
def widening_of_ends(*, values: float) -> float:
    """Return by how much the logarithmic distance of printed ends from the likely value is multiplied.

    values: how many values the least and the most are the ends of.
    """
    return PERCENTILES_APART / _expected_range(values)


@lru_cache(maxsize=64)
def _expected_range(values: float) -> float:
    at = np.linspace(-10.0, 10.0, 4001)  # beyond ten standard deviations nothing is left
    return float(np.trapezoid(1 - norm.cdf(at) ** values - norm.sf(at) ** values, at))


@dataclass(frozen=True)
class Reading:
    """How the ends of a row are printed: as the ends of some values, or only as a ceiling."""

    values: int
    ceiling: bool = False

    def ends(self, low: float, likely: float, high: float) -> tuple[float, float]:
        """Return the 10th and 90th percentile that the printed ends stand for."""
        by = float(widening_of_ends(values=float(self.values)))
        return (low if self.ceiling else _moved(low, likely, by)), _moved(high, likely, by)

    def __str__(self) -> str:
        if self.ceiling:
            return f"the upper end is printed as a ceiling, read as the most of {self.values} values"
        if self.values == UNKNOWN:
            return f"printed as a least and a most without saying of how many, read as the ends of {UNKNOWN} values"
        return f"the least and the most of {self.values} printed values"


def read_reading(text: str, where: str) -> Reading | None:
    """Return how a row's ends are printed: `ends`, `ceiling` or `3 values`; None where it is blank.

    Raises EvidenceError for anything else.
    """
    if not text:
        return None
    if text in (ENDS, CEILING):
        return Reading(UNKNOWN, ceiling=text == CEILING)
    count, _, word = text.partition(" ")
    if word == VALUES and count.isdigit() and int(count) > 1:
        return Reading(int(count))
    raise EvidenceError(f"{where}: reading {text!r} is none of {ENDS}, {CEILING}, or such as 3 {VALUES}")


def _moved(end: float, likely: float, by: float) -> float:
    """Return an end moved away from the likely value; where one of them is 0 there is no logarithmic scale."""
    if end == likely:
        return end
    moved = likely * (end / likely) ** by if end > 0 and likely > 0 else likely + (end - likely) * by
    if end == 0:
        return 0.0
    return round(moved, DIGITS - 1 - math.floor(math.log10(abs(moved))))
