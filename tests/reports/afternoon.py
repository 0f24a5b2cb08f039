"""The job of one afternoon as the desk makes it from four lines of notes, with its options."""

from __future__ import annotations

from typing import Any

from estimating.desk.rooms import with_lines
from estimating.records.business import Business, plain_business, usual_job
from estimating.workbook import Outcome, build_job, estimate_job

NOTES = """\
bed 1: 12' x 11'6" x 8'; 2 doors, 1 window; walls, ceiling, baseboard, doors
bed 2: 14' x 12' less 4' x 3' x 8'; 2 doors, 1 window; walls, ceiling, baseboard, doors
hall: 14' x 4' x 8'; 1 door; walls, baseboard, doors, popcorn ceiling painted twice
study: 11' x 10' x 8'; 1 window; wallpaper 64 cm half drop on 11' wall, baseboard"""
TERMS = {
    "contractor": "Maple Painting",
    "contractor_address": "12 Maple Street, Springfield",
    "contractor_contact": "555 010 0100",
    "license": "none",
    "warranty": "none",
    "round_up_to": 5,
    "start_earliest": "2026-05-11",
    "working_hours": "8 a.m. to 4:30 p.m., Monday to Friday",
    "stages": [
        {"when": "On signing", "percent": 10},
        {"when": "When the bedrooms are done", "percent": 40},
        {"when": "After the final walk-through", "percent": 50},
    ],
}
SITE = {"address": "5 Elm Street", "year_built": 1996, "occupied": "yes", "household": ["children", "works from home"]}
OPTIONS = [
    {"name": "One coat on the walls", "changes": {"work.0.walls.coats": 1, "work.1.walls.coats": 1}},
    {"name": "Bedrooms like new", "changes": {"work.0.preparation": "thorough", "work.1.preparation": "thorough"}},
    {"name": "Without the study", "leave_out": ["study"]},
]


def afternoon(options: int = 0, **terms: Any) -> Outcome:
    """Return the job with so many of its options."""
    business = plain_business(Business())
    job = {"title": "Maple Street 12", **usual_job(business), "rooms": [], "work": []}
    plain, left_over, _ = with_lines(job, NOTES, business["house"], "ft")
    assert not left_over, left_over
    plain["client"] = {"name": "A. Example"}
    plain["site"] = SITE
    plain["crew"]["people"] = 2
    plain["terms"] = {**plain["terms"], **TERMS, **terms}
    plain["option"] = OPTIONS[:options]
    return estimate_job(build_job(plain))
