"""The second opinion on a row of the coverage table: how far a gallon of the paint usual there goes by solids and film.

A row of the table speaks of a surface and not of a product. Beside it stands what the paint that is usual on that
surface comes to, laid by hand: its solids and film, the texture, what the surface drinks, what stays in the tools.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from estimating.evidence import ANY, Basis, Row
from estimating.figures import Figure
from estimating.scopes.shared.coverage import APART, HAND, SEALED, TABLE, Coat, parting, worked_out

INSIDE, OUTSIDE = "interior", "exterior"
FIRST, LATER = "first", "later"
SOLIDS = "coatings"  # the table without which nothing can be worked out


@dataclass(frozen=True)
class Usual:
    """What is usually laid on a surface: the finish, the first coat where the surface drinks, and where."""

    finish: str
    first: str
    situation: str


WALL = Usual("wall_paint", "drywall_sealer", INSIDE)
OVERHEAD = Usual("ceiling_flat", "drywall_sealer", INSIDE)
TEXTURED = Usual("ceiling_flat", "ceiling_flat", INSIDE)  # a texture is not sealed first: the paint itself wets it
WOODWORK = Usual("trim_enamel", "bonding_primer", INSIDE)
SIDING = Usual("exterior_paint", "exterior_paint", OUTSIDE)
MASONRY = Usual("masonry_paint", "masonry_primer", OUTSIDE)
METAL = Usual("metal_enamel", "metal_enamel", OUTSIDE)
USUAL: Mapping[str, Usual] = MappingProxyType(
    {
        **dict.fromkeys(("smooth_drywall", "smooth_plaster", "orange_peel", "knockdown", "skip_trowel"), WALL),
        "smooth_ceiling": OVERHEAD,
        **dict.fromkeys(("popcorn_light", "popcorn_medium", "popcorn_heavy"), TEXTURED),
        **dict.fromkeys(("trim", "smooth_wood", "spindles"), WOODWORK),
        **dict.fromkeys(("lap_siding", "board_and_batten", "weatherboard", "shingle"), SIDING),
        **dict.fromkeys(("rough_wood", "weathered_wood"), SIDING),
        **dict.fromkeys(("stucco_smooth", "stucco_rough", "brick", "brick_coarse", "stone"), MASONRY),
        **dict.fromkeys(("concrete", "concrete_precast", "concrete_textured"), MASONRY),
        **dict.fromkeys(("block_dense", "block_light", "block_split"), MASONRY),
        **dict.fromkeys(("metal", "metal_corrugated", "steel_heavy", "steel_light", "steel_medium"), METAL),
        "metal_overhead": Usual("dryfall", "dryfall", INSIDE),
    }
)


@dataclass(frozen=True)
class SecondOpinion:
    """The rate of a row and the same worked out for the paint usual there, and whether they part by too much."""

    rate: Figure
    worked: Figure
    product: str
    most: float  # the factor beyond which it is said

    @property
    def factor(self) -> float:
        """By what factor the two part, 1 or more."""
        return parting(self.rate, self.worked)

    @property
    def apart(self) -> bool:
        """Whether the two part by more than may go unsaid."""
        return self.factor > self.most


def second_opinion(basis: Basis, row: Row) -> SecondOpinion | None:
    """Return the second opinion on a row of the coverage table; None for any other, or for goods that are no paint."""
    if row.table != TABLE or SOLIDS not in basis.library.tables:
        return None
    if row.keys[0] not in USUAL or row.keys[3] not in (ANY, *HAND):
        return None
    surface, porosity, coat, method = row.keys
    usual = USUAL[surface]
    drinks, which = porosity.replace(ANY, SEALED), coat.replace(ANY, LATER)
    product = usual.first if which == FIRST and drinks != SEALED else usual.finish
    tool = method.replace(ANY, "roll")
    worked = worked_out(basis, Coat(product, surface, drinks, which, tool, usual.situation))
    return SecondOpinion(basis.figure(TABLE, *row.keys), worked, product, basis.figure(*APART).value)
