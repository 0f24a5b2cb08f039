"""Will the old texture or paint let go: odds from history and tests, and what it costs if it does.

The odds of release start from what is known of the ceiling's history, are multiplied by what each field test says, and
by what each way of coating does to them. Spot tests in one room are alike, so ten of them are worth less than ten.
"""

from __future__ import annotations

from types import MappingProxyType

import numpy as np

from estimating.origins import definition, judgment, published
from estimating.rules import rule
from estimating.trade.guards import require
from estimating.units import Number

BAYES = published("clinical-epidemiology-essentials; likelihood-ratio-2011", "fig. 8.9, p. 124; table 2")
NEARLY_SURE = 1 - 1e-9

TAPE_WORDS = MappingProxyType(
    {
        5: "5B: nothing comes off",
        4: "4B: flakes at the crossings, under 5 % of the area",
        3: "3B: flakes along the cuts, 5 to 15 %",
        2: "2B: flakes along the cuts and on the squares, 15 to 35 %",
        1: "1B: whole squares and long strips, 35 to 65 %",
        0: "0B: more than 65 %",
    }
)


def _is_chance(field: str, value: Number) -> None:
    require((value >= 0) & (value <= 1), field, value, "a chance from 0 to 1")


@rule("odds = p / (1 − p)", "dimensionless", BAYES, chance="dimensionless")
def odds(*, chance: Number) -> Number:
    """Return the odds of a chance below 1."""
    require((chance >= 0) & (chance < 1), "chance", chance, "0 or more and less than 1")
    return chance / (1 - chance)


@rule("p = odds / (1 + odds)", "dimensionless", BAYES, odds="dimensionless")
def probability(*, odds: Number) -> Number:
    """Return the chance that odds stand for."""
    require(odds >= 0, "odds", odds, "0 or more")
    return odds / (1 + odds)


def _times_odds(chance: Number, ratio: Number) -> Number:
    """Return the chance whose odds are `ratio` times as long; certain stays certain."""
    _is_chance("chance", chance)
    require(ratio > 0, "ratio", ratio, "more than 0")
    return chance * ratio / (1 - chance + chance * ratio)


@rule(
    "n effective = n / (1 + (n − 1) · ρ)",
    "dimensionless",
    published(
        "survey-sampling-1965; design-effects-vignette",
        "design effect of a cluster; effective sample size",
        "Formula read second-hand, the book itself not opened at it. ρ: how alike tests in one room are.",
    ),
    tests="dimensionless",
    correlation="dimensionless",
)
def effective_tests(*, tests: Number, correlation: Number) -> Number:
    """Return how many independent tests a number of tests in one room are worth.

    correlation: 0 where each test tells something new, 1 where all tell the same.
    """
    require(tests >= 1, "tests", tests, "1 or more")
    require((correlation >= 0) & (correlation <= 1), "correlation", correlation, "0 to 1")
    return tests / (1 + (tests - 1) * correlation)


@rule(
    "odds after = odds before · ratio^weight",
    "dimensionless",
    BAYES,
    chance="dimensionless",
    ratio="dimensionless",
    weight="dimensionless",
)
def updated_chance(*, chance: Number, ratio: Number, weight: Number) -> Number:
    """Return the chance after evidence that multiplies the odds by `ratio`, `weight` times over.

    For n like tests of one kind the weight is `effective_tests`; each then counts for its n-th part. Raising the
    ratio to the effective number is our reading of the design effect, not a published rule.
    """
    require(weight >= 0, "weight", weight, "0 or more")
    require(ratio > 0, "ratio", ratio, "more than 0")
    return _times_odds(chance, ratio**weight)


@rule(
    "p + added · (1 − p)",
    "dimensionless",
    judgment("water damage releases by itself what history would have held; two causes, either is enough"),
    chance="dimensionless",
    added="dimensionless",
)
def with_damage(*, chance: Number, added: Number) -> Number:
    """Return the chance with a water-damaged zone as a second cause beside it; never above 1."""
    _is_chance("chance", chance)
    _is_chance("added", added)
    return chance + added * (1 - chance)


@rule(
    "odds = base odds · odds ratio of the way",
    "dimensionless",
    BAYES,
    base="dimensionless",
    method_odds="dimensionless",
)
def release_probability(*, base: Number, method_odds: Number) -> Number:
    """Return the chance of release by one way of coating.

    base: the chance when rolled with water-borne paint. way_odds: what the way multiplies its odds by.
    """
    _is_chance("base", base)
    require(method_odds > 0, "method_odds", method_odds, "more than 0")
    return _times_odds(base, method_odds)


@rule(
    "largest p with P(no more bad than found | p) ≥ 1 − confidence; all clean: 1 − (1 − confidence)^(1/n)",
    "dimensionless",
    published(
        "nist-handbook-prc242", "section 7.2.4.2", "The two-sided limits of the source with all the risk on one side."
    ),
    clean="dimensionless",
    tested="dimensionless",
    confidence="dimensionless",
)
def worst_fraction(*, clean: Number, tested: Number, confidence: Number) -> Number:
    """Return the largest bad share of a surface that the tests still allow, exact and one-sided.

    It takes the tests as independent and spread at random. Tests in one room are not, so the truth may be worse.
    """
    require(tested >= 1, "tested", tested, "1 test or more")
    require((clean >= 0) & (clean <= tested), "clean", clean, "0 to the number tested")
    require((confidence > 0) & (confidence < 1), "confidence", confidence, "more than 0 and less than 1")
    if np.all(clean == tested):
        return 1 - (1 - confidence) ** (1 / tested)
    from scipy.special import betaincinv  # only here: it is slow to load, and most tests come out clean

    bound = betaincinv(tested - clean + 1, np.where(clean > 0, clean, 1), confidence)
    return np.where(clean > 0, bound, 1.0)[()]


@rule(
    "1 where luck < chance, otherwise 0; the chance itself while luck is not drawn",
    "dimensionless",
    definition("an event with a chance"),
    chance="dimensionless",
    random_draw="dimensionless",
)
def occurs(*, chance: Number, random_draw: Number) -> Number:
    """Return whether an event happens at an even draw of luck from 0 to 1.

    Luck that is not drawn (not a number) gives the chance, so that the likely figure carries the expected value.
    """
    _is_chance("chance", chance)
    require(
        np.isnan(random_draw) | ((random_draw >= 0) & (random_draw <= 1)),
        "random_draw",
        random_draw,
        "an even draw from 0 to 1, or not drawn",
    )
    return np.where(np.isnan(random_draw), chance, np.where(random_draw < chance, 1.0, 0.0))[()]


@rule(
    "the cost of the extent that luck falls on; Σ chance · cost / Σ chance while luck is not drawn",
    "dollar",
    definition("an event of one of three sizes"),
    random_draw="dimensionless",
    chance_spots="dimensionless",
    chance_patches="dimensionless",
    chance_sheets="dimensionless",
    cost_spots="dollar",
    cost_patches="dollar",
    cost_sheets="dollar",
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
    for name, chance in (("spots", chance_spots), ("patches", chance_patches), ("sheets", chance_sheets)):
        _is_chance(f"chance_{name}", chance)
    every = chance_spots + chance_patches + chance_sheets
    require(every > 0, "chance_spots", every, "chances that do not all vanish")
    require(
        np.isnan(random_draw) | ((random_draw >= 0) & (random_draw <= 1)),
        "random_draw",
        random_draw,
        "an even draw from 0 to 1, or not drawn",
    )
    mean = (chance_spots * cost_spots + chance_patches * cost_patches + chance_sheets * cost_sheets) / every
    bad_luck = np.where(random_draw * every < chance_spots + chance_patches, cost_patches, cost_sheets)
    drawn = np.where(random_draw * every < chance_spots, cost_spots, bad_luck)
    return np.where(np.isnan(random_draw), mean, drawn)[()]


@rule(
    "cost = chance · cost if it happens", "dollar", definition("expected value"), chance="dimensionless", cost="dollar"
)
def expected_cost(*, chance: Number, cost: Number) -> Number:
    """Return the allowance for an event: its chance times its cost."""
    _is_chance("chance", chance)
    require(cost >= 0, "cost", cost, "0 dollars or more")
    return chance * cost


@rule("area = ceiling · share", "ft**2", definition("a share of an area"), ceiling="ft**2", share="dimensionless")
def released_area(*, ceiling: Number, share: Number) -> Number:
    """Return how much comes down (ft²) when a share of the ceiling does."""
    require(ceiling >= 0, "ceiling", ceiling, "0 ft² or more")
    require((share >= 0) & (share <= 1), "share", share, "a share from 0 to 1")
    return ceiling * share


@rule(
    "hours = area / rate + return visit",
    "hour",
    definition("work at its rate, and the trip that the smallest patch costs too"),
    area="ft**2",
    rate="ft**2/hour",
    visit="hour",
)
def repair_hours(*, area: Number, rate: Number, visit: Number) -> Number:
    """Return the person-hours to mend what came down: scrape, bind, re-texture, prime, coat, and come back for it."""
    require(area >= 0, "area", area, "0 ft² or more")
    require(rate > 0, "rate", rate, "more than 0 ft² an hour")
    require(visit >= 0, "visit", visit, "0 hours or more")
    return area / rate + visit


@rule(
    "class 5: none; 4: under 5 %; 3: 5 to 15; 2: 15 to 35; 1: 35 to 65; 0: more than 65 % removed",
    "dimensionless",
    published(
        "pslc-adhesion-table; cross-hatch-manual",
        "table of classes; page 9",
        "Both give the classes of ASTM D3359 Method B. Made for metal: on plaster and texture only a relative score.",
    ),
    area_removed="percent",
)
def tape_class(*, area_removed: Number) -> Number:
    """Return the cross-cut class, 5 best to 0 worst, from the percent of the area the tape took off.

    Where two classes of the table share a limit the worse is taken. `TAPE_WORDS` says each class in words.
    """
    require((area_removed >= 0) & (area_removed <= 100), "area_removed", area_removed, "0 to 100 percent")
    worse_by = np.where(area_removed > 0, 1.0, 0.0) + np.where(area_removed > 65, 1.0, 0.0)
    for limit in (5, 15, 35):
        worse_by = worse_by + np.where(area_removed >= limit, 1.0, 0.0)
    return (5 - worse_by)[()]


@rule(
    "1 where there are crumbs, a piece longer than allowed, or softening; otherwise 0",
    "dimensionless",
    judgment("wetting more of what has begun to fall brings down more"),
    crumbs="dimensionless",
    softens="dimensionless",
    largest_piece="inch",
    largest_allowed="inch",
)
def must_stop(*, crumbs: Number, softens: Number, largest_piece: Number, largest_allowed: Number) -> Number:
    """Return 1 where the first square feet say stop, let it dry and change the way of working.

    crumbs: 1 where the nap picks any up. softens: 1 where a light fingertip dents the wet texture.
    """
    require(largest_piece >= 0, "largest_piece", largest_piece, "0 in or more")
    require(largest_allowed >= 0, "largest_allowed", largest_allowed, "0 in or more")
    return np.where((crumbs > 0) | (softens > 0) | (largest_piece > largest_allowed), 1.0, 0.0)[()]


@rule(
    "base chance p at which cost a + P(p, way a) · repair a = cost b + P(p, way b) · repair b",
    "dimensionless",
    definition("equal expected cost; a quadratic in the base odds"),
    cost_a="dollar",
    cost_b="dollar",
    repair_a="dollar",
    repair_b="dollar",
    method_odds_a="dimensionless",
    method_odds_b="dimensionless",
)
def breakeven_probability(
    *, cost_a: Number, cost_b: Number, repair_a: Number, repair_b: Number, method_odds_a: Number, method_odds_b: Number
) -> Number:
    """Return the base chance of release at which two ways cost the same; not a number where there is none.

    Where the cheaper way changes twice, the lower of the two chances. With x the base odds and d = cost b − cost a:
    ab (repair a − repair b − d) x² + (a repair a − b repair b − d (a + b)) x − d = 0 for odds ratios a, b.
    """
    for name, ratio in (("method_odds_a", method_odds_a), ("method_odds_b", method_odds_b)):
        require(ratio > 0, name, ratio, "more than 0")
    dearer = cost_b - cost_a
    square = method_odds_a * method_odds_b * (repair_a - repair_b - dearer)
    linear = method_odds_a * repair_a - method_odds_b * repair_b - dearer * (method_odds_a + method_odds_b)
    with np.errstate(divide="ignore", invalid="ignore"):
        half = -(linear + np.where(linear < 0, -1.0, 1.0) * np.sqrt(linear**2 + 4 * square * dearer)) / 2
        roots = np.array([np.divide(half, square), np.divide(-dearer, half)])
        chances = roots / (1 + roots)
    usable = np.where((roots > 0) & (chances < NEARLY_SURE), chances, np.inf)
    lowest = np.min(usable, axis=0)
    return np.where(np.isfinite(lowest), lowest, np.where(dearer == 0, 0.0, np.nan))[()]
