"""What test strips say of a removal, and its hours in one of three outcomes: easy, as usual, or bad.

A table of practice and a few strips taken off on the visit are weighed against each other: the table counts as so many
strips. Strips of one room are alike, so they are first cut down to what they are worth (adhesion.effective_tests).
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment
from estimating.rules import rule
from estimating.units import Number

WEIGHED = judgment("the table counts as so many tests, and each test as one; a mean of both")


@rule(
    "rate = area ÷ minutes × 60",
    "ft**2/hour",
    definition("area over time"),
    area="ft**2, more than 0",
    minutes="minute, more than 0",
)
def rate_tested(*, area: Number, minutes: Number) -> Number:
    """Return the rate at which test strips came off, soaking and scraping at the place itself counted."""
    return area / minutes * 60


@rule(
    "rate = (table + tests) ÷ (table ÷ rate of the table + tests ÷ rate tested)",
    "ft**2/hour",
    WEIGHED,
    rate="ft**2/hour, more than 0",
    tested="ft**2/hour, more than 0",
    tests="dimensionless, 0 or more",
    table_worth="dimensionless, more than 0 tests",
)
def rate_after_tests(*, rate: Number, tested: Number, tests: Number, table_worth: Number) -> Number:
    """Return the rate to plan with: the hours a square foot takes, averaged over the table and the tests.

    tests: what the timed tests are worth. table_worth: how many tests the table's rate is worth.
    """
    return (table_worth + tests) / (table_worth / rate + tests / tested)


@rule(
    "chance = (table × chance + tests × share seen) ÷ (table + tests)",
    "dimensionless",
    WEIGHED,
    chance="dimensionless, a chance from 0 to 1",
    share_seen="dimensionless, a chance from 0 to 1",
    tests="dimensionless, 0 or more",
    table_worth="dimensionless, more than 0 tests",
)
def chance_after_tests(*, chance: Number, share_seen: Number, tests: Number, table_worth: Number) -> Number:
    """Return a chance after tests of which a share showed the event.

    A few clean tests bring the chance down and never to nothing: a table worth five tests is halved by five of them.
    """
    return (table_worth * chance + tests * share_seen) / (table_worth + tests)


@rule(
    "chance among the rest = chance ÷ (1 − chance of the other)",
    "dimensionless",
    definition("conditional probability of two events that exclude each other"),
    chance="dimensionless, a chance from 0 to 1",
    other="dimensionless, 0 or more and less than 1",
)
def chance_of_the_rest(*, chance: Number, other: Number) -> Number:
    """Return how likely an event is where another, which excludes it, does not happen.

    Two ranges may be drawn so high that they leave nothing over: the event is then certain.
    """
    return np.minimum(1.0, chance / (1 - other))


@rule(
    "the hours of the outcome luck falls on; bad · worst + (1 − bad) · (easy · best + (1 − easy) · likely) before",
    "hour",
    definition("one of three outcomes; their mean while luck is not drawn"),
    random_draw="dimensionless, an even draw from 0 to 1, or not drawn",
    bad="dimensionless, a chance from 0 to 1",
    easy="dimensionless, a chance from 0 to 1",
    best="hour, 0 or more",
    likely="hour, 0 or more",
    worst="hour, 0 or more",
)
def hours_by_outcome(
    *, random_draw: Number, bad: Number, easy: Number, best: Number, likely: Number, worst: Number
) -> Number:
    """Return the hours of work that turns out easy, as usual or bad.

    bad: the chance of the worst outcome. easy: the chance of the best where it is not the worst. The mean is what many
    such jobs take; hardly any single one takes it.
    """
    mean = bad * worst + (1 - bad) * (easy * best + (1 - easy) * likely)
    well = np.where(random_draw < bad + (1 - bad) * easy, best, likely)
    drawn = np.where(random_draw < bad, worst, well)
    return np.where(np.isnan(random_draw), mean, drawn)[()]
