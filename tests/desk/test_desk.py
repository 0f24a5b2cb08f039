"""The desk in-process: what a control does to the result, without a browser."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from places import JOBS

from estimating.desk import Desk, open_desk
from estimating.desk.form import Entry, Group, Kinds, Rows
from estimating.evidence import OwnValue, load_library
from estimating.job.file import plain_job
from estimating.records.own import keep_own
from estimating.workbook import read_job

DEMO = JOBS / "alder_row_sitting_room.toml"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    path = tmp_path / "job.toml"
    shutil.copy(DEMO, path)
    return open_desk(path)


def first(desk: Desk, section: str) -> Group:
    """Return the first row of a section of the form."""
    rows = desk.form.parts[section]
    assert isinstance(rows, Rows)
    row = rows.rows[0]
    group = row.group if isinstance(row, Kinds) else row
    assert isinstance(group, Group)
    return group


def entry(group: Group, name: str) -> Entry:
    """Return one field of a group."""
    part = group.parts[name]
    assert isinstance(part, Entry)
    return part


def test_the_form_says_what_the_file_says(desk: Desk) -> None:
    """A job put on the desk and taken off again is the same job."""
    job = read_job(DEMO)
    assert desk.outcome is not None
    assert desk.outcome.job == job
    assert plain_job(desk.outcome.job) == plain_job(job)


def test_opening_sets_no_figure_of_ones_own(desk: Desk) -> None:
    """Sliders stand on the table's figures and change none until they are moved."""
    assert desk.assumptions.sliders
    assert desk.assumptions.own == {}


def test_a_slider_changes_the_price_and_goes_back(desk: Desk) -> None:
    """Moving a slider sets an own figure; going back to the table brings the old price back."""
    assert desk.outcome is not None
    before = desk.outcome.estimate.price
    key, slider = next(iter(desk.assumptions.sliders.items()))
    slider.value = slider.max
    assert desk.outcome.estimate.price != before
    assert desk.assumptions.own[key]["likely"] == pytest.approx(slider.max)
    desk.assumptions.picker.value = key
    desk.assumptions.back.click()
    assert desk.outcome.estimate.price == before
    assert desk.assumptions.own == {}


def test_any_assumption_can_be_replaced_by_name(desk: Desk) -> None:
    """The picker shows a row's range and takes an own figure with a note."""
    assert desk.outcome is not None
    before = desk.outcome.estimate.price
    desk.assumptions.picker.value = "business/wage"
    assert desk.assumptions.boxes["likely"].value == "28"
    desk.assumptions.boxes["likely"].value = "40"
    desk.assumptions.boxes["low"].value = "40"
    desk.assumptions.boxes["high"].value = "40"
    desk.assumptions.boxes["note"].value = "new wage"
    desk.assumptions.use.click()
    assert desk.outcome.estimate.price > before
    assert desk.outcome.job.own["business/wage"].note == "new wage"


def test_nonsense_keeps_the_last_good_price_and_marks_the_field(desk: Desk) -> None:
    """A wrong entry is marked where it stands, kept as typed, and the result is marked as from before."""
    assert desk.outcome is not None
    before = desk.outcome.estimate.price
    height = entry(first(desk, "rooms"), "height")
    height.control.value = "tall"
    assert desk.stale
    assert desk.outcome.estimate.price == before
    assert "tall" in height.widget.children[1].value
    assert height.control.value == "tall"
    assert "pe-stale" in desk.head.value
    height.control.value = "9 ft"
    assert not desk.stale
    assert len(height.widget.children) == 1


def test_several_wrong_fields_are_marked_at_once(desk: Desk) -> None:
    """Each wrong field has its own mark."""
    height = entry(first(desk, "rooms"), "height")
    coats = entry(first(desk, "work"), "coats")
    height.control.value = "tall"
    coats.control.value = "many"
    assert len(height.widget.children) == 2
    assert len(coats.widget.children) == 2
    assert "height" in desk.status.value
    assert "coats" in desk.status.value


def test_rows_are_added_and_taken_away(desk: Desk) -> None:
    """An added row waits for its answers without losing the last result; taking it away brings all back in order."""
    assert desk.outcome is not None
    before = desk.outcome.estimate.price
    work = first(desk, "work")
    tests = work.parts["tests"]
    assert isinstance(tests, Rows)
    tests.add.click()
    assert desk.stale
    tests._removed(tests.rows[-1])
    assert not desk.stale
    assert desk.outcome.estimate.price == before


def test_history_flips_the_recommendation(desk: Desk) -> None:
    """What was put on the texture before decides between spraying and rolling here."""
    assert desk.outcome is not None
    assert desk.outcome.comparisons[0].recommended.plan.method == "spray"
    entry(first(desk, "work"), "history").control.value = "primed and painted twice"
    assert desk.outcome.comparisons[0].recommended.plan.method == "roll"


def test_saving_and_opening_again(desk: Desk, tmp_path: Path) -> None:
    """A saved job opens as it was left, own figures included; a bad path is said on the page."""
    entry(first(desk, "work"), "coats").control.value = "3"
    key, slider = next(iter(desk.assumptions.sliders.items()))
    slider.value = slider.min
    desk.file.value = str(tmp_path / "other.toml")
    desk.save.click()
    assert "saved" in desk.status.value
    again = open_desk(tmp_path / "other.toml")
    assert again.outcome is not None
    assert desk.outcome is not None
    assert again.outcome.estimate.price == desk.outcome.estimate.price
    assert key in again.assumptions.own
    desk.file.value = str(tmp_path / "nowhere" / "x.toml")
    desk.open.click()
    assert "job file" in desk.status.value
    assert desk.outcome is not None


def test_an_unexpected_error_is_shown_on_the_page(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault in a handler is said in the status line and does not vanish."""

    def broken(_job: object, own: object) -> None:
        raise ZeroDivisionError("a fault")

    monkeypatch.setattr("estimating.desk.desk.estimate_job", broken)
    entry(first(desk, "work"), "coats").control.value = "3"
    assert "a fault" in desk.status.value


def test_every_pane_is_painted_when_its_tab_is_opened(desk: Desk) -> None:
    """Each tab shows something once it is chosen."""
    for place, pane in enumerate(desk.answers.values()):
        desk.tabs.selected_index = place
        assert pane.value


def test_what_the_user_types_is_never_markup(desk: Desk) -> None:
    """A room called <b> is shown as typed."""
    entry(first(desk, "work"), "color_wanted").control.value = "<script>alert(1)</script>"
    desk.tabs.selected_index = list(desk.answers).index("price")
    assert "<script>" not in desk.answers["price"].value
    assert "&lt;script&gt;" in desk.answers["price"].value


def test_own_values_of_the_records_price_the_job_and_are_named(tmp_path: Path) -> None:
    """A value kept elsewhere is used on Refresh; the job's own figure goes before it; looking made no file."""
    shutil.copy(DEMO, tmp_path / "job.toml")
    records = tmp_path / "records" / "records.sqlite"
    desk = open_desk(tmp_path / "job.toml", records)
    assert desk.outcome is not None
    published = desk.outcome.estimate.price
    assert desk.kept.value == ""
    assert not records.exists()
    wage = load_library().row("business", "wage")
    keep_own(records, wage, OwnValue(40, "dollar/hour", note="what I pay"))
    desk.again.click()
    assert desk.outcome.estimate.price > published
    assert "business/wage invented for the demo $28/h → yours $40/h" in desk.kept.value
    desk.assumptions.picker.value = "business/wage"
    assert desk.assumptions.boxes["likely"].value == "40"
    for name, figure in (("low", "24"), ("likely", "28"), ("high", "33")):
        desk.assumptions.boxes[name].value = figure
    desk.assumptions.use.click()
    assert desk.outcome.estimate.price == published


def test_a_damaged_records_file_does_not_stop_the_desk(tmp_path: Path) -> None:
    """The job is priced without own values, and the page says so."""
    shutil.copy(DEMO, tmp_path / "job.toml")
    (tmp_path / "records.sqlite").write_text("not a records file", encoding="utf-8")
    desk = open_desk(tmp_path / "job.toml", tmp_path / "records.sqlite")
    assert desk.outcome is not None
    assert "priced without own values" in desk.kept.value
    assert "is no records file" in desk.kept.value
