"""What the site notes of a textured ceiling come to: surface, suction, fixtures, and the odds that it lets go."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Question
from estimating.figures import Figure, leaf, work
from estimating.job.model import RoomPart
from estimating.job.room import OpeningKind
from estimating.job.values import Answer
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.textured_ceiling.notes import Depth, FieldTest, History, SpotTest, Texture, TexturedCeiling
from estimating.scopes.shared.questions import (
    Asked,
    asbestos_question,
    opening_question,
    room_questions,
    site_questions,
    solvent_questions,
    unanswered,
)
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import counted
from estimating.trade import adhesion

LIKELY_COATS = 2
FINISH = "ceiling_flat"
SURFACES = {
    Texture.ORANGE_PEEL: "orange_peel",
    Texture.SKIP_TROWEL: "skip_trowel",
    Texture.KNOCKDOWN: "knockdown",
}
POROSITY = {
    None: "very_porous",
    History.NEVER_PAINTED: "very_porous",
    History.LOOKS_UNPAINTED: "very_porous",
    History.PAINTED_ONCE: "porous",
    History.PRIMED_AND_PAINTED: "slight",
    History.PAINTED_TWICE: "sealed",
}
PRIORS = {
    None: "unknown",
    History.NEVER_PAINTED: "never_painted",
    History.LOOKS_UNPAINTED: "looks_unpainted",
    History.PAINTED_ONCE: "painted_once_unknown_primer",
    History.PRIMED_AND_PAINTED: "primed_and_painted",
    History.PAINTED_TWICE: "painted_twice",
}
EVIDENCE = {
    (FieldTest.DRY_RUB, "clean"): "rub_clean",
    (FieldTest.DRY_RUB, "chalky"): "rub_chalky",
    (FieldTest.WATER_MIST, "beads"): "mist_beads",
    (FieldTest.WATER_MIST, "darkens"): "mist_darkens",
    (FieldTest.ROLLER_PATCH, "clean"): "patch_clean",
    (FieldTest.ROLLER_PATCH, "crumbs"): "patch_crumbs",
}
SURE_SIGN = "bare_board"


@dataclass(frozen=True, eq=False)  # told apart as itself, so that what was worked out of it is found again
class Ceiling:
    """A textured ceiling as the plans need it."""

    item: TexturedCeiling
    work_area: WorkArea
    base: Figure  # the chance that rolling it with a water-borne paint brings texture down

    @property
    def area(self) -> Figure:
        """The ceiling, bulkheads included, texture not counted (ft²)."""
        return self.work_area.room.ceiling

    @property
    def edge(self) -> Figure:
        """The line along which ceiling meets wall (ft)."""
        return self.work_area.room.perimeter

    @property
    def surface(self) -> str:
        """The class of surface in the reference tables."""
        if self.item.texture is Texture.POPCORN:
            return f"popcorn_{self.item.depth or Depth.MEDIUM}"
        return SURFACES[self.item.texture]

    @property
    def grade(self) -> str:
        """The class of surface in the production rates."""
        return "popcorn" if self.item.texture is Texture.POPCORN else "light_texture"

    @property
    def nap_class(self) -> str:
        """The class of surface in the table of roller naps."""
        return {"popcorn_heavy": "heavy_popcorn"}.get(self.surface, self.grade)

    @property
    def porosity(self) -> str:
        """How the bare surface drinks, as its history suggests."""
        return POROSITY[self.item.history]

    @property
    def walls_next(self) -> bool:
        """Whether the walls are painted after the ceiling: as the notes say, or as the job's other work has it."""
        if self.item.walls_next is None:
            return walls_in_the_job(self.item, self.work_area)
        return self.item.walls_next is Answer.YES

    def coats(self) -> int:
        """Return how many finish coats are planned."""
        return self.item.coats or LIKELY_COATS

    def walls_next_figure(self) -> Figure:
        """Return 1 where the walls are painted after the ceiling and 0 where not; its origin tells who says so."""
        where = f'work "{self.item.room}"'
        if self.item.walls_next is None and self.walls_next:
            origin = Origin(Kind.DEFINITION, place=f"{where}: the walls of this room are painted in the same job")
        else:
            origin = Origin(Kind.ENTERED, place=f"{where} · walls_next")
        return leaf("walls painted next", float(self.walls_next), "dimensionless", origin)

    def openings(self) -> Figure:
        """Return how many doors, windows and other openings there are in the walls."""
        alike = self.work_area.room.room.openings or ()
        number = sum(each.count for each in alike if each.kind is not OpeningKind.SKYLIGHT)
        return counted(number, "openings", f'rooms "{self.item.room}" · openings')


def walls_in_the_job(item: TexturedCeiling, work_area: WorkArea) -> bool:
    """Say whether the walls of the ceiling's room are painted in the same job, which is then known without asking."""
    others = (each for each in work_area.job.work if each.room == item.room)
    return any(claim.part is RoomPart.WALLS and not claim.wall for each in others for claim in each.claims())


def facts(item: TexturedCeiling, work_area: WorkArea) -> Ceiling:
    """Return the ceiling with its odds of release worked out from history and tests."""
    return Ceiling(item, work_area, base_chance(item, work_area))


def base_chance(item: TexturedCeiling, work_area: WorkArea) -> Figure:
    """Return the chance that rolling with water-borne paint brings texture down: history first, then tests."""
    basis = work_area.basis
    history = SURE_SIGN if item.bare_board_behind_fallen is Answer.YES else PRIORS[item.history]
    chance = basis.figure("release", "prior", history, "probability")
    if any(stain.kind == "water" for stain in item.stains or ()):
        added = basis.figure("release", "water_damage", "zone", "probability")
        chance = work(adhesion.with_damage, "release, with the water-damaged zone", chance=chance, added=added)
    alike = basis.figure("release", "tests", "clustered", "correlation")
    results: dict[str, list[SpotTest]] = {}
    for test in item.tests:
        results.setdefault(evidence_key(test), []).append(test)
    for key, tests in results.items():
        weight = work(
            adhesion.effective_tests,
            f"{key.replace('_', ' ')}: worth of the tests",
            tests=counted(len(tests), f"{key.replace('_', ' ')} tests", f'work "{item.room}" · tests'),
            correlation=alike,
        )
        ratio = basis.figure("release", "evidence", key, "odds")
        chance = work(
            adhesion.updated_chance,
            f"release, after {key.replace('_', ' ')}",
            chance=chance,
            ratio=ratio,
            weight=weight,
        )
    return chance


def evidence_key(test: SpotTest) -> str:
    """Return the row of evidence that a test result falls under."""
    if test.kind is FieldTest.TAPE_PULL:
        removed = test.removed or 0.0
        return "tape_under_5" if removed < 5 else "tape_5_to_25" if removed <= 25 else "tape_over_25"
    return EVIDENCE[test.kind, test.outcome or ""]


def clean_tests(item: TexturedCeiling) -> tuple[int, int]:
    """Return how many tests were made and how many of them showed nothing coming away."""
    clean = {"rub_clean", "mist_beads", "patch_clean", "tape_under_5"}
    return len(item.tests), sum(evidence_key(test) in clean for test in item.tests)


def questions(item: TexturedCeiling, work_area: WorkArea) -> tuple[Question, ...]:
    """Return what the notes leave open, and whether the price has to wait for it."""
    return unanswered((*_of_the_texture(item, work_area), *_of_the_place(work_area)))


def _of_the_texture(item: TexturedCeiling, work_area: WorkArea) -> Iterator[Asked]:
    where = f'work "{item.room}"'
    next_ = True if walls_in_the_job(item, work_area) else item.walls_next
    trims = 0 if work_area.room.room.fixtures.recessed_trim == 0 else item.trims_to_coat
    depth = item.depth if item.texture is Texture.POPCORN else ""
    taken = "Was the texture ever primed or painted? Taken as not known: the range widens."
    yield f"{where} · history", item.history, taken
    yield f"{where} · depth", depth, "How deep is it? Taken as medium."
    yield f"{where} · sound", item.sound, "Is the texture sound now? Taken as sound."
    yield f"{where} · stains", item.stains, "Are there stains, and is their cause cured? None are planned for."
    yield f"{where} · walls_next", next_, "Are the walls painted after? Taken as no: the walls are protected."
    yield f"{where} · substrate", item.substrate, "What is behind the texture?"
    yield f"{where} · trims_to_coat", trims, "Are the trims of the lights to be coated? None are in this price."


def _of_the_place(work_area: WorkArea) -> Iterator[Asked]:
    yield opening_question(work_area, "None are masked in this price.")
    yield from room_questions(work_area)
    yield from site_questions(work_area)
    yield from asbestos_question(work_area)
    yield from solvent_questions(work_area)
