"""Edges of lapped and battened siding, and sides with gables: what others print of them."""

from __future__ import annotations

import pytest

from estimating.trade import siding

INCH = 1 / 12


@pytest.mark.parametrize(("exposure", "feet"), [(4.5, 2.67), (6.25, 1.92), (8.25, 1.45)])
def test_feet_of_lower_edge_in_a_square_foot(exposure: float, feet: float) -> None:
    """Sierra Pacific Industries, installation guide p. 11 (siding patterns of the WWPA), coverage table."""
    edges = siding.lapped_factor(butt=1.0, exposure=exposure * INCH) - 1  # of an edge a foot deep
    assert edges == pytest.approx(feet, abs=0.005)


@pytest.mark.parametrize(("exposure", "factor"), [(5.0, 1.08), (7.5, 1.05)])
def test_shingle_butts(exposure: float, factor: float) -> None:
    """JLC Field Guide, shingles: five butts of 16 in shingles measure two inches, so one is 0.4 in."""
    found = siding.lapped_factor(butt=0.4 * INCH, exposure=exposure * INCH)
    assert found == pytest.approx(factor, abs=0.005)


def test_narrow_clapboard_is_what_old_rules_add_for_its_edges() -> None:
    """Radford 1909: one square foot to the square yard, 11.1 %; White: 10 %. Half-inch butts at 4 1/2 in are 11.1 %."""
    found = siding.lapped_factor(butt=0.5 * INCH, exposure=4.5 * INCH)
    assert found == pytest.approx(1.111, abs=0.005)
    assert found == pytest.approx(1.10, abs=0.015)


def test_the_height_an_old_rule_adds_holds_the_edges() -> None:
    """Armstrong 1908, p. 125: a foot to a foot and a half more height. On a 12 ft wall that is 8 to 12.5 %."""
    assert 1 + 1 / 12 <= siding.lapped_factor(butt=0.5 * INCH, exposure=4.5 * INCH) <= 1 + 1.5 / 12


def test_battens_show_two_edges() -> None:
    """Battens 3/4 in thick a foot apart: 1.125; a table of coefficients pays 1.05 for cover fillets."""
    assert siding.batten_factor(thickness=0.75 * INCH, spacing=1.0) == pytest.approx(1.125)


def test_a_gable_is_half_its_width_by_its_height() -> None:
    """Chicago Tribune 2000: two gables 50 ft wide and 10 ft high are 25 · 10 · 2 = 500 ft²."""
    gables = 2 * siding.elevation_area(width=50.0, height=0.0, gable=10.0)
    assert gables == 500
    assert siding.elevation_area(width=26.0, height=10.0, gable=0.0) == 260
