"""Spray mist: how fast it falls, what drying does to it, and how long to wait before the masking comes down.

Air is taken at 20 °C and sea level. A paint droplet dries to a smaller, denser and slower grain within seconds of
leaving the gun; the waiting time takes it as dry from the start, which errs toward waiting longer.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, published
from estimating.rules import rule
from estimating.trade._numbers import require
from estimating.units import Number

GRAVITY = 9.80665  # m/s²
AIR_DENSITY = 1.205  # kg/m³ at 20 °C
AIR_VISCOSITY = 1.81e-5  # Pa·s at 20 °C
SLIP_LENGTH = 0.166  # micrometer; 2.52 mean free paths of air, from memory, not checked: 2 % at 10 µm
_NEWTON_STEPS = 12  # the drag curve bends one way, so this many reach the last digit over the whole range
_METERS_PER_FOOT = 0.3048
_SECONDS_PER_MINUTE = 60.0


def _reynolds(creeping: Number) -> Number:
    """Return the Reynolds number at which drag holds the weight, from what it would be without inertia.

    Solves Re (1 + 0.15 Re^0.687) = creeping by Newton's steps from above, a set number of them for arrays' sake.
    """
    reynolds = creeping
    for _ in range(_NEWTON_STEPS):
        excess = reynolds + 0.15 * reynolds**1.687 - creeping
        reynolds = reynolds - excess / (1 + 0.15 * 1.687 * reynolds**0.687)
    return reynolds


@rule(
    "weight = drag, Cd = 24 (1 + 0.15 Re^0.687) ÷ Re",
    "meter/second",
    published(
        "schiller-naumann-1933",
        "drag of a sphere, Re below 800",
        "Used for small drops too, where it goes over into Stokes' law: a switch would make a bigger drop slower.",
    ),
    diameter="micrometer, 1 to 1000",
    density=f"kilogram/meter**3, more than {AIR_DENSITY}, heavier than air",
)
def settling_velocity(*, diameter: Number, density: Number) -> Number:
    """Return how fast a round drop or grain falls through still air.

    Holds from 1 to 1000 micrometers. Slip of very small drops is allowed for; drafts are not.
    """
    meters = diameter * 1e-6
    stokes = (density - AIR_DENSITY) * GRAVITY * meters**2 / (18 * AIR_VISCOSITY)
    kinematic = AIR_VISCOSITY / AIR_DENSITY
    slip = 1 + SLIP_LENGTH / diameter
    return slip * _reynolds(stokes * meters / kinematic) * kinematic / meters


@rule(
    "dried diameter = droplet × ∛solids",
    "micrometer",
    definition("a ball of the solids that stay"),
    droplet="micrometer, more than 0",
    volume_solids="percent, more than 0, at most 100",
)
def dried_diameter(*, droplet: Number, volume_solids: Number) -> Number:
    """Return the size of the solid grain a droplet of paint dries to, without hollows."""
    return droplet * np.cbrt(volume_solids / 100)


@rule(
    "dried density = (density − (1 − solids) × volatile density) ÷ solids",
    "kilogram/meter**3",
    definition("the mass that stays over the volume that stays"),
    density="kilogram/meter**3, more than 0",
    volatile_density="kilogram/meter**3, 0 or more",
    volume_solids="percent, more than 0, at most 100",
)
def dried_density(*, density: Number, volatile_density: Number, volume_solids: Number) -> Number:
    """Return the density of the solids in a paint; volatile_density is that of the water or solvent that leaves."""
    leaving = (1 - volume_solids / 100) * volatile_density
    require(density > leaving, "density", density, "more than what leaves as the paint dries")
    return (density - leaving) / (volume_solids / 100)


@rule(
    "time = height ÷ settling velocity",
    "minute",
    definition("distance over speed"),
    height="ft, 0 or more",
    diameter="micrometer, 1 to 1000",
    density="kilogram/meter**3",
)
def settling_time(*, height: Number, diameter: Number, density: Number) -> Number:
    """Return how long a drop of constant size takes to fall from a height through air that does not stir.

    >>> round(float(settling_time(height=8.0, diameter=20.0, density=1200.0)), 1)
    2.8
    """
    velocity = settling_velocity(diameter=diameter, density=density)
    return height * _METERS_PER_FOOT / velocity / _SECONDS_PER_MINUTE


@rule(
    "time = ln(100 % ÷ left) ÷ (velocity of the dried grain ÷ height + air changes)",
    "minute",
    definition("stirred air loses, every second, the share that reaches the floor and the share that is blown out"),
    height="ft, more than 0",
    droplet="micrometer, 2 or more",
    density="kilogram/meter**3",
    volume_solids="percent, more than 0, at most 100",
    volatile_density="kilogram/meter**3, 0 or more",
    left="percent, more than 0, less than 100",
    air_changes="1/hour, 0 or more in an hour",
)
def settle_before_unmasking(
    *,
    height: Number,
    droplet: Number,
    density: Number,
    volume_solids: Number,
    volatile_density: Number,
    left: Number,
    air_changes: Number,
) -> Number:
    """Return how long to wait until only `left` percent of the mist still hangs in the room.

    droplet: size as sprayed of the fine mist that decides it, 2 micrometers or more; it is taken as dry at
    once. Slip, 3 % at 5 micrometers and more below, is left out, which makes the wait longer, never shorter.
    air_changes: fresh air through the room, 0 when it is sealed. The air is taken as stirred by people and warmth,
    which is slower to clear than dead still air.
    """
    fall = settling_time(
        height=height,
        diameter=dried_diameter(droplet=droplet, volume_solids=volume_solids),
        density=dried_density(density=density, volatile_density=volatile_density, volume_solids=volume_solids),
    )
    minutes: Number = np.log(100 / left) / (1 / fall + air_changes / 60)
    return minutes
