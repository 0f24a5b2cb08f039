"""How old the prices under an estimate are."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from places import JOBS

from estimating.evidence import OwnValue, load_library
from estimating.review.prices import aged_prices, old_ones
from estimating.workbook import Outcome, estimate_job, read_job

ALDER_ROW = JOBS / "alder_row_sitting_room.toml"
PAINT = "prices/ceiling_flat/gallon"
ASKED = date.fromisoformat(load_library().row("prices", "ceiling_flat", "gallon").words["priced_on"])
TRUSTED = load_library().row("business", "price_age").likely


def _priced(**own: OwnValue) -> Outcome:
    return estimate_job(read_job(ALDER_ROW), own={key.replace("__", "/"): value for key, value in own.items()})


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    return _priced()


def test_a_price_is_old_after_as_many_days_as_it_is_trusted(outcome: Outcome) -> None:
    """On the last day of trust it stands; a day later it is flagged. The table says for how long."""
    amount, basis = outcome.estimate.amount, outcome.basis
    last = ASKED + timedelta(days=TRUSTED)
    assert old_ones(aged_prices(amount, basis, last)) == ()
    late = aged_prices(amount, basis, last + timedelta(days=1))
    assert {each.key for each in old_ones(late)} >= {PAINT}
    assert {each.days for each in late} == {TRUSTED + 1}


def test_only_prices_that_the_estimate_rests_on_are_looked_at(outcome: Outcome) -> None:
    """What was looked up for another way, or not at all, is not aged; and looking adds no assumption."""
    before = set(outcome.basis.used())
    keys = [each.key for each in aged_prices(outcome.estimate.amount, outcome.basis, ASKED)]
    assert PAINT in keys
    assert "prices/drywall_board/each" not in keys
    assert set(outcome.basis.used()) == before


def test_an_own_price_counts_from_its_own_day() -> None:
    """A price asked later is younger; one without a day is not trusted, and stands first."""
    today = ASKED + timedelta(days=200)
    fresh = OwnValue(36.0, "dollar", 36.0, 36.0, date=(today - timedelta(days=3)).isoformat())
    undated = OwnValue(45.0, "dollar", 45.0, 45.0)
    mine = _priced(prices__ceiling_flat__gallon=fresh, prices__stain_primer_solvent__gallon=undated)
    first, *rest = aged_prices(mine.estimate.amount, mine.basis, today)
    assert (first.key, first.priced_on, first.days, first.old) == (
        "prices/stain_primer_solvent/gallon",
        None,
        None,
        True,
    )
    assert (rest[-1].key, rest[-1].days, rest[-1].old, rest[-1].dollars) == (PAINT, 3, False, 36.0)


def test_trust_can_be_ones_own() -> None:
    """Who trusts a price for a year is not asked before."""
    own = OwnValue(365.0, "day", 365.0, 365.0)
    mine = _priced(business__price_age=own)
    assert old_ones(aged_prices(mine.estimate.amount, mine.basis, ASKED + timedelta(days=300))) == ()
