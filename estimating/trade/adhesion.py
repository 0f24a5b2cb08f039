"""Will the old texture or paint let go: a chance from history and tests, and what it costs if it does.

A surface is weak or sound, and weak is what rolling on water-borne paint brings down. History says how likely it is
weak, each test multiplies the odds of that, and each way of coating brings down a share of the weak surfaces. Since
a way acts on the surface and not on what is known of it, no test moves the chance that is expected of any way. Spot
tests in one room are alike, so ten of them are worth less than ten.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, published
from estimating.rules import rule
from estimating.trade._numbers import require
from estimating.units import Number

LIKELIHOODS = definition("a ratio of likelihoods is P(result | weak) / P(result | sound), and results add up to 1")
URN = definition("Pólya's urn with a color for each result: what was drawn is put back with more of its kind")
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
    "odds after = odds before · ratio",
    "dimensionless",
    BAYES,
    chance="dimensionless, a chance from 0 to 1",
    ratio="dimensionless, more than 0",
)
def after_result(*, chance: Number, ratio: Number) -> Number:
    """Return the chance after evidence that multiplies its odds by `ratio`.

    >>> round(after_result(chance=0.6, ratio=12.0), 2)
    0.95
    """
    return _times_odds(chance, ratio)


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
    "P(bad | sound) = (1 − ratio clean) / (ratio bad − ratio clean)",
    "dimensionless",
    LIKELIHOODS,
    ratio_bad="dimensionless, more than 1",
    ratio_clean="dimensionless, more than 0 and less than 1",
)
def bad_though_sound(*, ratio_bad: Number, ratio_clean: Number) -> Number:
    """Return the chance that a test with two results comes out bad on a sound surface.

    ratio_bad, ratio_clean: what each result multiplies the odds of a weak surface by.
    """
    return (1 - ratio_clean) / (ratio_bad - ratio_clean)


@rule("1 − chance", "dimensionless", LIKELIHOODS, chance="dimensionless, a chance from 0 to 1")
def otherwise(*, chance: Number) -> Number:
    """Return the chance of the other of two results."""
    return 1 - chance


@rule(
    "P(result | weak) = ratio · P(result | sound)",
    "dimensionless",
    LIKELIHOODS,
    ratio="dimensionless, more than 0",
    sound="dimensionless, a chance from 0 to 1",
)
def shown_when_weak(*, ratio: Number, sound: Number) -> Number:
    """Return the chance of a result on a weak surface, from that on a sound one and what it does to the odds."""
    return ratio * sound


@rule(
    "mild · (1 − share) + strong · share",
    "dimensionless",
    LIKELIHOODS,
    mild="dimensionless, 1 or more",
    strong="dimensionless, more than 1",
    share="dimensionless, a share from 0 to 1",
)
def either_ratio(*, mild: Number, strong: Number, share: Number) -> Number:
    """Return what two bad results taken as one do to the odds.

    share: how much of the bad results on a sound surface is the stronger of the two.
    """
    return mild * (1 - share) + strong * share


@rule(
    "part = chance · share",
    "dimensionless",
    LIKELIHOODS,
    chance="dimensionless, a chance from 0 to 1",
    share="dimensionless, a share from 0 to 1",
)
def part_of(*, chance: Number, share: Number) -> Number:
    """Return the chance of one of the results that were taken as one."""
    return chance * share


@rule(
    "Π over j < tests of (weak · (1 − ρ) + ρ · j) / (sound · (1 − ρ) + ρ · j)",
    "dimensionless",
    URN,
    weak="dimensionless, more than 0, a chance",
    sound="dimensionless, more than 0, a chance",
    tests="dimensionless, 0 or more",
    alike="dimensionless, 0 or more and less than 1",
)
def result_ratio(*, weak: Number, sound: Number, tests: float, alike: Number) -> Number:
    """Return what so many tests with one and the same result do to the odds of a weak surface.

    weak, sound: the chance of that result on such a surface. tests: how many, a whole number. alike: how far tests of
    one kind in one room repeat each other, ρ; a second like result then says less than the first. Results of one kind
    may come in any order, and what several of them do is the product.
    """
    require(np.ndim(tests) == 0 and tests == round(float(tests)), "tests", tests, "one whole number")
    ratio: Number = 1.0
    for made in range(round(float(tests))):
        ratio = ratio * (weak * (1 - alike) + alike * made) / (sound * (1 - alike) + alike * made)
    return ratio


@rule(
    "P(weak) · share + (1 − P(weak)) · sound",
    "dimensionless",
    definition("total probability, over weak surfaces and sound ones"),
    weak="dimensionless, a chance from 0 to 1",
    share="dimensionless, a share from 0 to 1",
    sound="dimensionless, a chance from 0 to 1",
)
def release_probability(*, weak: Number, share: Number, sound: Number) -> Number:
    """Return the chance of release by one way of coating.

    weak: the chance that the surface is weak. share: of weak surfaces, how many this way brings down. sound: the
    chance that a coating brings down a sound one all the same.

    >>> round(release_probability(weak=0.5, share=0.35, sound=0.0), 3)
    0.175
    """
    return weak * share + (1 - weak) * sound


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
