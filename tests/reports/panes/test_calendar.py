"""The days of a job as a calendar."""

from __future__ import annotations

import re

from places import JOBS

from estimating.reports.panes.calendar import WEEK, calendar
from estimating.workbook import estimate_job, read_job


def test_every_room_stands_on_the_days_it_is_worked_in() -> None:
    """A column a day on site and a line a room; a cell is filled just where a task of that room goes on."""
    schedule = estimate_job(read_job(JOBS / "birch_lane_upstairs.toml")).estimate.schedule
    drawn = calendar(schedule)
    days = [int(day) for day in re.findall(r">Day (\d+)</th>", drawn)]
    assert days == list(range(1, len(days) + 1))
    assert drawn.count("<table") == -(-len(days) // WEEK)
    at_work = {
        (task.room, day)
        for task, time in zip(schedule.on_site, schedule.times, strict=True)
        for day in range(time.start_day, time.end_day + 1)
        if task.room
    }
    assert drawn.count("pe-at-work") == len(at_work)
