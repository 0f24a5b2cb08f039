"""Site notes of walls to be papered: what may stay open, what is refused, and where the complaint is put."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from typing import Any

import pytest
from places import JOBS

from estimating.errors import InputErrors
from estimating.job.file import dump_job
from estimating.scopes.kinds.wallcovering.notes import Wallcovering
from estimating.workbook import build_job, parse_job, read_job

DEMO = JOBS / "quarry_lane_study.toml"
Change = Callable[[dict[str, Any]], None]


def changed(change: Change) -> dict[str, Any]:
    plain = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    change(plain["work"][0])
    return plain


def item_of(plain: dict[str, Any]) -> Wallcovering:
    (item,) = build_job(plain).work
    assert isinstance(item, Wallcovering)
    return item


def test_the_demo_is_invented_and_goes_through_a_file_unchanged() -> None:
    """What is read, written and read again is the same job."""
    job = read_job(DEMO)
    assert job.invented
    assert parse_job(dump_job(job)) == job


def test_nothing_but_walls_has_to_be_answered() -> None:
    """A room's name and one wall are enough; every other answer is unknown, and none of them is zero."""
    plain = changed(lambda item: None)
    plain["work"] = [{"kind": "wallcovering", "room": "study", "walls": [{"name": "a", "width": "9 ft"}]}]
    item = item_of(plain)
    assert item.walls[0].openings is None
    assert item.goods.spare is None
    assert item.existing.covering is None
    assert item.obstacles is None


def test_no_covering_is_an_answer_and_unknown_is_not() -> None:
    """`none` says that somebody looked; `unknown` that nobody did."""
    none = item_of(changed(lambda item: item["existing"].update(covering="none", layers=0)))
    unknown = item_of(changed(lambda item: item["existing"].update(covering="unknown")))
    assert none.existing.covering == "none"
    assert unknown.existing.covering is None


@pytest.mark.parametrize(("typed", "dollars"), [(48, 48.0), ("$48.50", 48.5), ("1,048 dollar", 1048.0), ("0", 0.0)])
def test_a_price_is_read_as_people_write_it(typed: object, dollars: float) -> None:
    """A number, with or without its sign."""
    assert item_of(changed(lambda item: item["goods"].update(price=typed))).goods.price == dollars


def put(part: str, **fields: object) -> Change:
    return lambda item: item[part].update(fields)


def opening(**fields: object) -> Change:
    return lambda item: item["walls"][2]["openings"][0].update(fields)


@pytest.mark.parametrize(
    ("change", "field", "needed"),
    [
        (put("goods", width="53 rolls"), "width", "a length as a tape reads it"),
        (put("goods", width="53"), "width", "0.2 ft to 14 ft"),
        (put("goods", repeat="2 gallons"), "repeat", "a length as a tape reads it"),
        (put("goods", price="48 ft"), "price", "dollars"),
        (put("goods", price="-1"), "price", "dollars"),
        (put("goods", price="inf"), "price", "dollars"),
        (put("goods", price="unknown"), "price", "what a roll costs"),
        (put("goods", sold_by=0), "sold_by", "1 or more"),
        (put("goods", match="sideways"), "match", "half drop"),
        (put("goods", color="green"), "color", "misspelt"),
        (put("existing", layers=0), "layers", "1 or more layers of paper"),
        (opening(sill="unknown"), "sill", "how far the lower edge of the window is up"),
        (opening(sill="7 ft"), "head", "more than the sill at 7 ft"),
        (lambda item: item["walls"][1].update(name="desk wall"), "walls", "a different name"),
        (lambda item: item.update(start="north wall"), "start", "one of the walls: door wall"),
        (lambda item: item.update(walls=[]), "walls", "1 or more"),
    ],
)
def test_what_cannot_be_is_refused_at_its_place(change: Change, field: str, needed: str) -> None:
    """The complaint names the field and says what would be right; the place leads a form to it."""
    with pytest.raises(InputErrors) as raised:
        build_job(changed(change))
    (problem,) = raised.value.problems
    assert field in problem.field
    assert needed in problem.needed
    assert field in problem.location
