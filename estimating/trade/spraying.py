"""Airless spraying: what a tip delivers, how the arm must move, and how long the trigger is held.

A stroke is one sweep of the arm. A pass is a whole surface covered once by strokes that overlap, so that at half
overlap every point is struck twice in one pass. Film is wet film over the flat area unless its name says dry.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

import numpy as np

from estimating.errors import InputError
from estimating.origins import definition, practice, published
from estimating.rules import rule
from estimating.trade._numbers import TOLERANCE
from estimating.trade.film import THOU_FT2_PER_GALLON, paint_yield, wet_film
from estimating.units import Number, factor

CODE_DISTANCE = 12.0  # inch: the distance at which a tip's code states its fan
SMALLEST_ORIFICE, LARGEST_ORIFICE = 5, 75  # thou; tips on sale lie well inside, from memory, not checked
_CODE_HELP = "three digits such as 213: half the fan in inches at 12 inches, then the orifice in thousandths of an inch"
_SECONDS_PER_MINUTE = 60.0
_INCHES_PER_FOOT = 12.0
_WATER = 1000.0  # kg/m³, what specific gravity is measured against
_IDEAL_FLOW = (
    math.pi / 4 * math.sqrt(2 / _WATER) * factor("inch**2 * (psi / (kilogram/meter**3))**0.5", "gallon/minute")
)
_LAID = definition("paint laid down in a second over the area swept in a second")


@dataclass(frozen=True)
class TipCode:
    """What a tip's code says: its fan (inch, at 12 inches from the surface) and its orifice (inch)."""

    fan_inches: float
    orifice_inches: float

    def __str__(self) -> str:
        return write_tip_code(self)


def read_tip_code(text: object, field: str = "tip") -> TipCode:
    """Return what a code such as 213 stands for: a 4 inch fan and a 0.013 inch orifice.

    The first digit times two is the fan, the last two are the orifice. Raises InputError for anything else.
    """
    match = re.fullmatch(r"\s*([1-9])(\d\d)\s*", str(text))
    if not match or not SMALLEST_ORIFICE <= int(match[2]) <= LARGEST_ORIFICE:
        raise InputError(field, text, _CODE_HELP)
    return TipCode(2.0 * int(match[1]), int(match[2]) / 1000)


def write_tip_code(tip: TipCode, field: str = "tip") -> str:
    """Return the code of a tip; InputError where no code says it, such as a 5 inch fan."""
    code = f"{tip.fan_inches / 2:.0f}{tip.orifice_inches * 1000:02.0f}"
    read = read_tip_code(code, field)
    if not math.isclose(read.fan_inches, tip.fan_inches) or not math.isclose(read.orifice_inches, tip.orifice_inches):
        raise InputError(field, tip, f"an even fan and whole thousandths: {_CODE_HELP}")
    return code


@rule(
    "fan = coded fan × distance ÷ 12 in",
    "inch",
    published("tip-sizing", "meaning of the tip number", "The fan opens in proportion to the distance."),
    coded_fan="inch, more than 0",
    distance="inch, more than 0",
)
def fan_width(*, coded_fan: Number, distance: Number) -> Number:
    """Return how wide the fan lies on the surface when the gun is held at this distance.

    >>> fan_width(coded_fan=10.0, distance=12.0)
    10.0
    """
    return coded_fan * distance / CODE_DISTANCE


@rule(
    "Q = Cd · A · √(2 · pressure ÷ density)",
    "gallon/minute",
    published(
        "wjta-nozzle-flow", "eq. 13", "That equation is for water and an ideal nozzle; Cd and density are added."
    ),
    orifice="inch, more than 0",
    pressure="psi, 0 or more",
    discharge="dimensionless, more than 0, at most 1",
    specific_gravity="dimensionless, more than 0",
)
def orifice_flow(*, orifice: Number, pressure: Number, discharge: Number, specific_gravity: Number) -> Number:
    """Return what a tip passes while the trigger is held.

    discharge: share of the ideal flow that gets through, about 0.8 for water through small fan nozzles, less for thick
    paint: time a gallon through your own tip and set it. pressure is at the tip, not at the pump.
    """
    return _IDEAL_FLOW * discharge * orifice**2 * np.sqrt(pressure / specific_gravity)


@rule(
    "supply = flow × (1 + wear)",
    "gallon/minute",
    practice("A tip wears wider, so the pump is chosen for more than a new tip passes."),
    flow="gallon/minute, 0 or more",
    wear="percent, 0 or more",
)
def pump_must_supply(*, flow: Number, wear: Number) -> Number:
    """Return what the pump must deliver so that the pressure holds until the tip is worn out."""
    return flow * (1 + wear / 100)


@rule(
    "margin = capacity − supply",
    "gallon/minute",
    definition("subtraction"),
    capacity="gallon/minute, more than 0",
    supply="gallon/minute",
)
def pump_margin(*, capacity: Number, supply: Number) -> Number:
    """Return what the pump has left over at this supply; below nothing, the pressure sags."""
    return capacity - supply


@rule(
    "spacing = fan × (1 − overlap)",
    "inch",
    definition("the part of the fan that meets fresh surface"),
    fan_width="inch, more than 0",
    overlap="percent, 0 or more, less than 100",
)
def pass_spacing(*, fan_width: Number, overlap: Number) -> Number:
    """Return how far apart the middles of neighboring strokes lie."""
    return fan_width * (1 - overlap / 100)


def _sweep(fan_width: Number, overlap: Number, arm_speed: Number) -> Number:
    """Return the fresh area swept while the trigger is held, in ft² a minute."""
    spacing = pass_spacing(fan_width=fan_width, overlap=overlap)
    return spacing / _INCHES_PER_FOOT * arm_speed * _SECONDS_PER_MINUTE


@rule(
    "wet film = 1604 × flow × (1 − loss) ÷ (fan × (1 − overlap) × arm speed)",
    "thou",
    _LAID,
    flow="gallon/minute, 0 or more",
    fan_width="inch, more than 0",
    overlap="percent, 0 or more, less than 100",
    arm_speed="ft/second, more than 0",
    loss="percent, 0 or more, less than 100",
)
def wet_film_per_pass(*, flow: Number, fan_width: Number, overlap: Number, arm_speed: Number, loss: Number) -> Number:
    """Return the wet film one pass leaves over the flat area, all its overlapping strokes counted."""
    return THOU_FT2_PER_GALLON * flow * paint_yield(loss=loss) / _sweep(fan_width, overlap, arm_speed)


@rule(
    "arm speed = 1604 × flow × (1 − loss) ÷ (fan × (1 − overlap) × wet film)",
    "ft/second",
    _LAID,
    film="thou, more than 0",
    flow="gallon/minute, 0 or more",
    fan_width="inch, more than 0",
    overlap="percent, 0 or more, less than 100",
    loss="percent, 0 or more, less than 100",
)
def arm_speed_for_film(*, film: Number, flow: Number, fan_width: Number, overlap: Number, loss: Number) -> Number:
    """Return how fast the arm must move for one pass to leave this wet film."""
    at_one_foot = wet_film_per_pass(flow=flow, fan_width=fan_width, overlap=overlap, arm_speed=1.0, loss=loss)
    return at_one_foot / film


@rule(
    "minutes = area × passes ÷ (fan × (1 − overlap) × arm speed)",
    "minute",
    definition("area over the area swept in a minute"),
    area="ft**2, 0 or more",
    fan_width="inch, more than 0",
    overlap="percent, 0 or more, less than 100",
    arm_speed="ft/second, more than 0",
    passes="count, 0 passes or more",
)
def gun_on_minutes(*, area: Number, fan_width: Number, overlap: Number, arm_speed: Number, passes: Number) -> Number:
    """Return how long the trigger is held to spray a flat area in so many passes."""
    return area * passes / _sweep(fan_width, overlap, arm_speed)


@rule(
    "hours = gun-on time ÷ trigger share",
    "hour",
    practice("The rest of the time goes into turning, stepping, moving the hose and looking."),
    gun_on="minute, 0 or more",
    trigger_share="dimensionless, more than 0, at most 1",
)
def spray_hours(*, gun_on: Number, trigger_share: Number) -> Number:
    """Return the working time at the gun; trigger_share is the part of it with the trigger held."""
    return gun_on / trigger_share / 60


@rule(
    "paint = flow × gun-on time",
    "gallon",
    definition("rate times time"),
    flow="gallon/minute, 0 or more",
    gun_on="minute, 0 or more",
)
def sprayed_paint(*, flow: Number, gun_on: Number) -> Number:
    """Return the paint that leaves the tip while the trigger is held."""
    return flow * gun_on


@rule(
    "mist = sprayed × loss",
    "gallon",
    definition("what does not land"),
    sprayed="gallon, 0 or more",
    loss="percent, 0 or more, less than 100",
)
def mist_loss(*, sprayed: Number, loss: Number) -> Number:
    """Return the paint that hangs in the room or settles on the masking instead of the surface."""
    return sprayed * (1 - paint_yield(loss=loss))


@dataclass(frozen=True)
class Gun:
    """A gun as it is set up: tip, pressure at the tip (psi), distance (inch), overlap (percent)."""

    tip: TipCode
    pressure: float
    distance: float
    overlap: float
    discharge: float
    loss: float  # percent of the paint that never lands, at this pressure in this room
    pump_capacity: float  # gallon/minute
    tip_wear: float  # percent more flow than new that the pump must still feed


@dataclass(frozen=True)
class SprayCoat:
    """The coat wanted: its dry film over the flat area (thou) and how the paint behaves."""

    area: float  # ft², flat
    dry_film: float
    volume_solids: float  # percent
    specific_gravity: float
    sag_limit: float  # thou of wet film in one pass that still stays where it is put


@dataclass(frozen=True)
class Hand:
    """What an arm can do evenly (ft/second), the least pressure a fan holds without tails (psi), patience in passes."""

    slowest: float
    fastest: float
    least_pressure: float
    most_passes: float
    least_passes: float = 1.0  # crossed passes hide the lines of a single one


@dataclass(frozen=True)
class PassPlan:
    """How one coat would be sprayed, and what stands against it; nothing does when `possible`."""

    flow: float  # gallon/minute
    fan: float  # inch on the surface
    spacing: float  # inch between strokes
    passes: int
    arm_speed: float  # ft/second
    wet_per_pass: float  # thou
    gun_on: float  # minute
    sprayed: float  # gallon through the tip
    mist: float  # gallon that never lands
    problems: tuple[str, ...]

    @property
    def possible(self) -> bool:
        """Say whether an even film can be had this way."""
        return not self.problems


def plan_passes(gun: Gun, coat: SprayCoat, hand: Hand) -> PassPlan:
    """Return the fewest passes that lay the coat below its sag limit at a speed the arm can hold.

    More passes mean thinner ones and a faster arm. Where no number of passes will do, the plan says why.
    """
    flow = float(
        orifice_flow(
            orifice=gun.tip.orifice_inches,
            pressure=gun.pressure,
            discharge=gun.discharge,
            specific_gravity=coat.specific_gravity,
        )
    )
    fan = float(fan_width(coded_fan=gun.tip.fan_inches, distance=gun.distance))
    wet = float(wet_film(dry_film=coat.dry_film, volume_solids=coat.volume_solids))
    once = float(arm_speed_for_film(film=wet, flow=flow, fan_width=fan, overlap=gun.overlap, loss=gun.loss))
    enough = (hand.least_passes, wet / coat.sag_limit, hand.slowest / once)
    passes = max(math.ceil(each - TOLERANCE) for each in enough)
    speed = once * passes
    minutes = float(gun_on_minutes(area=coat.area, fan_width=fan, overlap=gun.overlap, arm_speed=speed, passes=passes))
    sprayed = float(sprayed_paint(flow=flow, gun_on=minutes))
    return PassPlan(
        flow=flow,
        fan=fan,
        spacing=float(pass_spacing(fan_width=fan, overlap=gun.overlap)),
        passes=passes,
        arm_speed=speed,
        wet_per_pass=wet / passes,
        gun_on=minutes,
        sprayed=sprayed,
        mist=float(mist_loss(sprayed=sprayed, loss=gun.loss)),
        problems=_problems(gun, hand, flow, passes, speed),
    )


def _problems(gun: Gun, hand: Hand, flow: float, passes: int, speed: float) -> tuple[str, ...]:
    supply = pump_must_supply(flow=flow, wear=gun.tip_wear)
    found = [
        (
            gun.pressure < hand.least_pressure,
            f"{gun.pressure:.0f} psi is below the {hand.least_pressure:.0f} psi the fan needs to hold without tails",
        ),
        (
            pump_margin(capacity=gun.pump_capacity, supply=supply) < 0,
            f"the tip takes {supply:.2f} gallons a minute when worn; the pump gives {gun.pump_capacity:.2f}",
        ),
        (
            speed > hand.fastest,
            f"the arm would have to move {speed:.1f} ft a second; {hand.fastest:.1f} is the most for an even film",
        ),
        (passes > hand.most_passes, f"it would take {passes} passes; {hand.most_passes:.0f} is the most"),
    ]
    return tuple(words for wrong, words in found if wrong)
