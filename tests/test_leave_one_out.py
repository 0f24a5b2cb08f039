"""The blind check asks each source how its figures fall against rows that were set without it."""

from __future__ import annotations

import math
from dataclasses import replace
from types import MappingProxyType

import pytest

from estimating.evidence import Library, Row, load_library
from estimating.evidence_report import blind, main
from estimating.leave_one_out import Asked, as_they_stand, leave_one_out, summary
from estimating.origins import Kind, Origin
from estimating.printed import Printed, read_printed

MADE_UP = Origin(Kind.PUBLISHED, "a-sheet", "p. 1", "", "2000")


def row(key: str, low: float = 200.0, likely: float = 300.0, high: float = 400.0) -> Row:
    return Row("coverage", (key,), low, likely, high, "ft**2/gallon", MADE_UP, key)


def printed(key: str, value: float, who: str, place: str = "p. 1", title: str = "") -> Printed:
    named = (title or f"Sheet of {who}", who, "", "2000", place, "", "whole")
    return Printed("value", f"coverage/{key}", value, value, "ft**2/gallon", 0.5, *named)


def library(*rows: Row) -> Library:
    tables = {"coverage": MappingProxyType({each.keys: each for each in rows})}
    return Library(MappingProxyType(tables), MappingProxyType({"a-sheet": {"id": "a-sheet", "title": "Sheet of one"}}))


def test_a_row_is_set_without_the_source_that_is_asked() -> None:
    """The likely value is the geometric mean of the other publishers; the figure asked has no part in it."""
    figures = [printed("wall", each, who) for each, who in ((200.0, "one"), (300.0, "two"), (450.0, "three"))]
    asked = {each.source: each for each in leave_one_out(library(row("wall")), figures).asked}
    assert asked["Sheet of one"].likely == pytest.approx(math.sqrt(300 * 450))
    far = [replace(figures[0], low=2.0, high=2.0), *figures[1:]]
    again = {each.source: each for each in leave_one_out(library(row("wall")), far).asked}
    assert again["Sheet of one"].likely == asked["Sheet of one"].likely
    assert again["Sheet of one"].width == asked["Sheet of one"].width


def test_sheets_of_one_publisher_do_not_vouch_for_each_other() -> None:
    """Two editions of a maker's sheet are one voice."""
    figures = [printed("wall", 300.0, "one", title=each) for each in ("2014", "2016")]
    found = leave_one_out(library(row("wall")), figures)
    assert (found.asked, found.alone) == ((), 2)


def test_a_printed_line_on_several_rows_counts_once() -> None:
    """It is asked against the row that most others print."""
    rows = [row("wall"), row("ceiling")]
    figures = [printed(each.keys[0], 300.0, "one") for each in rows] + [printed("ceiling", 350.0, "two")]
    found = leave_one_out(library(*rows), figures)
    assert found.repeated == 1
    assert [each.row for each in found.asked] == ["coverage/ceiling", "coverage/ceiling"]


def test_fixed_figures_are_never_in_the_headline() -> None:
    """A coefficient of a standard and its copies agree because they are one."""
    figures = [printed("wall", 300.0, who) for who in ("one", "two")]
    found = leave_one_out(library(row("wall", 300.0, 300.0, 300.0)), figures)
    assert (found.asked, found.fixed) == ((), 2)


def test_the_score_is_the_width_and_what_a_miss_costs() -> None:
    """Inside it is the width alone; a miss costs ten times its distance, as for any 80 % range."""
    asked = Asked("coverage", "coverage/wall", "one", 300.0, 200.0, 300.0, 400.0)
    assert (asked.inside, asked.score) == (True, pytest.approx(math.log(2)))
    assert replace(asked, middle=800.0).score == pytest.approx(math.log(2) + 10 * math.log(2))
    assert (replace(asked, middle=150.0).inside, replace(asked, middle=600.0).bias) == (
        False,
        pytest.approx(math.log(2)),
    )


def test_the_aims_are_met_on_all_tables_together() -> None:
    """Four in five inside, give or take eight in a hundred; P90 no more than twice P10; enough figures to say so."""
    total = next(line for line in summary(leave_one_out(load_library(), read_printed())) if line.startswith("all"))
    _, figures, inside, width, *_ = total.split()
    assert int(figures) > 200
    assert 72 <= int(inside) <= 88
    assert float(width) <= 2.0


def test_rows_as_they_stand_are_asked_apart(capsys: pytest.CaptureFixture[str]) -> None:
    """Figures of sources a row names do not count, nor does a line twice; the command prints the blind check alone."""
    figures = [printed("wall", 300.0, "one"), printed("wall", 350.0, "two"), printed("wall", 900.0, "three")]
    assert as_they_stand(library(row("wall")), figures) == {"coverage": (1, 2)}
    main(["--leave-one-out"])
    said = capsys.readouterr().out
    assert said.startswith("Blind check")
    assert blind(load_library())[-1] in said
    assert "Rows by table" not in said
