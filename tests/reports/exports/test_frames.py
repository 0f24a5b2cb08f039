"""The lines of an estimate as a table of pandas."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal
from typing import Any

import pytest
from places import JOBS

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.reports.exports.frames import lines_frame
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome, estimate_job, read_job

GALLON = 3.785411784  # liters; exact by definition (NIST Special Publication 811, 2008, appendix B.8)


@pytest.fixture(scope="module")
def priced() -> tuple[Outcome, EstimateRanges]:
    outcome = estimate_job(read_job(JOBS / "alder_row_sitting_room.toml"))
    return outcome, estimate_ranges(outcome.estimate, points=512)


def test_there_is_a_row_for_every_line_and_they_add_up(priced: tuple[Outcome, EstimateRanges]) -> None:
    """To the cent: grouping by section or room shares out the whole price and nothing else."""
    frame = lines_frame(*priced)
    estimate = priced[0].estimate
    assert list(frame["item"]) == [line.item for line in estimate.lines]
    assert [Decimal(f"{each:.2f}") for each in frame["cost, $"]] == [line.cost for line in estimate.lines]
    assert frame.groupby("section")["cost, $"].sum().sum() == pytest.approx(float(estimate.price), abs=0.001)


def test_numbers_are_numbers_and_their_units_stand_beside_them(priced: tuple[Outcome, EstimateRanges]) -> None:
    """Nothing has to be read out of words: hours can be added as they are."""
    frame = lines_frame(*priced)
    numbers = {"low", "likely", "high", "unit cost", "cost, $", "cost low, $", "cost high, $"}
    assert {name for name in frame.columns if frame[name].dtype.kind == "f"} == numbers
    labor = frame[frame["section"] == "labor"]
    assert set(labor["unit"]) == {"h"}
    assert set(labor["unit of cost"]) == {"$/h"}
    assert labor["likely"].sum() == pytest.approx(priced[0].estimate.hours.value)
    sure = priced[1].quantities[priced[0].estimate.lines[0]]
    assert (frame["low"][0], frame["high"][0]) == (sure.low, sure.high)


def test_paint_can_be_had_in_liters_and_money_stays(priced: tuple[Outcome, EstimateRanges]) -> None:
    """A quantity follows the units asked for."""
    us, metric = (lines_frame(*priced, shown) for shown in (UnitSystem.US, UnitSystem.METRIC))
    paint = us["section"] == "paint"
    assert set(us[paint]["unit"]) == {"gal"}
    assert set(metric[paint]["unit"]) == {"L"}
    assert list(metric[paint]["likely"]) == pytest.approx(list(us[paint]["likely"] * GALLON))
    assert list(metric["cost, $"]) == list(us["cost, $"])


def test_every_row_says_where_its_number_comes_from(priced: tuple[Outcome, EstimateRanges]) -> None:
    """And names the reference row that actual hours or gallons can correct, where there is one."""
    frame = lines_frame(*priced)
    assert (frame["origin"] != "").all()
    rows = set(frame["reference row"]) - {""}
    assert "production/roll_ceiling/roll/popcorn" in rows
    assert rows <= set(priced[0].basis.used())


def test_the_desk_and_the_terminal_start_without_pandas() -> None:
    """It is slow to import, and is waited for only where it is asked for."""
    seen = "import sys, estimating.desk.desk, estimating.__main__; sys.exit('pandas' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", seen], check=False).returncode == 0


def test_the_example_in_the_readme_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    """As it stands there, from the folder of the notebooks."""
    readme = (JOBS.parents[1] / "README.md").read_text(encoding="utf-8")
    example = readme.split("```python\n")[1].split("```")[0]
    *body, last = example.strip().splitlines()
    monkeypatch.chdir(JOBS.parent)
    found: dict[str, Any] = {}
    exec("\n".join([*body, f"answer = {last}"]), found)
    assert found["answer"].sum() == pytest.approx(float(found["outcome"].estimate.price), abs=0.001)
