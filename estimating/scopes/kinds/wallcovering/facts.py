"""What the site notes of walls to be papered come to: areas, paper counted, and the odds of the removal."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from estimating.estimate.pricing.plan import Question
from estimating.figures import Figure, leaf, total, work
from estimating.job.values import Answer
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.wallcovering.layout import Count, count, lining_paper, new_paper
from estimating.scopes.kinds.wallcovering.notes import (
    Gap,
    OldCovering,
    PaperedWall,
    Place,
    PlacedOpening,
    Supplier,
    Wallcovering,
    WallState,
)
from estimating.scopes.kinds.wallcovering.removal import Removal, removal
from estimating.scopes.shared import access, measure
from estimating.scopes.shared.questions import asbestos_question, room_questions, site_questions, unanswered
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import counted
from estimating.trade import measuring
from estimating.units import Reading

PLACES = {Place.SMALL: "kitchen_bath", Place.STAIRS: "stair_void"}
BARE = (WallState.BARE_BOARD, WallState.BARE_PLASTER)


@dataclass(frozen=True, eq=False)  # told apart as itself: what is worked out of it is kept on it
class Papering:
    """Walls to be papered as the plans need them."""

    item: Wallcovering
    work_area: WorkArea
    area: Figure  # the walls less their openings (ft²)
    paper: Count
    lining: Count
    removal: Removal

    @property
    def covered(self) -> bool | None:
        """Whether a covering hangs on the walls; None where nobody has looked."""
        found = self.item.existing.covering
        return None if found is None else found is not OldCovering.NONE

    @property
    def where(self) -> str:
        """The item's place in the job file."""
        return f'work "{self.item.room}"'

    @property
    def clients_paper(self) -> bool:
        """Whether the client buys the paper; without an answer, where it has no price."""
        goods = self.item.goods
        return goods.supplied_by is Supplier.CLIENT or (goods.supplied_by is None and goods.price is None)

    def gaps(self, *kinds: Gap) -> Figure:
        """Return how many openings of some kinds are cut round."""
        number = sum(each.kind in kinds for wall in self.item.walls for each in wall.openings or ())
        names = " and ".join(f"{kind}s" for kind in kinds)
        return counted(number, names, f"{self.where} · walls · openings")

    def corners(self) -> Figure:
        """Return the corners the paper goes round."""
        closed = self.item.closes_the_room is Answer.YES
        return counted(len(self.item.walls) - 1 + closed, "corners", f"{self.where} · walls")

    @cached_property
    def at_work(self) -> WorkArea:
        """The work area with the factors of everything done on its walls; a stair void is high by itself."""
        area, place = self.work_area, self.item.place
        row = PLACES.get(place) if place else None
        cramped = area.basis.figure("wallcovering", row, "factor") if row else None
        high = None if place is Place.STAIRS else access.high_wall(area)
        return area.slowed(access.crew(area), high, cramped)

    @cached_property
    def spare(self) -> Figure:
        """The rolls, or of wide goods the strips, that are bought over and above."""
        wanted = self.item.goods.spare
        if wanted is None:
            return self.work_area.basis.figure("wallcovering", "spare", "rolls")
        key = f"{self.where} · goods · spare"
        return leaf("spare", wanted, "dimensionless", Origin(Kind.ENTERED, place=key), key=key)


def facts(item: Wallcovering, work_area: WorkArea) -> Papering:
    """Return the walls with their paper counted and the odds of the removal worked out from history and tests."""
    paper = new_paper(item.goods, f'work "{item.room}"', work_area.basis)
    paper_count = count(item, work_area, paper)  # first, because it says which wall or opening cannot be
    area = net_walls(item, work_area)
    lining = count(item, work_area, lining_paper(work_area.basis))
    return Papering(item, work_area, area, paper_count, lining, removal(item, work_area, area))


def net_walls(item: Wallcovering, work_area: WorkArea) -> Figure:
    """Return the area of the walls less their openings (ft²)."""
    return total("papered walls", [_net_wall(item, work_area, wall) for wall in item.walls], unit="ft**2")


def _net_wall(item: Wallcovering, area: WorkArea, wall: PaperedWall) -> Figure:
    where = f'work "{item.room}" · walls "{wall.name}"'
    width = measure.true_length(area, wall.width, f"{wall.name}, width", f"{where} · width")
    height = area.room.height
    if wall.height:
        height = measure.true_length(area, wall.height, f"{wall.name}, height", f"{where} · height")
    gross = work(measuring.rectangle_area, f"{wall.name}, gross", length=width, width=height)
    holes = [_hole(area, each, f"{where} · openings[{place}]") for place, each in enumerate(wall.openings or ())]
    if not holes:
        return gross
    openings = total(f"openings in {wall.name}", holes, unit="ft**2")
    return work(measuring.net_area, f"{wall.name}, net", gross_area=gross, deductions=openings)


def _hole(area: WorkArea, opening: PlacedOpening, where: str) -> Figure:
    name = str(opening.kind)
    width = measure.true_length(area, opening.width, f"{name}, width", f"{where} · width")

    def up_to(edge: Reading, edge_name: str) -> Figure:
        height = measure.true_length(area, edge, f"{name}, {edge_name}", f"{where} · {edge_name}")
        return work(measuring.rectangle_area, f"{name}, up to its {edge_name}", length=width, width=height)

    whole = up_to(opening.head, "head")
    if opening.sill is None or opening.sill.value == 0:
        return whole
    return work(measuring.net_area, name, gross_area=whole, deductions=up_to(opening.sill, "sill"))


def questions(item: Wallcovering, work_area: WorkArea) -> tuple[Question, ...]:
    """Return what the notes leave open."""
    where = f'work "{item.room}"'
    goods, old = item.goods, item.existing
    hangs = old.covering is not None and old.covering is not OldCovering.NONE
    asked = (
        ("existing · covering", old.covering, "What hangs on the walls now, and is a covering under the paint?"),
        ("existing · layers", old.layers if hangs else 0, "How many layers? Taken as one."),
        ("existing · painted_over", old.painted_over if hangs else "", "Was it painted over? Taken as no."),
        ("existing · wall_sized", old.wall_sized if hangs else "", "Was the wall sized before? The range stays wide."),
        ("existing · tight", old.tight if hangs else "", "Is it tight at every seam? It is not hung over unless so."),
        ("wall", item.wall, "What is the wall itself? Taken as sound and painted."),
        ("first_coat", item.first_coat, "Primer, size or neither? Taken as primer."),
        ("closes_the_room", item.closes_the_room, "Does the last wall meet the first? Taken as no."),
        ("obstacles", item.obstacles, "Outlets, lamps, recesses? None are cut round in this price."),
        ("ceiling_line", item.ceiling_line, "Is the ceiling level where the paper meets it? Taken as level."),
        ("place", item.place, "Open room, small room or stairs? Taken as an open room."),
        ("goods · covering", goods.covering, "What is the covering made of? Taken as paper."),
        ("goods · match", goods.match, "How does the pattern match? Taken as straight."),
        ("goods · batch", goods.batch, "Which batch? Every roll has to be of the same one."),
        ("goods · supplied_by", goods.supplied_by, "Who buys the paper? The client, where it has no price here."),
        ("goods · spare", goods.spare, "How many spare rolls? Taken as one."),
    )
    unknown = unanswered((f"{where} · {field}", answer, text) for field, answer, text in asked)
    place = unanswered((*room_questions(work_area, fixtures=False), *site_questions(work_area)))
    return (
        *unknown,
        *_label_questions(item, where),
        *_wall_questions(item, where),
        *place,
        *unanswered(asbestos_question(work_area)),
    )


def _label_questions(item: Wallcovering, where: str) -> list[Question]:
    goods = item.goods
    open_ = []
    if goods.width is None or goods.length is None:
        format_ = goods.format or "US double roll"
        open_.append(("width", f"Width and length on the label? Taken as the usual {format_}."))
    if goods.repeat is None and goods.match != "random":
        open_.append(("repeat", "What is the repeat on the label? A usual one is taken."))
    return [Question(f"{where} · goods · {field}", text, blocks=False) for field, text in open_]


def _wall_questions(item: Wallcovering, where: str) -> list[Question]:
    text = "Doors and windows, and where? None are in this count."
    return [
        Question(f'{where} · walls "{wall.name}" · openings', text, blocks=False)
        for wall in item.walls
        if wall.openings is None
    ]
