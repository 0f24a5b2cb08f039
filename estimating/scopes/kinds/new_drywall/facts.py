"""What the site notes of new drywall come to: its surfaces, its primer, what the primer shows, and its coats."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, total
from estimating.job.room import Floor
from estimating.job.values import Answer
from estimating.scopes.kinds.new_drywall.notes import Board, Level, NewDrywall
from estimating.scopes.shared import access, coat, drying, masking, measure, prep, prime, protection, repairs
from estimating.scopes.shared.coat import Coating, Tool
from estimating.scopes.shared.color import DEEP, Coats
from estimating.scopes.shared.prime import Layer
from estimating.scopes.shared.products import CEILING_FLAT, DRYWALL_PRIMER, WALL_PAINT
from estimating.scopes.shared.surface import Pace, Surface
from estimating.scopes.shared.work_area import WorkArea

COATS = 2  # over the primer, as is usual on new board: common practice, no source
USUAL = Level.THREE_COATS
OPENINGS = (*masking.GLASS, *measure.IN_WALLS[:1])


@dataclass(frozen=True, eq=False)  # told apart as itself: what is worked out of it is kept on it
class Drywall:
    """New drywall of one room as the methods need it."""

    item: NewDrywall
    work_area: WorkArea
    surfaces: tuple[Surface, ...]

    @property
    def level(self) -> Level:
        """The level of finish; without an answer the usual one."""
        return self.item.level or USUAL

    @property
    def floor_is_finished(self) -> bool:
        """Whether the floor has to be kept clean; without an answer it has."""
        return self.work_area.room.room.floor is not Floor.UNFINISHED

    @cached_property
    def at_work(self) -> WorkArea:
        """The work area at the pace of the room: crew, what stands in it, and people in the way."""
        area = self.work_area
        return area.slowed(access.crew(area), access.furniture(area), access.people(area))

    @cached_property
    def area(self) -> Figure:
        """All board that is painted (ft²)."""
        return total("new board", [each.area for each in self.surfaces], unit="ft**2")

    def dries(self, product: str) -> Figure:
        """Return how long a product dries in the air of this job (hours)."""
        return drying.drying(self.work_area, product)

    @cached_property
    def dusted(self) -> tuple[Task, ...]:
        """Sanding dust off board and floor before anything is put on."""
        area = self.at_work
        found = [
            prep.dust_ceiling(area, each.area) if each.overhead else prep.dust_wall(area, each.key, each.area)
            for each in self.surfaces
        ]
        if not self.floor_is_finished:
            found.append(
                prep.by_hand(area, "sweep_floor", "Vacuum the floor", area.room.floor, "sweep_floor", "vacuum")
            )
        return tuple(found)

    @cached_property
    def primed(self) -> Mapping[bool, Layer]:
        """The primer over all board, sprayed and back-rolled or rolled, and what it shows touched up."""
        return {sprayed: self._primed(sprayed) for sprayed in (False, True)}

    def _primed(self, sprayed: bool) -> Layer:
        layers = [
            prime.all_over(
                self.at_work,
                each,
                DRYWALL_PRIMER,
                f"Prime the {each.name}",
                f"primer, {each.name}",
                back_rolled=sprayed,
            )
            for each in self.surfaces
        ]
        primer = prime.dried(prime.one_after_another(layers), self.dries)
        left = protection.left_in(self.work_area, "sprayer" if sprayed else "roller", DRYWALL_PRIMER)
        return Layer([*primer.tasks, self._touched_up()], [*primer.paint, left])

    def _touched_up(self) -> Task:
        """Return filling, sanding and spot priming what the primer shows, by the level of finish."""
        row = ("touch_up_primer", "hand", self.level.replace(" ", "_"))
        title = "Touch up what the primer shows: fill, sand, spot prime"
        task = self.at_work.by_area("touch_up_primer", title, Phase.PRIME, self.area, *row)
        return repairs.compound_dries(self.at_work, task)

    @cached_property
    def coatings(self) -> Mapping[tuple[str, Tool], Coating]:
        """Every surface with each tool; the primer under it leaves nothing to take in."""
        tools = (coat.ROLLER, coat.BACK_ROLLED)
        return {(each.key, tool): Coating(self.at_work, each, tool, True) for each in self.surfaces for tool in tools}

    @cached_property
    def _film(self) -> Figure:
        return masking.film_area(self.work_area, OPENINGS)

    @cached_property
    def masked(self) -> tuple[Task, ...]:
        """Doors and windows under film where mist is in the room; an unfinished room has nothing else to mask."""
        count = measure.count_openings(self.work_area, OPENINGS, "openings to mask")
        return (masking.film_openings(self.at_work, count), *protection.cover_fixtures(self.work_area))

    @cached_property
    def stripped(self) -> tuple[Task, ...]:
        """Taking the film down after the last coat."""
        film = masking.strip(self.at_work, self._film, Phase.CLEAN)
        return (film, *protection.uncover_fixtures(self.work_area, Phase.CLEAN))

    @cached_property
    def film(self) -> list[Supply]:
        """The film and the tape it takes off the rolls."""
        area = self.work_area
        tape = total("edges to tape", [line for _, line in measure.opening_lines(area)], unit="ft")
        paper = total("no paper", [], unit="ft")
        return masking.rolls(area, paper=paper, film=masking.film_run(area, self._film), tape=tape)


def facts(item: NewDrywall, work_area: WorkArea) -> Drywall:
    """Return the board with its surfaces measured and its coats planned.

    Raises InputError where openings are larger than the walls, or nothing is to be painted.
    """
    surfaces = tuple(_surfaces(item, work_area))
    if not surfaces:
        raise InputError(f'work "{item.room}"', "nothing to paint", "walls or ceiling that are painted")
    return Drywall(item, work_area, surfaces)


def _surfaces(item: NewDrywall, area: WorkArea) -> Iterator[Surface]:
    top, later = access.height(area), area.basis.figure("factors", "coat", "second")
    if item.ceiling.painted is not Answer.NO:
        size, pace = (area.room.ceiling, area.room.perimeter), Pace(top, top, top, later)
        ceiling = _surface("ceiling", CEILING_FLAT, item.ceiling, size, pace)
        yield replace(ceiling, phase=Phase.CEILING, overhead=True)
    if item.walls.painted is not Answer.NO:
        main, _ = measure.measured_walls(area, (), f'work "{item.room}"')
        line = access.top_line(area, measure.cut_line(area))
        pace = Pace(access.high_wall(area), line, line, later)
        yield _surface("walls", WALL_PAINT, item.walls, (main.area, main.line), pace)


def _surface(key: str, product: str, board: Board, size: tuple[Figure, Figure], pace: Pace) -> Surface:
    color = board.color_wanted or ""
    return Surface(key, key, product, *size, _coats(board), porosity="porous", color=color, pace=pace)


def _coats(board: Board) -> Coats:
    coats = board.coats or COATS
    contrast = DEEP if board.deep_base is Answer.YES else "near"
    return Coats(coats, coats, contrast=contrast, asked=board.coats is not None)
