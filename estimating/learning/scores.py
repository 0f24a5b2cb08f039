"""How far a rate lies from what its reference row says: scores on the log scale, in published spreads.

A score of 0 is the row's likely value; its P10 and P90 score -1.28 and 1.28, each side with a spread of its own.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from estimating.errors import InputError
from estimating.evidence import Row
from estimating.row_key import RowKey
from estimating.units import registry

SCORE_90 = 1.2815515655446004  # standard normal 90th percentile
FILM = "thou"  # a film is gallons over an area, whatever unit of length it is written in; no other length is
# Bare shares that work goes by, and the power it goes with: of the time, the part the trigger is held: more is faster.
SHARES: Mapping[RowKey, tuple[str, float]] = MappingProxyType({RowKey.of("production", "spray_lap"): ("hours", -1.0)})


def digits(value: float) -> str:
    """Return a number to three figures, as a rate is spoken of."""
    places = 2 - math.floor(math.log10(abs(value))) if value else 0
    text = f"{round(value, places):,.{max(places, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def measure_of(row: Row) -> str:
    """Return what a row's rate is a rate of, hours or gallons; InputError when it is neither."""
    return _measure_and_power(row)[0]


def per_amount(row: Row) -> bool:
    """Say whether the row counts work per hour or gallon (more is faster), rather than hours or gallons per piece."""
    return _measure_and_power(row)[1] < 0


def _measure_and_power(row: Row) -> tuple[str, float]:
    for part, known in SHARES.items():
        if row.address.below(part):
            return known
    dimensions = registry.Unit(row.unit).dimensionality
    time, length = (float(str(dimensions.get(base, 0))) for base in ("[time]", "[length]"))
    if time in (-1, 1):
        return "hours", time
    if not time and (length in (-1, 3) or row.unit == FILM):  # area per volume, a volume, or a volume per area
        return "gallons", length
    raise InputError(row.key, row.unit, "a rate of hours or gallons, such as ft**2/hour or ft**2/gallon")


def _reach(row: Row, above: bool) -> float:
    """Return the log distance from a row's likely value to its high or low, always positive."""
    if not 0 < row.low < row.likely < row.high:
        raise InputError(row.key, (row.low, row.likely, row.high), "0 < low < likely < high, to learn from")
    return math.log(row.high / row.likely) if above else math.log(row.likely / row.low)


def score(value: float, row: Row) -> float:
    """Return how many published spreads a value lies above the row's likely value, on the log scale.

    Raises InputError for a row without a range on both sides: there is nothing to measure with.
    """
    return SCORE_90 * math.log(value / row.likely) / _reach(row, value > row.likely)


def value_at(at: float, row: Row) -> float:
    """Return the value with this score; the inverse of `score`."""
    return row.likely * math.exp(at / SCORE_90 * _reach(row, at > 0))
