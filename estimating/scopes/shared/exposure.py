"""What one way of doing the work exposes people to, stated as facts; the rules on hazards read these and no kind.

A kind of work says what its plan does: what is sprayed, what old paint is disturbed, which suspect material is touched.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from estimating.estimate.pricing.plan import Plan
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.job.surfaces import Stain
from estimating.scopes.shared.products import DRYING_OILS
from estimating.scopes.shared.work_area import WorkArea

SOLVENT_FROM = 250.0  # g/L of VOC: our own line between the water-borne products of the table and the others


@dataclass(frozen=True)
class Exposure:
    """The facts of one plan that a hazard can hang on; the defaults are those of a plan that does nothing."""

    worked: bool = True  # False where the surface is left alone
    sprayed: bool = False
    old_paint: Figure | None = None  # old paint sanded, scuffed, scraped or cut open (ft²)
    failing: tuple[str, ...] = ()  # surfaces whose old paint is coming off by itself
    suspects: tuple[str, ...] = ()  # what may hold asbestos and is there, such as "ceiling texture"
    suspect_area: Figure | None = None  # ft²
    compound: str = ""  # how compound, plaster or filler becomes dust, such as "sanding joint compound"
    scraped: bool = False
    stripped: bool = False  # walls are soaked or steamed
    strippers: bool = False  # chemicals or hot water are worked with
    overhead: bool = False  # work above the head
    top: Figure | None = None  # the highest place that is worked at (ft)
    top_name: str = "ceiling"
    over_stairs: bool = False
    release: str = ""  # the texture that is wetted, and its history, where it may come down
    stains: tuple[Stain, ...] = ()
    seals: Literal["", "stains", "texture"] = ""  # what a stain-sealing primer goes over
    damp: bool = False
    closets: bool = False  # painted inside
    covers_fixtures: bool = False  # detectors, sprinkler heads and lights are covered, or in reach of paint
    plates: bool = False  # switch and outlet plates come off
    paint_dries_on_doors: bool = False
    outside: bool = False
    ground: Figure | None = None  # the line of ground under the work, where chips and drips fall (ft)
    passes: int = 1  # how often it is gone over from ladders
    cleaners: str = ""  # bleach, lye or acid that is brushed on and rinsed off
    treated_wood: bool = False  # preservative-treated wood is sanded
    power_washed: bool = False


@dataclass(frozen=True)
class Facts:
    """Where a plan is carried out, what it exposes people to, and what it uses."""

    work_area: WorkArea
    exposure: Exposure
    solvents: tuple[str, ...] = field(default=())  # titles of the solvent-borne products in it
    oils: tuple[str, ...] = field(default=())  # and of those that dry by taking up air, which heats a heap of rags


def facts_of(plan: Plan, work_area: WorkArea, exposure: Exposure) -> Facts:
    """Return the facts of a plan; what is solvent-borne is read off its materials, so that none is forgotten."""
    titles = dict.fromkeys(each.title for each in plan.materials if solvent_borne(each.product, work_area.basis))
    oils = dict.fromkeys(each.title for each in plan.materials if each.product in DRYING_OILS)
    return Facts(work_area, exposure, tuple(titles), tuple(oils))


def solvent_borne(product: str, basis: Basis) -> bool:
    """Say whether a product gives off so much solvent that its vapor burns and is breathed in: by its VOC."""
    rows = basis.library.table("coatings")
    voc = rows.get((product, "voc"))
    return voc is not None and voc.likely >= SOLVENT_FROM
