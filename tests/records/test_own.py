from datetime import date
from pathlib import Path
from types import MappingProxyType

import pytest
from places import JOBS

from estimating.__main__ import main
from estimating.errors import InputError, RecordsError
from estimating.evidence import Library, OwnValue, Row, load_library
from estimating.job.model import OwnFigure
from estimating.records.decisions import accept
from estimating.records.own import VARIABLE, back_to_table, check_own, history, keep_own, own_table, usual_place
from estimating.records.store import open_records
from estimating.workbook import estimate_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
LIBRARY = load_library()
WAGE = LIBRARY.row("business", "wage")
TODAY = date(2026, 5, 4).isoformat()


def wage(likely: float) -> OwnValue:
    return OwnValue(likely, "dollar/hour", note="what I pay", date=TODAY)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "records" / "records.sqlite"


def test_looking_makes_no_file(path: Path) -> None:
    """Where nothing was kept there is no own table, no history, and still no file or folder."""
    assert own_table(path, LIBRARY).values == {}
    assert history(path) == ()
    with pytest.raises(RecordsError, match="stands as published"):
        back_to_table(path, WAGE.key)
    assert not path.parent.exists()


def test_a_value_is_kept_with_its_date_and_note_and_taken_back(path: Path) -> None:
    """The folder is made at the first value; going back leaves every decision to be read, and the table untouched."""
    keep_own(path, WAGE, wage(30))
    keep_own(path, WAGE, wage(34))
    assert own_table(path, LIBRARY).values == {WAGE.key: wage(34)}
    assert load_library().row("business", "wage") == WAGE
    back_to_table(path, WAGE.key)
    assert own_table(path, LIBRARY).values == {}
    assert [each.value for each in history(path)] == [wage(30), wage(34), None, None]


@pytest.mark.parametrize(
    ("own", "problem"),
    [
        (OwnValue(30, "ft**2/hour"), "a unit that converts to dollar/hour"),
        (OwnValue(30, "dollar/hour", low=31), "low ≤ likely ≤ high"),
        (OwnValue(20.5, "dollar/hour", low=20, high=60), "a likely value between"),
    ],
)
def test_a_value_that_cannot_stand_there_is_refused_and_not_kept(path: Path, own: OwnValue, problem: str) -> None:
    """Unit, order and shape are looked at before anything is written."""
    with pytest.raises(InputError, match=problem):
        keep_own(path, WAGE, own)
    assert not path.exists()


def test_every_row_takes_its_own_likely_value(path: Path) -> None:
    """What the table says can be said by the contractor too, for every row there is."""
    for table in LIBRARY.tables.values():
        for row in table.values():
            check_own(row, OwnValue(row.likely, row.unit))


def without(library: Library, row: Row) -> Library:
    """Return the library with one row gone."""
    rows = {keys: each for keys, each in library.table(row.table).items() if keys != row.keys}
    return Library({**library.tables, row.table: MappingProxyType(rows)}, library.sources)


def test_a_value_whose_row_is_gone_is_set_aside_and_said(path: Path) -> None:
    """One row taken out of the tables does not stop every job, and is not passed over either."""
    keep_own(path, WAGE, wage(30))
    keep_own(path, LIBRARY.row("business", "markup"), OwnValue(25, "percent"))
    found = own_table(path, without(LIBRARY, WAGE))
    assert list(found.values) == ["business/markup"]
    assert found.warning.startswith("own values not used: business/wage: table business has no row wage")


def test_a_value_kept_in_another_way_that_fits_no_row_is_set_aside(path: Path) -> None:
    """A unit of another dimension in the file is named, not met half way through an estimate."""
    path.parent.mkdir()
    with open_records(path) as records:
        accept(records, WAGE.key, OwnValue(30, "inch"))
    assert own_table(path, LIBRARY).aside == {
        WAGE.key: "business/wage: got 'inch', needs a unit that converts to dollar/hour"
    }


def test_the_file_can_be_kept_elsewhere(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The usual place is the folder one works in, unless the variable names another."""
    monkeypatch.setenv(VARIABLE, "")
    assert usual_place() == Path("records/records.sqlite")
    monkeypatch.setenv(VARIABLE, str(tmp_path / "mine.sqlite"))
    assert usual_place() == tmp_path / "mine.sqlite"


def test_own_values_move_the_price_and_the_job_goes_before_them() -> None:
    """The own table holds for every job; what the job file itself says about a row is used instead of it."""
    job = read_job(DEMO)
    as_published = estimate_job(job).estimate.price
    mine = {WAGE.key: wage(WAGE.likely * 2)}
    assert estimate_job(job, own=mine).estimate.price > as_published
    here = OwnFigure(likely=WAGE.likely, unit=WAGE.unit, low=WAGE.low, high=WAGE.high)
    own_job = job.model_copy(update={"own": {WAGE.key: here}})
    assert estimate_job(own_job, own=mine).estimate.price == as_published


def test_the_terminal_uses_the_records_it_is_given(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With --records the own wage is in the price; without it the table's; a file that is not there is an error."""
    assert main([str(DEMO), "--records", str(path)]) == 2
    assert "no such records file" in capsys.readouterr().err
    keep_own(path, WAGE, wage(WAGE.likely * 2))
    assert main([str(DEMO)]) == 0
    without_records = capsys.readouterr().out
    assert main([str(DEMO), "--records", str(path)]) == 0
    assert capsys.readouterr().out != without_records


def test_the_terminal_says_what_it_set_aside(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An own value that no row takes is named beside the estimate."""
    path.parent.mkdir()
    with open_records(path) as records:
        accept(records, "business/wages", wage(30))
    assert main([str(DEMO), "--records", str(path)]) == 0
    assert "own values not used: business/wages" in capsys.readouterr().err
