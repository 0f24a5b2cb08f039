"""The whole job, and what every work item in it has in common. Which kinds of work there are is told to it.

A kind of work hands in its own notes as a model derived from WorkNotes; `job_model` joins those of every kind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import reduce
from operator import or_
from typing import Annotated, Any, ClassVar, Self

from pydantic import Field, FiniteFloat, PrivateAttr, SerializeAsAny, create_model, model_validator

from estimating.errors import InputError
from estimating.job.extra import Extra
from estimating.job.option import Option
from estimating.job.room import Room
from estimating.job.site import Client, Crew, Site
from estimating.job.terms import Terms
from estimating.job.values import Notes
from estimating.units import Reading


class RoomPart(StrEnum):
    """The surfaces of a room that a work item can lay claim to."""

    CEILING = "ceiling"
    WALLS = "walls"
    TRIM = "trim"


@dataclass(frozen=True)
class Claim:
    """A surface of the room that a work item covers: one wall by its name, or all of a kind."""

    part: RoomPart
    wall: str = ""
    field: str = ""  # the answer that lays the claim, where another answer would give it up
    width: Reading | None = None  # of that wall
    height: Reading | None = None  # None where it is as high as the room
    openings: float = 0.0  # in that wall (ft²)


class WorkNotes(Notes):
    """What the site notes of every work item say, whatever its kind: the room, and the method asked for."""

    ONCE_A_ROOM: ClassVar[bool] = False  # may a room have one item of this kind at most

    kind: str
    room: str
    method: str | None = None

    def claims(self) -> tuple[Claim, ...]:
        """Return the surfaces of the room this item covers."""
        return ()


class OwnFigure(Notes):
    """The contractor's own figure in place of a reference row, for this job."""

    likely: FiniteFloat
    unit: str
    low: FiniteFloat | None = None
    high: FiniteFloat | None = None
    note: str = ""
    date: str = ""


class Job(Notes):
    """A job file; `notices` says what its reader had to put right, such as a field that has another name now."""

    title: str
    invented: bool = False
    client: Client = Client()
    site: Site = Site()
    crew: Crew = Crew()
    rooms: tuple[Room, ...]
    work: tuple[SerializeAsAny[WorkNotes], ...]
    terms: Terms = Terms()
    own: dict[str, OwnFigure] = Field(default_factory=dict)
    extra: tuple[Extra, ...] = ()
    option: tuple[Option, ...] = ()
    _notices: tuple[str, ...] = PrivateAttr(default=())

    @property
    def notices(self) -> tuple[str, ...]:
        """What the reader of the file has to say about it, in sentences."""
        return self._notices

    def noting(self, notices: Sequence[str]) -> Self:
        """Return the job with what its reader has to say about it."""
        noted = self.model_copy()
        noted._notices = tuple(notices)
        return noted

    @model_validator(mode="after")
    def _work_is_in_a_room(self) -> Job:
        names = [room.name for room in self.rooms]
        if not names or not self.work:
            raise InputError("work" if names else "rooms", "none", "at least one room and one item of work")
        for place, item in enumerate(self.work):
            if item.room not in names:
                raise InputError(f"work[{place}] · room", item.room, f"one of the rooms: {', '.join(names)}")
        for place, line in enumerate(self.extra):
            if line.room is not None and line.room not in names:
                raise InputError(f"extra[{place}] · room", line.room, f"one of the rooms: {', '.join(names)}")
        if len(set(names)) < len(names):
            raise InputError("rooms", names, "a different name for each room")
        return self

    @model_validator(mode="after")
    def _no_surface_twice(self) -> Job:
        for problem in _surfaces_twice(self.work):
            raise problem
        return self

    def room(self, name: str) -> Room:
        """Return the room of that name."""
        return next(room for room in self.rooms if room.name == name)


def job_model(kinds: Sequence[type[WorkNotes]]) -> type[Job]:
    """Return the model of a job whose work items are of these kinds, told apart by the word under `kind`."""
    items: Any = reduce(or_, kinds)
    item: Any = Annotated[items, Field(discriminator="kind")]
    return create_model("Job", __base__=Job, work=(tuple[item, ...], ...))


def kind_words(kind: str) -> str:
    """Return the word a job file uses for a kind of work, as it is said."""
    return kind.replace("_", " ")


def _surfaces_twice(work: Sequence[WorkNotes]) -> Iterator[InputError]:
    taken: dict[tuple[str, RoomPart, str], tuple[int, Claim]] = {}
    once: set[tuple[str, str]] = set()
    for place, item in enumerate(work):
        if item.ONCE_A_ROOM and (item.room, item.kind) in once:
            yield InputError(f"work[{place}] · room", item.room, f"one {kind_words(item.kind)} for each room")
        once.add((item.room, item.kind))
        for claim in item.claims():
            before = taken.setdefault((item.room, claim.part, claim.wall), (place, claim))
            if before != (place, claim):
                yield _twice(work, before, (place, claim))


def _twice(work: Sequence[WorkNotes], first: tuple[int, Claim], second: tuple[int, Claim]) -> InputError:
    """Return the complaint about a surface claimed twice, at the answer that can give it up."""
    (kept, _), (place, claim) = (second, first) if first[1].field and not second[1].field else (first, second)
    surface = f"wall {claim.wall}" if claim.wall else str(claim.part)
    said = f"the {surface} of this room is in work[{kept}], {kind_words(work[kept].kind)}"
    if claim.field:
        return InputError(f"work[{place}] · {claim.field}", "yes", f"no: {said}")
    return InputError(f"work[{place}] · room", work[place].room, f"another room, or no such item: {said}")
