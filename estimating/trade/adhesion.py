"""Will the old texture or paint let go: odds from history and tests, and what it costs if it does.

The odds of release start from what is known of the ceiling's history, are multiplied by what each field test says, and
by what each way of coating does to them. Spot tests in one room are alike, so ten of them are worth less than ten.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, published
from estimating.rules import rule
from estimating.trade._numbers import require
from estimating.units import Number

BAYES = published("clinical-epidemiology-essentials; likelihood-ratio-2011", "fig. 8.9, p. 124; table 2")


def _times_odds(chance: Number, ratio: Number) -> Number:
    """Return the chance whose odds are `ratio` times as long; certain stays certain."""
    return chance * ratio / (1 - chance + chance * ratio)


@rule(
    "n effective = n / (1 + (n − 1) · ρ)",
    "dimensionless",
    published(
        "survey-sampling-1965; design-effects-vignette",
        "design effect of a cluster; effective sample size",
        "Formula read second-hand, the book itself not opened at it. ρ: how alike tests in one room are.",
    ),
    tests="dimensionless, 1 or more",
    correlation="dimensionless, 0 to 1",
)
def effective_tests(*, tests: Number, correlation: Number) -> Number:
    """Return how many independent tests a number of tests in one room are worth.

    correlation: 0 where each test tells something new, 1 where all tell the same.
    """
    return tests / (1 + (tests - 1) * correlation)


@rule(
    "odds after = odds before · ratio^weight",
    "dimensionless",
    BAYES,
    chance="dimensionless, a chance from 0 to 1",
    ratio="dimensionless, more than 0",
    weight="dimensionless, 0 or more",
)
def updated_chance(*, chance: Number, ratio: Number, weight: Number) -> Number:
    """Return the chance after evidence that multiplies the odds by `ratio`, `weight` times over.

    For n like tests of one kind the weight is `effective_tests`; each then counts for its n-th part. Raising the
    ratio to the effective number is our reading of the design effect, not a published rule.

    >>> round(updated_chance(chance=0.6, ratio=12.0, weight=1.0), 2)
    0.95
    """
    return _times_odds(chance, ratio**weight)


@rule(
    "p + added · (1 − p)",
    "dimensionless",
    judgment("water damage releases by itself what history would have held; two causes, either is enough"),
    chance="dimensionless, a chance from 0 to 1",
    added="dimensionless, a chance from 0 to 1",
)
def with_damage(*, chance: Number, added: Number) -> Number:
    """Return the chance with a water-damaged zone as a second cause beside it; never above 1."""
    return chance + added * (1 - chance)


@rule(
    "odds = base odds · odds ratio of the way",
    "dimensionless",
    BAYES,
    base="dimensionless, a chance from 0 to 1",
    method_odds="dimensionless, more than 0",
)
def release_probability(*, base: Number, method_odds: Number) -> Number:
    """Return the chance of release by one way of coating.

    base: the chance when rolled with water-borne paint. way_odds: what the way multiplies its odds by.
    """
    return _times_odds(base, method_odds)


@rule(
    "largest p with P(no more bad than found | p) ≥ 1 − confidence; all clean: 1 − (1 − confidence)^(1/n)",
    "dimensionless",
    published(
        "nist-handbook-prc242", "section 7.2.4.2", "The two-sided limits of the source with all the risk on one side."
    ),
    clean="dimensionless, 0 or more",
    tested="dimensionless, 1 test or more",
    confidence="dimensionless, more than 0 and less than 1",
)
def worst_fraction(*, clean: Number, tested: Number, confidence: Number) -> Number:
    """Return the largest bad share of a surface that the tests still allow, exact and one-sided.

    It takes the tests as independent and spread at random. Tests in one room are not, so the truth may be worse.
    """
    require(clean <= tested, "clean", clean, "no more than the number tested")
    if np.all(clean == tested):
        return 1 - (1 - confidence) ** (1 / tested)
    from scipy.special import betaincinv  # only here: it is slow to load, and most tests come out clean

    bound = betaincinv(tested - clean + 1, np.where(clean > 0, clean, 1), confidence)
    return np.where(clean > 0, bound, 1.0)[()]


@rule(
    "1 where luck < chance, otherwise 0; the chance itself while luck is not drawn",
    "dimensionless",
    definition("an event with a chance"),
    chance="dimensionless, a chance from 0 to 1",
    random_draw="dimensionless, an even draw from 0 to 1, or not drawn",
)
def occurs(*, chance: Number, random_draw: Number) -> Number:
    """Return whether an event happens at an even draw of luck from 0 to 1.

    Luck that is not drawn (not a number) gives the chance, so that the likely figure carries the expected value.
    """
    return np.where(np.isnan(random_draw), chance, np.where(random_draw < chance, 1.0, 0.0))[()]


@rule(
    "the cost of the extent that luck falls on; Σ chance · cost / Σ chance while luck is not drawn",
    "dollar",
    definition("an event of one of three sizes"),
    random_draw="dimensionless, an even draw from 0 to 1, or not drawn",
    chance_spots="dimensionless, a chance from 0 to 1",
    chance_patches="dimensionless, a chance from 0 to 1",
    chance_sheets="dimensionless, a chance from 0 to 1",
    cost_spots="dollar, 0 or more",
    cost_patches="dollar, 0 or more",
    cost_sheets="dollar, 0 or more",
)
def cost_by_extent(
    *,
    random_draw: Number,
    chance_spots: Number,
    chance_patches: Number,
    chance_sheets: Number,
    cost_spots: Number,
    cost_patches: Number,
    cost_sheets: Number,
) -> Number:
    """Return what a release costs if it happens: small spots, patches or whole sheets.

    The three chances count in proportion to their sum. The tail is heavy: the mean hides what sheets cost.
    """
    every = chance_spots + chance_patches + chance_sheets
    require(every > 0, "chance_spots", every, "chances that do not all vanish")
    mean = (chance_spots * cost_spots + chance_patches * cost_patches + chance_sheets * cost_sheets) / every
    bad_luck = np.where(random_draw * every < chance_spots + chance_patches, cost_patches, cost_sheets)
    drawn = np.where(random_draw * every < chance_spots, cost_spots, bad_luck)
    return np.where(np.isnan(random_draw), mean, drawn)[()]


@rule(
    "cost = chance · cost if it happens",
    "dollar",
    definition("expected value"),
    chance="dimensionless, a chance from 0 to 1",
    cost="dollar, 0 or more",
)
def expected_cost(*, chance: Number, cost: Number) -> Number:
    """Return the allowance for an event: its chance times its cost."""
    return chance * cost


@rule(
    "area = ceiling · share",
    "ft**2",
    definition("a share of an area"),
    ceiling="ft**2, 0 or more",
    share="dimensionless, a share from 0 to 1",
)
def released_area(*, ceiling: Number, share: Number) -> Number:
    """Return how much comes down (ft²) when a share of the ceiling does."""
    return ceiling * share


@rule(
    "hours = area / rate + return visit",
    "hour",
    definition("work at its rate, and the trip that the smallest patch costs too"),
    area="ft**2, 0 or more",
    rate="ft**2/hour, more than 0",
    visit="hour, 0 or more",
)
def repair_hours(*, area: Number, rate: Number, visit: Number) -> Number:
    """Return the person-hours to mend what came down: scrape, bind, re-texture, prime, coat, and come back for it."""
    return area / rate + visit
