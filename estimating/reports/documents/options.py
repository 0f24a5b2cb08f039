"""Options side by side: what differs between versions of a job in words, and what each comes to.

Each version is priced as a job of its own, so an option without differences has the price of the job.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from estimating.errors import InputError, Location
from estimating.estimate.pricing.plan import Plan, Suitability
from estimating.estimate.pricing.room_prices import room_of, room_prices
from estimating.estimate.whatif.scenario import apply
from estimating.job.file import plain_job
from estimating.job.model import Job, WorkNotes
from estimating.job.option import Option
from estimating.reports.documents.content import TICK, Rank, Row, Section, Text, paragraph, section, small, table
from estimating.reports.documents.scope_of_work import PREPARATION, capital, expected
from estimating.reports.documents.tasks_in_words import coats, in_phases, one_sentence, surfaces_of
from estimating.reports.format import plain_dollars
from estimating.workbook import Outcome, build_job, estimate_job

MOST_ROOMS = 8  # of more than these the price of each alone is not worked out: it takes an estimate or two a room
IN_IT, NOT_IN_IT = "included", "not included"
AS_DESCRIBED = "As described above"


@dataclass(frozen=True)
class Version:
    """A version of the job, under the name it is offered by."""

    name: str
    outcome: Outcome


def versions(outcome: Outcome) -> list[Version]:
    """Return the job as it is, and its options, each priced."""
    return [
        Version(AS_DESCRIBED, outcome),
        *(Version(each.name, _priced(each, outcome)) for each in outcome.job.option),
    ]


def _priced(option: Option, outcome: Outcome) -> Outcome:
    """Return an option priced, by the methods of the job where those are OK and cost no more than others would."""
    job = option_job(option, outcome.job)
    free, held = again(job, outcome), again(_by_methods_of(outcome, job, option.leave_out), outcome)
    fit = all(plan.finishes and plan.suitability is not Suitability.CLOSED for plan in held.estimate.plans)
    return held if fit and held.estimate.price < free.estimate.price else free


def _by_methods_of(outcome: Outcome, job: Job, leave_out: Sequence[str]) -> Job:
    """Return a version of a job with each item done as in the job, unless the version names a method itself."""
    taken = [plan.method for item, plan in _in_turn(outcome) if item.room not in leave_out]
    plain = plain_job(job)
    for item, notes, method in zip(plain["work"], job.work, taken, strict=True):
        item["method"] = notes.method or method
    return build_job(plain)


def _in_turn(outcome: Outcome) -> Iterator[tuple[WorkNotes, Plan]]:
    return zip(outcome.job.work, outcome.estimate.plans, strict=True)


def again(job: Job, outcome: Outcome) -> Outcome:
    """Return another version of a job, priced with the same tables and own values."""
    return estimate_job(job, outcome.basis.library, outcome.basis.own)


def option_job(option: Option, job: Job) -> Job:
    """Return the job that an option is; InputError where it names a room or a place that the job does not have."""
    changed = apply(plain_job(job), {place_in(path): value for path, value in option.changes.items()})
    return without_rooms(option.leave_out, build_job({**changed, "option": []}))


def place_in(path: str) -> Location:
    """Return the place in a job file that a path with dots names: work.0.walls.coats."""
    return tuple(int(step) if step.isdigit() else step for step in path.split("."))


def without_rooms(rooms: Sequence[str], job: Job) -> Job:
    """Return a job without some of its rooms, and without what is done in them."""
    names = [room.name for room in job.rooms]
    for room in rooms:
        if room not in names:
            raise InputError("option · leave_out", room, f"one of the rooms: {', '.join(names)}")
    plain: dict[str, Any] = plain_job(job)
    for part, name in (("rooms", "name"), ("work", "room"), ("extra", "room")):
        plain[part] = [each for each in plain[part] if each[name] not in rooms]
    return build_job({**plain, "option": []})


def side_by_side(outcome: Outcome) -> tuple[Section, ...]:
    """Return the options of a job beside it: what differs, days and price, and a box to choose one; nothing if none."""
    if not outcome.job.option:
        return ()
    several = versions(outcome)
    head = ("", *(each.name for each in several))
    rows = [Row((capital(name), *said)) for name, said in differences(several)]
    days = ("Days on site", *(f"{each.outcome.estimate.schedule.days.value:.0f}" for each in several))
    prices = ("Price", *(plain_dollars(each.outcome.estimate.price) for each in several))
    choose: tuple[Text, ...] = ("I choose", *(TICK for _ in several))
    found = table(head, [*rows, Row(days), Row(prices, Rank.TOTAL), Row(choose)], "l" * len(head))
    promised = dict.fromkeys(said for each in several[1:] for said in expected(each.outcome))
    new = [small(said) for said in promised if said not in expected(outcome)]
    return section("Your options", found, *map(paragraph, new), dense=True)


def differences(several: Sequence[Version]) -> list[tuple[str, tuple[str, ...]]]:
    """Return what is not the same in all versions: rooms that are left out, then surfaces, methods, preparation."""
    said = [_described(each.outcome) for each in several]
    places = dict.fromkeys(place for each in said for place in each)
    partly = {room for room, _ in places if not all(any(here == room for here, _ in each) for each in said)}
    rooms = [
        (room, tuple(IN_IT if any(here == room for here, _ in each) else NOT_IN_IT for each in said))
        for room in dict.fromkeys(room for room, _ in places)
        if room in partly
    ]
    others = [
        (f"{place[0]}, {place[1]}", tuple(each.get(place, NOT_IN_IT) for each in said))
        for place in places
        if place[0] not in partly
    ]
    return [*rooms, *((name, cells) for name, cells in others if len(set(cells)) > 1)]


def _described(outcome: Outcome) -> dict[tuple[str, str], str]:
    """Return each surface of a job with its products and coats, each room's methods and preparation."""
    found: dict[tuple[str, str], str] = {}
    for plan in (plan for plan in outcome.estimate.plans if plan.tasks):
        room = room_of(plan)
        for surface in surfaces_of(plan):
            used = coats(each for each in plan.materials if each.surface == surface)
            found[room, surface] = "; ".join(f"{count} {product}" for product, count in used) or plan.title
        found[room, f"method of {plan.scope}"] = plan.title
        found[room, "preparation"] = plan.preparation or one_sentence(in_phases(plan.tasks, *PREPARATION)) or "none"
    return found


@dataclass(frozen=True)
class RoomBySelf:
    """What a room comes to in the job, by itself, and as an addition to the rest of the job."""

    room: str
    here: Decimal
    alone: Decimal
    added: Decimal


def rooms_by_themselves(outcome: Outcome) -> list[RoomBySelf]:
    """Return each room three ways; nothing for a job of one room, or of more rooms than are worth the time."""
    worked = list(dict.fromkeys(item.room for item in outcome.job.work))
    if not 2 <= len(worked) <= MOST_ROOMS:
        return []
    here = {each.room: each.price for each in room_prices(outcome.estimate)}
    return [_by_itself(room, worked, here.get(room, Decimal(0)), outcome) for room in worked]


def _by_itself(room: str, worked: Sequence[str], here: Decimal, outcome: Outcome) -> RoomBySelf:
    others = [each for each in worked if each != room]
    alone = again(without_rooms(others, outcome.job), outcome).estimate.price
    rest = again(without_rooms([room], outcome.job), outcome).estimate.price
    return RoomBySelf(room, here, alone, outcome.estimate.price - rest)
