"""Terms of a job file: read as typed, refused with the field, kept through a round trip."""

from __future__ import annotations

import re

import pytest
from places import JOBS

from estimating.errors import InputErrors
from estimating.job.file import dump_job
from estimating.job.terms import Terms
from estimating.workbook import parse_job

DEMO = (JOBS / "alder_row_sitting_room.toml").read_text(encoding="utf-8")


def with_terms(text: str) -> str:
    return f"{DEMO}\n[terms]\n{text}\n"


def test_a_job_without_terms_has_none_of_them() -> None:
    """Everything is unknown, so that the papers take their usual wording."""
    assert parse_job(DEMO).terms == Terms()
    assert set(Terms().model_dump().values()) == {None}


@pytest.mark.parametrize(
    "text",
    [
        'dated = "2026-05-04"',
        "dated = 2026-05-04",
        'change_rate = "$75"',
        'change_rate = "75 dollar/hour"',
        "validity_days = 0",
        'exclusions = "attic; none of the closets"',
        'show_range = "yes"',
        'warranty = "unknown"',
    ],
)
def test_terms_survive_writing_and_reading(text: str) -> None:
    """What was typed comes back as it was typed."""
    job = parse_job(with_terms(text))
    assert parse_job(dump_job(job)) == job


@pytest.mark.parametrize("typed", ["$75", "75", "$75/h", "75 dollar/hour", "1.25 dollar/minute"])
def test_a_rate_is_read_however_it_is_written(typed: str) -> None:
    """Dollars an hour, with or without the sign."""
    rate = parse_job(with_terms(f'change_rate = "{typed}"')).terms.change_rate
    assert rate is not None
    assert rate.value == pytest.approx(75)
    assert rate.text == typed


@pytest.mark.parametrize(
    ("text", "field", "needed"),
    [
        ('dated = "soon"', "terms · dated", "a date such as"),
        ('start_latest = "2026-13-01"', "terms · start_latest", "a date such as"),
        ('change_rate = "a lot"', "terms · change_rate", "a number"),
        ('change_rate = "75 ft"', "terms · change_rate", "converts to dollar/hour"),
        ("validity_days = -1", "terms · validity_days", "0 or more"),
        ('show_range = "maybe"', "terms · show_range", "'yes' or 'no'"),
        ('waranty = "two years"', "terms · waranty", "misspelt"),
    ],
)
def test_a_wrong_term_is_named_with_what_it_needs(text: str, field: str, needed: str) -> None:
    """The field, what was seen, and what would be right."""
    with pytest.raises(InputErrors, match=f"{re.escape(field)}.*{re.escape(needed)}"):
        parse_job(with_terms(text))
