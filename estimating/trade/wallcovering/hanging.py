"""The work of wallcovering: paste, hours to hang, and what taking the old covering off may come to.

Removal is the part of the trade that is guessed worst: what holds the paper is seen only when it comes off. It is
therefore asked for three times, best, likely and worst, and the worst is not allowed to rest on a few lucky tests.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, practice
from estimating.rules import rule
from estimating.trade.counting import round_up
from estimating.trade.guards import require
from estimating.units import Number


@rule(
    "paste = area ÷ spread × (1 + waste)",
    "gallon",
    practice("paste by the area pasted, with something for the trims and the bucket"),
    area="ft**2",
    spread="ft**2/gallon",
    waste="percent",
)
def paste_needed(*, area: Number, spread: Number, waste: Number) -> Number:
    """Return the paste for an area of paper or wall, whichever is pasted."""
    require(area >= 0, "area", area, "0 ft² or more")
    require(spread > 0, "spread", spread, "more than 0 ft² a gallon")
    require(waste >= 0, "waste", waste, "0 percent or more")
    return area / spread * (1 + waste / 100)


@rule(
    "hours = strips × minutes each × pattern factor ÷ 60",
    "hour",
    judgment("a strip is the unit of work: cut, paste, hang, trim; matching a pattern slows all of it"),
    strips="dimensionless",
    minutes_each="minute",
    pattern_factor="dimensionless",
)
def hang_hours(*, strips: Number, minutes_each: Number, pattern_factor: Number) -> Number:
    """Return the hours to hang a number of strips of one kind; full strips and parts are asked for apart.

    pattern_factor: 1 for a random match, more for straight and drop matches.
    """
    require(strips >= 0, "strips", strips, "0 or more")
    require(minutes_each > 0, "minutes_each", minutes_each, "more than 0 minutes")
    require(pattern_factor >= 1, "pattern_factor", pattern_factor, "1 or more")
    return strips * minutes_each * pattern_factor / 60


@rule(
    "hours = area × layers ÷ rate",
    "hour",
    judgment("each layer is wetted and taken off by itself"),
    area="ft**2",
    layers="dimensionless",
    rate="ft**2/hour",
)
def removal_hours(*, area: Number, layers: Number, rate: Number) -> Number:
    """Return the hours to take a covering off and wash the wall, at the rate of one outcome."""
    require(area >= 0, "area", area, "0 ft² or more")
    require(layers >= 1, "layers", layers, "1 or more")
    require(rate > 0, "rate", rate, "more than 0 ft² an hour")
    return area * layers / rate


@rule(
    "hours = area × damaged share ÷ rate",
    "hour",
    judgment("board that was never sized tears with the paper; the share is seen afterward"),
    area="ft**2",
    damaged="percent",
    rate="ft**2/hour",
)
def wall_repair_hours(*, area: Number, damaged: Number, rate: Number) -> Number:
    """Return the hours to make good the wall that came off with the covering, in one outcome."""
    require(area >= 0, "area", area, "0 ft² or more")
    require((damaged >= 0) & (damaged <= 100), "damaged", damaged, "0 to 100 percent")
    require(rate > 0, "rate", rate, "more than 0 ft² an hour")
    return area * damaged / 100 / rate


@rule(
    "tests = next whole (area ÷ area a test), at least the least",
    "dimensionless",
    judgment("several walls, inside and outside, and one where it is damp: one test speaks for itself only"),
    area="ft**2",
    area_per_test="ft**2",
    least="dimensionless",
)
def removal_tests_wanted(*, area: Number, area_per_test: Number, least: Number) -> Number:
    """Return how many test strips to take off before a removal is priced."""
    require(area > 0, "area", area, "more than 0 ft²")
    require(area_per_test > 0, "area_per_test", area_per_test, "more than 0 ft²")
    require(least >= 1, "least", least, "1 or more")
    wanted: Number = np.maximum(round_up(area, area_per_test), least)
    return wanted


@rule(
    "chance = 1 ÷ (tests + 1)",
    "dimensionless",
    definition("of tests + 1 places taken in any order, each is as likely as another to be the slowest"),
    tests="dimensionless",
)
def chance_slower_than_tested(*, tests: Number) -> Number:
    """Return the chance that the next place comes off slower than the slowest test; clustered tests say less."""
    require(tests >= 0, "tests", tests, "0 or more")
    return 1 / (tests + 1)


@rule(
    "worst rate = slowest test when the tests are enough, else the slower of it and the slowest known",
    "ft**2/hour",
    judgment("a few good tests do not take the bad wall out of the price"),
    slowest_tested="ft**2/hour",
    slowest_known="ft**2/hour",
    tests="dimensionless",
    enough_tests="dimensionless",
)
def worst_removal_rate(*, slowest_tested: Number, slowest_known: Number, tests: Number, enough_tests: Number) -> Number:
    """Return the rate the worst outcome is priced at.

    enough_tests: 9 leave 1 chance in 10 that the next place is slower (chance_slower_than_tested).
    """
    require(slowest_tested > 0, "slowest_tested", slowest_tested, "more than 0 ft² an hour")
    require(slowest_known > 0, "slowest_known", slowest_known, "more than 0 ft² an hour")
    require(tests >= 0, "tests", tests, "0 or more")
    require(enough_tests >= 1, "enough_tests", enough_tests, "1 or more")
    slower = np.minimum(slowest_tested, slowest_known)
    rate: Number = np.where(np.asarray(tests) >= enough_tests, slowest_tested, slower)
    return rate


@rule(
    "expected = best × its chance + worst × its chance + likely × the rest",
    "dollar",
    definition("the mean of three outcomes"),
    best="dollar",
    likely="dollar",
    worst="dollar",
    best_chance="percent",
    worst_chance="percent",
)
def expected_price(*, best: Number, likely: Number, worst: Number, best_chance: Number, worst_chance: Number) -> Number:
    """Return the mean of the three outcomes, to hold against a fixed price.

    Raises InputError when best ≤ likely ≤ worst does not hold, or the chances come to more than all.
    """
    require(best >= 0, "best", best, "0 dollars or more")
    require(likely >= best, "likely", likely, "no less than the best")
    require(worst >= likely, "worst", worst, "no less than the likely")
    require((best_chance >= 0) & (best_chance <= 100), "best_chance", best_chance, "0 to 100 percent")
    require((worst_chance >= 0) & (worst_chance <= 100), "worst_chance", worst_chance, "0 to 100 percent")
    require(
        (best_chance + worst_chance >= 0) & (best_chance + worst_chance <= 100),
        "best_chance + worst_chance",
        best_chance + worst_chance,
        "0 to 100 percent",
    )
    return likely + (best - likely) * best_chance / 100 + (worst - likely) * worst_chance / 100
