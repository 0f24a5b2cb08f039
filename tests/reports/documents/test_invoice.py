"""The invoice: stages that add up to the agreed price, what was billed before, and what is left."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from paper_jobs import REPAINT, made, read, with_terms

from estimating.errors import InputError
from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.invoice import invoice
from estimating.reports.documents.terms_in_words import stages
from estimating.workbook import Outcome

ON = date(2026, 5, 4)
THREE = [{"when": when, "percent": share} for when, share in (("On signing", 10), ("Half way", 45), ("Final walk", 45))]


def billed(outcome: Outcome, stage: int) -> dict[str, Decimal]:
    said = read(as_html(invoice(outcome, stage, ON)))
    found = re.findall(r"(Billed before|This invoice|Left to bill) \$([\d,.]*\d)", said)
    return {name: Decimal(amount.replace(",", "")) for name, amount in found}


def test_before_now_and_left_are_the_price_at_every_stage() -> None:
    """To the cent, and what a stage bills was not billed before."""
    outcome = made(with_terms(stages=THREE), REPAINT)
    before = Decimal(0)
    for stage in (1, 2, 3):
        said = billed(outcome, stage)
        assert said["Billed before"] == before
        assert sum(said.values()) == outcome.estimate.price
        before += said["This invoice"]
    assert before == outcome.estimate.price


def test_without_stages_all_is_due_at_the_end() -> None:
    """One invoice over the whole price."""
    outcome = made(path=REPAINT)
    assert billed(outcome, 1)["This invoice"] == outcome.estimate.price


@pytest.mark.parametrize("stage", [0, 2])
def test_a_stage_that_is_none_is_refused(stage: int) -> None:
    """The stages there are, are named."""
    with pytest.raises(InputError, match="1 to 1"):
        invoice(made(), stage, ON)


@settings(max_examples=50, deadline=None)
@given(price=st.decimals(0, 100_000, places=2), parts=st.lists(st.integers(1, 97), min_size=1, max_size=6))
def test_any_shares_of_any_price_add_up(price: Decimal, parts: list[int]) -> None:
    """Whatever the stages: no cent is lost or billed twice, and none is off by a whole cent."""
    shares = [100 * each / sum(parts) for each in parts]
    outcome = made(with_terms(stages=[{"when": "then", "percent": share} for share in shares]))
    amounts = [amount for _, amount in stages(outcome, price)]
    assert sum(amounts) == price
    exact = [float(price) * share / 100 for share in shares]
    step = 1 if price == int(price) else 0.01
    assert all(abs(float(amount) - each) < 1.01 * step for amount, each in zip(amounts, exact, strict=True))
