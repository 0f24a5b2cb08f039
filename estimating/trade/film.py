"""Paint as a film: how far a gallon goes, how thick it lies wet and dry, and what is lost on the way.

Film thickness is in thou (thousandths of an inch), which the trade calls mils.
"""

from __future__ import annotations

from estimating.origins import definition, published
from estimating.rules import rule
from estimating.trade.guards import require
from estimating.units import Number

THOU_FT2_PER_GALLON = 231 / 144 * 1000  # a gallon is 231 cubic inches: 1604 thou deep on one square foot
_SPREAD = published(
    "paintpro-spread-rate; nist-handbook-44", "formula with 1604; Appendix C, gallon of 231 cubic inches"
)
_SOLIDS_STAY = definition("the solids stay, the rest leaves")


def _check_solids(volume_solids: Number) -> None:
    require(
        (volume_solids > 0) & (volume_solids <= 100), "volume_solids", volume_solids, "more than 0, at most 100 percent"
    )


@rule("spread = 1604 × solids ÷ dry film", "ft**2/gallon", _SPREAD, volume_solids="percent", dry_film="thou")
def theoretical_spread_rate(*, volume_solids: Number, dry_film: Number) -> Number:
    """Return how far a gallon goes at a dry film, on a smooth sealed surface with nothing lost."""
    _check_solids(volume_solids)
    require(dry_film > 0, "dry_film", dry_film, "more than 0 thou")
    return THOU_FT2_PER_GALLON * volume_solids / 100 / dry_film


@rule("dry film = 1604 × solids ÷ spread", "thou", _SPREAD, spread="ft**2/gallon", volume_solids="percent")
def film_from_spread(*, spread: Number, volume_solids: Number) -> Number:
    """Return the dry film a gallon leaves when it was spread so far with nothing lost."""
    _check_solids(volume_solids)
    require(spread > 0, "spread", spread, "more than 0 ft²/gallon")
    return THOU_FT2_PER_GALLON * volume_solids / 100 / spread


@rule("dry = wet × solids", "thou", _SOLIDS_STAY, wet_film="thou", volume_solids="percent")
def dry_film(*, wet_film: Number, volume_solids: Number) -> Number:
    """Return the film left when the water or solvent has gone."""
    _check_solids(volume_solids)
    require(wet_film >= 0, "wet_film", wet_film, "0 thou or more")
    return wet_film * volume_solids / 100


@rule("wet = dry ÷ solids", "thou", _SOLIDS_STAY, dry_film="thou", volume_solids="percent")
def wet_film(*, dry_film: Number, volume_solids: Number) -> Number:
    """Return how thick to lay the paint for a wanted dry film: what a comb gauge should read."""
    _check_solids(volume_solids)
    require(dry_film >= 0, "dry_film", dry_film, "0 thou or more")
    return dry_film * 100 / volume_solids


@rule(
    "thinned solids = solids ÷ (1 + thinner)",
    "percent",
    definition("the same solids in more volume"),
    volume_solids="percent",
    thinner="percent",
)
def thinned_solids(*, volume_solids: Number, thinner: Number) -> Number:
    """Return the volume solids after thinning; thinner is a share, by volume, of the paint as it came."""
    _check_solids(volume_solids)
    require(thinner >= 0, "thinner", thinner, "0 percent or more")
    return volume_solids / (1 + thinner / 100)


@rule("yield = 1 − loss", "dimensionless", definition("what is not lost lands"), loss="percent")
def paint_yield(*, loss: Number) -> Number:
    """Return the share of the paint used that ends up on the surface."""
    require((loss >= 0) & (loss < 100), "loss", loss, "0 or more, less than 100 percent")
    return 1 - loss / 100


@rule("consumption = 1 ÷ (1 − loss)", "dimensionless", definition("the inverse of the yield"), loss="percent")
def consumption_factor(*, loss: Number) -> Number:
    """Return what the paint in the film is multiplied by to give the paint used; never below 1."""
    return 1 / paint_yield(loss=loss)


@rule(
    "practical spread = theoretical × (1 − loss) ÷ (area factor × (1 + take-up))",
    "ft**2/gallon",
    definition("more surface, more suction and more loss each take their share of the gallon"),
    theoretical="ft**2/gallon",
    area_factor="dimensionless",
    take_up="dimensionless",
    loss="percent",
)
def practical_spread_rate(*, theoretical: Number, area_factor: Number, take_up: Number, loss: Number) -> Number:
    """Return how much flat area a gallon covers on a real surface.

    area_factor: developed surface ÷ the flat area it is measured as. take_up: extra paint that soaks in, as a share
    of the paint that stays as film (0 on a sealed surface). loss: share of the paint used that never lands.
    """
    require(theoretical > 0, "theoretical", theoretical, "more than 0 ft²/gallon")
    require(area_factor > 0, "area_factor", area_factor, "more than 0")
    require(take_up >= 0, "take_up", take_up, "0 or more")
    return theoretical * paint_yield(loss=loss) / (area_factor * (1 + take_up))


@rule("paint = flat area ÷ spread", "gallon", definition("area over spread rate"), area="ft**2", spread="ft**2/gallon")
def paint_for_coat(*, area: Number, spread: Number) -> Number:
    """Return the paint one coat takes; coats differ in spread, so each is asked for by itself."""
    require(area >= 0, "area", area, "0 ft² or more")
    require(spread > 0, "spread", spread, "more than 0 ft²/gallon")
    return area / spread


@rule(
    "film over flat area = dry film × area factor × (1 + take-up)",
    "thou",
    definition("the paint in the film, spread over the area it is measured as"),
    dry_film="thou",
    area_factor="dimensionless",
    take_up="dimensionless",
)
def film_over_flat(*, dry_film: Number, area_factor: Number, take_up: Number) -> Number:
    """Return the dry film to lay over the flat area so that a rough, thirsty surface keeps the film wanted."""
    require(dry_film > 0, "dry_film", dry_film, "more than 0 thou")
    require(area_factor > 0, "area_factor", area_factor, "more than 0")
    require(take_up >= 0, "take_up", take_up, "0 or more")
    return dry_film * area_factor * (1 + take_up)


@rule("each pass = film ÷ passes", "thou", definition("shared evenly"), wet_film="thou", passes="dimensionless")
def per_pass(*, wet_film: Number, passes: Number) -> Number:
    """Return the part of a wet film that each of its passes lays."""
    require(passes >= 1, "passes", passes, "1 pass or more")
    return wet_film / passes


@rule(
    "specific gravity = density ÷ 1 kg/L",
    "dimensionless",
    definition("against water at its densest"),
    density="kilogram/liter",
)
def specific_gravity(*, density: Number) -> Number:
    """Return how heavy a paint is against water."""
    require(density > 0, "density", density, "more than 0 kg/L")
    return density
