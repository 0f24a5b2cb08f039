"""The re-lay of the house moves no number of a demo job."""

import json
from pathlib import Path
from typing import Any

import pytest
from snapshot import JOBS, numbers_of

STORED: dict[str, Any] = json.loads(Path(__file__).with_name("snapshot.json").read_text("utf-8"))


@pytest.mark.parametrize("job", sorted(STORED))
def test_no_number_of_a_demo_job_moves(job: str) -> None:
    """Lines, hours, gallons, prices of all ways are what they were before the first move."""
    assert numbers_of(JOBS / f"{job}.toml") == STORED[job]
