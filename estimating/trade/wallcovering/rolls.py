"""Wallcovering by the roll: cut lengths, strips and rolls, offcuts, wide goods, and what is wasted.

Roll formats are arguments: 0.53 × 10.05 m (EN 233), single and double rolls, wide goods off the bolt. The strips of a
real room come from wallcovering_layout; the area method here is the second opinion beside them.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, practice, published
from estimating.rules import rule
from estimating.trade._numbers import TOLERANCE, require, round_up
from estimating.units import Number


def _complete(amount: Number, each: Number) -> Number:
    """Return how many complete things of size `each` come out of `amount`."""
    count: Number = np.floor(amount / each * (1 + TOLERANCE))
    return count


def _step(repeat: Number, drops: Number, otherwise: Number) -> Number:
    """Return the lengths at which a cut may begin; `otherwise` where there is no pattern to match."""
    require(drops == np.rint(drops), "drops", drops, "a whole number: 1 straight, 2 half drop, 3 third drop")
    step: Number = np.where(np.asarray(repeat) > 0, repeat / drops, otherwise)
    return step


@rule(
    "strip = height + top trim + bottom trim",
    "ft",
    practice("each strip is cut long and trimmed at the ceiling and at the base"),
    height="ft, more than 0",
    top_trim="ft, 0 or more",
    bottom_trim="ft, 0 or more",
)
def strip_length(*, height: Number, top_trim: Number, bottom_trim: Number) -> Number:
    """Return how long a strip must be to hang, before the pattern is looked at."""
    return height + top_trim + bottom_trim


@rule(
    "cut = next whole (repeat ÷ drops) that is strip or more",
    "ft",
    definition("the pattern comes round again once a repeat; in a drop match, at each part of it, on another strip"),
    strip_length="ft, more than 0",
    repeat="ft, 0 or more",
    drops="dimensionless, 1 or more",
)
def cut_length(*, strip_length: Number, repeat: Number, drops: Number) -> Number:
    """Return how much of the roll one strip uses up, the part wasted in matching included.

    repeat: 0 for a random match. drops: 1 straight, 2 half drop, 3 third drop. A drop match cut to half a repeat
    alternates its strips within one roll; cut to a whole repeat, each kind comes off a roll of its own.
    A longer repeat does not always waste more: 8 ft strips use 10 ft at a 5 ft repeat and
    8 ft at an 8 ft repeat. A repeat that is a whole multiple of another never uses less.

    >>> float(cut_length(strip_length=102 / 12, repeat=19 / 12, drops=1.0)) * 12
    114.0
    """
    step = _step(repeat, drops, strip_length)
    return round_up(strip_length, step) * step


@rule(
    "part cut = next whole (repeat ÷ drops) that is skip + part or more, at most a full strip's cut",
    "ft",
    definition("from an offcut that begins on the pattern, down to where this part's pattern begins"),
    part_length="ft, more than 0",
    below_top="ft, 0 or more",
    repeat="ft, 0 or more",
    drops="dimensionless, 1 or more",
    full_cut="ft, more than 0",
)
def part_cut_length(
    *, part_length: Number, below_top: Number, repeat: Number, drops: Number, full_cut: Number
) -> Number:
    """Return what a part strip uses of an offcut or a roll, pattern matched to its neighbors.

    part_length: the part with its trims. below_top: how far its upper end is below the ceiling (0 over a door).
    full_cut: a full strip's cut; a part is never cut longer than that. In a drop match the offcut may lie on the
    wrong part of the repeat, which is allowed for in full.
    """
    step = _step(repeat, drops, part_length)
    down = below_top - _complete(below_top, step) * step
    skip: Number = np.where(np.asarray(repeat) > 0, np.maximum(down, 0.0) + repeat - step, 0.0)
    cut: Number = np.minimum(round_up(skip + part_length, step) * step, full_cut)
    return cut


@rule(
    "usable = width × length × (usable of a single roll ÷ single roll)",
    "ft**2",
    judgment("a printed table gives the usable part of one size of roll; another size loses the same share"),
    width="ft, more than 0",
    length="ft, more than 0",
    single="ft**2, more than 0",
    single_usable="ft**2, more than 0",
)
def usable_area(*, width: Number, length: Number, single: Number, single_usable: Number) -> Number:
    """Return what one roll covers once trims and pattern have taken the share they take of a printed single roll."""
    require(single_usable <= single, "single_usable", single_usable, "no more than a roll")
    return width * length * single_usable / single


@rule(
    "rolls by area = next whole (area ÷ usable area)",
    "dimensionless",
    published("wca-estimate", "Square Foot Area Method"),
    area="ft**2, 0 or more",
    usable_area="ft**2, more than 0",
)
def rolls_by_area(*, area: Number, usable_area: Number) -> Number:
    """Return the rolls by the usable-area method, a second opinion on the strips.

    area: wall less openings. usable_area: what one roll covers once the pattern has taken its share. The source
    limits it to walls of ordinary height: not under 3 ft, not over 9 ft.
    """
    return round_up(area, usable_area)


@rule(
    "order = next whole pack of (rolls + spare)",
    "dimensionless",
    practice("all rolls of one batch; a later roll may not match, so the spare is bought with the first"),
    rolls="dimensionless, 0 or more",
    spare="dimensionless, 0 or more",
    pack="dimensionless, 1 or more",
)
def rolls_to_order(*, rolls: Number, spare: Number, pack: Number) -> Number:
    """Return the rolls to order, all of one batch.

    pack: the rolls that are sold together, 2 where single rolls are priced but doubles are sold.
    """
    return round_up(rolls + spare, pack) * pack


@rule(
    "running length = strips × cut",
    "ft",
    definition("wide goods come off the bolt one strip after another"),
    strips="dimensionless, 0 or more",
    cut_length="ft, more than 0",
)
def running_length(*, strips: Number, cut_length: Number) -> Number:
    """Return the length of wide goods for a number of strips."""
    return strips * cut_length


@rule(
    "running length = area ÷ width × (1 + waste)",
    "ft",
    published("wca-commercial", "Estimating Commercial Square Footage"),
    area="ft**2, 0 or more",
    width="ft, more than 0",
    waste="percent, 0 or more",
)
def running_length_by_area(*, area: Number, width: Number, waste: Number) -> Number:
    """Return the length of wide goods by area, a second opinion on the strips."""
    return area / width * (1 + waste / 100)


@rule(
    "order = next whole step of (length + spare)",
    "ft",
    definition("goods by length are sold in whole steps"),
    length="ft, 0 or more",
    spare="ft, 0 or more",
    step="ft, more than 0",
)
def length_to_order(*, length: Number, spare: Number, step: Number) -> Number:
    """Return the length of wide goods to order; step is what they are sold by, such as 3 ft for a yard."""
    return round_up(length + spare, step) * step


@rule(
    "waste = 1 − covered ÷ (rolls × roll × width)",
    "percent",
    judgment("everything bought that is not on the wall is waste, the spare included"),
    covered_area="ft**2, 0 or more",
    rolls="dimensionless, more than 0",
    roll_length="ft, more than 0",
    width="ft, more than 0",
)
def paper_waste(*, covered_area: Number, rolls: Number, roll_length: Number, width: Number) -> Number:
    """Return the share of the paper bought that does not end up on a wall."""
    bought = rolls * roll_length * width
    require(covered_area <= bought, "covered_area", covered_area, "no more than the paper bought")
    return (1 - covered_area / bought) * 100
