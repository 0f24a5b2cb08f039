"""Masking against mist and drips: paper along edges, film over openings, a drape over the walls; up and down again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, total, work
from estimating.job.room import OpeningKind
from estimating.scopes.shared.work_area import WorkArea, with_crew_note
from estimating.trade import masking, measuring, walls

GLASS = (OpeningKind.WINDOW, OpeningKind.ARCH, OpeningKind.SKYLIGHT)  # filmed wherever there is mist
TIGHT = "seal the tape along its whole length, without a gap"


def run_paper(work_area: WorkArea, key: str, title: str, run: Figure) -> Task:
    """Return running paper along an edge (ft)."""
    return work_area.by_length(key, title, Phase.MASK, run, "mask_edge", "paper", "any")


def edge_of_ceiling(work_area: WorkArea, run: Figure) -> Task:
    """Return running paper along the ceiling edge (ft), tight."""
    return with_crew_note(run_paper(work_area, "mask_edge", "Run paper along the ceiling edge", run), TIGHT)


def film_openings(work_area: WorkArea, count: Figure) -> Task:
    """Return hanging film over doors and windows."""
    return work_area.by_count(
        "mask_opening", "Mask windows and doors", Phase.MASK, count, "mask_opening", "film", "any"
    )


def strip(work_area: WorkArea, sheets: Figure, phase: Phase) -> Task:
    """Return taking all paper and film down (ft²)."""
    row = ("unmask", "hand", "any")
    return work_area.by_area("unmask", "Strip, roll inward and bag the masking", phase, sheets, *row)


def what_stands(work_area: WorkArea, sprayed: Sequence[Task], counted: Sequence[Task]) -> Task:
    """Return masking what stands in a furnished room against mist, beyond the edges and openings counted.

    The published share of masking in a sprayed, furnished room makes up what no count sees: shelves, screens, lamps.
    """
    share = work_area.basis.figure("factors", "masking", "share_of_spray_job")
    hours = {
        "spraying": total("at the gun", [task.hours for task in sprayed], unit="hour"),
        "counted": total("masking counted", [task.hours for task in counted], unit="hour"),
    }
    title = "Mask what stands in the room"
    return Task(
        "mask_standing",
        title,
        Phase.MASK,
        work(masking.still_to_mask, title, share=share, **hours),
        room=work_area.room.room.name,
        rate_key=share.key,
        detail="a furnished, lived-in room: two hours of masking to one of spraying, what is counted by itself in it",
    )


def paper_area(work_area: WorkArea, run: Figure) -> Figure:
    """Return the paper that hangs along an edge (ft²)."""
    return work(measuring.girthed_area, "paper along edges", length=run, girth=_paper_width(work_area))


def film_area(work_area: WorkArea, kinds: Sequence[OpeningKind]) -> Figure:
    """Return the film over openings of some kinds (ft²), each with a margin all round."""
    margin = work_area.basis.figure("masking_stock", "margin", "opening")
    found = [
        work(masking.opening_film_area, f"film over {opening.kind}s", **dict(area.inputs), margin=margin)
        for opening, area in work_area.room.openings
        if opening.kind in kinds
    ]
    return total("film over openings", found, unit="ft**2")


def film_run(work_area: WorkArea, area: Figure) -> Figure:
    """Return how much film comes off the roll for an area (ft)."""
    width = work_area.basis.figure("masking_stock", "wall_film", "width")
    return work(walls.length_of_sheet, "film to unroll", area=area, width=width)


def rolls(work_area: WorkArea, *, paper: Figure, film: Figure, tape: Figure) -> list[Supply]:
    """Return paper, film and tape by the roll for so many ft of edge, sheet and seam; nothing that is not needed."""
    stock = work_area.basis
    waste = stock.figure("masking_stock", "tape_waste", "any")
    wanted = [
        ("paper_run", "Masking paper, 9 in", work(masking.tape_length, "paper with waste", edge=paper, waste=waste)),
        ("wall_film", "Masking film", film),
        ("tape_edge", "Masking tape", work(masking.tape_length, "tape with waste", edge=tape, waste=waste)),
    ]
    return [
        work_area.supply(item, title, need, stock.figure("masking_stock", item, "length"), "roll")
        for item, title, need in wanted
        if need.value > 0
    ]


def _paper_width(work_area: WorkArea) -> Figure:
    return work_area.basis.figure("masking_stock", "paper_run", "width")


@dataclass(frozen=True, eq=False)
class Drape:
    """Film that hangs round the room from the paper at the ceiling edge to the floor; `share` of the walls gets it."""

    work_area: WorkArea
    share: Figure  # 1 all round, 0 none

    @cached_property
    def drop(self) -> Figure:
        """How long the film hangs, from behind the paper to its tail on the floor (ft)."""
        basis = self.work_area.basis
        return work(
            masking.drape_drop,
            "drop of the film",
            height=self.work_area.room.height,
            paper_width=_paper_width(self.work_area),
            overlap=basis.figure("masking_stock", "overlap", "film_on_paper"),
            tail=basis.figure("masking_stock", "tail", "film"),
        )

    @cached_property
    def area(self) -> Figure:
        """The wall that is hung with film (ft²)."""
        whole = work(masking.film_area, "wall behind the drape", perimeter=self._round, drop=self.drop)
        return work(masking.part_needed, "drape of film", quantity=whole, share=self.share)

    @cached_property
    def film(self) -> Figure:
        """The film that comes off the roll (ft)."""
        whole = work(masking.film_length, "film round the room", perimeter=self._round, **self._parts)
        return work(masking.part_needed, "film to unroll", quantity=whole, share=self.share)

    @cached_property
    def seams(self) -> list[Figure]:
        """What is taped where film meets film and film meets paper (ft)."""
        parts = {name: self._parts[name] for name in ("strips", "tiers")}
        seams = work(masking.film_seams, "seams of the drape", drop=self.drop, perimeter=self._round, **parts)
        return [
            work(masking.part_needed, "seams to tape", quantity=seams, share=self.share),
            work(masking.part_needed, "film to paper", quantity=self._round, share=self.share),
        ]

    def hang(self, work_area: WorkArea) -> Task:
        """Return hanging it, in the work area at its pace up there."""
        row = ("hang_film", "film", "any")
        task = work_area.by_area("hang_film", "Hang the wall drape from the paper", Phase.MASK, self.area, *row)
        width = _paper_width(self.work_area).value
        hung = f"hung from paper {width:g} in wide; {TIGHT}; drop {self.drop.value:.1f} ft, taped to the floor"
        return with_crew_note(task, hung)

    @property
    def _round(self) -> Figure:
        return self.work_area.room.perimeter

    @cached_property
    def _parts(self) -> dict[str, Figure]:
        stock = self.work_area.basis
        lap = stock.figure("masking_stock", "overlap", "film")
        width = stock.figure("masking_stock", "wall_film", "width")
        name = "widths of film one below the other"
        tiers = work(masking.film_tiers, name, drop=self.drop, film_width=width, overlap=lap)
        run = stock.figure("masking_stock", "wall_film", "run")
        strips = work(
            masking.film_strips, "lengths of film round the room", perimeter=self._round, run=run, overlap=lap
        )
        return {"tiers": tiers, "strips": strips, "overlap": lap}
