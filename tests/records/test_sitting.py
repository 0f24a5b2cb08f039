"""A job being worked on: every step on disk, back and forth again, and never half a file."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from places import JOBS

from estimating.errors import RecordsError
from estimating.records.business import check_business, is_known, keep_business, read_business, usual_job
from estimating.records.my_jobs import (
    copy_job,
    demo_jobs,
    last_open,
    my_jobs,
    new_job,
    open_file,
    open_own,
    remember,
)
from estimating.records.sitting import Kept, Sitting, dumped, loaded, open_sitting

DEMO = JOBS / "birch_lane_upstairs.toml"
VALUES = st.recursive(
    st.text(max_size=4) | st.integers(0, 9),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text("ab", min_size=1, max_size=2), inner, max_size=3)
    ),
    max_leaves=8,
)
JOB = st.dictionaries(st.text("abc", min_size=1, max_size=2), VALUES, max_size=4)


@pytest.fixture
def records(tmp_path: Path) -> Path:
    return tmp_path / "records" / "records.sqlite"


def test_every_step_is_on_disk_when_it_is_taken(tmp_path: Path) -> None:
    """Whoever opens the file afterwards has all of it, and can go back."""
    path = tmp_path / "jobs" / "one.json"
    sitting = Sitting(path, Kept({"title": "a"}))
    sitting.change({"title": "b"}, "title")
    assert open_sitting(path).job == {"title": "b"}
    sitting.change({"title": "b", "rooms": [{"name": "x"}]}, "room")
    again = open_sitting(path)
    assert (again.undo(), again.undo(), again.undo()) == ("room", "title", "")
    assert again.job == {"title": "a"}
    assert (again.redo(), again.redo(), again.redo()) == ("title", "room", "")
    assert open_sitting(path).job == sitting.job


@given(st.lists(JOB, min_size=1, max_size=6))
def test_undo_leads_back_through_any_jobs_and_redo_forth(jobs: list[dict[str, object]]) -> None:
    """Whatever was typed in whatever order."""
    held = Kept(jobs[0])
    sitting = Sitting(Path("nowhere"), held)
    sitting._write = lambda kept, now="": setattr(sitting, "kept", kept)  # type: ignore[method-assign]
    for job in jobs[1:]:
        sitting.change(job, "step")
    assert sitting.job == jobs[-1]
    while sitting.undo():
        pass
    assert sitting.job == jobs[0]
    while sitting.redo():
        pass
    assert sitting.job == jobs[-1]


def test_what_is_written_is_read_back(tmp_path: Path) -> None:
    """Steps that take something away too."""
    path = tmp_path / "one.json"
    sitting = Sitting(path, Kept({"own": {"a": 1}, "rooms": [1, 2]}, state="sent"))
    sitting.change({"own": {}, "rooms": [2]}, "less")
    assert loaded(path) == sitting.kept
    assert dumped(loaded(path)) == path.read_text(encoding="utf-8")


def test_a_file_that_cannot_be_read_is_said_and_does_not_stop_the_list(records: Path) -> None:
    """It is listed as such and is not written over."""
    one = new_job(records, {}, "One")
    (one.path.parent / "torn.json").write_text('{"format": 1, "job": {', encoding="utf-8")
    assert [row.state for row in my_jobs(records)] == ["draft", "cannot be read"]
    with pytest.raises(RecordsError):
        open_own(records, "torn")


def test_a_write_that_fails_is_said_and_what_was_typed_stays(records: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the reason; the file on disk is whole as it was."""
    sitting = new_job(records, {}, "One")
    before = sitting.path.read_text(encoding="utf-8")

    def full(_path: Path, _text: str) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("estimating.records.sitting.write_aside", full)
    with pytest.raises(RecordsError, match="NOT SAVED"):
        sitting.change({"title": "Two"}, "title")
    assert sitting.job == {"title": "Two"}
    assert sitting.path.read_text(encoding="utf-8") == before


def test_no_job_is_written_over_another(records: Path) -> None:
    """A second job of one title has a file of its own."""
    paths = {new_job(records, {}, "Maple Street").path for _ in range(3)}
    assert len(paths) == 3


def test_two_who_write_one_job_notice_each_other(records: Path) -> None:
    """The second is refused until it says whose is kept."""
    one = new_job(records, {}, "One")
    other = open_sitting(one.path)
    one.change({"title": "mine"}, "title")
    assert other.taken_elsewhere()
    with pytest.raises(RecordsError, match="another desk"):
        other.change({"title": "theirs"}, "title")
    other.keep_mine()
    assert open_sitting(one.path).job == {"title": "theirs"}
    one.take_theirs()
    assert one.job == {"title": "theirs"}


def test_a_demo_is_never_written_and_a_copy_has_nothing_invented_in_it(records: Path, tmp_path: Path) -> None:
    """The draft lies over it; the copy keeps rooms and work, and no household, client, address or mark."""
    path = tmp_path / "demo.toml"
    shutil.copy(DEMO, path)
    text = path.read_text(encoding="utf-8")
    demo = open_file(records, path)
    demo.change({**demo.job, "title": "changed"}, "title")
    assert path.read_text(encoding="utf-8") == text
    assert my_jobs(records) == []
    assert open_file(records, path).job["title"] == "changed"
    copy = copy_job(records, demo.kept, usual_job(read_business(records)))
    assert copy.job["invented"] is False
    assert "site" not in copy.job
    assert "client" not in copy.job
    assert copy.job["own"] == {}
    assert len(copy.job["rooms"]) == 3
    assert [row.title for row in my_jobs(records)] == ["Copy of changed"]


def test_a_job_file_opened_again_is_the_same_job(records: Path, tmp_path: Path) -> None:
    """Changed by another program meanwhile, what it holds now is one more step."""
    path = tmp_path / "own.toml"
    text = DEMO.read_text(encoding="utf-8").replace("invented = true", "invented = false")
    path.write_text(text, encoding="utf-8")
    first = open_file(records, path)
    assert open_file(records, path).path == first.path
    path.write_text(text.replace("5 Birch Lane", "7 Birch Lane"), encoding="utf-8")
    again = open_file(records, path)
    assert "7 Birch Lane" in again.job["title"]
    assert again.undo() == "job file read again"
    assert "5 Birch Lane" in again.job["title"]


def test_a_page_remembers_its_job(records: Path) -> None:
    """Each page its own; a job that is gone is forgotten."""
    one = new_job(records, {}, "One")
    remember(records, "start", one.path.stem)
    remember(records, "other", "gone")
    assert (last_open(records, "start"), last_open(records, "other"), last_open(records, "third")) == ("one", "", "")


def test_the_demos_are_the_invented_jobs_of_a_folder() -> None:
    """Every job file that ships is one."""
    assert len(demo_jobs(JOBS)) == len(list(JOBS.glob("*.toml")))


def test_a_business_is_typed_once_and_new_jobs_begin_with_it(records: Path) -> None:
    """Company, license and crew reach the terms of a new job; a first start has none of it."""
    business = read_business(records)
    assert not is_known(business)
    business |= {"company": "Maple Painting", "license": "L-1", "people": 3}
    keep_business(records, business)
    kept = read_business(records)
    assert is_known(kept)
    usual = usual_job(kept)
    assert usual["terms"]["contractor"] == "Maple Painting"
    assert usual["crew"]["people"] == 3


def test_a_business_with_a_wrong_field_is_refused_and_the_kept_one_stays(records: Path) -> None:
    """A usual height that is no height."""
    keep_business(records, {**read_business(records), "company": "Maple Painting"})
    wrong = read_business(records)
    wrong["house"] = {**wrong["house"], "height": "tall"}
    with pytest.raises(Exception, match="tall"):
        keep_business(records, wrong)
    assert read_business(records)["house"]["height"] == "8 ft"
    assert check_business({}).people == 1
