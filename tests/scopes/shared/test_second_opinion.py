"""A row of the coverage table stands beside what the paint usual there comes to by solids and film."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from estimating.evidence import Basis, Library, OwnValue, Row, load_library
from estimating.reports.panes.evidence import Evidence, evidence_summary, row_detail, rows_table
from estimating.scopes.shared.coverage import TABLE
from estimating.scopes.shared.second_opinion import USUAL, SecondOpinion, second_opinion

LIBRARY = load_library()
ROWS = list(LIBRARY.table(TABLE).values())
DOUBLE_BOARD = ("smooth_drywall", "sealed", "any", "any")


def opinion(row: Row, library: Library = LIBRARY) -> SecondOpinion:
    found = second_opinion(Basis(library), row)
    assert found
    return found


def doubled() -> Library:
    """Return the tables with one row of coverage at twice its rate."""
    rows = dict(LIBRARY.table(TABLE))
    row = rows[DOUBLE_BOARD]
    rows[DOUBLE_BOARD] = replace(row, low=row.low * 2, likely=row.likely * 2, high=row.high * 2)
    return Library(MappingProxyType({**LIBRARY.tables, TABLE: MappingProxyType(rows)}), LIBRARY.sources)


def test_every_surface_that_is_painted_has_its_usual_paint() -> None:
    """But decks, which are stained, and a surface nobody described."""
    named = {row.keys[0] for row in ROWS}
    assert set(USUAL) == named - {"any", "deck_boards"}
    paints = {keys[0] for keys in LIBRARY.table("coatings")}
    assert {each for usual in USUAL.values() for each in (usual.finish, usual.first)} <= paints


def test_it_is_the_rule_of_solids_and_film_by_hand() -> None:
    """1,604 × solids ÷ film, less what stays in the roller, on a smooth sealed wall (1 gallon is 1,604 ft² × thou)."""
    solids, film = (LIBRARY.row("coatings", "wall_paint", each).likely for each in ("volume_solids", "dry_film"))
    loss = LIBRARY.row("losses", "roll", "interior").likely / 100
    area = LIBRARY.row("surfaces", "smooth_drywall", "area_factor").likely
    by_hand = 1604.2 * solids / 100 / film * (1 - loss) / area
    found = opinion(LIBRARY.row(TABLE, *DOUBLE_BOARD))
    assert found.product == "wall_paint"
    assert found.worked.value == pytest.approx(by_hand, rel=1e-3)


def test_a_thirsty_first_coat_is_that_of_the_primer() -> None:
    """And drinks."""
    first = opinion(LIBRARY.row(TABLE, "smooth_drywall", "porous", "first", "any"))
    assert first.product == "drywall_sealer"
    assert any(each.key.startswith("take_up/porous/first") for each in first.worked.walk())


def test_other_goods_have_no_second_opinion() -> None:
    """A stain, a repellent, linseed oil: the usual paint says nothing of them; nor has any other table one."""
    basis = Basis(LIBRARY)
    assert second_opinion(basis, LIBRARY.row(TABLE, "brick", "any", "any", "repellent")) is None
    assert second_opinion(basis, LIBRARY.row("film", "dead_flat", "dry")) is None


def test_a_row_that_parts_is_marked_in_the_list_and_in_its_detail() -> None:
    """By more than the factor of the tables; one that agrees says so without a mark."""
    library = doubled()
    far, near = library.row(TABLE, *DOUBLE_BOARD), LIBRARY.row(TABLE, *DOUBLE_BOARD)
    assert opinion(far, library).apart
    assert not opinion(near).apart
    shown = Evidence(library, MappingProxyType({}), MappingProxyType({}))
    plain = Evidence(LIBRARY, MappingProxyType({}), MappingProxyType({}))
    assert "look at the surface" in row_detail(far, shown)
    assert "film says" in rows_table([far], shown)
    assert "Second opinion" in row_detail(near, plain)
    assert "look at the surface" not in row_detail(near, plain)
    assert "film says" not in rows_table([near], plain)


def test_a_rate_of_ones_own_is_held_to_it_as_well() -> None:
    """What an estimate takes is what the opinion is about."""
    row = LIBRARY.row(TABLE, *DOUBLE_BOARD)
    own = {row.key: OwnValue(row.likely * 3, row.unit, note="one house", date="2026-05-04")}
    assert "look at the surface" in row_detail(row, Evidence(LIBRARY, MappingProxyType({}), own))


def test_the_summary_of_the_table_counts_them() -> None:
    """How many rows have a second opinion, and how many part."""
    said = evidence_summary(Evidence(LIBRARY, MappingProxyType({}), MappingProxyType({})), TABLE)
    found = [each for row in ROWS if (each := second_opinion(Basis(LIBRARY), row))]
    apart = sum(each.apart for each in found)
    assert 0 < apart < len(found) / 4
    assert f"second opinion by solids and film: {len(found)} rows, {apart} part" in said
    assert "second opinion" not in evidence_summary(
        Evidence(LIBRARY, MappingProxyType({}), MappingProxyType({})), "film"
    )


def test_a_range_that_was_read_says_from_what() -> None:
    """The ends as the source prints them, and of how many values."""
    row = LIBRARY.row(TABLE, "smooth_drywall", "any", "any", "any")
    assert "read from 300 to 400" in row_detail(row, Evidence(LIBRARY, MappingProxyType({}), MappingProxyType({})))
