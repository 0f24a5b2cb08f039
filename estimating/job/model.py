"""The whole job, and the work items it is made of."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, FiniteFloat, model_validator

from estimating.errors import InputError
from estimating.job.ceiling import TexturedCeiling
from estimating.job.repaint import InteriorRepaint
from estimating.job.room import Room
from estimating.job.site import Client, Crew, Site
from estimating.job.terms import Terms
from estimating.job.values import Answer, Notes
from estimating.job.wallcovering import Wallcovering

Work = Annotated[TexturedCeiling | Wallcovering | InteriorRepaint, Field(discriminator="kind")]


class OwnFigure(Notes):
    """The contractor's own figure in place of a reference row, for this job."""

    likely: FiniteFloat
    unit: str
    low: FiniteFloat | None = None
    high: FiniteFloat | None = None
    note: str = ""
    date: str = ""


class Job(Notes):
    """A job file."""

    title: str
    invented: bool = False
    client: Client = Client()
    site: Site = Site()
    crew: Crew = Crew()
    rooms: tuple[Room, ...]
    work: tuple[Work, ...]
    terms: Terms = Terms()
    own: dict[str, OwnFigure] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _work_is_in_a_room(self) -> Job:
        names = [room.name for room in self.rooms]
        if not names or not self.work:
            raise InputError("work" if names else "rooms", "none", "at least one room and one item of work")
        for place, item in enumerate(self.work):
            if item.room not in names:
                raise InputError(f"work[{place}] · room", item.room, f"one of the rooms: {', '.join(names)}")
        if len(set(names)) < len(names):
            raise InputError("rooms", names, "a different name for each room")
        return self

    @model_validator(mode="after")
    def _no_surface_twice(self) -> Job:
        textured = {item.room for item in self.work if isinstance(item, TexturedCeiling)}
        repainted: set[str] = set()
        for place, item in enumerate(self.work):
            if not isinstance(item, InteriorRepaint):
                continue
            if item.room in repainted:
                raise InputError(f"work[{place}] · room", item.room, "one repaint for each room")
            if item.room in textured and item.ceiling.painted is Answer.YES:
                needed = "no: the textured ceiling of this room is a piece of work of its own"
                raise InputError(f"work[{place}] · ceiling · painted", str(item.ceiling.painted), needed)
            repainted.add(item.room)
        return self

    def room(self, name: str) -> Room:
        """Return the room of that name."""
        return next(room for room in self.rooms if room.name == name)
