"""Jobs for the papers: the invented demo job with a few things changed, and papers as a reader sees them."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from html import unescape
from pathlib import Path
from typing import Any

from places import JOBS

from estimating.workbook import Outcome, build_job, estimate_job

CEILING = JOBS / "alder_row_sitting_room.toml"
REPAINT = JOBS / "birch_lane_upstairs.toml"
STUDY = JOBS / "quarry_lane_study.toml"
NASTY = '<script>alert("1")</script>'
Change = Callable[[dict[str, Any]], None]


def as_it_is(job: dict[str, Any]) -> None:
    """Change nothing."""


def made(change: Change = as_it_is, path: Path = CEILING) -> Outcome:
    """Return the outcome of a demo job after a change to its plain values."""
    plain = tomllib.loads(path.read_text(encoding="utf-8"))
    change(plain)
    return estimate_job(build_job(plain))


def with_work(**fields: Any) -> Change:
    """Return the change that sets fields of the one item of work."""
    return lambda job: job["work"][0].update(fields)


def with_terms(**fields: Any) -> Change:
    """Return the change that sets terms."""
    return lambda job: job.update(terms=fields)


def with_own(own: Mapping[str, tuple[float, str]]) -> Change:
    """Return the change that sets own figures."""
    return lambda job: job.update(own={key: {"likely": value, "unit": unit} for key, (value, unit) in own.items()})


def read(paper: str) -> str:
    """Return the words of a paper: no style, no tags, white space as one blank."""
    body = re.sub(r"<(style|title)>.*?</\1>", " ", paper, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", body)).split())
