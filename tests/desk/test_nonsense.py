"""Nonsense typed into fields of every type: answered in place, once; the last good price stays; nothing is lost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from estimating.desk.desk import Desk
from estimating.desk.form import Entry, Group, Kinds, Rows
from estimating.errors import Location
from estimating.records.business import read_business, usual_job
from estimating.records.my_jobs import new_job

NOTES = "bed: 12' x 10' x 8'; 2 doors, 1 window; walls, ceiling"
NEVER = [  # right in no field that holds a number
    *("banana", "<b>12</b>", "<script>alert(1)</script>", "'; drop table jobs; --", "{{7*7}}", "${7*7}", "=2+3"),
    *("__import__('os')", "../../etc/passwd", "NaN", "inf", "-inf", "1e999", "-3", "- 3 ft", "12 parsecs", "12 lb"),
    *(
        "½½",
        "1/0",
        "0x10",
        "1,2,3",
        "12'13'14",
        "ft",
        "''",
        '"',
        "\\",
        "%s%s",
        "\u202e21",
        "12\x00",
        "१२ फ़ुट",
        "🎨",
        "?",
    ),
    *("twelve", "12 ft ft", "null", "true", "[]", "{}", "9" * 300, "x" * 5000),
]
FIELDS: dict[str, Location] = {  # one of each type a form has
    "length of a room": ("rooms", 0, "shape", "length"),
    "height of a room": ("rooms", 0, "height"),
    "width of a door": ("rooms", 0, "openings", 0, "width"),
    "how many doors": ("rooms", 0, "openings", 0, "count"),
    "how many lights": ("rooms", 0, "fixtures", "ceiling_light"),
    "people": ("crew", "people"),
    "year": ("site", "year_built"),
    "temperature": ("site", "air"),
    "percent": ("site", "humidity"),
    "date": ("terms", "dated"),
    "money an hour": ("terms", "change_rate"),
    "words of a list": ("site", "household"),
}
CELLS = ("size", "height", "door", "window")


@pytest.fixture(scope="module")
def records(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("records") / "records.sqlite"


@pytest.fixture(scope="module")
def laid(records: Path) -> Desk:
    desk = Desk(new_job(records, usual_job(read_business(records))), records)
    desk.table.add_lines(NOTES)
    for form in desk._forms():
        form.folded.open()
        form.paint()
    return desk


@pytest.fixture
def desk(laid: Desk) -> Iterator[Desk]:
    """One desk for all, with every section open; what a test typed is taken back after it."""
    steps = laid.sitting.kept.at
    yield laid
    while laid.sitting.kept.at > steps:
        laid.sitting.undo()
    laid.table.bad = {}
    laid.refresh()
    assert not laid.stale


def entries(part: Any) -> Iterator[Entry]:
    """Return every control of a part of a form."""
    if isinstance(part, Group):
        for each in part.parts.values():
            yield from entries(each)
    elif isinstance(part, Rows):
        for each in part.rows:
            yield from entries(each)
    elif isinstance(part, Kinds):
        yield from entries(part.group)
    elif isinstance(part, Entry):
        yield part


def control(desk: Desk, place: Location) -> Any:
    """Return the control at a place of the job."""
    for form in desk._forms():
        size = len(form.part.path)
        if place[:size] == form.part.path and form.form is not None:
            found = form.form.find(place[size:])
            assert found is not None
            return found.control
    raise LookupError(place)


def complaints(desk: Desk) -> list[str]:
    """Return everything the desk says is wrong, in fields, over groups of fields and over the page."""
    forms = [form.form for form in desk._forms() if form.form is not None]
    said = [child.value for form in forms for each in entries(form) for child in each.widget.children[1:]]
    said += [form.said.value for form in forms if form.said.value]
    return said + ([desk.status.value] if "alert" in desk.status.value else [])


@pytest.mark.parametrize("field", FIELDS)
def test_nonsense_in_a_field_is_answered_there(desk: Desk, field: str) -> None:
    """Each time one complaint, the text still in field and draft, and the last good price marked as such.

    What a field can hold after all is taken, and then it is in the price.
    """
    assert desk.shown is not None
    price = desk.shown.price
    for text in NEVER:
        control(desk, FIELDS[field]).value = text
        assert control(desk, FIELDS[field]).value == text
        assert desk.sitting.job == desk.job
        if not desk.stale:
            assert complaints(desk) == [], (text, "taken and complained of")
            continue
        (said,) = complaints(desk)
        assert 'role="alert"' in said
        assert "<script" not in said
        assert "<b>" not in said
        assert len(said) < 700, text[:20]
        assert desk.shown.price == price
        assert desk.stale


@pytest.mark.parametrize("column", CELLS)
def test_nonsense_in_the_table_of_rooms_is_marked_in_its_cell(desk: Desk, column: str) -> None:
    """The cell is marked, and no other; job and price stay as they were."""
    before, price = desk.job, desk.shown and desk.shown.price
    for text in NEVER:
        desk.table._heard({"do": "set", "row": "r0", "col": column, "value": text})
        row = desk.table.grid.rows[0]
        assert set(row["bad"]) == {column}, text[:20]
        assert desk.shown
        assert desk.shown.price == price
    assert desk.job == before


def test_nonsense_as_a_line_of_notes_comes_back_marked(desk: Desk) -> None:
    """No line makes a room, and each goes back to where it was typed."""
    sent: list[dict[str, Any]] = []
    desk.table.grid.send = lambda message, buffers=None: sent.append(message)
    for text in NEVER:
        if text.strip():
            desk.table.add_lines(text)
            assert sent[-1]["back"].startswith(text.strip()[:40])
            assert len(desk.job["rooms"]) == 1


@pytest.mark.parametrize(
    "text",
    ["12'13\" x 10'", "99999 ft x 10 ft", "3 in x 10 ft", "0 x 0", "12 ft x", "x 12", "10' x 12' less 20' x 3'"],
)
def test_a_size_no_room_has_is_not_priced(desk: Desk, text: str) -> None:
    """What reads as a size but is no room's keeps the last good price, marked."""
    desk.table._heard({"do": "set", "row": "r0", "col": "size", "value": text})
    assert desk.table.grid.rows[0]["bad"]


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("year", "68"),
        ("year", "3000"),
        ("temperature", "-500 degF"),
        ("people", "1000000"),
        ("how many doors", "9999999999"),
        ("height of a room", "3 in"),
        ("height of a room", "400 ft"),
        ("percent", "140"),
        ("date", "2026-02-30"),
    ],
)
def test_a_number_beyond_reason_is_refused_in_place(desk: Desk, field: str, text: str) -> None:
    """A slip of the hand that reads as a number is met as one."""
    control(desk, FIELDS[field]).value = text
    assert desk.stale
    assert len(complaints(desk)) == 1
    assert control(desk, FIELDS[field]).value == text
