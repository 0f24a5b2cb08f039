"""The page of the reference tables in-process: what is found, what is shown, what is kept and taken back."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from estimating.desk import ReferencePage, open_reference
from estimating.evidence import OwnValue
from estimating.records.own import history, own_table

ROUGH = "coverage/stucco_rough/any/any/any"


@pytest.fixture
def records(tmp_path: Path) -> Path:
    return tmp_path / "records" / "records.sqlite"


@pytest.fixture
def page(records: Path) -> ReferencePage:
    return open_reference(records)


def find(page: ReferencePage, words: str, key: str) -> None:
    """Look for words and choose a row."""
    page.words.value = words
    page.row.value = key


def pane(page: ReferencePage, name: str) -> str:
    """Open one pane and return what it shows."""
    page.tabs.selected_index = list(page.answers).index(name)
    shown: str = page.answers[name].value
    return shown


def keep(page: ReferencePage, **typed: str) -> None:
    """Type a value of one's own and keep it."""
    for name, text in typed.items():
        page.own.boxes[name].value = text
    page.own.use.click()


def test_it_opens_on_a_table_with_all_its_rows(page: ReferencePage, records: Path) -> None:
    """The first row is open beside the list, and looking has made no file."""
    rows = page.library.table("coverage")
    assert len(page.row.options) == len(rows)
    assert page.chosen is not None
    assert page.chosen.key in page.detail.value
    assert pane(page, "rows").count("<tr") == len(rows) + 1
    assert pane(page, "my own table").startswith("<p>No value of your own yet")
    assert not records.parent.exists()


def test_words_origin_and_disagreement_narrow_the_rows(page: ReferencePage) -> None:
    """Each filter takes rows away and gives them back; the open row stays open while it is among them."""
    find(page, "stucco rough", ROUGH)
    narrow = len(page.row.options)
    assert 0 < narrow < len(page.library.table("coverage"))
    page.apart.value = True
    assert 0 < len(page.row.options) < narrow
    assert page.row.value == ROUGH
    page.origin.value = "published"
    assert page.row.options == ()
    assert page.detail.value == "<p>Choose a row.</p>"
    assert "No row is like that" in pane(page, "rows")
    page.origin.value, page.apart.value, page.words.value = "any origin", False, ""
    assert len(page.row.options) == len(page.library.table("coverage"))


def test_only_kinds_of_origin_that_occur_are_offered(page: ReferencePage) -> None:
    """A choice that can find nothing in any table is no choice."""
    assert "published" in page.origin.options
    assert "measured on site" not in page.origin.options


def test_every_table_can_be_opened(page: ReferencePage) -> None:
    """Each table fills every pane."""
    for name in page.table.options:
        page.table.value = name
        assert page.status.value == ""
        assert len(page.row.options) == len(page.library.table(name))
        for each in page.answers:
            assert pane(page, each)


def test_the_plot_is_of_the_rows_found_a_line_for_each_class_or_row(page: ReferencePage) -> None:
    """What is looked for is what is drawn."""
    page.words.value = "stucco_rough"
    assert pane(page, "what is printed").count("<rect") == 1
    page.lines.value = "each row"
    assert page.answers["what is printed"].value.count("<rect") > 1


def test_a_value_of_ones_own_is_kept_marked_and_taken_back_with_one_click(page: ReferencePage, records: Path) -> None:
    """It is used from then on, shown beside the published one everywhere, and gone again on one click."""
    find(page, "stucco rough", ROUGH)
    published = page.detail.value
    assert page.own.back.disabled
    keep(page, likely="128", note="two houses")
    assert own_table(records, page.library).values[ROUGH] == OwnValue(
        128.0, "ft**2/gallon", note="two houses", date=date.today().isoformat()
    )
    assert "judgment 170 → yours 128 ft²/gal" in page.detail.value
    assert "judgment 170 → yours 128 ft²/gal" in pane(page, "rows")
    assert "▼" in pane(page, "what is printed").split("</p>")[-1]
    assert "two houses" in pane(page, "my own table")
    assert (f"{page.row.options[0][0]}", page.row.value) == ("stucco rough · yours", ROUGH)
    assert page.own.boxes["likely"].value == "128"
    keep(page, likely="130")
    page.own.back.click()
    assert own_table(records, page.library).values == {}
    assert page.detail.value == published
    assert "yours" not in page.row.options[0][0]
    assert len(history(records)) == 4


def test_the_own_value_holds_in_a_page_opened_later(page: ReferencePage, records: Path) -> None:
    """What was kept is read from the file, and the summary names it."""
    find(page, "stucco rough", ROUGH)
    keep(page, low="100", likely="128", high="170", date="2026-05-04")
    again = open_reference(records)
    again.origin.value = "my own values"
    assert [each.key for each in again.rows] == [ROUGH]
    assert again.own.boxes["low"].value == "100"
    assert "yours 128 ft²/gal" in again.summary()


@pytest.mark.parametrize(
    ("typed", "complaint"),
    [
        ({"likely": "many"}, "needs a number"),
        ({"likely": ""}, "likely: got"),
        ({"likely": "inf"}, "needs a number"),
        ({"likely": "128", "low": "200"}, "low ≤ likely ≤ high"),
        ({"likely": "128", "unit": "hour"}, "a unit that converts to ft**2/gallon"),
        ({"likely": "128", "unit": "furlongs of paint"}, "unit"),
        ({"likely": "101", "low": "100", "high": "170"}, "a likely value between"),
    ],
)
def test_what_cannot_stand_there_is_said_and_nothing_is_kept(
    page: ReferencePage, records: Path, typed: dict[str, str], complaint: str
) -> None:
    """The complaint is on the page, what was typed stays, and no file was made."""
    find(page, "stucco rough", ROUGH)
    keep(page, **typed)
    assert 'role="alert"' in page.status.value
    assert complaint in page.status.value.replace("&#x27;", "'")
    assert all(page.own.boxes[name].value == text for name, text in typed.items())
    assert not records.exists()


def test_without_a_row_nothing_is_kept(page: ReferencePage, records: Path) -> None:
    """The buttons ask for a row."""
    page.words.value = "no such thing anywhere"
    keep(page, likely="128", unit="inch")
    assert "a row chosen from the list" in page.status.value
    assert not records.exists()


def test_a_damaged_records_file_does_not_hide_the_tables(tmp_path: Path) -> None:
    """The tables are shown as published, and the trouble is said."""
    (tmp_path / "records.sqlite").write_text("no records file", encoding="utf-8")
    page = open_reference(tmp_path / "records.sqlite")
    assert "is no records file" in page.status.value
    assert len(page.row.options) == len(page.library.table("coverage"))
