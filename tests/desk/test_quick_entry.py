"""Lines of site notes as rooms and work, and the same said again; what is not understood comes back."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from estimating.desk import rooms
from estimating.desk.quick_entry import read_line, read_size
from estimating.desk.to_do import said
from estimating.errors import InputError
from estimating.records.business import read_business, usual_job
from estimating.workbook import build_job, estimate_job

NOTES = """\
bed 1: 12' x 11'6" x 8'; 2 doors, 1 window; walls, ceiling, baseboard
bed 2: 14' x 12' less 4' x 3' x 8'; 2 doors, 1 window; walls, ceiling, baseboard, doors
hall: 12 x 4 x 8; 1 door; walls 2 coats, baseboard, popcorn ceiling painted twice"""


@pytest.fixture
def house(tmp_path: Path) -> Mapping[str, Any]:
    found: Mapping[str, Any] = read_business(tmp_path / "records.sqlite")["house"]
    return found


def job(house: Mapping[str, Any], text: str = NOTES) -> dict[str, Any]:
    """Return a job of these lines."""
    made, unclear, _ = rooms.with_lines({"title": "t", "rooms": [], "work": []}, text, house, "ft")
    assert unclear == []
    return made


def test_lines_become_rooms_and_work_that_can_be_priced(house: Mapping[str, Any]) -> None:
    """Sizes, an L shape, counts and what is to be done, all from the words; bare numbers are feet."""
    made = job(house)
    built = build_job(made)
    assert [room.name for room in built.rooms] == ["bed 1", "bed 2", "hall"]
    assert built.rooms[1].shape.kind == "l_shape"
    assert [said(rooms.work_in(made, room.name)) for room in built.rooms] == [
        "walls, ceiling, baseboard",
        "walls, ceiling, baseboard, doors",
        "walls, baseboard, popcorn ceiling",
    ]
    assert estimate_job(built).estimate.price > 0


@pytest.mark.parametrize("words", ["walls", "walls, crown, windows", "popcorn ceiling", "walls, wallpaper", ""])
def test_what_is_said_is_read_back_as_the_same(house: Mapping[str, Any], words: str) -> None:
    """The To do column says what was typed into it."""
    made = rooms.changed(job(house), "r0", "to_do", words, house, "ft")
    assert sorted(said(rooms.work_in(made, "bed 1")).split(", ")) == sorted(words.split(", "))


def test_a_pattern_and_its_wall_are_read(house: Mapping[str, Any]) -> None:
    """A half drop of 64 cm on a wall of 12 feet."""
    line = read_line("study: 10' x 12' x 8'; wallpaper 64 cm half drop on 12' wall", house)
    (paper,) = line.work
    assert paper["goods"] == {"match": "half drop", "repeat": "64 cm"}
    assert paper["walls"][0]["width"] == "12'"


@pytest.mark.parametrize("line", ["den: 10 x; walls", "den: 10' x 12'; a moat", "den: walls", "den"])
def test_what_is_not_understood_comes_back_marked(house: Mapping[str, Any], line: str) -> None:
    """Nothing is guessed and nothing is dropped: the line stands where it was typed, with what is wrong in it."""
    made, unclear, count = rooms.with_lines({"title": "t"}, line, house, "ft")
    assert count == 0
    assert made.get("rooms", []) == []
    assert unclear[0].startswith(f"{line}  ←")


def test_words_about_trim_change_only_what_they_name(house: Mapping[str, Any]) -> None:
    """Doors already noted stay as they are noted; a door of two sides is not made one of one side."""
    made = rooms.changed(job(house), "r0", "to_do", "walls, doors", house, "ft")
    made["work"][0]["trim"]["doors"][0]["sides"] = 2
    made = rooms.changed(made, "r0", "to_do", "walls, baseboard, doors", house, "ft")
    trim = rooms.work_in(made, "bed 1")[0]["trim"]
    assert trim["doors"][0]["sides"] == 2
    assert trim["runs"] == [{"kind": "base"}]


def test_a_room_takes_its_work_along(house: Mapping[str, Any]) -> None:
    """Renamed, copied and removed, room and work stay together."""
    made = rooms.changed(job(house), "r0", "name", "big room", house, "ft")
    made = rooms.copied(made, "r0")
    assert [room["name"] for room in made["rooms"]] == ["big room", "big room 2", "bed 2", "hall"]
    assert said(rooms.work_in(made, "big room 2")) == said(rooms.work_in(made, "big room"))
    made = rooms.removed(made, "r0")
    assert rooms.work_in(made, "big room") == []
    build_job(made)


@pytest.mark.parametrize(("column", "text"), [("name", "hall"), ("name", ""), ("size", "12"), ("door", "many")])
def test_a_cell_that_cannot_be_read_is_refused(house: Mapping[str, Any], column: str, text: str) -> None:
    """With what would be right, and the job stays."""
    before = job(house)
    with pytest.raises(InputError):
        rooms.changed(before, "r0", column, text, house, "ft")
    assert before == job(house)


def test_cells_are_pasted_from_where_the_cursor_stands(house: Mapping[str, Any]) -> None:
    """Further lines make further rooms; a cell that cannot be read is named."""
    made, bad = rooms.with_cells(job(house), "r2", "name", "den\t9 x 9\nattic\tzz", house, "ft")
    assert [room["name"] for room in made["rooms"]] == ["bed 1", "bed 2", "den", "attic"]
    assert list(bad) == ["r3"]


def test_doors_are_counted_up_and_down(house: Mapping[str, Any]) -> None:
    """Doors of another size that were noted stay."""
    made = job(house)
    next(each for each in made["rooms"][0]["openings"] if each["kind"] == "door")["width"] = "36 in"
    for count in ("3", "1"):
        made = rooms.changed(made, "r0", "door", count, house, "ft")
    doors = [each for each in made["rooms"][0]["openings"] if each["kind"] == "door"]
    assert doors == [{"kind": "door", "width": "36 in", "height": "80 in", "count": 1}]


@pytest.mark.parametrize("text", ["12", "12 x", "12 x 10 x 8 x 7", "12' x 10' less 3'"])
def test_a_size_needs_its_sides(text: str) -> None:
    """Anything else is refused."""
    with pytest.raises(InputError):
        read_size(text)


def test_a_new_job_has_nothing_of_a_demo(tmp_path: Path) -> None:
    """Crew and terms of the business, and no more."""
    usual = usual_job(read_business(tmp_path / "records.sqlite"))
    assert set(usual) == {"crew", "terms"}
