"""How far a gallon goes comes from the coverage table; solids and film stand beside it as a second opinion."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest
from places import JOBS

from estimating.estimate.pricing.lines import Section
from estimating.evidence import Basis, Library, Row, load_library
from estimating.figures import leaf
from estimating.origins import Kind, Origin
from estimating.scopes.shared.coverage import TABLE, Coat, Spread, spread
from estimating.workbook import Outcome, estimate_job, read_job

LIBRARY = load_library()
PUBLIC_NORM = 1.37  # SINAPI, compositions 104644 and 104638: paint sprayed over paint by hand, latex and sealer alike
DEMOS = sorted(JOBS.glob("*.toml"))


def rate(name: str, value: float) -> Spread:
    figures = [leaf(name, each, "ft**2/gallon", Origin(Kind.INVENTED)) for each in (value, 200.0)]
    return Spread(*figures)


def times(share: float, row: Row) -> Row:
    return replace(row, low=row.low * share, likely=row.likely * share, high=row.high * share)


def with_table(change: Callable[[Row], Row], table: str = TABLE) -> Library:
    rows = {keys: change(row) for keys, row in LIBRARY.tables[table].items()}
    return Library(MappingProxyType({**LIBRARY.tables, table: MappingProxyType(rows)}), LIBRARY.sources)


def coats_of(outcome: Outcome) -> dict[tuple[str, str, str], float]:
    """Return the gallons of every coat of every plan, but not of what stays in a tool or is laid on a fixture."""
    return {
        (option.plan.method, material.room, f"{material.product} {material.purpose}"): material.gallons.value
        for comparison in outcome.comparisons
        for option in comparison.options
        for material in option.plan.materials
        if material.coverage_key
    }


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_coverage_drives_every_gallon(path: Path) -> None:
    """A table a tenth lower makes every coat take a ninth more paint, by every method, and cans cost money."""
    job = read_job(path)
    before, after = (estimate_job(job, library) for library in (LIBRARY, with_table(lambda row: times(0.9, row))))
    plain, more = coats_of(before), coats_of(after)
    assert plain
    assert more == pytest.approx({coat: gallons / 0.9 for coat, gallons in plain.items()})
    assert after.estimate.gallons > before.estimate.gallons
    bought = [sum(each.cost.value for each in found.estimate.paint) for found in (before, after)]
    dearer = after.estimate.price > before.estimate.price
    assert dearer == (bought[1] > bought[0])  # not where the same cans still hold it


def test_a_method_takes_as_much_more_paint_as_public_norms_say() -> None:
    """Sprayed in a masked room against rolled: once, and as the norms of the same paint have it."""
    basis = Basis(LIBRARY)
    coats = [
        Coat("wall_paint", "smooth_drywall", "sealed", "later", *method)
        for method in (("roll", "interior"), ("airless", "masked_interior"))
    ]
    rolled, sprayed = (spread(basis, coat).rate.value for coat in coats)
    assert rolled == LIBRARY.nearest(TABLE, "smooth_drywall", "sealed", "later", "roll").likely
    assert rolled / sprayed == pytest.approx(PUBLIC_NORM, rel=0.02)


def test_a_porosity_without_a_row_drinks_as_much_as_its_class() -> None:
    """The rate of a sealed ceiling does not stand for bare board: it is lowered by the suction of the class."""
    found = spread(Basis(LIBRARY), Coat("ceiling_flat", "smooth_ceiling", "porous", "first", "roll", "interior"))
    sealed = LIBRARY.nearest(TABLE, "smooth_ceiling", "sealed", "first", "roll").likely
    assert found.rate.value == pytest.approx(sealed / (1 + LIBRARY.row("take_up", "porous", "first").likely))
    assert found.key == "coverage/smooth_ceiling/sealed/first/roll"


def test_a_surface_without_any_row_is_worked_out_from_solids_and_film() -> None:
    """Then it is the film that gallons really used correct, and there is no second opinion."""
    tables = {**LIBRARY.tables, TABLE: MappingProxyType({})}
    basis = Basis(Library(MappingProxyType(tables), LIBRARY.sources))
    found = spread(basis, Coat("ceiling_flat", "smooth_ceiling", "porous", "first", "roll", "interior"))
    assert (found.second, found.key) == (None, "coatings/ceiling_flat/dry_film")


def test_the_gallons_really_used_correct_the_coverage_row() -> None:
    """Rolled or sprayed: the same row."""
    for method in (("roll", "interior"), ("airless", "masked_interior")):
        found = spread(Basis(LIBRARY), Coat("wall_paint", "smooth_drywall", "sealed", "later", *method))
        assert found.key == "coverage/smooth_drywall/sealed/any/any"


def test_two_opinions_that_part_are_said() -> None:
    """By more than the factor of the tables, either way; otherwise nothing is said."""
    apart = Basis(LIBRARY).figure("factors", "second_opinion", "spread")
    assert rate("even", 200.0).remark(apart) == ""
    assert "310 ft²/gal by the coverage table, 200 ft²/gal worked out" in rate("far", 310.0).remark(apart)
    assert rate("near", 120.0).remark(apart)
    assert Spread(rate("alone", 310.0).rate).remark(apart) == ""


def test_the_remark_stands_beside_the_line() -> None:
    """A table row far from its film shows on the paint line that rests on it."""
    doubled = with_table(lambda row: times(2.0, row))
    outcome = estimate_job(read_job(JOBS / "alder_row_sitting_room.toml"), doubled)
    paint = [line for line in outcome.estimate.section(Section.PAINT) if line.row.startswith(TABLE)]
    assert paint
    assert all("worked out from solids and film" in line.detail for line in paint)
