"""What each room, and each surface in it, comes to at the price: shares of one price that add up to it to the cent.

A line goes to the rooms it is worked or used in: labor by its room, paint by gallons, supplies by need, hire and
allowances by the plan that asks for them. What serves the whole job (driving, opening the days, tax, profit, the
minimum charge, a discount) is spread over the rooms in proportion, overhead by hours of labor. Within a room the same
is done for what serves all of its surfaces.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeAlias, TypeVar

from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.lines import Line, Section
from estimating.estimate.pricing.own_lines import place_of
from estimating.estimate.pricing.plan import Plan

Place: TypeAlias = tuple[str, str]  # room and surface; blank where a thing serves all of them
Weights: TypeAlias = Mapping[Place, float]
K = TypeVar("K")
ALSO = "also included"  # stands for a room where the contractor's own lines name none
CENT, DOLLAR = Decimal("0.01"), Decimal(1)


@dataclass(frozen=True)
class RoomPrice:
    """What a room comes to, and its surfaces, which add up to it. A job without rooms is one room without a name."""

    room: str
    price: Decimal
    surfaces: Mapping[str, Decimal]


def room_prices(estimate: Estimate) -> tuple[RoomPrice, ...]:
    """Return the price by room, in the order in which the rooms are in the job; together they are the price."""
    places = _settled(_shares(estimate))
    by_room: dict[str, dict[str, float]] = {}
    for (room, surface), amount in places.items():
        by_room.setdefault(room, {})[surface] = amount
    order = [room.name for room in estimate.job.rooms if room.name in by_room]
    rooms = {room: sum(by_room[room].values()) for room in [*order, *(each for each in by_room if each not in order)]}
    prices = shared_out(rooms, estimate.price)
    return tuple(RoomPrice(room, prices[room], shared_out(by_room[room], prices[room])) for room in rooms)


def shared_out(shares: Mapping[K, float], total: Decimal) -> dict[K, Decimal]:
    """Return a total shared out in proportion; what rounding leaves goes to the largest remainders.

    A total of whole dollars is shared in whole dollars, any other in cents.
    """
    whole = sum(shares.values())
    unit = DOLLAR if total == total.to_integral_value() else CENT
    units = int(total / unit)
    exact = {key: units * share / whole if whole else units / len(shares) for key, share in shares.items()}
    given = {key: math.floor(each) for key, each in exact.items()}
    by_remainder = sorted(exact, key=lambda key: exact[key] - given[key], reverse=True)
    for key in by_remainder[: units - sum(given.values())]:
        given[key] += 1
    return {key: each * unit for key, each in given.items()}


def _settled(shares: Mapping[Place, float]) -> dict[Place, float]:
    """Return the shares of rooms and surfaces alone: what serves all of them is spread in proportion."""
    rooms = {room for room, _ in shares if room}
    if not rooms:
        return {("", ""): sum(shares.values())}
    placed = {place: amount for place, amount in shares.items() if place[0]}
    loose = sum(amount for place, amount in shares.items() if not place[0])
    spread = _grown(placed, loose)
    settled: dict[Place, float] = {}
    for room in dict.fromkeys(place[0] for place in spread):
        here = {place: amount for place, amount in spread.items() if place[0] == room}
        named = {place: amount for place, amount in here.items() if place[1]}
        settled |= _grown(named, sum(here.values()) - sum(named.values())) if sum(named.values()) > 0 else here
    return settled


def _grown(shares: Mapping[Place, float], more: float) -> dict[Place, float]:
    whole = sum(shares.values())
    if not whole:
        return {place: more / len(shares) for place in shares}
    return {place: amount * (1 + more / whole) for place, amount in shares.items()}


def _shares(estimate: Estimate) -> dict[Place, float]:
    shares: dict[Place, float] = defaultdict(float)
    hours = _hours(estimate)
    for line in estimate.lines:
        weights = hours if line.section is Section.OVERHEAD else _weights(line, estimate)
        whole = sum(weights.values())
        for place, weight in weights.items():
            shares[place] += float(line.cost) * weight / whole if whole else 0.0
        if not whole:
            shares["", ""] += float(line.cost)
    return shares


def _hours(estimate: Estimate) -> Weights:
    hours: dict[Place, float] = defaultdict(float)
    for task in estimate.schedule.tasks:
        own = place_of(task.key, estimate.job)
        place = (own[0] or ALSO, own[1]) if own else (task.room, task.surface)
        hours[place] += task.hours.value_in("hour")
    return hours


def _weights(line: Line, estimate: Estimate) -> Weights:
    """Return how a line is divided over places; nothing where it serves the whole job."""
    own = place_of(line.key, estimate.job)
    if own is not None:
        return {(own[0] or ALSO, own[1]): 1.0}
    match line.section:
        case Section.LABOR:
            found = [task for task in estimate.schedule.tasks if task.hours is line.quantity]
            return {(line.room, found[0].surface if found else ""): 1.0}
        case Section.PAINT:
            return _gallons(line, estimate)
        case Section.SUPPLIES:
            return _needs(line, estimate.plans)
        case Section.EQUIPMENT:
            owners = [plan for plan in estimate.plans if any(each.key == line.key for each in plan.charges)]
            return _even(owners)
        case Section.ALLOWANCE:
            return _even(plan for plan in estimate.plans if any(each.expected is line.amount for each in plan.risks))
    return {}


def _gallons(line: Line, estimate: Estimate) -> Weights:
    weights: dict[Place, float] = defaultdict(float)
    order = next((each for each in estimate.paint if each.cost is line.amount), None)
    for material in (each for plan in estimate.plans for each in plan.materials):
        if order and (material.product, material.color) == (order.product, order.color) and material.room:
            weights[material.room, material.surface] += material.gallons.value
    return weights


def _needs(line: Line, plans: Sequence[Plan]) -> Weights:
    weights: dict[Place, float] = defaultdict(float)
    for plan in plans:
        for supply in plan.supplies:
            if supply.item == line.key:
                weights[room_of(plan), ""] += supply.need.value
    return weights


def _even(plans: Iterable[Plan]) -> Weights:
    return {(room_of(plan), ""): 1.0 for plan in plans}


def room_of(plan: Plan) -> str:
    """Return the room a plan works in; blank where none of its tasks has a room."""
    return next((task.room for task in plan.tasks if task.room), "")
