"""Jobs in hand: states in a folder, wins, weeks promised, and open jobs priced again."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from places import JOBS

from estimating.business import main
from estimating.errors import RecordsError
from estimating.evidence import OwnValue
from estimating.job.file import plain_job
from estimating.records.jobs_folder import filed_jobs, set_state
from estimating.records.my_jobs import begin
from estimating.records.sitting import Kept
from estimating.review.in_hand import JobInHand, by_week, wins, wins_by
from estimating.review.reprice import repriced
from estimating.workbook import estimate_job, read_job

ON = date(2026, 3, 2)
CEILING, STUDY = "alder_row_sitting_room", "quarry_lane_study"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with two job files, the first of them sent, and a job of the desk."""
    for name in (CEILING, STUDY):
        (tmp_path / f"{name}.toml").write_text((JOBS / f"{name}.toml").read_text("utf-8"), "utf-8")
    set_state(tmp_path, CEILING, "sent", ON)
    return tmp_path


def states(folder: Path) -> Mapping[str, str]:
    return {each.name: each.state for each in filed_jobs(folder)}


def test_a_job_file_is_a_draft_until_it_is_told_otherwise(folder: Path) -> None:
    """States are kept beside the files and leave the files as they are."""
    assert states(folder) == {CEILING: "sent", STUDY: "draft"}
    set_state(folder, CEILING, "paid", ON)
    assert states(folder)[CEILING] == "paid"
    assert (folder / f"{CEILING}.toml").read_text("utf-8") == (JOBS / f"{CEILING}.toml").read_text("utf-8")


def test_a_job_of_the_desk_keeps_its_own_state(tmp_path: Path) -> None:
    """What is marked at a terminal is what the desk shows."""
    job = plain_job(read_job(JOBS / f"{STUDY}.toml"))
    sitting = begin(tmp_path / "records.sqlite", Kept(job=job))
    set_state(sitting.path.parent, sitting.path.stem, "won", ON)
    assert states(sitting.path.parent) == {sitting.path.stem: "won"}


def test_no_such_job_or_state_is_refused(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In words, with the states there are."""
    assert main(["mark", str(folder), "nothing", "won"]) == 2
    assert main(["mark", str(folder), STUDY, "eaten"]) == 2
    said = capsys.readouterr().err
    assert "has no job called nothing" in said
    assert "draft, sent, won, lost, done, paid" in said


def test_a_torn_file_is_named_and_stops_nothing(folder: Path) -> None:
    """The others are priced all the same."""
    (folder / "torn.toml").write_text("title = ", "utf-8")
    found = {each.name: each for each in repriced(folder, {}, {})}
    assert found["torn"].problem
    assert found[STUDY].after > 0


def test_states_that_nobody_can_read_are_refused(folder: Path) -> None:
    """A state that is none is not passed over."""
    (folder / "states.csv").write_text("job,state,day\na.toml,eaten,2026-03-02\n", "utf-8")
    with pytest.raises(RecordsError, match="eaten"):
        list(filed_jobs(folder))


def job(state: str, **fields: object) -> JobInHand:
    given: dict[str, object] = {"kind": "repaint", "price": Decimal(2000), "hours": 30.0, "days": 3, "start": None}
    return JobInHand("name", "title", state, **{**given, **fields})  # type: ignore[arg-type]


def test_a_win_rate_counts_what_is_decided() -> None:
    """Drafts and jobs that wait for an answer are no losses; what is done or paid was won."""
    jobs = [job("draft"), job("sent"), job("won"), job("paid"), job("done"), job("lost", price=Decimal(9000))]
    assert (wins(jobs).won, wins(jobs).decided) == (3, 4)
    by_size = wins_by(jobs, "size")
    assert (by_size["over $5,000"].won, by_size["over $5,000"].decided) == (0, 1)
    assert wins([job("sent")]).rate is None


def test_hours_go_to_the_weeks_they_are_worked_in() -> None:
    """From Thursday, March 5: two of four days in that week and two in the next, none on a weekend."""
    weeks = by_week([job("won", hours=40.0, days=4, start=date(2026, 3, 5)), job("sent")], people=2, day_length=8)
    assert [(each.monday, each.promised, each.there_are) for each in weeks] == [
        (date(2026, 3, 2), 20.0, 80.0),
        (date(2026, 3, 9), 20.0, 80.0),
    ]


def test_open_jobs_are_priced_again_and_others_left_alone(folder: Path) -> None:
    """Before and after are those of the job priced by itself, and one change moves what it moves alone."""
    set_state(folder, STUDY, "won", ON)
    wage = {"business/wage": OwnValue(31, "dollar/hour")}
    [found] = repriced(folder, {}, wage)
    job_ = read_job(JOBS / f"{CEILING}.toml")
    assert (found.before, found.after) == (
        estimate_job(job_).estimate.price,
        estimate_job(job_, own=wage).estimate.price,
    )
    assert found.moved is not None
    assert found.moved["business/wage"] == found.change > 0
    assert 0 < found.cost_low < found.cost_high


def test_from_a_terminal(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In hand and priced again, with a table for a spreadsheet."""
    assert main(["in-hand", str(folder), "--people", "2"]) == 0
    assert "none yet: no job is decided" in capsys.readouterr().out
    table = folder / "out.csv"
    asked = ["reprice", str(folder), "--own", "business/wage=31", "--own", "business/markup=40 %", "--csv", str(table)]
    assert main(asked) == 0
    said = capsys.readouterr().out
    assert "2 open jobs" in said
    assert "business/markup: +" in said
    rows = list(csv.DictReader(table.read_text("utf-8").splitlines()))
    assert [row["job"] for row in rows] == [CEILING, STUDY]
    assert all(Decimal(row["after"]) - Decimal(row["before"]) == Decimal(row["change"]) for row in rows)


def test_a_value_that_cannot_be_meant_is_refused(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A wage of 3,100 dollars, and a row there is none of."""
    assert main(["reprice", str(folder), "--own", "business/wage=3100"]) == 2
    assert main(["reprice", str(folder), "--own", "business/wages=31"]) == 2
    assert "such as business/wage=31" in capsys.readouterr().err
