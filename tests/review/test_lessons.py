"""What the records teach, and what it would do to the estimates that are open; on the invented history."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from estimating.evidence import OwnValue, load_library
from estimating.learning.rates import Learned
from estimating.records.actuals import Release, add_release, list_actuals, list_releases
from estimating.records.own import keep_own, own_table
from estimating.records.sent import list_estimates, save_job, send_estimate
from estimating.records.store import Records, open_records
from estimating.review.example import JOBS, NAME, TODAY, invented_history
from estimating.review.lessons import Lesson, effects, lessons
from estimating.review.save_actuals import open_estimates

ROLL = "production/roll_ceiling/roll/popcorn"
LIBRARY = load_library()


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return invented_history(tmp_path_factory.mktemp("history") / "records" / NAME)


@pytest.fixture
def path(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(made, tmp_path / NAME))


@pytest.fixture
def records(path: Path) -> Iterator[Records]:
    with open_records(path) as opened:
        yield opened


def _about(found: tuple[Lesson, ...], key: str) -> Lesson:
    return next(each for each in found if each.row.key == key)


def test_the_history_is_invented_and_says_so(records: Records) -> None:
    """Ten jobs, each marked; eight have actuals, and two are open."""
    sent = list_estimates(records)
    assert len(sent) == len(JOBS) == 10
    assert all("invented = true" in each.job.toml for each in sent)
    assert {each.note for each in list_actuals(records)} == {"invented for the demo"}
    assert len({each.estimate_id for each in list_actuals(records)}) == 8
    assert [each.job.name for each in open_estimates(records)] == [past.title for past in JOBS if past.done is None]


def test_the_history_is_the_same_each_time(made: Path, tmp_path: Path) -> None:
    """Days and seed are fixed, so that two makings hold the same to the last digit."""
    again = invented_history(tmp_path / NAME)

    def dump(path: Path) -> list[str]:
        with sqlite3.connect(path) as connection:
            lines = list(connection.iterdump())
        connection.close()
        return lines

    assert dump(again) == dump(made)


def test_a_history_that_is_there_is_left_alone(path: Path) -> None:
    """Opening the example again does not undo what was tried out in it; nothing else is left in the folder."""
    keep_own(path, LIBRARY.row("production", "roll_ceiling", "roll", "popcorn"), OwnValue(80.0, "ft**2/hour", 60, 100))
    assert invented_history(path) == path
    assert ROLL in own_table(path, LIBRARY).values
    assert [each.name for each in path.parent.iterdir()] == [NAME]


def test_rates_and_chances_are_proposed_the_farthest_move_first(records: Records) -> None:
    """A habit of the invented contractor is found: rolling takes two fifths longer, so the rate falls."""
    found = lessons(records, LIBRARY, {}, TODAY)
    rolled = _about(found.proposals, ROLL)
    assert isinstance(rolled, Learned)
    assert rolled.own < rolled.likely < 90  # what it took, drawn toward the table
    assert rolled.low < 90 / 1.4 < rolled.high
    assert rolled.text.startswith("from memory, not checked 90 → yours ")
    assert rolled.n == 12
    moves = [each.likely / each.row.likely for each in found.proposals]
    assert max(moves[0], 1 / moves[0]) >= max(moves[-1], 1 / moves[-1])
    assert "1 of 3 failed" in _about(found.proposals, "release/prior/painted_once_unknown_primer/probability").text
    assert {each.reason for each in found.left_out} == {"got '', needs a line that rests on one reference row"}


def test_what_was_accepted_is_not_proposed_again(path: Path) -> None:
    """With the own value standing there is nothing new to ask; a range that moved is."""
    with open_records(path) as records:
        rolled = _about(lessons(records, LIBRARY, {}, TODAY).proposals, ROLL)
        own = {ROLL: rolled.own_value(TODAY)}
        keys = [each.row.key for each in lessons(records, LIBRARY, own, TODAY).proposals]
        assert ROLL not in keys
        wider = {ROLL: replace(own[ROLL], high=rolled.high * 1.2)}
        assert _about(lessons(records, LIBRARY, wider, TODAY).proposals, ROLL)


def test_a_chance_of_ones_own_is_not_proposed_again(records: Records) -> None:
    """The class of history is learned like a rate, and stands once it was accepted; without a range it is news."""
    key = "release/prior/looks_unpainted/probability"
    chance = _about(lessons(records, LIBRARY, {}, TODAY).proposals, key)
    value = chance.own_value(TODAY)
    for own, proposed in ((value, False), (replace(value, low=None, high=None), True)):
        assert (key in [each.row.key for each in lessons(records, LIBRARY, {key: own}, TODAY).proposals]) is proposed


def test_a_class_of_history_that_is_gone_is_said(records: Records) -> None:
    """A release of an unknown class is not dropped in silence."""
    add_release(records, replace(list_releases(records)[0], id=None, history="whitewashed"))
    left = lessons(records, LIBRARY, {}, TODAY).left_out
    assert "release · whitewashed" in [each.what for each in left]


def test_open_estimates_are_walked_through_anew_before_anything_is_accepted(records: Records) -> None:
    """Rolling slower makes the rolled ceilings dearer; nothing is written by looking."""
    rolled = _about(lessons(records, LIBRARY, {}, TODAY).proposals, ROLL)
    seen = effects(open_estimates(records), LIBRARY, {}, rolled, TODAY)
    assert [each.sent for each in seen] == [each.now.price for each in seen if each.now]
    assert all(each.then and each.now and each.then.price > each.now.price for each in seen)
    assert own_table(records.path, LIBRARY).values == {}


def test_a_job_that_can_no_longer_be_priced_is_said(records: Records) -> None:
    """A file of an older version spoils only its own line."""
    save_job(records, "old", "title = 'old'\nrooms = []\nwork = []\nattic = 'x'")
    sent = send_estimate(records, "old", price=Decimal(100), lines=[], assumptions=[])
    rolled = _about(lessons(records, LIBRARY, {}, TODAY).proposals, ROLL)
    (effect,) = effects([sent], LIBRARY, {}, rolled, date(2026, 6, 2))
    assert effect.now is None
    assert "attic" in effect.problem


def test_a_release_without_a_word_is_still_counted(records: Records) -> None:
    """The chance of a class moves when a ceiling of that class comes down."""
    before = _about(lessons(records, LIBRARY, {}, TODAY).proposals, "release/prior/looks_unpainted/probability")
    kept = next(each for each in list_releases(records) if each.history == "looks_unpainted")
    add_release(records, Release(kept.job, kept.history, kept.method, kept.odds, 100.0, 5.0, 2.0, TODAY))
    after = _about(lessons(records, LIBRARY, {}, TODAY).proposals, "release/prior/looks_unpainted/probability")
    assert after.likely > before.likely
