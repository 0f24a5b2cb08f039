"""What-if in words: each answer says what it should, in the units shown, and what is typed is never markup."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import permutations
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from places import JOBS

from estimating.errors import InputError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.estimate.uncertainty.price_risk import PriceRisk, bid_for, risk_at_price
from estimating.estimate.uncertainty.ranges import spread
from estimating.estimate.whatif.scenario import apply
from estimating.job.file import plain_job
from estimating.reports.format import UnitSystem, dollars
from estimating.reports.panes import how_sure as sure_panes
from estimating.reports.panes import whatif as panes
from estimating.reports.panes.whatif import Kept
from estimating.workbook import Outcome, build_job, estimate_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
WAYS = ("spray", "roll")
RATE = "production/roll_ceiling/roll/popcorn"


def text_of(html: str) -> str:
    """Return what a reader sees, without the words inside drawings."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", re.sub(r"<svg.*?</svg>", " ", html)))


@pytest.fixture(scope="module")
def plain() -> dict[str, Any]:
    return plain_job(read_job(DEMO))


@pytest.fixture(scope="module")
def outcome(plain: dict[str, Any]) -> Outcome:
    return estimate_job(build_job(plain))


@pytest.fixture(scope="module")
def sure(outcome: Outcome) -> EstimateRanges:
    return estimate_ranges(outcome.estimate)


def kept(name: str, plain: dict[str, Any], **coating: Any) -> Kept:
    found = estimate_job(build_job(apply(plain, {("work", 0, field): value for field, value in coating.items()})))
    return Kept(name, found, estimate_ranges(found.estimate))


def test_a_price_says_its_chance_and_a_chance_its_price(outcome: Outcome, sure: EstimateRanges) -> None:
    """The share of draws above the price, and the price that a share of them is above."""
    wanted = bid_for(outcome.estimate, sure.cost_draws, 0.10)
    said = text_of(sure_panes.how_sure(outcome, sure, risk_at_price(outcome.estimate, sure.cost_draws, 1950), wanted))
    lost = np.mean(sure.cost_draws > 1950)
    assert f"At $1,950.00 the chance of losing money is {lost:.0%}" in said
    assert f"To lose money with a chance of 10%, ask {dollars(np.quantile(sure.cost_draws, 0.9))[:5]}" in said


def test_the_median_is_set_against_the_likely_cost(outcome: Outcome, sure: EstimateRanges) -> None:
    """Risks and ranges lean to the high side here, and the words say by how much."""
    said = text_of(sure_panes.how_sure(outcome, sure, risk_at_price(outcome.estimate, sure.cost_draws, 1950)))
    apart = float(np.median(sure.cost_draws)) - outcome.estimate.cost.value
    assert apart > 0
    assert f"the median lies {dollars(apart)} above the likely cost, because costs lean to the high side" in said


@pytest.mark.parametrize(("shift", "words"), [(0, "lean to neither side"), (200, "lean to the low side")])
def test_costs_that_lean_otherwise_are_said_so(
    outcome: Outcome, sure: EstimateRanges, shift: float, words: str
) -> None:
    """The sentence follows the draws, it is not always the same."""
    likely = outcome.estimate.cost.value
    draws = np.linspace(likely - 300, likely + 300, 101) - shift
    other = replace(sure, cost=spread(draws), cost_draws=draws)
    assert words in text_of(sure_panes.how_sure(outcome, other, risk_at_price(outcome.estimate, draws, 1950)))


def test_what_a_price_does_not_cover_is_of_another_color(outcome: Outcome, sure: EstimateRanges) -> None:
    """Bars left of the price are of one color, those right of it of another; that the tail is cut off is admitted."""
    html = sure_panes.how_sure(outcome, sure, risk_at_price(outcome.estimate, sure.cost_draws, 1950))
    fills = re.findall(r'<rect[^>]*fill="(#\w+)"', html)
    assert set(fills) == {"#7aa6d6", "#d0402b"}
    assert "ends where 1 draw in 100 costs more" in html


@pytest.mark.parametrize("price", [1.0, 600.0, 5000.0, 1e7])
def test_any_price_can_be_drawn(outcome: Outcome, sure: EstimateRanges, price: float) -> None:
    """A price far off stands at the edge; nothing is placed outside the drawing."""
    html = sure_panes.how_sure(outcome, sure, risk_at_price(outcome.estimate, sure.cost_draws, price))
    places = [float(each) for each in re.findall(r'\bx\d?="(-?[\d.]+)"', html)]
    assert min(places) >= 0
    assert max(places) <= 470
    assert "nan" not in html


def test_sales_tax_is_named(outcome: Outcome, sure: EstimateRanges) -> None:
    """What goes to the tax office is not what is kept."""
    said = text_of(sure_panes.how_sure(outcome, sure, PriceRisk(1080, 1000, 0.5, -400, 500)))
    assert "At $1,080.00 (of it $80.00 is sales tax)" in said
    assert "such a price is short by $400.00" in said


def test_a_chance_is_never_said_to_be_none_or_certain() -> None:
    """Draws cannot show that something never happens."""
    assert [sure_panes.share(each) for each in (0.0, 0.004, 0.14, 0.996, 1.0)] == [
        "under 1%",
        "under 1%",
        "14%",
        "over 99%",
        "over 99%",
    ]


def test_scenarios_lie_side_by_side(plain: dict[str, Any]) -> None:
    """A column each: method, offer and cost apart, profit, chance of loss, hours, days and paint."""
    three = kept("three coats", plain, coats=3)
    html = panes.side_by_side([kept("two", plain, coats=2), three])
    money = ("price offered", "cost to do it", "expected profit", "chance of loss")
    for row in ("method", *money, "hours", "days on site", "paint, gal"):
        assert f'<th scope="row">{row}</th>' in html
    assert dollars(three.outcome.estimate.price) in html
    assert "paint, L" in panes.side_by_side([three], UnitSystem.METRIC)


def test_only_differences_are_listed(plain: dict[str, Any]) -> None:
    """A third coat: one input, its own coat, and what follows from it; not the masking, which stays."""
    two, three = kept("two", plain, coats=2), kept("three", plain, coats=3)
    said = text_of(panes.only_differences(two, three))
    assert 'work[0] "sitting room" · coats 2 3' in said.replace("&quot;", '"')
    assert "Roll the ceiling, coat 3" in said
    assert "Cover the floor" not in said
    change = three.outcome.estimate.price - two.outcome.estimate.price
    assert f"price +{dollars(change)}" in said
    assert f"price −{dollars(change)}" in text_of(panes.only_differences(three, two))


def test_nothing_different_is_said_so(plain: dict[str, Any]) -> None:
    """Two scenarios that are the same differ in nothing, and no empty table is shown."""
    one = kept("one", plain)
    said = panes.only_differences(one, one)
    assert "No input differs" in said
    assert "No line of the price differs" in said
    assert "<table" not in said


def test_a_row_added_is_shown_by_its_answers(plain: dict[str, Any]) -> None:
    """A further test stands with what it was and showed, its unknown answers left out; gone, it is a dash."""
    tests = [*plain["work"][0]["tests"], {"kind": "roller patch", "outcome": "clean", "where": "closet"}]
    said = text_of(panes.only_differences(kept("before", plain), kept("after", plain, tests=tests)))
    assert "– kind: roller patch outcome: clean where: closet" in said


def test_what_is_typed_is_never_markup(plain: dict[str, Any]) -> None:
    """Names and answers are shown as typed."""
    sly = kept("<i>sly</i>", plain, color_wanted="<b>white</b>")
    html = panes.side_by_side([sly]) + panes.only_differences(kept("plain", plain), sly)
    assert "<i>" not in html
    assert "<b>" not in html
    assert "&lt;b&gt;white&lt;/b&gt;" in html


def test_the_pivot_says_where_two_ways_change_places(outcome: Outcome) -> None:
    """The chance in percent, who is cheaper on each stretch, and where it stands now."""
    said = text_of(panes.break_even(outcome, 0, ("seal_roll", "roll"), panes.PIVOT))
    at = [float(each) for each in re.findall(r"change places at ([\d.]+)%", said)]
    assert at
    assert f"up to {at[0]:.3g}% Roll, water-borne is cheaper" in said
    assert "% now, where Roll, water-borne is" in said


@pytest.mark.parametrize("path", sorted(DEMO.parent.glob("*.toml")), ids=lambda path: path.stem)
def test_any_two_ways_of_any_job_can_be_compared(path: Path) -> None:
    """Each pair of ways of each piece of work, along the first figure offered, leaving things as they are included."""
    priced = estimate_job(read_job(path))
    for place, comparison in enumerate(priced.comparisons):
        for methods in permutations([option.plan.method for option in comparison.options], 2):
            moved = next(iter(panes.movable(priced, place, methods).values()))
            html = panes.break_even(priced, place, methods, moved)
            assert "nan" not in html
        assert "nan" not in panes.one_more_test(priced, place)


def test_a_way_out_of_the_question_is_said_to_be(outcome: Outcome) -> None:
    """Rolling is closed at this chance, and the reason stands under the drawing."""
    assert "Roll, water-borne is out now" in text_of(panes.break_even(outcome, 0, WAYS, panes.PIVOT))


def test_a_way_that_does_not_rest_on_it_is_named(outcome: Outcome) -> None:
    """Sprayer wear says nothing about scraping."""
    said = text_of(panes.break_even(outcome, 0, ("spray", "scrape"), "business/equipment_sprayer"))
    assert "Scrape, skim and paint smooth does not rest on it: its price is the same throughout" in said
    assert "do not change places anywhere from" in said


def test_neither_resting_on_it_is_refused(outcome: Outcome) -> None:
    """Two sprayed ways do not rest on the rate of scraping, though the job has looked it up."""
    row = next(key for key in outcome.basis.used() if "scrape_ceiling" in key)
    with pytest.raises(InputError, match="either way rests on"):
        panes.break_even(outcome, 0, WAYS, row)
    assert row not in panes.movable(outcome, 0, WAYS)


@pytest.mark.parametrize("moved", ["no/such/row", panes.PIVOT])
def test_one_way_twice_or_a_stranger_is_refused(outcome: Outcome, moved: str) -> None:
    """A comparison takes two ways and a figure the job rests on."""
    with pytest.raises(InputError, match="not the first one"):
        panes.break_even(outcome, 0, ("roll", "roll"), moved)
    if moved:
        with pytest.raises(InputError, match="this job rests on"):
            panes.break_even(outcome, 0, WAYS, moved)


def test_steps_are_drawn_as_steps(outcome: Outcome) -> None:
    """Paint is bought in whole cans: along how far the first gallon goes the price jumps from one point to the next."""
    html = panes.break_even(outcome, 0, ("roll", "seal_roll"), "coverage/popcorn_medium/very_porous/first/any")
    points = re.findall(r'<polyline points="([^"]+)"', html)[1]
    heights = [float(pair.split(",")[1]) for pair in points.split()]
    jumps = np.abs(np.diff(heights))
    assert jumps.max() > 10
    assert np.median(jumps) < 1


def test_the_axis_follows_the_units_shown(outcome: Outcome) -> None:
    """A rate in square feet an hour is drawn in square meters an hour where those are wanted."""
    us, metric = (panes.break_even(outcome, 0, WAYS, RATE, shown) for shown in UnitSystem)
    assert ", ft²/h</text>" in us
    assert ", m²/h</text>" in metric
    assert "now 90 ft²/h" in us
    assert "now 8.36 m²/h" in metric


def test_one_more_test_is_worth_making_or_it_is_enough(outcome: Outcome, plain: dict[str, Any]) -> None:
    """What no test could turn is enough tested; and where each result would lead is said."""
    said = text_of(panes.one_more_test(outcome, 0))
    assert "Without it: Seal with solvent-borne primer, then roll" in said
    led = re.search(
        r"One more roller patch leads to: patch clean \(\d+%\): (.+?); patch crumbs \(\d+%\): (.+?)\.", said
    )
    assert led is not None
    assert led.groups() == ("Roll, water-borne", "Seal with solvent-borne primer, then roll")
    assert "Origin of the odds ratios: judgment" in said
    painted = estimate_job(build_job(apply(plain, {("work", 0, "history"): "primed and painted twice"})))
    assert "Enough tested: Roll, water-borne" in text_of(panes.one_more_test(painted, 0))


def test_no_test_before_the_laboratory(plain: dict[str, Any]) -> None:
    """While asbestos is open there is the caution and no table: nothing invites to a test."""
    open_ = estimate_job(build_job(apply(plain, {("site", "asbestos_test"): "not tested"})))
    html = panes.one_more_test(open_, 0)
    assert "No test may be made before the laboratory has answered" in html
    assert "licensed" in html
    assert "<table" not in html


def test_work_without_tests_says_so(outcome: Outcome, monkeypatch: pytest.MonkeyPatch) -> None:
    """A kind of work that has no test set down is not given one."""
    scopes = {kind: replace(scope, tests=None) for kind, scope in panes.KINDS.items()}
    monkeypatch.setattr(panes, "KINDS", scopes)
    assert "No further test is set down" in panes.one_more_test(outcome, 0)
