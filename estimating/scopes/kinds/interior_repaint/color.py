"""Colors of a room: coats to hide the old one, the barrier under them, and every further color on the job."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.evidence import Basis
from estimating.figures import Figure, leaf, work
from estimating.job.model import Job
from estimating.job.surfaces import Change, Coloring, SurfaceNotes
from estimating.job.values import Answer
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.shared.solvent import PRIMER_TITLES, WATER_PRIMER
from estimating.trade import hiding

WALL, CEILING, TRIM = "wall_paint", "ceiling_flat", "trim_enamel"
SPOT, BOND = "drywall_sealer", "bonding_primer"
SEALER = WATER_PRIMER
TITLES = {
    WALL: "Wall paint, water-borne",
    CEILING: "Ceiling flat, water-borne",
    TRIM: "Enamel for trim, water-borne",
    SPOT: "Drywall primer",
    BOND: "Bonding primer, water-borne",
    **PRIMER_TITLES,
}
CONTRASTS = {Change.SAME: "same", Change.NEAR: "near", Change.STRONG: "strong"}
DEEP = "deep_base"


@dataclass(frozen=True)
class Coats:
    """The coats a change of color is planned with."""

    contrast: str  # the row of the table of coats
    finish: int  # finish coats over a barrier, where there is one
    bare: int  # finish coats where the barrier is left out
    barrier: int  # coats of tinted or gray primer under them
    asked: bool  # whether the notes ask for a number of coats

    def planned(self, *, barrier: bool) -> int:
        """Return how many finish coats are planned, with the barrier or without."""
        return self.finish if barrier else self.bare


def in_the_price(surface: SurfaceNotes, *, usual: bool = False) -> bool:
    """Say whether a surface is painted; `usual` is what an unanswered question is taken as."""
    return usual if surface.painted is None else surface.painted is Answer.YES


def walls_painted(item: InteriorRepaint) -> bool:
    """Say whether the walls are painted: they are unless the notes say no."""
    return in_the_price(item.walls, usual=True)


def contrast_of(notes: Coloring) -> str:
    """Return the row of the table of coats: how far apart the colors are, and what the new one is mixed from.

    Without an answer it is the same color where both are named alike, and near otherwise.
    """
    now, wanted = (each.strip().lower() if each else "" for each in (notes.color_now, notes.color_wanted))
    change = notes.change or (Change.SAME if now and now == wanted else Change.NEAR)
    return DEEP if notes.deep_base is Answer.YES and change is not Change.SAME else CONTRASTS[change]


def coats_of(notes: Coloring, basis: Basis, *, even: bool) -> Coats:
    """Return the coats for a surface; `even` gives it the higher number in the same color, for an even sheen."""
    contrast = contrast_of(notes)
    likely = needed(contrast, basis)
    finish = likely.high if even and contrast == "same" and likely.high else likely.value
    barrier = basis.figure("hiding", contrast, "primer_coats").value
    saved = basis.figure("hiding", "any", "saved").value
    bare = float(hiding.coats_without_barrier(coats=finish, barrier=barrier, saved=saved))
    asked = notes.coats is not None
    return Coats(contrast, notes.coats or round(finish), notes.coats or round(bare), round(barrier), asked)


def needed(contrast: str, basis: Basis) -> Figure:
    """Return the finish coats that a change of color takes, as the table has them."""
    return basis.figure("hiding", contrast, "coats")


def chance_of_another(coats: Coats, basis: Basis, *, barrier: bool) -> Figure:
    """Return the chance that one more coat is wanted: the old color shows, or the wall flashes or laps."""
    table = needed(coats.contrast, basis)
    spared = 0 if barrier else coats.bare - coats.finish  # coats put on in place of the barrier, which hid as much
    planned = leaf(
        "coats planned over what the barrier saves",
        float(coats.planned(barrier=barrier) - spared),
        "dimensionless",
        Origin(Kind.ENTERED if coats.asked else Kind.DEFINITION, place="the likely number, or as the notes ask"),
    )
    ends = {
        name: leaf(f"coats, {name}", value if value is not None else table.value, table.unit, table.origin)
        for name, value in (("low", table.low), ("likely", table.value), ("high", table.high))
    }
    shows = work(
        hiding.chance_of_more_coats,
        "the old color still shows",
        planned=planned,
        **ends,
        tail=basis.figure("hiding", "any", "tail"),
    )
    flashes = basis.figure("hiding", "any", "another_coat")
    return work(hiding.either_chance, "one more coat is wanted", one=shows, other=flashes)


def extra_colors(job: Job, item: InteriorRepaint) -> list[tuple[str, str]]:
    """Return the colors of this room that are a further color on the job: each paint's first color is not."""
    first: dict[str, str] = {}
    for each in job.work:
        if isinstance(each, InteriorRepaint):
            for product, color in _colors(each):
                first.setdefault(product, color)
    return [(product, color) for product, color in _colors(item) if color != first[product]]


def _colors(item: InteriorRepaint) -> list[tuple[str, str]]:
    """Return each paint and color of a room once, in the order they are noted."""
    walls = [item.walls, *item.walls.accents] if walls_painted(item) else []
    found = [(WALL, each) for each in walls]
    found += [(product, each) for product, each in ((CEILING, item.ceiling), (TRIM, item.trim)) if in_the_price(each)]
    return list(dict.fromkeys((product, each.color_wanted or "") for product, each in found))
