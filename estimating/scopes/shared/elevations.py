"""Outside walls from the tape: sides with gables, their ground and their top; eaves and edges as members."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from estimating.errors import InputError
from estimating.figures import Figure, total, work
from estimating.job.elevations import Edge, EdgeKind, Side
from estimating.scopes.shared import measure
from estimating.scopes.shared.trim import Member
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import measuring, siding, walls
from estimating.units import Reading

ALONG_EAVES = (EdgeKind.FASCIA, EdgeKind.FRIEZE, EdgeKind.GUTTER)
ROWS = {EdgeKind.GUTTER: "gutter", EdgeKind.DOWNSPOUT: "downspout"}


@dataclass(frozen=True, eq=False)
class Elevations:
    """The outside walls of one house; without sides by name, its outline times its height."""

    work_area: WorkArea
    sides: Sequence[Side]
    where: str

    def length(self, reading: Reading, place: str, name: str) -> Figure:
        """Return a length off the tape, as true as the tape is here."""
        return measure.true_length(self.work_area, reading, name, f"{self.where} · {place}")

    @cached_property
    def gross(self) -> Figure:
        """All walls with their gables, openings included (ft²)."""
        if not self.sides:
            return self.work_area.room.walls
        return total("walls from the tape", [self._area(side, n) for n, side in enumerate(self.sides)], unit="ft**2")

    @cached_property
    def net(self) -> Figure:
        """The walls less what the openings take off by the measured-work rule (ft²)."""
        off = total("taken off the walls", list(measure.deductions(self.work_area)), unit="ft**2")
        if off.value >= self.gross.value:
            field = f'rooms "{self.work_area.room.room.name}" · openings'
            raise InputError(field, f"{off.value:.0f} ft²", f"less than the {self.gross.value:.0f} ft² of wall")
        return work(measuring.net_area, "siding to paint", gross_area=self.gross, deductions=off)

    @cached_property
    def ground(self) -> Figure:
        """The line of ground under the walls (ft)."""
        if not self.sides:
            return self.work_area.room.perimeter
        widths = [self._size(side.width, n, "width") for n, side in enumerate(self.sides)]
        return total("ground under the walls", widths, unit="ft")

    @cached_property
    def top(self) -> Figure:
        """The highest place there is to paint (ft): the highest peak, or the eaves of the place."""
        if not self.sides:
            return self.work_area.room.height
        return max((self._top(side, n) for n, side in enumerate(self.sides)), key=lambda figure: figure.value)

    @cached_property
    def height(self) -> Figure:
        """How high the walls are on average (ft)."""
        if not self.sides:
            return self.work_area.room.height
        return work(walls.length_of_sheet, "walls, average height", area=self.gross, width=self.ground)

    def eaves(self, depth: Reading) -> Member:
        """Return the soffit under the eaves, as long as the walls are, by its depth."""
        deep = self.length(depth, "soffit_depth", "depth of the soffit")
        area = work(measuring.rectangle_area, "soffit", length=self.ground, width=deep)
        return Member("soffit", "soffits", area, area, ("soffit", "brush", "any"))

    def edges(self, noted: Sequence[Edge]) -> Iterator[Member]:
        """Yield fascia, frieze, corner boards, gutters and downspouts by their length."""
        for n, edge in enumerate(noted):
            name = str(edge.kind)
            run = self._run(edge, n)
            word = name.replace(" ", "_")
            girth = self.work_area.basis.figure("members", word, "girth")
            area = work(measuring.girthed_area, f"{name}, laid flat", length=run, girth=girth)
            yield Member(f"{word}_{n}", name, run, area, (ROWS.get(edge.kind, "fascia"), "brush", "any"))

    def _run(self, edge: Edge, n: int) -> Figure:
        if edge.length is not None:
            return self.length(edge.length, f"edges[{n}] · length", f"run of {edge.kind}")
        if edge.kind in ALONG_EAVES:
            return self.ground
        raise InputError(
            f"{self.where} · edges[{n}] · length", "unknown", f"the length of the {edge.kind}, such as 40 ft"
        )

    def _area(self, side: Side, n: int) -> Figure:
        sizes = {"width": self._size(side.width, n, "width"), "height": self._size(side.height, n, "height")}
        level = total("no gable", [], unit="ft")
        gable = level if side.gable is None else self._size(side.gable, n, "gable")
        return work(siding.elevation_area, f"{side.name}, with its gable", gable=gable, **sizes)

    def _top(self, side: Side, n: int) -> Figure:
        parts = [self._size(each, n, name) for name, each in (("height", side.height), ("gable", side.gable)) if each]
        return total(f"top of the {side.name}", parts, unit="ft")

    def _size(self, reading: Reading, n: int, what: str) -> Figure:
        return self.length(reading, f"elevations[{n}] · {what}", f"{self.sides[n].name}, {what}")
