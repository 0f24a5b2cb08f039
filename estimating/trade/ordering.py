"""What to buy: quarts, gallons and fives at least cost, and the cost of things bought by number.

A size that is not to be had is None in a plain call, or has an infinite price.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from estimating.errors import InputError
from estimating.origins import definition
from estimating.rules import rule
from estimating.trade._numbers import least, pick, require, round_up
from estimating.units import Number

QUART = 0.25  # gallons
QUARTS_IN_GALLON = 4
GALLONS_IN_FIVE = 5
QUARTS_IN_FIVE = QUARTS_IN_GALLON * GALLONS_IN_FIVE
CHEAPEST = definition("the cheapest whole containers that hold the need; the larger one where two cost the same")


@dataclass(frozen=True)
class Containers:
    """How many of each size to buy."""

    fives: int
    gallons: int
    quarts: int

    @property
    def gallons_bought(self) -> float:
        """What all of them hold, in gallons."""
        return self.fives * GALLONS_IN_FIVE + self.gallons + self.quarts * QUART

    def __str__(self) -> str:
        named = ((self.fives, "five"), (self.gallons, "gallon"), (self.quarts, "quart"))
        said = [f"{count} {name}{'' if count == 1 else 's'}" for count, name in named if count]
        return ", ".join(said) or "nothing"


def _counts(need: Number, quart: Number, gallon: Number, five: Number) -> tuple[Number, Number, Number]:
    """Return the cheapest fives, gallons and quarts.

    Each size is a whole number of the next smaller, so the cheapest order never has four quarts where a gallon costs no
    more, nor five gallons where a five costs no more. That leaves two questions, each answered by comparing two
    prices: is the last gallon made up of quarts or rounded up, and is the last five made up of gallons or rounded up.
    """
    per_quart = least(quart, least(gallon, five))
    per_gallon = least(QUARTS_IN_GALLON * per_quart, least(gallon, five))
    per_five = least(GALLONS_IN_FIVE * per_gallon, five)
    require(per_five < math.inf, "five", five, "a price for at least one size of container")

    full_fives, rest = divmod(round_up(need, QUART), QUARTS_IN_FIVE)
    full_gallons, odd_quarts = divmod(rest, QUARTS_IN_GALLON)
    round_gallon = per_gallon <= odd_quarts * per_quart
    quarts = pick(round_gallon, 0.0, odd_quarts)
    gallons = full_gallons + pick(round_gallon & (odd_quarts > 0), 1.0, 0.0)
    round_five = (rest > 0) & (per_five <= gallons * per_gallon + quarts * per_quart)
    fives = full_fives + pick(round_five, 1.0, 0.0)
    gallons, quarts = pick(round_five, 0.0, gallons), pick(round_five, 0.0, quarts)

    by_gallon = five > GALLONS_IN_FIVE * per_gallon
    gallons, fives = gallons + pick(by_gallon, GALLONS_IN_FIVE * fives, 0.0), pick(by_gallon, 0.0, fives)
    by_quart = gallon > QUARTS_IN_GALLON * per_quart
    quarts, gallons = quarts + pick(by_quart, QUARTS_IN_GALLON * gallons, 0.0), pick(by_quart, 0.0, gallons)
    return fives, gallons, quarts


def _price(count: Number, price: Number) -> Number:
    return pick(count > 0, count * pick(count > 0, price, 0.0), 0.0)


@rule(
    "least of quarts · quart + gallons · gallon + pails · pail that holds the need",
    "dollar",
    CHEAPEST,
    need="gallon, 0 or more",
    quart="dollar, more than 0",
    gallon="dollar, more than 0",
    five="dollar, more than 0",
)
def least_cost(*, need: Number, quart: Number, gallon: Number, five: Number) -> Number:
    """Return the least cost (dollars) of whole containers that hold `need` gallons; exact.

    >>> float(least_cost(need=1.3, quart=17.0, gallon=34.0, five=148.0))
    68.0
    """
    fives, gallons, quarts = _counts(need, quart, gallon, five)
    return _price(fives, five) + _price(gallons, gallon) + _price(quarts, quart)


def containers(
    need: float, *, quart: float | None = None, gallon: float | None = None, five: float | None = None
) -> Containers:
    """Return what to buy for `need` gallons at these prices (dollars); None where a size is not to be had.

    Raises InputError when no size is to be had at all.
    """
    if quart is None and gallon is None and five is None:
        raise InputError("prices", None, "a price for at least one size of container")
    require(need >= 0, "need", need, "0 gallons or more")
    prices = {
        size: math.inf if price is None else price
        for size, price in (("quart", quart), ("gallon", gallon), ("five", five))
    }
    for size, price in prices.items():
        require(price > 0, size, price, "a price above 0 dollars; none where it is not to be had")
    fives, gallons, quarts = _counts(need, **prices)
    return Containers(int(fives), int(gallons), int(quarts))


@rule(
    "cost = count · price",
    "dollar",
    definition("a price each"),
    count="dimensionless, 0 or more",
    price="dollar, 0 or more",
)
def count_cost(*, count: Number, price: Number) -> Number:
    """Return what a number of things costs at a price each."""
    return count * price


@rule(
    "count = need / what one holds, rounded up",
    "dimensionless",
    CHEAPEST,
    need="same, 0 or more",
    holds="same, more than 0",
)
def whole_containers(*, need: Number, holds: Number) -> Number:
    """Return how many whole rolls, sheets or boxes hold the need; both are in one unit."""
    return round_up(need, holds)
