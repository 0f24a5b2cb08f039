"""The desk in-process: what a change does to price, notes and draft, without a browser."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from places import JOBS

from estimating.__main__ import main
from estimating.desk import Desk, open_desk
from estimating.desk.confirm import ASSUME
from estimating.desk.levers import with_values
from estimating.desk.notices import invented_in_use
from estimating.evidence import OwnValue, load_library
from estimating.job.file import plain_job
from estimating.records.business import read_business, usual_job
from estimating.records.my_jobs import new_job, open_own
from estimating.records.own import keep_own
from estimating.workbook import estimate_job, parse_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
BED = "bed 1: 12' x 11'6\" x 8'; 2 doors, 1 window; walls, ceiling, baseboard"


@pytest.fixture
def records(tmp_path: Path) -> Path:
    return tmp_path / "records" / "records.sqlite"


@pytest.fixture
def desk(tmp_path: Path, records: Path) -> Desk:
    path = tmp_path / "job.toml"
    shutil.copy(DEMO, path)
    return open_desk(path, records)


@pytest.fixture
def own(records: Path) -> Desk:
    """A job of one's own with nothing in it."""
    return Desk(new_job(records, usual_job(read_business(records))), records)


def test_the_desk_says_what_the_file_says(desk: Desk) -> None:
    """A job laid on the desk is the job of the file."""
    job = read_job(DEMO)
    assert desk.outcome is not None
    assert plain_job(desk.outcome.job) == plain_job(job)
    assert desk.stale is False


def test_a_lever_moves_the_price_at_once_and_is_one_step_when_the_hand_rests(desk: Desk) -> None:
    """The standing tree is worked out again with the new value; at rest the job holds it, and undo takes it back."""
    assert desk.outcome is not None
    before = desk.outcome.estimate.price
    desk.finish()
    row = desk.levers.widget.rows[0]
    for value in (row["min"], row["max"]):
        desk.levers.widget.moved = {"key": row["key"], "value": value}
    assert desk.shown is not None
    moved = desk.shown.price
    assert moved != float(before)
    assert desk.job["own"] == {}
    desk.finish()
    assert desk.outcome.job.own[row["key"]].likely == pytest.approx(row["max"])
    assert len(desk.sitting.kept.steps) == 1
    desk.sitting.undo()
    desk.refresh()
    assert desk.outcome.estimate.price == before


def test_the_price_at_once_is_the_price_of_the_whole_way(desk: Desk) -> None:
    """What a lever shows before the hand rests is what pricing the job with that value gives."""
    desk.finish()
    key = "production/roll_ceiling/roll/popcorn"
    assert desk.outcome is not None
    shown = with_values(desk.outcome, {key: 80.0})
    own = {key: {"likely": 80.0, "unit": "ft**2/hour"}}
    assert shown.price == pytest.approx(desk.pricing.price_of({**desk.job, "own": own}), abs=0.01)


def test_any_figure_can_be_replaced_by_name(desk: Desk) -> None:
    """The picker shows a row's range and takes an own figure with a note."""
    assert desk.outcome is not None
    before = desk.outcome.estimate.price
    desk.figures.folded.open()
    desk.figures.picker.value = "business/wage"
    assert desk.figures.boxes["likely"].value == "28"
    for name, text in (("low", "40"), ("likely", "40"), ("high", "40"), ("note", "new wage")):
        desk.figures.boxes[name].value = text
    desk.figures.use.click()
    assert desk.outcome.estimate.price > before
    assert desk.outcome.job.own["business/wage"].note == "new wage"
    desk.figures.back.click()
    assert desk.outcome.estimate.price == before


def test_nonsense_in_the_table_keeps_the_last_good_price_and_is_marked_in_its_cell(desk: Desk) -> None:
    """What cannot be read changes nothing; the cell says what would be right."""
    assert desk.outcome is not None
    before = desk.outcome.estimate.price
    desk.table._heard({"do": "set", "row": "r0", "col": "height", "value": "tall"})
    assert desk.outcome.estimate.price == before
    assert "tall" in desk.table.grid.rows[0]["bad"]["height"]
    desk.table._heard({"do": "set", "row": "r0", "col": "height", "value": "11 ft"})
    assert desk.table.grid.rows[0]["bad"] == {}
    assert desk.outcome.estimate.price > before  # above 9 ft planks are set up, and work overhead is slower


def test_nonsense_in_a_field_is_marked_there_once_and_the_price_is_marked_as_from_before(desk: Desk) -> None:
    """The line of the page does not say it again, and no path of the code is in it."""
    form = desk.room.forms[1]
    form.folded.open()
    assert form.form is not None
    coats = form.form.find(("coats",))
    assert coats is not None
    coats.control.value = "many"
    assert desk.stale
    assert "many" in coats.widget.children[1].value
    assert "many" not in desk.status.value
    assert "pe-stale" in desk.bar.price.value
    coats.control.value = "2"
    assert not desk.stale
    assert len(coats.widget.children) == 1


def test_only_the_chosen_room_has_controls(own: Desk) -> None:
    """Another room chosen is another room shown."""
    own.table.add_lines(f"{BED}\nhall: 12' x 4' x 8'; 1 door; walls")
    assert [part.path for part in own.room.parts] == [("rooms", 0), ("work", 0)]
    own.table.choose(1)
    assert [part.path for part in own.room.parts] == [("rooms", 1), ("work", 1)]
    assert all(form.form is None for form in own.room.forms)


def test_an_unexpected_error_is_shown_on_the_page(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault in a handler is said in the status line and does not vanish."""

    def broken(_job: object, own: object) -> None:
        raise ZeroDivisionError("a fault")

    monkeypatch.setattr("estimating.desk.pricing.estimate_job", broken)
    desk.bar.title.value = "another title"
    assert "a fault" in desk.status.value


def test_every_pane_is_painted_when_it_is_opened(desk: Desk) -> None:
    """Each pane shows something once it is chosen."""
    for name, pane in desk.results.answers.items():
        desk.results.open(name)
        desk.guarded(desk._look)()
        assert pane.value, name
    desk.results.open("Show the math")
    assert "<strong>" in desk.results.math.value


def test_what_the_user_types_is_never_markup(desk: Desk) -> None:
    """A color called <script> is shown as typed."""
    desk.put(("work", 0, "color_wanted"), "<script>alert(1)</script>")
    desk.results.open("Shopping list")
    shown = desk.results.answers["Shopping list"].value
    assert "<script>" not in shown
    assert "&lt;script&gt;" in shown


def test_own_values_of_the_records_price_the_job_and_are_named(desk: Desk, records: Path) -> None:
    """A value kept elsewhere is used when the desk reads again; looking made no file."""
    assert desk.outcome is not None
    published = desk.outcome.estimate.price
    assert not records.exists()
    keep_own(records, load_library().row("business", "wage"), OwnValue(40, "dollar/hour", note="what I pay"))
    desk.read_again()
    assert desk.outcome.estimate.price > published
    assert "yours $40/h" in desk.notices.of_own.value


def test_a_damaged_records_file_does_not_stop_the_desk(tmp_path: Path) -> None:
    """The job is priced without own values, and the page says so."""
    shutil.copy(DEMO, tmp_path / "job.toml")
    (tmp_path / "records.sqlite").write_text("not a records file", encoding="utf-8")
    desk = open_desk(tmp_path / "job.toml", tmp_path / "records.sqlite")
    assert desk.outcome is not None
    assert "priced without own values" in desk.status.value


def test_a_new_job_is_clean_and_says_what_is_still_invented(own: Desk) -> None:
    """Nothing of a demo is in it, and invented rates are named before a paper goes out."""
    assert own.job["invented"] is False
    assert own.outcome is None
    own.table.add_lines(BED)
    own.finish()
    assert own.outcome is not None
    assert own.outcome.job.site.household is None
    assert "Still invented" in own.notices.of_invented.value
    assert "wage" in invented_in_use(own.outcome)


def test_what_the_last_change_did_stands_beside_the_price(own: Desk) -> None:
    """The difference in dollars and hours is shown until the next change."""
    own.table.add_lines(BED)
    own.table._heard({"do": "set", "row": "r0", "col": "to_do", "value": "walls, ceiling, baseboard, doors"})
    assert "+$" in own.bar.price.value
    assert " h</span>" in own.bar.price.value


def test_a_file_is_made_only_when_asked_for_and_prices_the_same(own: Desk) -> None:
    """The job file of the desk, priced by the command line's way, comes to the price on the desk."""
    own.table.add_lines(BED)
    made = own._make("job.toml")
    assert made is not None
    assert own.outcome is not None
    again = estimate_job(parse_job(made[2].decode("utf-8")))
    assert again.estimate.price == own.outcome.estimate.price


def test_a_change_order_needs_something_sent(own: Desk) -> None:
    """Before the estimate is recorded as sent there is nothing to compare with; afterwards there is."""
    own.table.add_lines(BED)
    assert own._make("change_order.html") is None
    assert "recorded as sent" in own.status.value
    own.sending.button.click()
    assert own.bar.state.value == "sent"
    own.table.copy()
    assert own._make("change_order.html") is not None


def test_undo_goes_back_to_the_empty_job_and_redo_forth_again(own: Desk, records: Path) -> None:
    """Also by a desk that opens the same job later."""
    own.table.add_lines(BED)
    own.table.copy()
    own.put(("title",), "Maple Street")
    priced = own.outcome
    assert priced is not None
    later = Desk(open_own(records, own.sitting.path.stem), records)
    for _ in range(3):
        later._asked("undo")
    assert later.job["rooms"] == []
    assert later.outcome is None
    for _ in range(3):
        later._asked("redo")
    assert later.job["title"] == "Maple Street"
    assert later.outcome is not None
    assert later.outcome.estimate.price == priced.estimate.price


def test_two_desks_on_one_job_notice_each_other(own: Desk, records: Path) -> None:
    """The one that comes second asks whose to keep, and loses nothing of its own until it is told to."""
    other = Desk(open_own(records, own.sitting.path.stem), records)
    own.table.add_lines(BED)
    other._asked("look")
    assert other.notices.two_desks in other.notices.widget.children
    other.put(("title",), "mine")
    assert other.job["title"] == "mine"
    other._asked("Take theirs")
    assert len(other.job["rooms"]) == 1
    assert other.notices.two_desks not in other.notices.widget.children


def test_questions_are_ranked_by_dollars_and_the_usual_can_be_assumed(own: Desk) -> None:
    """The dearest stands first; an assumed answer is in the job, marked as assumed, and asked no more."""
    own.table.add_lines(BED)
    own.finish()
    own.rank()  # unasked only where pricing is quick
    own.finish()
    stakes = [own.confirm.stakes[each.place] for each in own.confirm.open if each.place in own.confirm.stakes]
    assert max(stakes) > 0
    first = own.confirm.widget.rows[0]
    assert first["cells"][0] == f"±${max(stakes) / 2:,.0f}"
    row = next(each for each in own.confirm.widget.rows if ASSUME in each["actions"])
    asked = own.confirm.open[int(row["id"][1:])]
    own.confirm._pressed(row["id"], ASSUME)
    assert asked.question.field in own.job["assumed"]
    assert own.outcome is not None
    assert asked.question.field not in [each.field for each in own.outcome.questions]


def test_a_room_moves_up_and_down_the_table(own: Desk) -> None:
    """Its work goes with it, the price of a job of the same rooms stays, the ends hold, and undo takes it back."""
    own.table.add_lines("a: 12' x 10' x 8'; walls\nb: 9' x 8' x 8'; walls, ceiling")
    assert own.shown is not None
    price = own.shown.price
    own.table.move(1, -1)
    assert [room["name"] for room in own.job["rooms"]] == ["b", "a"]
    assert own.table.place == 0
    assert own.shown.price == price
    own.table.move(0, -1)
    own.table._heard({"do": "move", "row": "r1", "by": 1})
    assert [room["name"] for room in own.job["rooms"]] == ["b", "a"]
    own.sitting.undo()
    assert [room["name"] for room in own.job["rooms"]] == ["a", "b"]


def test_the_terminal_prices_what_the_desk_writes_to_the_cent(
    own: Desk, records: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Rooms as typed, a rate of one's own, a lever moved and usual answers assumed: one price at both doors."""
    own.table.add_lines("bed: 12' x 11'6\" x 8'; 2 doors, 1 window; walls, ceiling\nhall: 14' x 4' x 8'; walls")
    keep_own(records, load_library().row("business", "wage"), OwnValue(31.0, "dollar/hour"))
    own.read_again()
    own.finish()
    row = own.levers.widget.rows[0]
    own.levers.widget.moved = {"key": row["key"], "value": row["max"]}
    own.finish()
    own.confirm._pressed("more", "Assume usual for all")
    assert own.shown is not None
    written = own._make("job.toml")
    assert written is not None
    job = tmp_path / "job.toml"
    job.write_bytes(written[2])
    main([str(job), "--records", str(records)])
    assert f"price offered ${own.shown.price:,.2f}" in capsys.readouterr().out
