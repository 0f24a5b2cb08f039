import json
from dataclasses import replace
from pathlib import Path

import pytest

from estimating.errors import EvidenceError, InputError, InputErrors
from estimating.evidence import TAIL, Basis, OwnValue, load_library, own_figure
from estimating.origins import Kind

HEAD = ("task", "surface", "title", *TAIL)
GOOD = "roll,popcorn,rolling popcorn,60,90,130,ft**2/hour,judgment,,,2026,ours"
WIDE = "roll,any,rolling,110,180,280,ft**2/hour,published,roll-book,p. 3,1999,printed"

WIDER = "nearest_class,log_range,a wider class,1.2,1.5,2,dimensionless,judgment,,,2026,made up"


def folder_of(folder: Path, *rows: str) -> Path:
    """Write a library of a table production with these rows, and by how much a wider class widens a range."""
    keys = {"production": ["task", "surface"], "factors": ["factor", "level"]}
    package = {"resources": [{"name": name, "schema": {"primaryKey": each}} for name, each in keys.items()]}
    (folder / "datapackage.json").write_text(json.dumps(package), encoding="utf-8")
    (folder / "bibliography.json").write_text(json.dumps([{"id": "roll-book", "title": "Rolls"}]), encoding="utf-8")
    (folder / "production.csv").write_text("\n".join([",".join(HEAD), *rows]), encoding="utf-8")
    wider = [",".join(("factor", "level", "title", *TAIL)), WIDER]
    (folder / "factors.csv").write_text("\n".join(wider), encoding="utf-8")
    return folder


@pytest.fixture
def basis(tmp_path: Path) -> Basis:
    return Basis(load_library(folder_of(tmp_path, GOOD, WIDE)))


def test_a_row_becomes_a_figure_with_its_range_and_origin(basis: Basis) -> None:
    """Its key is its address, where it can be changed."""
    rate = basis.figure("production", "roll", "popcorn")
    assert (rate.low, rate.value, rate.high, rate.unit) == (60.0, 90.0, 130.0, "ft**2/hour")
    assert (rate.name, rate.key) == ("rolling popcorn", "production/roll/popcorn")
    assert (rate.origin.kind, rate.origin.note, rate.origin.year) == (Kind.JUDGMENT, "ours", "2026")


def test_a_row_looked_up_twice_is_one_figure(basis: Basis) -> None:
    """A rate used on ten lines varies as one; what was looked up can be listed."""
    assert basis.figure("production", "roll", "popcorn") is basis.nearest("production", "roll", "popcorn")
    assert list(basis.used()) == ["production/roll/popcorn"]


def test_a_class_without_a_row_takes_the_wider_one_and_says_so(basis: Basis) -> None:
    """The origin stays that of the row found, with a note of what was asked for."""
    rate = basis.nearest("production", "roll", "tin")
    assert rate.value == 180.0
    assert rate.origin.source == "roll-book"
    assert "nearest class: asked for roll/tin" in rate.origin.note
    assert rate.low == pytest.approx(180 * (110 / 180) ** 1.5)
    assert rate.high == pytest.approx(180 * (280 / 180) ** 1.5)


def test_a_row_that_is_not_there_is_refused_with_those_that_are(basis: Basis) -> None:
    """Exactly as asked, or not at all."""
    with pytest.raises(EvidenceError, match=r"no row roll/tin; it has roll/any, roll/popcorn"):
        basis.figure("production", "roll", "tin")
    with pytest.raises(EvidenceError, match=r"no row brush/tin; it has roll"):
        basis.nearest("production", "brush", "tin")
    with pytest.raises(EvidenceError, match=r"no table 'productoin'; there are factors, production"):
        basis.figure("productoin", "roll", "popcorn")


@pytest.mark.parametrize(
    ("rows", "complaint"),
    [
        ((GOOD, GOOD), "production/roll/popcorn stands twice"),
        ((GOOD.replace("60,90", "95,90"),), "low 95.0, likely 90.0, high 130.0 are out of order"),
        ((GOOD.replace("60,90", "60,ninety"),), "production/roll/popcorn · likely: 'ninety' is not a number"),
        ((GOOD.replace("60,90", "nan,90"),), "out of order"),
        ((GOOD.replace("judgment", "hearsay"),), "origin 'hearsay' is none of published"),
    ],
)
def test_a_table_that_is_wrong_is_refused_by_row(tmp_path: Path, rows: tuple[str, ...], complaint: str) -> None:
    """The sentence names the table and the row."""
    with pytest.raises(EvidenceError, match=complaint):
        load_library(folder_of(tmp_path, *rows))


def test_an_own_figure_stands_in_place_of_the_row(basis: Basis) -> None:
    """Entered by hand, with its date and reason, and without a range of its own it keeps the row's in proportion."""
    own = Basis(basis.library, {"production/roll/popcorn": OwnValue(45.0, "ft**2/hour", note="timed", date="2026-05")})
    rate = own.figure("production", "roll", "popcorn")
    assert (rate.low, rate.value, rate.high) == (30.0, 45.0, 65.0)
    assert (rate.origin.kind, rate.origin.note, rate.origin.year) == (Kind.ENTERED, "timed", "2026-05")
    assert "in place of production/roll/popcorn" in rate.origin.place
    assert basis.figure("production", "roll", "popcorn").value == 90.0


def test_an_own_figure_brings_its_own_range_and_unit(basis: Basis) -> None:
    """10 m² an hour is a rate as good as one in square feet."""
    own = Basis(basis.library, {"production/roll/popcorn": OwnValue(10.0, "m**2/hour", 9.0, 12.0)})
    rate = own.figure("production", "roll", "popcorn")
    assert (rate.low, rate.value, rate.high, rate.unit) == (9.0, 10.0, 12.0, "m**2/hour")


@pytest.mark.parametrize("unit", ["hour", "ft**2", "florin", ")(", "2 ft**2/hour", ""])
def test_an_own_figure_of_another_kind_is_refused(basis: Basis, unit: str) -> None:
    """So is one in no unit at all."""
    own = Basis(basis.library, {"production/roll/popcorn": OwnValue(45.0, unit)})
    with pytest.raises(InputError, match=r"ft\*\*2/hour"):
        own.figure("production", "roll", "popcorn")


def test_an_own_figure_for_no_row_is_refused(basis: Basis) -> None:
    """A misspelt address would otherwise be passed over, and the price would quietly be the old one."""
    strays = {key: OwnValue(1.0, "hour") for key in ("production/rol/popcorn", "production", "nowhere/at/all", "")}
    with pytest.raises(InputErrors) as refused:
        Basis(basis.library, strays)
    assert [each.value for each in refused.value.problems] == list(strays)


def test_every_row_of_the_library_can_be_addressed() -> None:
    """An own figure can stand in place of any row there is."""
    library = load_library()
    rows = [row for table in library.tables.values() for row in table.values()]
    assert len(rows) > 500
    assert all(library.has(row.key) for row in rows)
    assert not library.has("business")
    assert not any(library.has(replace(row, keys=(*row.keys, "more")).key) for row in rows)


@pytest.mark.parametrize(
    ("key", "likely", "unit"), [("business/markup", 29, "percent"), ("business/minimum_charge", 57, "dollar")]
)
def test_an_own_figure_keeps_its_range_round_itself(key: str, likely: float, unit: str) -> None:
    """A range taken over in proportion may round past the figure; it is held to it."""
    row = load_library().row(*key.split("/"))
    figure = own_figure(row, OwnValue(likely, unit))
    assert figure.low is not None
    assert figure.high is not None
    assert figure.low <= likely <= figure.high
