import csv
from pathlib import Path

import pytest

from estimating.evidence import Library, load_library
from estimating.printed import PUBLISHED, Printed, by_row, disagree, read_printed

HEAD = "check,subject,value,unit,tolerance,title,publisher,number,year,place,url,seen"
WALL = "coverage/smooth_drywall/any/any/any"


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()


def sheet(folder: Path, *lines: str) -> tuple[Printed, ...]:
    """Write one file of printed figures and read it."""
    (folder / "sheet.csv").write_text("\n".join([HEAD, *lines]), encoding="utf-8")
    return read_printed(folder)


def line(check: str, value: str, title: str = "Cans", unit: str = "ft**2/gallon", subject: str = WALL) -> str:
    return f"{check},{subject},{value},{unit},0.5,{title},A press,,1999,p. 3,https://example.org,excerpt"


def test_every_line_of_the_printed_figures_is_read() -> None:
    """A least and a most of one place become one range; nothing else is lost or joined."""
    lines = ends = 0
    for path in PUBLISHED.glob("*.csv"):
        with path.open(newline="", encoding="utf-8") as text:
            rows = [row["check"] for row in csv.DictReader(text) if "check" in row]
        lines += len(rows)
        ends += sum(check in ("least", "most") for check in rows)
    figures = read_printed()
    assert ends > 0
    assert len(figures) == lines - ends // 2
    assert not [each for each in figures if each.check in ("least", "most") or each.low > each.high]


def test_a_range_is_read_from_two_lines_or_from_one(tmp_path: Path) -> None:
    """Ends on lines of their own, or "15 to 20" in one."""
    ends, within = sheet(tmp_path, line("most", "400"), line("least", "300"), line("meets", "350 to 450", "Pails"))
    assert (ends.check, ends.low, ends.high) == ("range", 300.0, 400.0)
    assert (within.low, within.high) == (350.0, 450.0)


def test_without_the_tests_nothing_is_printed(tmp_path: Path) -> None:
    """A copy without its tests has no printed figures, and that is no error."""
    assert read_printed(tmp_path / "nowhere") == ()


def test_figures_are_found_by_the_rows_they_name(library: Library, tmp_path: Path) -> None:
    """By full address, by the row of a table alone, or as one of several in a sum; a rule's arguments name none."""
    figures = sheet(
        tmp_path,
        line("value", "350"),
        line("fan", "8", unit="inch", subject="413"),
        line("total", "7.65", unit="percent", subject="fica_social_security + fica_medicare"),
        line("dry_film", "1.5", unit="thou", subject="volume_solids=65 percent; wet_film=5 thou"),
    )
    found = by_row(figures, library)
    assert set(found) == {WALL, "tips/413", "business/fica_social_security", "business/fica_medicare"}
    assert found[WALL] == figures[:1]


def test_a_figure_is_read_in_the_units_of_its_row_and_held_against_it(library: Library, tmp_path: Path) -> None:
    """Beyond the row means by more than the tolerance of the print."""
    row = library.row(*WALL.split("/"))
    high = row.high
    metric, hair, far = sheet(
        tmp_path,
        line("value", "8.5", unit="meter**2/liter"),
        line("value", f"{high + 0.4}", "Pails"),
        line("value", f"{high + 20}", "Drums"),
    )
    assert metric.ends(row.unit)[0] == pytest.approx(346.3, abs=0.1)
    assert metric.plain(row)
    assert not hair.beyond(row)
    assert far.beyond(row)


def test_sources_disagree_when_no_value_is_in_all_of_them(library: Library, tmp_path: Path) -> None:
    """Ranges that touch agree, a figure outside another's range does not; one source never disagrees."""
    row = library.row(*WALL.split("/"))
    first, second, third = sheet(
        tmp_path,
        line("least", "300"),
        line("most", "400"),
        line("least", "400", "Pails"),
        line("most", "450", "Pails"),
        line("value", "330", "Drums"),
    )
    assert not disagree([first], row)
    assert not disagree([first, second], row)
    assert disagree([first, second, third], row)
    assert not disagree([], row)
