"""How far a gallon goes: by the coverage table, with the same worked out from solids and film beside it.

The table holds what sources print and painters remember for a surface, its porosity and the coat, laid by brush or
roller. Spraying puts more in the air: the losses of both methods turn the one rate into the other, so that the loss of
a method is counted once. Where the table has no row for a porosity, the rate of the sealed surface is lowered by what
it drinks; a surface without any row is worked out from solids and film.
"""

from __future__ import annotations

from dataclasses import dataclass

from estimating.evidence import ANY, Basis
from estimating.figures import Figure, work
from estimating.row_key import RowKey
from estimating.scopes.shared.products import KEPT_AS
from estimating.trade import film

TABLE = "coverage"
SEALED = "sealed"  # what a sheet means by coverage: any row of the surface stands for it
LATER = "later"
HAND = {"roll": "roll", "brush": "brush"}
ROLLED = ("roll", "interior")  # the loss that a rate by hand already holds
APART = ("factors", "second_opinion", "spread")


@dataclass(frozen=True)
class Coat:
    """One coat: what is laid on which surface, how much that drinks, which coat it is, and by what method."""

    product: str
    surface: str
    porosity: str
    coat: str
    method: str
    situation: str


@dataclass(frozen=True)
class Spread:
    """How far a gallon goes over the flat area, and the same worked out another way where there is one."""

    rate: Figure
    second: Figure | None = None

    def remark(self, apart: Figure) -> str:
        """Return what to say where the two part by more than a factor; empty where they agree."""
        if self.second is None or parting(self.rate, self.second) <= apart.value:
            return ""
        return (
            f"{self.rate.value:.0f} ft²/gal by the coverage table, {self.second.value:.0f} ft²/gal worked out from "
            "solids and film: look at the surface"
        )

    @property
    def key(self) -> str:
        """The row that the gallons really used can correct; blank where there is none.

        That is the coverage row where the rate rests on one. Where the rate was worked out it is the film laid: of
        all that goes into it the film alone is the painter's own habit and takes paint in proportion.
        """
        keys = [RowKey.parse(each.key) for each in self.rate.walk() if each.key]
        found = [each for each in keys if each.table == TABLE] or [each for each in keys if "dry_film" in each.keys]
        return str(found[0]) if found else ""


def parting(one: Figure, other: Figure) -> float:
    """Return by what factor two rates of one unit part, 1 or more."""
    return max(one.value / other.value, other.value / one.value)


def spread(basis: Basis, coat: Coat) -> Spread:
    """Return how far a gallon goes in a coat: by the table, and where that has no such row as worked out."""
    tabled = by_table(basis, coat)
    worked = worked_out(basis, coat)
    return Spread(worked) if tabled is None else Spread(tabled, worked)


def by_table(basis: Basis, coat: Coat) -> Figure | None:
    """Return the rate of the coverage table by this method; None where it has no row for the surface."""
    if (coat.surface, ANY, ANY, ANY) not in basis.library.table(TABLE):
        return None
    by_hand = _by_hand(basis, coat)
    if coat.method in HAND:
        return by_hand
    return work(
        film.spread_by_method,
        f"{_spoken(coat.product)}, {coat.coat} coat, sprayed",
        by_hand=by_hand,
        loss=basis.figure("losses", coat.method, coat.situation),
        hand_loss=basis.figure("losses", *ROLLED),
    )


def _by_hand(basis: Basis, coat: Coat) -> Figure:
    if coat.product in KEPT_AS:
        which = LATER if coat.coat == LATER else ANY
        return basis.figure(TABLE, coat.surface, ANY, which, KEPT_AS[coat.product])
    tool = HAND.get(coat.method, "roll")
    row = basis.library.nearest(TABLE, coat.surface, coat.porosity, coat.coat, tool)
    if row.keys[1] != ANY or coat.porosity in (SEALED, ANY):
        return basis.nearest(TABLE, coat.surface, coat.porosity, coat.coat, tool)
    return work(
        film.spread_over_suction,
        f"{_spoken(coat.product)}, {coat.coat} coat on a surface that drinks",
        sealed=basis.nearest(TABLE, coat.surface, SEALED, coat.coat, tool),
        take_up=basis.figure("take_up", coat.porosity, coat.coat),
    )


def worked_out(basis: Basis, coat: Coat) -> Figure:
    """Return the rate worked out from solids, film, texture, suction and loss."""
    theoretical = work(
        film.theoretical_spread_rate,
        f"{_spoken(coat.product)}, theoretical spread",
        volume_solids=basis.figure("coatings", coat.product, "volume_solids"),
        dry_film=basis.figure("coatings", coat.product, "dry_film"),
    )
    return work(
        film.practical_spread_rate,
        f"{_spoken(coat.product)}, {coat.coat} coat, practical spread",
        theoretical=theoretical,
        area_factor=basis.figure("surfaces", coat.surface, "area_factor"),
        take_up=basis.figure("take_up", coat.porosity, coat.coat),
        loss=basis.figure("losses", coat.method, coat.situation),
    )


def _spoken(product: str) -> str:
    return product.replace("_", " ")
