"""Boards with gaps, railings, stairs, lattice and fences: each part with its skin, from the tape or its usual sizes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.figures import Figure, total, work
from estimating.job.open_work import Boards, Fence, Lattice, Railing, Stair
from estimating.job.values import Answer
from estimating.scopes.shared import measure
from estimating.scopes.shared.trim import Member
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import counted
from estimating.trade import measuring, open_work, walls
from estimating.units import Reading


@dataclass(frozen=True)
class Parts:
    """Measures the parts of open work in one place; `where` is where its notes stand."""

    work_area: WorkArea
    where: str

    def length(self, reading: Reading, place: str, name: str) -> Figure:
        """Return a length off the tape, as true as the tape is here."""
        return measure.true_length(self.work_area, reading, name, f"{self.where} · {place}")

    def usual(self, member: str, measured: str) -> Figure:
        """Return the usual size of a part that nobody measured."""
        return self.work_area.basis.figure("members", member, measured)

    def _size(self, reading: Reading | None, place: str, name: str, member: str, measured: str) -> Figure:
        return self.usual(member, measured) if reading is None else self.length(reading, place, name)

    def boards(self, notes: Boards, row: str) -> Member:
        """Return the boards of the whole place, by a row of the rates for decks."""
        factor = work(
            open_work.gapped_boards_factor,
            "skin of the boards over their plan",
            width=self._size(notes.width, "boards · width", "width of a board", "deck_board", "width"),
            gap=self._size(notes.gap, "boards · gap", "gap between boards", "deck_board", "gap"),
            edge=self.usual("deck_board", "reach"),
        )
        plan = self.work_area.room.floor
        area = work(measuring.developed_area, "deck boards, laid flat", flat_area=plan, area_factor=factor)
        return Member("boards", "deck boards", plan, area, ("deck", row, "any"))

    def railing(self, railing: Railing, n: int) -> Iterator[Member]:
        """Yield balusters by count, rails by length and posts by count of one railing."""
        place = f"railings[{n}]"
        run = self.length(railing.length, f"{place} · length", f"railing {n + 1}")
        height = self._size(railing.height, f"{place} · height", "height of the railing", "guard", "height")
        width = self.usual("baluster", "width")
        gap = self._size(railing.gap, f"{place} · gap", "gap between balusters", "baluster", "gap")
        count = work(open_work.uprights, f"balusters of railing {n + 1}", length=run, width=width, gap=gap)
        sides = {"count": count, "width": width, "thickness": width, "height": height}
        area = work(open_work.upright_area, "balusters, laid flat", **sides)
        yield Member(f"balusters_{n}", f"balusters, railing {n + 1}", count, area, ("stain_baluster", "brush", "plain"))
        flat = work(measuring.girthed_area, "rails, laid flat", length=run, girth=self.usual("deck_rail", "girth"))
        yield Member(f"rails_{n}", f"rails, railing {n + 1}", run, flat, ("stain_rail", "brush", "any"))
        apart, girth = self.usual("rail_post", "run"), self.usual("rail_post", "girth")
        posts = work(open_work.posts, "posts", length=run, spacing=apart)
        tall = work(measuring.girthed_area, "one post, laid flat", length=height, girth=girth)
        post_area = work(walls.several, "posts, laid flat", each=tall, count=posts)
        yield Member(f"posts_{n}", f"posts, railing {n + 1}", posts, post_area, ("stain_post", "brush", "any"))

    def stair(self, stair: Stair, n: int) -> Member:
        """Return the steps of one stair."""
        place = f"stairs[{n}]"
        count = counted(stair.steps, f"steps of stair {n + 1}", f"{self.where} · {place} · steps")
        open_riser = total("no riser", [], unit="inch")
        area = work(
            open_work.steps_area,
            "steps, laid flat",
            steps=count,
            width=self.length(stair.width, f"{place} · width", f"width of stair {n + 1}"),
            tread=self.usual("step", "tread"),
            riser=open_riser if stair.closed is Answer.NO else self.usual("step", "riser"),
        )
        return Member(f"steps_{n}", f"steps, stair {n + 1}", count, area, ("stain_step", "brush", "any"))

    def lattice(self, lattice: Lattice, n: int) -> Member:
        """Return one field of lattice, all round."""
        face = self._face(lattice, f"lattice[{n}]", f"lattice {n + 1}")
        sizes = {"strip": "width", "thickness": "thickness", "opening": "gap"}
        inputs = {name: self.usual("lattice", measured) for name, measured in sizes.items()}
        factor = work(open_work.lattice_factor, "skin of lattice over its face", **inputs)
        area = work(measuring.developed_area, "lattice, laid flat", flat_area=face, area_factor=factor)
        return Member(f"lattice_{n}", f"lattice {n + 1}", face, area, ("lattice", "brush", "any"))

    def fence(self, fence: Fence, n: int, row: str) -> Member:
        """Return one run of fence, by a row of the rates for fences."""
        place = f"fences[{n}]"
        face = self._face(fence, place, f"fence {n + 1}")
        sides = counted(fence.sides, "sides coated", f"{self.where} · {place} · sides")
        tight = total("boards stand tight", [], unit="inch")
        factor = work(
            open_work.fence_boards_factor,
            "skin of the fence over its face",
            width=self._size(fence.width, f"{place} · width", "width of a fence board", "fence_board", "width"),
            gap=tight if fence.gap is None else self.length(fence.gap, f"{place} · gap", "gap between fence boards"),
            thickness=self.usual("fence_board", "thickness"),
            faces=sides,
        )
        area = work(measuring.developed_area, f"fence {n + 1}, laid flat", flat_area=face, area_factor=factor)
        faces = work(walls.several, f"faces of fence {n + 1}", each=face, count=sides)
        return Member(f"fence_{n}", f"fence {n + 1}", faces, area, ("fence", row, "any"))

    def _face(self, part: Lattice | Fence, place: str, name: str) -> Figure:
        length = self.length(part.length, f"{place} · length", f"length of {name}")
        height = self.length(part.height, f"{place} · height", f"height of {name}")
        return work(measuring.rectangle_area, f"face of {name}", length=length, width=height)
