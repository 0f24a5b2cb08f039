"""Colors: the coats that hide the old one, the barrier under them, and every further color on the job."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Phase, Task
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, work
from estimating.job.surfaces import Change, Coloring
from estimating.job.values import Answer
from estimating.origins import Kind, Origin
from estimating.scopes.shared.products import title_of
from estimating.scopes.shared.work_area import WorkArea, for_tools, with_share_key
from estimating.trade import hiding

CONTRASTS = {Change.SAME: "same", Change.NEAR: "near", Change.STRONG: "strong"}
DEEP = "deep_base"
REDS = frozenset({"red", "crimson", "scarlet", "burgundy", "maroon"})  # hide poorly, whatever was there before
Color = tuple[str, str]  # product, and the color wanted or blank


@dataclass(frozen=True)
class Coats:
    """The coats a surface is planned with."""

    finish: int  # finish coats over a barrier, where there is one
    bare: int  # finish coats where the barrier is left out
    barrier: int = 0  # coats of tinted or gray primer under them
    contrast: str = "same"  # the row of the table of coats
    asked: bool = False  # whether the notes ask for a number of coats

    def planned(self, *, barrier: bool) -> int:
        """Return how many finish coats are planned, with the barrier or without."""
        return self.finish if barrier else self.bare


def contrast_of(notes: Coloring) -> str:
    """Return the row of the table of coats: how far apart the colors are, and what the new one is mixed from.

    Without an answer it is the same color where both are named alike, and near otherwise.
    """
    now, wanted = (each.strip().lower() if each else "" for each in (notes.color_now, notes.color_wanted))
    change = notes.change or (Change.SAME if now and now == wanted else Change.NEAR)
    return DEEP if from_deep_base(notes) and change is not Change.SAME else CONTRASTS[change]


def from_deep_base(notes: Coloring) -> bool:
    """Say whether the new color is mixed from a clear or deep base: without an answer, where its name says a red."""
    if notes.deep_base is None:
        return bool(REDS & set((notes.color_wanted or "").lower().split()))
    return notes.deep_base is Answer.YES


def coats_of(notes: Coloring, basis: Basis, *, even: bool) -> Coats:
    """Return the coats for a surface; `even` gives it the higher number in the same color, for an even sheen."""
    contrast = contrast_of(notes)
    likely = _needed(contrast, basis)
    finish = likely.high if even and contrast == "same" and likely.high else likely.value
    barrier = basis.figure("hiding", contrast, "primer_coats").value
    saved = basis.figure("hiding", "any", "saved").value
    bare = float(hiding.coats_without_barrier(coats=finish, barrier=barrier, saved=saved))
    asked = notes.coats is not None
    return Coats(notes.coats or round(finish), notes.coats or round(bare), round(barrier), contrast, asked)


def _needed(contrast: str, basis: Basis) -> Figure:
    """Return the finish coats that a change of color takes, as the table has them."""
    return basis.figure("hiding", contrast, "coats")


def chance_of_another(coats: Coats, basis: Basis, *, barrier: bool) -> Figure:
    """Return the chance that one more coat is wanted: the old color shows, or the wall flashes or laps."""
    table = _needed(coats.contrast, basis)
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
    tail = basis.figure("hiding", "same" if coats.contrast == "same" else "any", "tail")
    shows = work(hiding.chance_of_more_coats, "the old color still shows", planned=planned, **ends, tail=tail)
    flashes = basis.figure("hiding", "any", "another_coat")
    return work(hiding.either_chance, "one more coat is wanted", one=shows, other=flashes)


def further_colors(mine: Sequence[Color], rooms: Iterable[Sequence[Color]]) -> list[Color]:
    """Return which of my colors are a further color on the job: each paint's first color, over all rooms, is not."""
    first: dict[str, str] = {}
    for product, color in (each for room in rooms for each in room):
        first.setdefault(product, color)
    return [(product, color) for product, color in mine if color != first[product]]


def open_color(work_area: WorkArea, product: str, color: str) -> Task:
    """Return opening a further color, once for the whole job."""
    title = f"A further color: {title_of(product)}, {color or 'color not known'}"
    task = work_area.by_hours("extra_color", title, Phase.PREPARE, "extra_color", "any", "any")
    return for_tools(with_share_key(task, f"further color, {product}, {color}"))


def change_over(work_area: WorkArea, product: str, color: str) -> Task:
    """Return flushing the sprayer for another color, once for the whole job."""
    title = f"Change over to {color or 'the next color'}"
    task = work_area.by_hours("change_color", title, Phase.WALLS, "change_color", "airless", "any")
    return with_share_key(task, f"change over, {product}, {color}")
