"""What the site notes of a room to be repainted come to: surfaces in colors, their suction, and the paces of work."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Phase
from estimating.figures import Figure, leaf, total, work
from estimating.job.room import CeilingForm
from estimating.job.surfaces import Coloring, Plain, Sheen, SurfaceNotes, WallTexture
from estimating.job.values import Answer
from estimating.origins import Kind, Origin, definition
from estimating.scopes.kinds.interior_repaint.color import (
    CEILING,
    TRIM,
    WALL,
    Coats,
    coats_of,
    in_the_price,
    walls_painted,
)
from estimating.scopes.kinds.interior_repaint.measure import cut_line, measured_walls
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.kinds.interior_repaint.repairs import disturbed
from estimating.scopes.kinds.interior_repaint.trim import Member, closets, members
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import taped
from estimating.trade import labor, outline, walls

SURFACES = {
    None: "smooth_drywall",
    WallTexture.SMOOTH: "smooth_drywall",
    WallTexture.ORANGE_PEEL: "orange_peel",
    WallTexture.SKIP_TROWEL: "skip_trowel",
    WallTexture.KNOCKDOWN: "knockdown",
}
GLOSSY = (Sheen.SEMI_GLOSS, Sheen.GLOSS)
DRINKING = (None, Sheen.FLAT)  # old flat paint drinks a little; what shines does not
BANDS = (9.0, 12.0, 16.0)


@dataclass(frozen=True, eq=False)  # told apart as themselves, so that what was worked out of one is found again
class Surface:
    """A surface that gets coats of one paint in one color."""

    key: str
    name: str
    product: str
    notes: Coloring
    coats: Coats
    area: Figure  # ft²
    line: Figure  # the line to cut in, ft
    surface: str  # its class in the table of surfaces
    porosity: str
    members: tuple[Member, ...] = ()  # where it is painted piece by piece and not by its area

    @property
    def color(self) -> str:
        """The color wanted, as far as it is known."""
        return self.notes.color_wanted or ""

    @property
    def grade(self) -> str:
        """Its class in the production rates."""
        return "smooth" if self.surface == "smooth_drywall" else "light_texture"

    @property
    def overhead(self) -> bool:
        """Whether it is the ceiling."""
        return self.key == "ceiling"

    @property
    def phase(self) -> Phase:
        """When its finish is put on."""
        return {"ceiling": Phase.CEILING, "trim": Phase.TRIM}.get(self.key, Phase.WALLS)


@dataclass(frozen=True)
class PaceFactors:
    """Factors on hours, each only on the part of the work it is about; None where nothing slows it.

    `room` counts everywhere, and the others on top of it.
    """

    room: Figure | None  # crew, furniture, and people in the way
    wall: Figure | None  # with the high part and the part over a stair
    line: Figure | None  # cutting in, of which the line at the top is the high part
    first_line: Figure | None  # the first time, across patches that drink
    ceiling: Figure | None
    later: Figure  # a coat over a coat


@dataclass(frozen=True, eq=False)  # as above
class Repaint:
    """A room to be repainted as the plans need it."""

    item: InteriorRepaint
    work_area: WorkArea
    walls: Surface | None
    accents: tuple[Surface, ...]
    ceiling: Surface | None
    closets: Surface | None
    trim: Surface | None
    disturbed: Figure  # what repairs open up (ft²)
    paces: PaceFactors

    @property
    def coated(self) -> tuple[Surface, ...]:
        """Every surface that is painted, in the order it is."""
        every = (self.ceiling, self.walls, *self.accents, self.closets, self.trim)
        return tuple(each for each in every if each is not None)

    @property
    def needs_barrier(self) -> bool:
        """Whether a change of color in the room asks for a tinted barrier under the finish."""
        return any(each.coats.barrier for each in self.coated)

    @property
    def occupied(self) -> bool:
        """Whether people live there during the work; without an answer they do."""
        return self.work_area.job.site.occupied is not Answer.NO

    def worked(self, *further: Figure | None) -> WorkArea:
        """Return the work area with the pace of the room, and any further factors, on its hours."""
        return self.work_area.slowed(self.paces.room, *further)


def facts(item: InteriorRepaint, work_area: WorkArea) -> Repaint:
    """Return the room with its surfaces measured and its coats planned.

    Raises InputError where accent walls or openings are larger than the walls, or nothing is to be painted.
    """
    main, accents = _walls(item, work_area) if walls_painted(item) else (None, ())
    ceiling = _ceiling(item.ceiling, work_area) if in_the_price(item.ceiling) else None
    trim = (
        _by_members("trim", TRIM, item.trim, work_area, members(item, work_area)) if in_the_price(item.trim) else None
    )
    inside = _by_members("closets", WALL, item.walls, work_area, closets(item, work_area))
    if not (main or ceiling or trim or inside):
        raise InputError(f'work "{item.room}"', "nothing to paint", "walls, ceiling or trim that are painted")
    opened = disturbed(item.repairs, work_area, f'work "{item.room}" · repairs')
    return Repaint(item, work_area, main, accents, ceiling, inside, trim, opened, _paces(item, work_area, opened))


def _walls(item: InteriorRepaint, work_area: WorkArea) -> tuple[Surface, tuple[Surface, ...]]:
    main, accents = measured_walls(item, work_area)
    surface, porosity = SURFACES[item.walls.texture], _porosity(item.walls)

    def coated(key: str, name: str, notes: Coloring, area: Figure, line: Figure) -> Surface:
        coats = coats_of(notes, work_area.basis, even=True)
        return Surface(key, name, WALL, notes, coats, area, line, surface, porosity)

    return coated("walls", "walls", item.walls, main.area, main.line), tuple(
        coated(f"accent_{number}", f"accent wall, {notes.name}", notes, each.area, each.line)
        for number, (notes, each) in enumerate(zip(item.walls.accents, accents, strict=True), 1)
    )


def _ceiling(notes: Plain, work_area: WorkArea) -> Surface:
    coats = coats_of(notes, work_area.basis, even=False)
    area, line = work_area.room.ceiling, work_area.room.perimeter
    return Surface("ceiling", "ceiling", CEILING, notes, coats, area, line, SURFACES[notes.texture], _porosity(notes))


def _by_members(
    key: str, product: str, notes: SurfaceNotes, work_area: WorkArea, found: tuple[Member, ...]
) -> Surface | None:
    if not found:
        return None
    area = total(f"{key}, laid flat", [each.area for each in found], unit="ft**2")
    line = total(f"{key} by length", [each.quantity for each in found if each.by_length], unit="ft")
    coats = coats_of(notes, work_area.basis, even=product == WALL)
    surface = "smooth_wood" if product == TRIM else "smooth_drywall"
    return Surface(key, key, product, notes, coats, area, line, surface, _porosity(notes), found)


def _porosity(surface: SurfaceNotes) -> str:
    return "slight" if surface.sheen_now in DRINKING else "sealed"


def _paces(item: InteriorRepaint, work_area: WorkArea, opened: Figure) -> PaceFactors:
    occupied = work_area.job.site.occupied is not Answer.NO
    people = work_area.basis.figure("factors", "occupied", "yes") if occupied else None
    top, stairs = work_area.height_factor(), _over_stairs(item, work_area)
    line_share = work(
        walls.share_of_whole, "part of the line at the top", part=work_area.room.perimeter, whole=cut_line(work_area)
    )
    high_line = work(labor.part_factor, "line at the top", share=line_share, factor=top) if top else None
    line = _together("cutting in, high and over stairs", high_line, stairs)
    return PaceFactors(
        room=_together("pace of the room", work_area.crew_factor(), work_area.furniture_factor(), people),
        wall=_together("wall, high and over stairs", _high_wall(work_area), stairs),
        line=line,
        first_line=_together("cutting in, first coat", line, _patched(work_area, opened)),
        ceiling=top,
        later=work_area.basis.figure("factors", "coat", "second"),
    )


def _together(name: str, *factors: Figure | None) -> Figure | None:
    """Return the product of factors as one figure; those that are None do not apply, and none of them is None."""
    found = [each for each in factors if each is not None]
    if len(found) < 2:
        return found[0] if found else None
    return work(walls.together, name, **{f"factor_{number}": each for number, each in enumerate(found, 1)})


def _high_wall(work_area: WorkArea) -> Figure | None:
    """Return the factor on a whole wall for its high parts; none where a step reaches all of it."""
    room = work_area.room.room
    height = work_area.room.height
    if room.ceiling is not CeilingForm.FLAT and room.rise is not None:
        rise = taped(room.rise, "rise", f'rooms "{room.name}" · rise')
        height = total("wall, middle height", [height, work(outline.half, "half the rise", length=rise)], unit="ft")
    if height.value <= BANDS[0]:
        return None
    limits = {
        name: leaf(f"{limit:.0f} ft", limit, "ft", definition("limits of the classes of height"))
        for name, limit in zip(("first", "second", "third"), BANDS, strict=True)
    }
    factors = {
        name: work_area.basis.figure("factors", "height", level)
        for name, level in (
            ("factor_first", "9_to_12ft"),
            ("factor_second", "12_to_16ft"),
            ("factor_third", "over_16ft"),
        )
    }
    return work(walls.banded_factor, "wall by bands of height", height=height, **limits, **factors)


def _over_stairs(item: InteriorRepaint, work_area: WorkArea) -> Figure | None:
    feet = item.over_stairs_feet
    if not feet:
        return None
    where = f'work "{item.room}" · over_stairs_feet'
    if feet > work_area.room.perimeter.value:
        raise InputError(where, feet, f"no more than the {work_area.room.perimeter.value:.1f} ft of wall there is")
    part = leaf("wall over a stair", float(feet), "ft", Origin(Kind.MEASURED, place=where), key=where)
    share = work(walls.share_of_whole, "part of the wall over a stair", part=part, whole=work_area.room.perimeter)
    factor = work_area.basis.figure("factors", "height", "stair_void")
    return work(labor.part_factor, "wall over a stair", share=share, factor=factor)


def _patched(work_area: WorkArea, opened: Figure) -> Figure | None:
    """Return the factor on the first cutting in for the part of the line that runs across patches."""
    if not opened.value:
        return None
    share = work(walls.share_of_whole, "part of the wall that is patched", part=opened, whole=work_area.room.walls)
    suction = work_area.basis.figure("factors", "suction", "patched")
    return work(labor.part_factor, "line across patches", share=share, factor=suction)
