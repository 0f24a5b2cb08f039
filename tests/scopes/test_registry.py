"""The kinds of work are found by their folders, and each hands over what the protocol asks."""

from __future__ import annotations

from pathlib import Path

import pytest
from layers import kinds_of_work, read_package
from places import JOBS, ROOT

from estimating.evidence import load_library
from estimating.job.model import WorkNotes
from estimating.review.parse_actuals import field_tests
from estimating.review.release_terms import history_classes, prior_address
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.registry import JOB, KINDS
from estimating.workbook import build_job, estimate_job, read_job

ROOM = {"name": "den", "shape": {"kind": "rectangle", "length": "12 ft", "width": "10 ft"}, "height": "8 ft"}


def test_every_folder_is_a_kind_of_work_under_the_word_of_its_notes() -> None:
    """No list has to be kept: a folder with a `kind.py` is enough."""
    assert set(KINDS) == set(kinds_of_work(read_package(ROOT / "estimating")))
    assert all(key == kind.key for key, kind in KINDS.items())


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.key)
def test_the_notes_of_a_kind_are_work_notes_with_a_word_of_their_own(kind: KindOfWork) -> None:
    """The job model takes each kind by its word; its notes know room and method like all others."""
    assert issubclass(kind.notes, WorkNotes)
    assert {"kind", "room", "method"} <= set(kind.notes.model_fields)


def test_a_word_that_is_no_kind_is_refused_with_those_there_are() -> None:
    """The complaint lists every kind that was found."""
    with pytest.raises(ValueError, match="kind") as caught:
        build_job({"title": "a den", "rooms": [ROOM], "work": [{"kind": "gilding", "room": "den"}]})
    assert all(f"'{key}'" in str(caught.value) for key in KINDS)


@pytest.mark.parametrize("path", sorted(JOBS.glob("[abq]*.toml")), ids=lambda path: path.stem)
def test_a_job_is_of_the_model_made_of_the_kinds_and_may_be_drawn(path: Path) -> None:
    """One drawing at least of each demo job, in the order of the work."""
    job = read_job(path)
    assert isinstance(job, JOB)
    assert estimate_job(job).drawings


def test_field_tests_and_classes_of_history_come_from_the_kinds() -> None:
    """What can be typed about a finished job is what some kind hands over, and each class of history has its row."""
    library = load_library()
    assert field_tests() == tuple(each for kind in KINDS.values() for each in kind.field_tests)
    classes = history_classes(library)
    assert classes
    assert all(library.has(prior_address(each, library)) for each in classes)
    assert prior_address("gilded", library) == ""
