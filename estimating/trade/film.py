"""Paint as a film: how far a gallon goes, how thick it lies wet and dry, and what is lost on the way.

Film thickness is in thou (thousandths of an inch), which the trade calls mils.
"""

from __future__ import annotations

from estimating.origins import definition, published
from estimating.rules import rule
from estimating.units import Number

THOU_FT2_PER_GALLON = 231 / 144 * 1000  # a gallon is 231 cubic inches: 1604 thou deep on one square foot
_SPREAD = published(
    "paintpro-spread-rate; nist-handbook-44", "formula with 1604; Appendix C, gallon of 231 cubic inches"
)
_SOLIDS_STAY = definition("the solids stay, the rest leaves")


@rule(
    "spread = 1604 × solids ÷ dry film",
    "ft**2/gallon",
    _SPREAD,
    volume_solids="percent, more than 0, at most 100",
    dry_film="thou, more than 0",
)
def theoretical_spread_rate(*, volume_solids: Number, dry_film: Number) -> Number:
    """Return how far a gallon goes at a dry film, on a smooth sealed surface with nothing lost.

    >>> round(theoretical_spread_rate(volume_solids=40.0, dry_film=1.6))
    401
    """
    return THOU_FT2_PER_GALLON * volume_solids / 100 / dry_film


@rule(
    "dry = wet × solids",
    "thou",
    _SOLIDS_STAY,
    wet_film="thou, 0 or more",
    volume_solids="percent, more than 0, at most 100",
)
def dry_film(*, wet_film: Number, volume_solids: Number) -> Number:
    """Return the film left when the water or solvent has gone."""
    return wet_film * volume_solids / 100


@rule(
    "wet = dry ÷ solids",
    "thou",
    _SOLIDS_STAY,
    dry_film="thou, 0 or more",
    volume_solids="percent, more than 0, at most 100",
)
def wet_film(*, dry_film: Number, volume_solids: Number) -> Number:
    """Return how thick to lay the paint for a wanted dry film: what a comb gauge should read."""
    return dry_film * 100 / volume_solids


@rule(
    "yield = 1 − loss", "dimensionless", definition("what is not lost lands"), loss="percent, 0 or more, less than 100"
)
def paint_yield(*, loss: Number) -> Number:
    """Return the share of the paint used that ends up on the surface."""
    return 1 - loss / 100


@rule(
    "spread by a method = spread by hand × (1 − loss of the method) ÷ (1 − loss by hand)",
    "ft**2/gallon",
    definition("the film on the surface is the same; what differs is the share of the gallon that lands"),
    by_hand="ft**2/gallon, more than 0",
    loss="percent, 0 or more, less than 100",
    hand_loss="percent, 0 or more, less than 100",
)
def spread_by_method(*, by_hand: Number, loss: Number, hand_loss: Number) -> Number:
    """Return how far a gallon goes by a method, where it is known how far it goes by brush or roller.

    A rate by hand holds the loss by hand already, which is therefore taken out before the other is put in.
    """
    return by_hand * paint_yield(loss=loss) / paint_yield(loss=hand_loss)


@rule(
    "spread = spread on the sealed surface ÷ (1 + take-up)",
    "ft**2/gallon",
    definition("what soaks in is paint on top of what stays as film"),
    sealed="ft**2/gallon, more than 0",
    take_up="dimensionless, 0 or more",
)
def spread_over_suction(*, sealed: Number, take_up: Number) -> Number:
    """Return how far a gallon goes on a surface that drinks, where it is known how far it goes on the sealed one."""
    return sealed / (1 + take_up)


@rule(
    "practical spread = theoretical × (1 − loss) ÷ (area factor × (1 + take-up))",
    "ft**2/gallon",
    definition("more surface, more suction and more loss each take their share of the gallon"),
    theoretical="ft**2/gallon, more than 0",
    area_factor="dimensionless, more than 0",
    take_up="dimensionless, 0 or more",
    loss="percent, 0 or more, less than 100",
)
def practical_spread_rate(*, theoretical: Number, area_factor: Number, take_up: Number, loss: Number) -> Number:
    """Return how much flat area a gallon covers on a real surface.

    area_factor: developed surface ÷ the flat area it is measured as. take_up: extra paint that soaks in, as a share
    of the paint that stays as film (0 on a sealed surface). loss: share of the paint used that never lands.
    """
    return theoretical * paint_yield(loss=loss) / (area_factor * (1 + take_up))


@rule(
    "paint = flat area ÷ spread",
    "gallon",
    definition("area over spread rate"),
    area="ft**2, 0 or more",
    spread="ft**2/gallon, more than 0",
)
def paint_for_coat(*, area: Number, spread: Number) -> Number:
    """Return the paint one coat takes; coats differ in spread, so each is asked for by itself."""
    return area / spread


@rule(
    "film over flat area = dry film × area factor × (1 + take-up)",
    "thou",
    definition("the paint in the film, spread over the area it is measured as"),
    dry_film="thou, more than 0",
    area_factor="dimensionless, more than 0",
    take_up="dimensionless, 0 or more",
)
def film_over_flat(*, dry_film: Number, area_factor: Number, take_up: Number) -> Number:
    """Return the dry film to lay over the flat area so that a rough, thirsty surface keeps the film wanted."""
    return dry_film * area_factor * (1 + take_up)


@rule(
    "each pass = film ÷ passes",
    "thou",
    definition("shared evenly"),
    wet_film="thou, 0 or more",
    passes="dimensionless, 1 pass or more",
)
def per_pass(*, wet_film: Number, passes: Number) -> Number:
    """Return the part of a wet film that each of its passes lays."""
    return wet_film / passes


@rule(
    "specific gravity = density ÷ 1 kg/L",
    "dimensionless",
    definition("against water at its densest"),
    density="kilogram/liter, more than 0",
)
def specific_gravity(*, density: Number) -> Number:
    """Return how heavy a paint is against water."""
    return density
