"""The days of a job in words: which rooms are worked in, and what is done in them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from estimating.estimate.pricing.plan import Phase, Task
from estimating.estimate.pricing.site_days import Schedule
from estimating.reports.documents.content import listed_words
from estimating.trade.drying import StepTime

MOST_DAYS = 6  # that are told one by one
VERBS = (
    ("test", (Phase.TEST,)),
    ("cover and mask", (Phase.PROTECT, Phase.MASK)),
    ("remove the old", (Phase.REMOVE,)),
    ("prepare", (Phase.PREPARE,)),
    ("prime", (Phase.PRIME,)),
    ("paint", (Phase.CEILING, Phase.FIXTURES, Phase.WALLS, Phase.TRIM)),
    ("hang", (Phase.FINISH,)),
    ("clean up", (Phase.UNMASK, Phase.CLEAN)),
)


def day_by_day(schedule: Schedule) -> list[tuple[str, str]]:
    """Return each day on site and what is done on it: ("Day 1", "Study: cover and mask, prepare. Hall: prepare.")."""
    return rooms_and_verbs(schedule, lambda time: [f"Day {day}" for day in range(time.start_day, time.end_day + 1)])


def days_for_client(schedule: Schedule) -> list[tuple[str, str]]:
    """Return each day and what is done on it; in a long job each room and the days it is worked in."""
    days = day_by_day(schedule)
    rooms: dict[str, set[int]] = {}
    for task, time in zip(schedule.on_site, schedule.times, strict=True):
        if task.room:
            rooms.setdefault(task.room, set()).update(range(time.start_day, time.end_day + 1))
    if len(days) <= MOST_DAYS or len(rooms) >= len(days):
        return days
    return [(f"{room[:1].upper()}{room[1:]}", _spans(sorted(worked))) for room, worked in rooms.items()]


def _spans(days: Sequence[int]) -> str:
    """Return days as spans: days 1 to 3, 5, and 7 to 9."""
    spans: list[list[int]] = []
    for day in days:
        if spans and day == spans[-1][1] + 1:
            spans[-1][1] = day
        else:
            spans.append([day, day])
    said = [str(first) if first == last else f"{first} to {last}" for first, last in spans]
    return f"{'day' if len(days) == 1 else 'days'} {listed_words(said)}"


def rooms_and_verbs(schedule: Schedule, when: Callable[[StepTime], Iterable[str]]) -> list[tuple[str, str]]:
    """Return what is done in which rooms at each time; `when` says at which times a step is worked on."""
    done: dict[str, dict[str, dict[str, None]]] = {}
    for task, time in zip(schedule.on_site, schedule.times, strict=True):
        verb = verb_of(task)
        for each in when(time):
            rooms = done.setdefault(each, {})
            if task.room and verb:
                rooms.setdefault(task.room, {})[verb] = None
    return [(each, _rooms(rooms)) for each, rooms in done.items()]


def verb_of(task: Task) -> str:
    """Return what a task does, in the words of a proposal; nothing where it is not told."""
    return next((verb for verb, phases in VERBS if task.phase in phases), "")


def _rooms(rooms: dict[str, dict[str, None]]) -> str:
    alike: dict[tuple[str, ...], list[str]] = {}
    for room, verbs in rooms.items():
        alike.setdefault(tuple(verbs), []).append(room)
    said = [f"{listed_words(names)}: {', '.join(verbs)}" for verbs, names in alike.items()]
    return " ".join(f"{each[:1].upper()}{each[1:]}." for each in said)
