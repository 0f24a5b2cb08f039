"""Finish coats by roller, sprayer or brush: the tasks and the paint of each, and the chance of one more."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

from estimating.estimate.pricing.plan import Material, Risk, Task
from estimating.figures import Figure
from estimating.scopes.shared import protection, rework
from estimating.scopes.shared.color import chance_of_another
from estimating.scopes.shared.prime import Layer
from estimating.scopes.shared.spray import Spraying
from estimating.scopes.shared.surface import Surface
from estimating.scopes.shared.trim import coat_members
from estimating.scopes.shared.work_area import WorkArea, with_crew_note, with_dry_time

LOSSES = {"roller": ("roll", "interior"), "brush": ("brush", "interior"), "sprayer": ("airless", "masked_interior")}
OUTSIDE = "exterior"
FRAGILE = "one direction, no going back over a wet patch"


class Tool(NamedTuple):
    """What a surface is painted with. Spraying pass by pass works out tip, pressure and passes for texture."""

    name: str  # roller, sprayer or brush
    back_rolled: bool = False
    pass_by_pass: bool = False


ROLLER, BRUSH, SPRAYER = Tool("roller"), Tool("brush"), Tool("sprayer")
BACK_ROLLED, PASS_BY_PASS = Tool("sprayer", back_rolled=True), Tool("sprayer", pass_by_pass=True)


class Coat(NamedTuple):
    """One coat: its tasks, of which the last is the one to wait after, and its paint."""

    tasks: tuple[Task, ...]
    paint: Material


@dataclass(frozen=True, eq=False)
class Coating:
    """The finish coats on one surface with one tool; what is primed all over takes in nothing of the first coat."""

    work_area: WorkArea  # at the pace of the room
    surface: Surface
    tool: Tool
    primed: bool = False
    tip: str | None = None
    tip_field: str = ""

    @property
    def planned(self) -> int:
        """How many coats are planned."""
        return self.surface.coats.planned(barrier=self.primed or not self.surface.coats.barrier)

    @cached_property
    def coats(self) -> tuple[Coat, ...]:
        """The coats that are planned."""
        return tuple(self._coat(number) for number in range(1, self.planned + 1))

    @cached_property
    def one_more(self) -> Coat:
        """The coat after them, if it has to be."""
        return self._coat(self.planned + 1)

    @property
    def paint(self) -> list[Material]:
        """The paint of all coats, and what stays in the tool."""
        surface = self.surface
        left = protection.left_in(self.work_area, self.tool.name, surface.product, surface.color)
        return [*(coat.paint for coat in self.coats), left]

    @cached_property
    def passes(self) -> dict[str, Spraying]:
        """How the first coat and the later ones are sprayed, where that is worked out pass by pass."""
        of = (self.work_area, self.surface)
        alone = [Spraying(*of, coat, self.tip, self.tip_field) for coat in ("first", "later")]
        first, later = ([each.tip for each in coat.as_good] for coat in alone)
        both = None if self.primed else next((tip for tip in first if tip in later), None)
        return {each.coat: replace(each, kept=both) for each in alone}

    @property
    def tips(self) -> int:
        """How many tips its coats are sprayed with."""
        return len({self.spraying(number).chosen.tip for number in range(1, self.planned + 1)})

    def spraying(self, number: int) -> Spraying:
        """Return how a coat is sprayed pass by pass."""
        return self.passes[self._state(number)]

    @cached_property
    def mist_settles(self) -> Figure:
        """How long the fine mist of it hangs (hours): until then respirators stay on and alarms covered."""
        droplets = self.spraying(1).chosen.droplets if self.tool.pass_by_pass else "fine"
        return protection.mist_settles(self.work_area, self.surface.product, droplets)

    @cached_property
    def marks_settle(self) -> Figure:
        """How long what would mark floor and cloths needs to fall (hours): then the masking comes down."""
        return protection.mist_settles(self.work_area, self.surface.product, "marks", "what marks down")

    @property
    def settling(self) -> str:
        """Which of the two governs what, for the crew."""
        marks, fine = (_minutes(each) for each in (self.marks_settle, self.mist_settles))
        return (
            f"what would mark floor and cloths is down {marks:.0f} min after the last pass: the masking comes down "
            f"then; finer mist hangs {fine:.0f} min: until then respirators stay on and alarms stay covered"
        )

    def _state(self, number: int) -> str:
        return "first" if number == 1 and not self.primed else "later"

    def _coat(self, number: int) -> Coat:
        return Coat(tuple(self._tasks(number)), self._paint(number))

    def _paint(self, number: int) -> Material:
        surface, losses = self.surface, LOSSES[self.tool.name]
        if surface.outside:
            losses = (losses[0], OUTSIDE)
        if self.tool.pass_by_pass:
            losses = (self.spraying(number).chosen.method, losses[1])
        porosity = "sealed" if self.primed else surface.porosity
        spread = self.work_area.spread(surface.product, surface.texture, porosity, self._state(number), *losses)
        purpose = f"coat {number} of the {surface.name}"
        return self.work_area.paint(surface.product, surface.area, spread, purpose, surface.color)

    def _tasks(self, number: int) -> Iterator[Task]:
        surface = self.surface
        later = surface.pace.later if number > 1 else None
        if surface.members:
            slowed = self.work_area.slowed(later)
            yield from coat_members(surface.members, slowed, number, surface.phase, surface.verb)
            return
        slowed = self.work_area.slowed(surface.pace.area, later, self._against_walls())
        if self.tool.name == "roller":
            yield self._cut(number)
            yield with_crew_note(self._by_rate(slowed, number), self._nap())
        elif self.tool.pass_by_pass:
            spraying = self.spraying(number)
            titled = (f"{surface.key}_{number}", f"Spray the {surface.name}, coat {number}", surface.phase)
            yield with_crew_note(slowed.task(*titled, spraying.hours, spraying.trigger_share), spraying.chosen.in_words)
        else:
            yield self._by_rate(slowed, number)

    def _by_rate(self, slowed: WorkArea, number: int) -> Task:
        verb, row = self._row()
        surface = self.surface
        title = f"{verb} the {surface.name}, coat {number}"
        return slowed.by_area(f"{surface.key}_{number}", title, surface.phase, surface.area, *row)

    def _row(self) -> tuple[str, tuple[str, str, str]]:
        if self.tool.name == "roller":
            return "Roll", ("roll_ceiling" if self.surface.overhead else "roll_wall", "roll", self.surface.grade)
        if self.tool.name == "brush":
            return "Brush", ("brush_wall", "brush", "any")
        if self.tool.back_rolled:
            return "Spray and back-roll", ("spray_wall", "airless_back_roll", "any")
        return "Spray", ("spray_wall", "airless", "any")

    def _against_walls(self) -> Figure | None:
        """Return what a ceiling takes over a wall, where the rate is one for walls."""
        if not self.surface.overhead or self.tool.name == "roller" or self.tool.pass_by_pass:
            return None
        return self.work_area.basis.figure("factors", "element", "ceiling")

    def _nap(self) -> str:
        nap = self.work_area.basis.figure("naps", self.surface.nap_class, "nap")
        deeper = f"; up to {nap.high:g} in; the deeper it is the harder it pulls" if self.surface.fragile else ""
        return (
            f"nap about {nap.value:g} in{deeper}; {FRAGILE if self.surface.fragile else 'keep a wet edge to the cut'}"
        )

    def _cut(self, number: int) -> Task:
        surface, pace = self.surface, self.surface.pace
        fresh = surface.fragile and self._state(number) == "first"
        row = "popcorn" if surface.grade == "popcorn" else "suction" if fresh else "sealed"
        slowed = self.work_area.slowed(
            pace.first_line if number == 1 else pace.line, pace.later if number > 1 else None
        )
        title = f"Cut in the {surface.name}, coat {number}"
        task = slowed.by_length(
            f"cut_{surface.key}_{number}", title, surface.phase, surface.line, "cut_in", "brush", row
        )
        return with_crew_note(task, "keep it narrow; let a wet band dry before the roller reaches it" if fresh else "")


def _minutes(wait: Figure) -> float:
    return wait.value_in("minute")


def finish(coatings: Sequence[Coating], dries: Callable[[str], Figure]) -> Layer:
    """Return the finish coats of several surfaces, phase by phase, and their paint.

    Surfaces that are painted together get a coat each before any of them waits to dry.
    """
    tasks: list[Task] = []
    for phase in sorted({each.surface.phase for each in coatings}):
        group = [each for each in coatings if each.surface.phase is phase]
        most = max(each.planned for each in group)
        for number in range(1, most + 1):
            done = [task for each in group for task in _coat_with_mist(each, number)]
            if number < most:
                dry = dries(group[0].surface.product)
                done[-1] = with_dry_time(done[-1], dry, f"coat {number} to dry before the next")
            tasks += done
    return Layer(tasks, [paint for each in coatings for paint in each.paint])


def _coat_with_mist(coating: Coating, number: int) -> Sequence[Task]:
    """Return the tasks of a coat, the last of a sprayed one with the wait for its mist; none beyond those planned."""
    if number > coating.planned:
        return ()
    *before, last = coating.coats[number - 1].tasks
    if coating.tool.name == "sprayer" and not coating.surface.outside:
        last = replace(last, settles=coating.mist_settles)
        last = with_crew_note(last, "; ".join(filter(None, (last.detail, coating.settling))))
        if number == coating.planned:
            last = with_dry_time(last, coating.marks_settle, "what would mark to be down before unmasking")
    return (*before, last)


def another_coat(coating: Coating) -> Risk:
    """Return the allowance for one more coat on a surface: its chance times what the coat costs."""
    surface, work_area = coating.surface, coating.work_area
    name = f"one more coat on the {surface.name}"
    more = coating.one_more
    barrier = coating.primed or not surface.coats.barrier
    return rework.allowance(
        f"another_coat_{surface.key}",
        f"One more coat on the {surface.name}, {work_area.room.room.name}",
        chance_of_another(surface.coats, work_area.basis, barrier=barrier),
        rework.cost_again(
            work_area, name, [task.hours for task in more.tasks], rework.paint_again(work_area, name, more.paint)
        ),
        "one more coat",
        "look at it dry, in daylight and under a lamp; one more coat over the whole surface, corner to corner",
    )
