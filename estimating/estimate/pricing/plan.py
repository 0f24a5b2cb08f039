"""A plan of work: what one way of doing one piece of a job takes, in tasks, materials, supplies, charges and risks.

Every kind of job is told to the engine in these words, and in no others.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum, StrEnum
from functools import cached_property

from estimating.estimate.pricing.lines import Section
from estimating.figures import Figure


class Part(StrEnum):
    """The parts a phase belongs to, as a client is told of the work."""

    PROTECTION = "Protection"
    PREPARATION = "Preparation"
    WORK = "Work"
    CLEANUP = "Cleanup and reset"


class Phase(IntEnum):
    """The order in which work is done on site, whatever the work: a room from the top down, paint before the rest."""

    ARRIVE = 0
    TEST = 10
    PROTECT = 20
    MASK = 30
    REMOVE = 35  # what is taken off for good: wet, dusty work in a room that is sealed first
    PREPARE = 40
    PRIME = 50
    CEILING = 60
    FIXTURES = 65
    UNMASK = 70
    WALLS = 80
    TRIM = 90
    FINISH = 95  # what goes up once the paint is dry
    CLEAN = 100
    CLOSE = 110

    @property
    def part(self) -> Part | None:
        """The part of the work it belongs to; coming and leaving belong to none."""
        if self in (Phase.ARRIVE, Phase.CLOSE):
            return None
        if self in (Phase.PROTECT, Phase.MASK):
            return Part.PROTECTION
        if self in (Phase.UNMASK, Phase.CLEAN):
            return Part.CLEANUP
        return Part.PREPARATION if self <= Phase.PREPARE else Part.WORK


class InAir(StrEnum):
    """What a task puts into the air of its room."""

    NOTHING = ""
    DUST = "dust"
    MIST = "mist"


class Around(IntEnum):
    """What is done before and after each spell, not once for a room: alarms covered, a machine set up."""

    BEFORE = 0
    AFTER = 1


@dataclass(frozen=True)
class Task:
    """A piece of labor, and the wait that must follow it in the same room."""

    key: str
    title: str
    phase: Phase
    hours: Figure
    room: str = ""
    wait: Figure | None = None
    wait_for: str = ""
    share_key: str = ""  # tasks of one job with the same word here are done once, at the longest of their hours
    rate_key: str = ""  # the reference row whose rate it uses, which actual hours can correct
    detail: str = ""  # what the crew needs to know
    for_tools: bool = False  # care of tools and color: no work on the house
    moves_furniture: bool = False
    surface: str = ""  # what it is done on, as a client would say; blank where it serves the whole room or job
    in_air: InAir = InAir.NOTHING
    settles: Figure | None = None  # how long what is in the air takes to come down before anything is uncovered
    machine: str = ""  # a machine that comes when it is used and goes when it has been
    around: Around | None = None  # of each spell in the air; with a machine named, of each day it is used
    wet: bool = False  # leaves something wet in its room
    needs_dry: bool = False  # may not touch anything wet

    @property
    def machine_care(self) -> bool:
        """Whether it sets a machine up or cleans it."""
        return bool(self.machine) and self.around is not None


@dataclass(frozen=True)
class Material:
    """Paint or primer of one product and color, by the gallon."""

    product: str
    title: str
    gallons: Figure
    purpose: str
    color: str = ""
    room: str = ""
    coverage_key: str = ""  # the reference row that actual gallons can correct
    share_key: str = ""  # materials of one job with the same word here are needed once, at the largest of their needs
    remark: str = ""  # what is to be looked at before so much is bought
    stays_in_tools: bool = False  # it is bought, and coats nothing
    surface: str = ""  # what it goes on, as a client would say


@dataclass(frozen=True)
class Supply:
    """Something bought by the roll, the box or the piece."""

    item: str
    title: str
    need: Figure  # in the unit of `holds`
    holds: Figure | None  # what one roll or box holds; None where it is bought singly
    price: Figure
    share_key: str = ""  # supplies of one job with the same word here are needed once, at the largest of their needs
    chosen: bool = False  # goods chosen for this job, at a price of their own and no list's


@dataclass(frozen=True)
class Charge:
    """Something paid for by the day or the piece: a sprayer, a dump fee, a laboratory test."""

    key: str
    title: str
    quantity: Figure
    price: Figure
    share_key: str = ""
    machine: str = ""  # the quantity is then the days on which this machine is used
    room: str = ""  # or on which this room is worked in, where it stands there as long
    section: Section = Section.EQUIPMENT


@dataclass(frozen=True)
class Extent:
    """One of the sizes in which damage comes: its chance among them, the share and area hit, and what mending costs."""

    title: str
    chance: Figure
    share: Figure
    area: Figure
    cost: Figure


@dataclass(frozen=True)
class OfTheSurface:
    """What makes a risk lie in the surface that was there before, so that it is in no warranty of the work."""

    closed_above: Figure | None = None  # the chance above which the method is not offered
    told: bool = False  # is it large enough for the client to be told in writing
    tested: str = ""  # how far the tests made so far reach
    history: str = ""  # the class of what was there before
    prior: Figure | None = None  # the chance of that class before tests and method; own jobs can correct its row
    area: Figure | None = None  # the surface it speaks of
    extents: tuple[Extent, ...] = ()


@dataclass(frozen=True)
class Risk:
    """Something that may happen, what it costs if it does, and its share of the price."""

    key: str
    title: str
    chance: Figure
    cost_if: Figure
    expected: Figure
    what_then: str = ""
    surface: OfTheSurface | None = None  # None where it lies in the work itself


class Suitability(StrEnum):
    """Whether a method may be used here."""

    OPEN = "OK"
    CONDITIONS = "OK if"
    CLOSED = "not recommended here"


@dataclass(frozen=True)
class Finding:
    """Why a method may or may not be used: the standing it allows at most, and the fact that says so."""

    suitability: Suitability
    text: str
    of_chance: bool = False  # it hangs on the chance of a risk of the surface, and goes where that goes


class Audience(StrEnum):
    """Who has to mind a caution."""

    EVERYONE = "everyone"
    CREW = "crew"


@dataclass(frozen=True)
class Caution:
    """A danger raised by the job's own facts, what is usually done, and the rule it rests on."""

    key: str
    title: str
    because: str
    advice: str
    citation: str
    audience: Audience = Audience.EVERYONE


@dataclass(frozen=True)
class Plan:
    """One method of doing one work item."""

    scope: str  # what work item, such as "ceiling, sitting room"
    method: str
    title: str
    tasks: tuple[Task, ...] = ()
    materials: tuple[Material, ...] = ()
    supplies: tuple[Supply, ...] = ()
    charges: tuple[Charge, ...] = ()
    risks: tuple[Risk, ...] = ()
    findings: tuple[Finding, ...] = ()
    cautions: tuple[Caution, ...] = ()
    client_requirements: tuple[str, ...] = ()  # what it asks of the household
    notes: tuple[str, ...] = ()
    preparation: str = ""  # its level in words
    expected: tuple[str, ...] = ()  # what is promised at that level, where somebody asked for one
    stop_rule: str = ""
    figures: tuple[Figure, ...] = field(default=())  # set-up figures worth showing: flow, passes, settling time
    finishes: bool = True  # does the client end up with the finish asked for

    @cached_property
    def content(self) -> tuple[str | float, ...]:
        """What tells it from other plans, to put them in an order that hangs on nothing else."""
        hours = sum(task.hours.value_in("hour") for task in self.tasks)
        gallons = sum(each.gallons.value for each in self.materials)
        return self.scope, self.method, self.title, round(hours, 6), round(gallons, 6), len(self.tasks)

    @property
    def suitability(self) -> Suitability:
        """The worst standing any reason allows."""
        found = [reason.suitability for reason in self.findings]
        for standing in (Suitability.CLOSED, Suitability.CONDITIONS):
            if standing in found:
                return standing
        return Suitability.OPEN


@dataclass(frozen=True)
class Question:
    """Something the site notes leave open: what it is, and whether the price waits for it."""

    field: str
    text: str
    blocks: bool
