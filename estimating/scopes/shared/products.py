"""The paints and primers that operations put on, as the reference tables call them, and what an order calls them."""

from __future__ import annotations

WALL_PAINT = "wall_paint"
CEILING_FLAT = "ceiling_flat"
TRIM_ENAMEL = "trim_enamel"
DRYWALL_PRIMER = "drywall_sealer"
BONDING_PRIMER = "bonding_primer"
WATER_PRIMER = "stain_primer_waterborne"  # these two seal stains
SOLVENT_PRIMER = "stain_primer_solvent"
EXTERIOR_PAINT = "exterior_paint"
CLEAR_FINISH = "clear_wood_finish"
SEMITRANSPARENT_STAIN = "semitransparent_stain"
SOLID_STAIN = "solid_stain"
DRYING_OILS = frozenset({CLEAR_FINISH, SEMITRANSPARENT_STAIN})  # rags wet with them heat by themselves
KEPT_AS = {  # the kind of finish a row of the coverage table speaks of, where it is none for paint
    CLEAR_FINISH: "stain",
    SEMITRANSPARENT_STAIN: "stain",
    SOLID_STAIN: "solid_stain",
}
TITLES = {
    WALL_PAINT: "Wall paint, water-borne",
    CEILING_FLAT: "Ceiling flat, water-borne",
    TRIM_ENAMEL: "Enamel for trim, water-borne",
    DRYWALL_PRIMER: "Drywall primer",
    BONDING_PRIMER: "Bonding primer, water-borne",
    WATER_PRIMER: "Stain-sealing primer, water-borne",
    EXTERIOR_PAINT: "Exterior paint, water-borne",
    CLEAR_FINISH: "Clear penetrating wood finish",
    SEMITRANSPARENT_STAIN: "Semitransparent penetrating stain",
    SOLID_STAIN: "Solid-color stain, water-borne",
    SOLVENT_PRIMER: "Stain-sealing primer, solvent-borne",
}


def title_of(product: str) -> str:
    """Return what an order calls a product: its title here, or else the word of the reference tables."""
    return TITLES.get(product, product.replace("_", " ").capitalize())
