"""The days of a job as a calendar: a week of working days beside one another, a line a room."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from estimating.estimate.pricing.site_days import Schedule
from estimating.reports.documents.by_day import verb_of

WEEK = 5  # working days in a row of the calendar
Days = dict[int, dict[str, dict[str, None]]]  # by day and room, what is done there, each once


def calendar(schedule: Schedule) -> str:
    """Return the weeks of the job: in which room which work goes on on which day."""
    days = _days(schedule)
    return "".join(_week(days, list(week)) for week in _weeks(days))


def _days(schedule: Schedule) -> Days:
    days: Days = {}
    for task, time in zip(schedule.on_site, schedule.times, strict=True):
        verb = verb_of(task)
        for day in range(time.start_day, time.end_day + 1) if task.room and verb else ():
            days.setdefault(day, {}).setdefault(task.room, {})[verb] = None
    return days


def _weeks(days: Days) -> Iterator[range]:
    for first in range(1, max(days, default=0) + 1, WEEK):
        yield range(first, min(first + WEEK, max(days) + 1))


def _week(days: Days, week: list[int]) -> str:
    rooms = dict.fromkeys(room for day in week for room in days.get(day, {}))
    head = "".join(f'<th scope="col">Day {day}</th>' for day in week)
    body = "".join(_line(room, days, week) for room in rooms)
    title = f"Days {week[0]} to {week[-1]}" if len(week) > 1 else f"Day {week[0]}"
    top = f'<caption>{title}</caption><thead><tr><th scope="col">Room</th>{head}</tr></thead>'
    return f'<table class="pe-table pe-week">{top}<tbody>{body}</tbody></table>'


def _line(room: str, days: Days, week: list[int]) -> str:
    cells = "".join(_cell(days.get(day, {}).get(room, {})) for day in week)
    return f'<tr><th scope="row">{escape(room)}</th>{cells}</tr>'


def _cell(done: dict[str, None]) -> str:
    return f'<td class="pe-at-work">{escape(", ".join(done))}</td>' if done else "<td></td>"
