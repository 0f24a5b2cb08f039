"""Protecting a room for a ceiling: floor, edges, wall drape, openings and fixtures, and taking it all down again."""

from __future__ import annotations

from functools import lru_cache

from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, leaf, total, work
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared.work_area import drop_zero_hours, with_crew_note
from estimating.trade import masking


def _share(ceiling: Ceiling, rule: str, sprayed: bool) -> Figure:
    flags = {
        "sprayed": leaf(
            "sprayed", float(sprayed), "dimensionless", Origin(Kind.DEFINITION, place="1 sprayed, 0 rolled")
        ),
        "walls_next": ceiling.walls_next_figure(),
    }
    match rule:
        case "drape":
            return work(masking.drape_share, "share of the drape needed", **flags)
        case "edge":
            return work(masking.edge_share, "share of the edge masked", walls_next=flags["walls_next"])
        case _:
            return work(masking.opening_share, "share of the openings masked", sprayed=flags["sprayed"])


def edge_run(ceiling: Ceiling, sprayed: bool) -> Figure:
    """Return the run of paper and tape along the ceiling edge (ft): what a drape or a finished wall needs."""
    if sprayed and not ceiling.walls_next:
        return ceiling.edge
    share = _share(ceiling, "edge", sprayed)
    return work(masking.part_needed, "edge to mask", quantity=ceiling.edge, share=share)


def film_drop(ceiling: Ceiling) -> Figure:
    """Return how long the film hangs, from behind the paper to its tail on the floor (ft)."""
    basis = ceiling.work_area.basis
    return work(
        masking.drape_drop,
        "drop of the film",
        height=ceiling.work_area.room.height,
        paper_width=basis.figure("masking_stock", "paper_run", "width"),
        overlap=basis.figure("masking_stock", "overlap", "film_on_paper"),
        tail=basis.figure("masking_stock", "tail", "film"),
    )


def drape(ceiling: Ceiling, sprayed: bool) -> Figure:
    """Return the wall that is hung with film (ft²)."""
    whole = work(masking.film_area, "wall behind the drape", perimeter=ceiling.edge, drop=film_drop(ceiling))
    return work(masking.part_needed, "drape of film", quantity=whole, share=_share(ceiling, "drape", sprayed))


def masked_openings(ceiling: Ceiling, sprayed: bool) -> Figure:
    """Return how many doors and windows get film of their own."""
    share = _share(ceiling, "openings", sprayed)
    return work(masking.part_needed, "openings to mask", quantity=ceiling.openings(), share=share)


@lru_cache(maxsize=8)  # the same for all ways with mist or mud, and for all without
def protect(ceiling: Ceiling, sprayed: bool) -> tuple[Task, ...]:
    """Return the tasks that get the room ready, in order."""
    return drop_zero_hours(
        [
            *room_cover.furniture(ceiling.work_area),
            room_cover.cover_floor(ceiling.work_area),
            *_mask(ceiling, sprayed),
            *room_cover.cover_fixtures(ceiling.work_area),
        ]
    )


def _mask(ceiling: Ceiling, sprayed: bool) -> list[Task]:
    work_area = ceiling.work_area.slowed(ceiling.work_area.crew_factor(), ceiling.work_area.furniture_factor())
    high = work_area.slowed(work_area.height_factor())
    paper, film = ("mask_edge", "paper", "any"), ("hang_film", "film", "any")
    edge, drop = edge_run(ceiling, sprayed), film_drop(ceiling).value
    run = high.by_length("mask_edge", "Run paper along the ceiling edge", Phase.MASK, edge, *paper)
    hung = high.by_area("hang_film", "Hang the wall drape from the paper", Phase.MASK, drape(ceiling, sprayed), *film)
    closed = ("mask_opening", "Mask doors and windows", Phase.MASK, masked_openings(ceiling, sprayed))
    return [
        with_crew_note(run, "seal the tape along its whole length, without a gap"),
        with_crew_note(hung, f"drop {drop:.1f} ft, taped to the paper and to the floor"),
        work_area.by_count(*closed, "mask_opening", "film", "any"),
    ]


@lru_cache(maxsize=8)  # as above
def unprotect(ceiling: Ceiling, sprayed: bool) -> tuple[Task, ...]:
    """Return the tasks that take the masking down and give the room back."""
    work_area = ceiling.work_area.slowed(ceiling.work_area.crew_factor())
    row = ("unmask", "hand", "any")
    return drop_zero_hours(
        [
            work_area.by_area(
                "unmask", "Strip, roll inward and bag the masking", Phase.UNMASK, drape(ceiling, sprayed), *row
            ),
            room_cover.uncover_floor(ceiling.work_area, Phase.UNMASK),
            *room_cover.uncover_fixtures(ceiling.work_area, Phase.UNMASK),
        ]
    )


@lru_cache(maxsize=8)  # as above
def masking_supplies(ceiling: Ceiling, sprayed: bool) -> tuple[Supply, ...]:
    """Return paper, film, tape and floor covering in rolls."""
    work_area = ceiling.work_area
    stock = work_area.basis
    edge = edge_run(ceiling, sprayed)
    waste = stock.figure("masking_stock", "tape_waste", "any")
    tape = total("edges and seams", [edge, *_drape_seams(ceiling, sprayed), ceiling.edge], unit="ft")
    wanted = [
        ("paper_run", "Masking paper, 9 in", work(masking.tape_length, "paper with waste", edge=edge, waste=waste)),
        ("wall_film", "Masking film", _film_length(ceiling, sprayed)),
        ("tape_edge", "Masking tape", work(masking.tape_length, "tape with waste", edge=tape, waste=waste)),
    ]
    rolls = (
        work_area.supply(item, title, need, stock.figure("masking_stock", item, "length"), "roll")
        for item, title, need in wanted
        if need.value > 0
    )
    return (*rolls, room_cover.floor_paper(work_area))


def _tiers(ceiling: Ceiling) -> dict[str, Figure]:
    stock = ceiling.work_area.basis
    lap = stock.figure("masking_stock", "overlap", "film")
    tiers = work(
        masking.film_tiers,
        "widths of film one below the other",
        drop=film_drop(ceiling),
        film_width=stock.figure("masking_stock", "wall_film", "width"),
        overlap=lap,
    )
    run = stock.figure("masking_stock", "wall_film", "run")
    strips = work(masking.film_strips, "lengths of film round the room", perimeter=ceiling.edge, run=run, overlap=lap)
    return {"tiers": tiers, "strips": strips, "overlap": lap}


def _film_length(ceiling: Ceiling, sprayed: bool) -> Figure:
    parts = _tiers(ceiling)
    whole = work(masking.film_length, "film round the room", perimeter=ceiling.edge, **parts)
    return work(masking.part_needed, "film to unroll", quantity=whole, share=_share(ceiling, "drape", sprayed))


def _drape_seams(ceiling: Ceiling, sprayed: bool) -> list[Figure]:
    parts = _tiers(ceiling)
    seams = work(
        masking.film_seams,
        "seams of the drape",
        strips=parts["strips"],
        drop=film_drop(ceiling),
        tiers=parts["tiers"],
        perimeter=ceiling.edge,
    )
    share = _share(ceiling, "drape", sprayed)
    return [
        work(masking.part_needed, "seams to tape", quantity=seams, share=share),
        work(masking.part_needed, "film to paper", quantity=ceiling.edge, share=share),
    ]
