"""The work of wallcovering: paste, hours to hang, and what taking the old covering off may come to.

Removal is the part of the trade that is guessed worst: what holds the paper is seen only when it comes off. It is
therefore asked for three times, best, likely and worst, and the worst is not allowed to rest on a few lucky tests.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, practice
from estimating.rules import rule
from estimating.trade._numbers import round_up
from estimating.units import Number


@rule(
    "paste = area ÷ spread × (1 + waste)",
    "gallon",
    practice("paste by the area pasted, with something for the trims and the bucket"),
    area="ft**2, 0 or more",
    spread="ft**2/gallon, more than 0",
    waste="percent, 0 or more",
)
def paste_needed(*, area: Number, spread: Number, waste: Number) -> Number:
    """Return the paste for an area of paper or wall, whichever is pasted."""
    return area / spread * (1 + waste / 100)


@rule(
    "hours = strips × minutes each × pattern factor ÷ 60",
    "hour",
    judgment("a strip is the unit of work: cut, paste, hang, trim; matching a pattern slows all of it"),
    strips="dimensionless, 0 or more",
    minutes_each="minute, more than 0",
    pattern_factor="dimensionless, 1 or more",
)
def hang_hours(*, strips: Number, minutes_each: Number, pattern_factor: Number) -> Number:
    """Return the hours to hang a number of strips of one kind; full strips and parts are asked for apart.

    pattern_factor: 1 for a random match, more for straight and drop matches.

    >>> hang_hours(strips=12.0, minutes_each=20.0, pattern_factor=1.0)
    4.0
    """
    return strips * minutes_each * pattern_factor / 60


@rule(
    "hours = area × layers ÷ rate",
    "hour",
    judgment("each layer is wetted and taken off by itself"),
    area="ft**2, 0 or more",
    layers="dimensionless, 1 or more",
    rate="ft**2/hour, more than 0",
)
def removal_hours(*, area: Number, layers: Number, rate: Number) -> Number:
    """Return the hours to take a covering off and wash the wall, at the rate of one outcome."""
    return area * layers / rate


@rule(
    "hours = area × damaged share ÷ rate",
    "hour",
    judgment("board that was never sized tears with the paper; the share is seen afterward"),
    area="ft**2, 0 or more",
    damaged="percent, 0 to 100",
    rate="ft**2/hour, more than 0",
)
def wall_repair_hours(*, area: Number, damaged: Number, rate: Number) -> Number:
    """Return the hours to make good the wall that came off with the covering, in one outcome."""
    return area * damaged / 100 / rate


@rule(
    "tests = next whole (area ÷ area a test), at least the least",
    "dimensionless",
    judgment("several walls, inside and outside, and one where it is damp: one test speaks for itself only"),
    area="ft**2, more than 0",
    area_per_test="ft**2, more than 0",
    least="dimensionless, 1 or more",
)
def removal_tests_wanted(*, area: Number, area_per_test: Number, least: Number) -> Number:
    """Return how many test strips to take off before a removal is priced."""
    wanted: Number = np.maximum(round_up(area, area_per_test), least)
    return wanted


@rule(
    "chance = 1 ÷ (tests + 1)",
    "dimensionless",
    definition("of tests + 1 places taken in any order, each is as likely as another to be the slowest"),
    tests="dimensionless, 0 or more",
)
def chance_slower_than_tested(*, tests: Number) -> Number:
    """Return the chance that the next place comes off slower than the slowest test; clustered tests say less."""
    return 1 / (tests + 1)


@rule(
    "worst rate = slowest test when the tests are enough, else the slower of it and the slowest known",
    "ft**2/hour",
    judgment("a few good tests do not take the bad wall out of the price"),
    slowest_tested="ft**2/hour, more than 0",
    slowest_known="ft**2/hour, more than 0",
    tests="dimensionless, 0 or more",
    enough_tests="dimensionless, 1 or more",
)
def worst_removal_rate(*, slowest_tested: Number, slowest_known: Number, tests: Number, enough_tests: Number) -> Number:
    """Return the rate the worst outcome is priced at.

    enough_tests: 9 leave 1 chance in 10 that the next place is slower (chance_slower_than_tested).
    """
    slower = np.minimum(slowest_tested, slowest_known)
    rate: Number = np.where(np.asarray(tests) >= enough_tests, slowest_tested, slower)
    return rate
