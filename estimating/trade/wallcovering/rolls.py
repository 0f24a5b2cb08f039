"""Wallcovering by the roll: cut lengths, strips and rolls, offcuts, wide goods, and what is wasted.

Roll formats are arguments: 0.53 × 10.05 m (EN 233), single and double rolls, wide goods off the bolt. The strips of a
real room come from wallcovering_layout; the area method here is the second opinion beside them.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, practice, published
from estimating.rules import rule
from estimating.trade.counting import TOLERANCE, round_up
from estimating.trade.guards import require
from estimating.units import Number


def _complete(amount: Number, each: Number) -> Number:
    """Return how many complete things of size `each` come out of `amount`."""
    count: Number = np.floor(amount / each * (1 + TOLERANCE))
    return count


def _step(repeat: Number, drops: Number, otherwise: Number) -> Number:
    """Return the lengths at which a cut may begin; `otherwise` where there is no pattern to match."""
    require(repeat >= 0, "repeat", repeat, "0 ft or more")
    require(drops >= 1, "drops", drops, "1 or more")
    require(drops == np.rint(drops), "drops", drops, "a whole number: 1 straight, 2 half drop, 3 third drop")
    step: Number = np.where(np.asarray(repeat) > 0, repeat / drops, otherwise)
    return step


def _out_of_one_roll(field: str, length: Number, roll_length: Number) -> None:
    require(roll_length > 0, "roll_length", roll_length, "more than 0 ft")
    require(length > 0, field, length, "more than 0 ft")
    require(
        length <= roll_length * (1 + TOLERANCE), field, length, "no more ft than the roll: a strip has no cross seam"
    )


@rule(
    "strip = height + top trim + bottom trim",
    "ft",
    practice("each strip is cut long and trimmed at the ceiling and at the base"),
    height="ft",
    top_trim="ft",
    bottom_trim="ft",
)
def strip_length(*, height: Number, top_trim: Number, bottom_trim: Number) -> Number:
    """Return how long a strip must be to hang, before the pattern is looked at."""
    require(height > 0, "height", height, "more than 0 ft")
    require(top_trim >= 0, "top_trim", top_trim, "0 ft or more")
    require(bottom_trim >= 0, "bottom_trim", bottom_trim, "0 ft or more")
    return height + top_trim + bottom_trim


@rule(
    "cut = next whole (repeat ÷ drops) that is strip or more",
    "ft",
    definition("the pattern comes round again once a repeat; in a drop match, at each part of it, on another strip"),
    strip_length="ft",
    repeat="ft",
    drops="dimensionless",
)
def cut_length(*, strip_length: Number, repeat: Number, drops: Number) -> Number:
    """Return how much of the roll one strip uses up, the part wasted in matching included.

    repeat: 0 for a random match. drops: 1 straight, 2 half drop, 3 third drop. A drop match cut to half a repeat
    alternates its strips within one roll; cut to a whole repeat, each kind comes off a roll of its own
    (see rolls_for_match). A longer repeat does not always waste more: 8 ft strips use 10 ft at a 5 ft repeat and
    8 ft at an 8 ft repeat. A repeat that is a whole multiple of another never uses less.
    """
    require(strip_length > 0, "strip_length", strip_length, "more than 0 ft")
    step = _step(repeat, drops, strip_length)
    return round_up(strip_length, step) * step


@rule(
    "waste = cut − strip",
    "ft",
    definition("what is cut off to bring the pattern round"),
    cut_length="ft",
    strip_length="ft",
)
def match_waste(*, cut_length: Number, strip_length: Number) -> Number:
    """Return what each strip loses to the pattern match."""
    require(strip_length > 0, "strip_length", strip_length, "more than 0 ft")
    require(cut_length >= strip_length * (1 - TOLERANCE), "cut_length", cut_length, "no less ft than the strip")
    return cut_length - strip_length


@rule(
    "strips a roll = whole (roll ÷ cut)",
    "dimensionless",
    definition("strips are whole; what is left of the roll is offcut"),
    roll_length="ft",
    cut_length="ft",
)
def strips_per_roll(*, roll_length: Number, cut_length: Number) -> Number:
    """Return the whole strips a roll gives when it begins where the pattern is wanted.

    Raises InputError when not even one strip comes out of a roll.
    """
    _out_of_one_roll("cut_length", cut_length, roll_length)
    return _complete(roll_length, cut_length)


@rule(
    "at worst = 1 + whole ((roll − repeat − strip) ÷ cut)",
    "dimensionless",
    definition("a roll may begin anywhere in the pattern; the last strip needs no matching length behind it"),
    roll_length="ft",
    strip_length="ft",
    cut_length="ft",
    repeat="ft",
)
def strips_per_roll_at_worst(
    *, roll_length: Number, strip_length: Number, cut_length: Number, repeat: Number
) -> Number:
    """Return the whole strips a roll gives when up to one repeat is lost at its beginning.

    Raises InputError when such a roll may give none.
    """
    require(cut_length > 0, "cut_length", cut_length, "more than 0 ft")
    require(repeat >= 0, "repeat", repeat, "0 ft or more")
    _out_of_one_roll("strip_length + repeat", strip_length + repeat, roll_length)
    return _complete(roll_length - repeat - strip_length + cut_length, cut_length)


@rule(
    "strips = next whole ((run + corners × wrap) ÷ width)",
    "dimensionless",
    definition("strips stand edge to edge; each corner uses up the paper that goes round it"),
    run="ft",
    corners="dimensionless",
    wrap="ft",
    width="ft",
)
def strips_around(*, run: Number, corners: Number, wrap: Number, width: Number) -> Number:
    """Return the strips for a run of wall with no openings, every remainder used beyond its corner.

    The layout of the real walls may take more: where a strip ends just at a corner, or its remainder is too narrow.
    """
    require(run > 0, "run", run, "more than 0 ft")
    require(corners >= 0, "corners", corners, "0 or more")
    require(wrap >= 0, "wrap", wrap, "0 ft or more")
    require(width > 0, "width", width, "more than 0 ft")
    return round_up(run + corners * wrap, width)


@rule(
    "rolls = next whole (strips ÷ strips a roll)",
    "dimensionless",
    definition("rolls are whole"),
    strips="dimensionless",
    strips_per_roll="dimensionless",
)
def rolls_for(*, strips: Number, strips_per_roll: Number) -> Number:
    """Return the rolls for a number of strips."""
    require(strips >= 0, "strips", strips, "0 or more")
    require(strips_per_roll >= 1, "strips_per_roll", strips_per_roll, "1 or more")
    return round_up(strips, strips_per_roll)


@rule(
    "rolls = the sum, over the kinds of strip, of next whole (strips of the kind ÷ strips a roll)",
    "dimensionless",
    definition("a cut of whole repeats keeps one roll to one kind of strip; any other cut alternates within it"),
    strips="dimensionless",
    strips_per_roll="dimensionless",
    cut_length="ft",
    repeat="ft",
    drops="dimensionless",
)
def rolls_for_match(
    *, strips: Number, strips_per_roll: Number, cut_length: Number, repeat: Number, drops: Number
) -> Number:
    """Return the rolls for a drop match, where a cut of whole repeats needs a roll for each kind of strip.

    With a straight or random match, or when the cut alternates, this is rolls_for.
    """
    require(cut_length > 0, "cut_length", cut_length, "more than 0 ft")
    kinds = _kinds_of_roll(cut_length, _step(repeat, drops, cut_length), drops)
    each = _complete(strips, kinds)
    larger = strips - each * kinds
    few = rolls_for(strips=each, strips_per_roll=strips_per_roll)
    many = rolls_for(strips=each + 1, strips_per_roll=strips_per_roll)
    return larger * many + (kinds - larger) * few


def _kinds_of_roll(cut_length: Number, step: Number, drops: Number) -> Number:
    """Return into how many kinds the rolls divide, each giving strips that begin at one set of heights."""
    steps = np.rint(np.asarray(cut_length / step)).astype(int)
    kinds: Number = np.gcd(steps, np.asarray(drops).astype(int))
    return kinds


@rule(
    "offcut = roll − strips a roll × cut",
    "ft",
    definition("what is left of the roll"),
    roll_length="ft",
    strips_per_roll="dimensionless",
    cut_length="ft",
)
def offcut_length(*, roll_length: Number, strips_per_roll: Number, cut_length: Number) -> Number:
    """Return what is left of each roll when its whole strips are cut."""
    left = roll_length - strips_per_roll * cut_length
    require(
        left >= -TOLERANCE * roll_length, "roll_length − strips", left, "0 ft or more: the strips come out of the roll"
    )
    offcut: Number = np.maximum(left, 0.0)
    return offcut


@rule(
    "part cut = next whole (repeat ÷ drops) that is skip + part or more, at most a full strip's cut",
    "ft",
    definition("from an offcut that begins on the pattern, down to where this part's pattern begins"),
    part_length="ft",
    below_top="ft",
    repeat="ft",
    drops="dimensionless",
    full_cut="ft",
)
def part_cut_length(
    *, part_length: Number, below_top: Number, repeat: Number, drops: Number, full_cut: Number
) -> Number:
    """Return what a part strip uses of an offcut or a roll, pattern matched to its neighbors.

    part_length: the part with its trims. below_top: how far its upper end is below the ceiling (0 over a door).
    full_cut: a full strip's cut; a part is never cut longer than that. In a drop match the offcut may lie on the
    wrong part of the repeat, which is allowed for in full.
    """
    require(part_length > 0, "part_length", part_length, "more than 0 ft")
    require(below_top >= 0, "below_top", below_top, "0 ft or more")
    require(full_cut > 0, "full_cut", full_cut, "more than 0 ft")
    step = _step(repeat, drops, part_length)
    down = below_top - _complete(below_top, step) * step
    skip: Number = np.where(np.asarray(repeat) > 0, np.maximum(down, 0.0) + repeat - step, 0.0)
    cut: Number = np.minimum(round_up(skip + part_length, step) * step, full_cut)
    return cut


@rule(
    "more rolls = next whole ((parts − full rolls × parts an offcut) ÷ parts a roll), 0 or more",
    "dimensionless",
    definition("part strips come from the offcuts first, then from further rolls"),
    parts="dimensionless",
    part_length="ft",
    full_rolls="dimensionless",
    offcut_length="ft",
    roll_length="ft",
)
def rolls_for_parts(
    *, parts: Number, part_length: Number, full_rolls: Number, offcut_length: Number, roll_length: Number
) -> Number:
    """Return the rolls that part strips need beyond those of the full strips.

    part_length: the longest part's cut; shorter ones are counted as long, so this errs on the safe side. A last roll
    that is only part used counts as used up, which errs on the same side; wallcovering_cutting places every piece.
    """
    require(parts >= 0, "parts", parts, "0 or more")
    require(full_rolls >= 0, "full_rolls", full_rolls, "0 or more")
    require(offcut_length >= 0, "offcut_length", offcut_length, "0 ft or more")
    _out_of_one_roll("part_length", part_length, roll_length)
    left_over: Number = np.maximum(parts - full_rolls * _complete(offcut_length, part_length), 0.0)
    return round_up(left_over, _complete(roll_length, part_length))


@rule(
    "usable = width × length × (usable of a single roll ÷ single roll)",
    "ft**2",
    judgment("a printed table gives the usable part of one size of roll; another size loses the same share"),
    width="ft",
    length="ft",
    single="ft**2",
    single_usable="ft**2",
)
def usable_area(*, width: Number, length: Number, single: Number, single_usable: Number) -> Number:
    """Return what one roll covers once trims and pattern have taken the share they take of a printed single roll."""
    require(
        (single_usable > 0) & (single_usable <= single), "single_usable", single_usable, "more than 0, not over a roll"
    )
    require(width > 0, "width", width, "more than 0 ft")
    require(length > 0, "length", length, "more than 0 ft")
    return width * length * single_usable / single


@rule(
    "rolls by area = next whole (area ÷ usable area)",
    "dimensionless",
    published("wca-estimate", "Square Foot Area Method"),
    area="ft**2",
    usable_area="ft**2",
)
def rolls_by_area(*, area: Number, usable_area: Number) -> Number:
    """Return the rolls by the usable-area method, a second opinion on the strips.

    area: wall less openings. usable_area: what one roll covers once the pattern has taken its share. The source
    limits it to walls of ordinary height: not under 3 ft, not over 9 ft.
    """
    require(area >= 0, "area", area, "0 ft² or more")
    require(usable_area > 0, "usable_area", usable_area, "more than 0 ft²")
    return round_up(area, usable_area)


@rule(
    "order = next whole pack of (rolls + spare)",
    "dimensionless",
    practice("all rolls of one batch; a later roll may not match, so the spare is bought with the first"),
    rolls="dimensionless",
    spare="dimensionless",
    pack="dimensionless",
)
def rolls_to_order(*, rolls: Number, spare: Number, pack: Number) -> Number:
    """Return the rolls to order, all of one batch.

    pack: the rolls that are sold together, 2 where single rolls are priced but doubles are sold.
    """
    require(rolls >= 0, "rolls", rolls, "0 or more")
    require(spare >= 0, "spare", spare, "0 or more")
    require(pack >= 1, "pack", pack, "1 or more")
    return round_up(rolls + spare, pack) * pack


@rule(
    "running length = strips × cut",
    "ft",
    definition("wide goods come off the bolt one strip after another"),
    strips="dimensionless",
    cut_length="ft",
)
def running_length(*, strips: Number, cut_length: Number) -> Number:
    """Return the length of wide goods for a number of strips."""
    require(strips >= 0, "strips", strips, "0 or more")
    require(cut_length > 0, "cut_length", cut_length, "more than 0 ft")
    return strips * cut_length


@rule(
    "running length = area ÷ width × (1 + waste)",
    "ft",
    published("wca-commercial", "Estimating Commercial Square Footage"),
    area="ft**2",
    width="ft",
    waste="percent",
)
def running_length_by_area(*, area: Number, width: Number, waste: Number) -> Number:
    """Return the length of wide goods by area, a second opinion on the strips."""
    require(area >= 0, "area", area, "0 ft² or more")
    require(width > 0, "width", width, "more than 0 ft")
    require(waste >= 0, "waste", waste, "0 percent or more")
    return area / width * (1 + waste / 100)


@rule(
    "order = next whole step of (length + spare)",
    "ft",
    definition("goods by length are sold in whole steps"),
    length="ft",
    spare="ft",
    step="ft",
)
def length_to_order(*, length: Number, spare: Number, step: Number) -> Number:
    """Return the length of wide goods to order; step is what they are sold by, such as 3 ft for a yard."""
    require(length >= 0, "length", length, "0 ft or more")
    require(spare >= 0, "spare", spare, "0 ft or more")
    require(step > 0, "step", step, "more than 0 ft")
    return round_up(length + spare, step) * step


@rule(
    "waste = 1 − covered ÷ (rolls × roll × width)",
    "percent",
    judgment("everything bought that is not on the wall is waste, the spare included"),
    covered_area="ft**2",
    rolls="dimensionless",
    roll_length="ft",
    width="ft",
)
def paper_waste(*, covered_area: Number, rolls: Number, roll_length: Number, width: Number) -> Number:
    """Return the share of the paper bought that does not end up on a wall."""
    require(covered_area >= 0, "covered_area", covered_area, "0 ft² or more")
    require(rolls > 0, "rolls", rolls, "more than 0")
    require(roll_length > 0, "roll_length", roll_length, "more than 0 ft")
    require(width > 0, "width", width, "more than 0 ft")
    bought = rolls * roll_length * width
    require(covered_area <= bought, "covered_area", covered_area, "no more than the paper bought")
    return (1 - covered_area / bought) * 100
