"""Ways side by side: which may be used, which is cheapest with its risk, and where that changes."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from made_up import charge, made, plan, round_basis, small_job, task
from places import JOBS
from random_ceilings import ceilings

from estimating.estimate.pricing.build_up import build_up
from estimating.estimate.pricing.engine import Engine
from estimating.estimate.pricing.plan import Finding, OfTheSurface, Plan, Risk, Suitability
from estimating.estimate.pricing.preference import Appetite
from estimating.estimate.whatif.compare import Comparison, Option, compare, usable
from estimating.figures import Figure, work
from estimating.trade import adhesion
from estimating.workbook import estimate_job, read_job

LIKELY = made(0.3, "dimensionless", 0.1, 0.6)


def method(
    name: str,
    cost: float,
    *findings: Finding,
    repair: float = 0.0,
    decision_figure: Figure | None = LIKELY,
    finishes: bool = True,
) -> Option:
    """Return a way that costs so much besides the visit, and mending if the pivot's event happens."""
    risks: tuple[Risk, ...] = ()
    if repair and decision_figure is not None:
        mending = made(repair, "dollar")
        expected = work(adhesion.expected_cost, "allowance", chance=decision_figure, cost=mending)
        risks = (Risk("release", "It comes down", decision_figure, mending, expected),)
    made_plan = plan(task("do it", 1.0), charges=(charge("cost", cost),), risks=risks, findings=findings)
    named = Plan(
        "ceiling, hall", name, name.title(), made_plan.tasks, charges=made_plan.charges, risks=risks, findings=findings,
        finishes=finishes,
    )  # fmt: skip
    job, basis = small_job(), round_basis()
    return Option(named, Engine(job, basis).likely([named]), partial(build_up, [named], job, basis))


def closed(why: str) -> Finding:
    return Finding(Suitability.CLOSED, why)


def on_condition(why: str) -> Finding:
    return Finding(Suitability.CONDITIONS, why)


def comparison(*options: Option, asked: str | None = None, decision_figure: Figure | None = LIKELY) -> Comparison:
    return compare("ceiling, hall", options, decision_figure, asked)


def test_the_cheapest_way_is_recommended_with_its_risk_priced_in() -> None:
    """100 dollars and a 30 % chance of mending at 400 are 220: dearer than 200 without a risk."""
    rolled, sprayed = method("roll", 100.0, repair=400.0), method("spray", 200.0)
    found = comparison(rolled, sprayed)
    assert found.recommended is sprayed
    assert found.taken is sprayed
    assert [each.plan.method for each in usable(found.options)] == ["spray", "roll"]
    assert "the cheapest of the methods that are OK here" in found.why[0]
    difference = rolled.price - sprayed.price
    assert found.why[1] == f"next is Roll, {difference:,.2f} dollars more"


def test_what_is_said_of_a_price_is_what_the_prices_show() -> None:
    """The recommended method of every demo job and of random ceilings: only the lowest price is called the cheapest."""
    demos = map(read_job, sorted(JOBS.glob("*.toml")))
    for found in (each for job in (*demos, *ceilings(2026, 30)) for each in estimate_job(job).comparisons):
        allowed, best = usable(found.options), found.recommended
        lower = [each for each in allowed if each.price < best.price]
        assert ("the cheapest of the methods" in found.why[0]) <= (not lower)
        for each in lower:
            less = f"{best.price - each.price:,.2f} dollars less"
            assert any(each.plan.title in said and less in said for said in found.why)
        following = [said for said in found.why if said.startswith("next is")]
        assert all(said.endswith("more") for said in following)
        assert len(following) == (1 if len(allowed) > len(lower) + 1 else 0)


def test_a_choice_that_counts_more_than_the_price_says_what() -> None:
    """A third of the mending once more turns 100 and 30 % of 300 against 200: the lower price is named, and why."""
    plain, sprayed = method("roll", 100.0, repair=300.0), method("spray", 200.0)
    (risk,) = plain.plan.risks
    rolled = replace(plain, plan=replace(plain.plan, risks=(replace(risk, surface=OfTheSurface()),)))
    found = compare("ceiling, hall", [rolled, sprayed], LIKELY, appetite=Appetite(beyond=1 / 3))
    assert found.recommended is sprayed
    assert found.why[0] == (
        "Spray: costs the least of the methods that are OK here, with what a failure costs beyond its mending"
    )
    assert found.why[1] == f"Roll is priced {sprayed.price - rolled.price:,.2f} dollars less"


def test_the_recommendation_changes_where_the_two_cost_the_same() -> None:
    """Mending at 400 makes up the 100 between them at a chance of a quarter; it is 30 % now."""
    found = comparison(method("roll", 100.0, repair=400.0), method("spray", 200.0))
    assert [(each.high, each.place) for each in found.stretches] == [(pytest.approx(0.25), 0), (1.0, 1)]
    assert found.turning == "made up: 30.0% now; below 25.0% roll, above 25.0% spray"
    below = made(0.2, "dimensionless")
    cheap = comparison(
        method("roll", 100.0, repair=400.0, decision_figure=below), method("spray", 200.0), decision_figure=below
    )
    assert cheap.recommended.plan.method == "roll"


def test_a_method_recommended_at_any_value_is_said_to_be() -> None:
    """Dearer throughout is an answer too."""
    found = comparison(method("roll", 100.0, repair=50.0), method("spray", 900.0, repair=10.0))
    assert found.turning == "made up: 30.0% now; at any value roll"


def test_a_way_that_is_closed_is_not_recommended_and_its_reason_is_given() -> None:
    """However cheap it is."""
    found = comparison(method("scrape", 10.0, closed("asbestos")), method("spray", 200.0, on_condition("masked")))
    assert found.recommended.plan.method == "spray"
    assert "on condition: masked" in found.why
    assert "Scrape is out: asbestos" in found.why


def test_one_reason_against_closes_a_way_whatever_speaks_for_it() -> None:
    """The worst standing holds."""
    findings = (Finding(Suitability.OPEN, "sound"), closed("asbestos"), on_condition("masked"))
    assert method("scrape", 10.0, *findings).plan.suitability is Suitability.CLOSED
    assert method("scrape", 10.0, findings[0], findings[2]).plan.suitability is Suitability.CONDITIONS
    assert method("scrape", 10.0).plan.suitability is Suitability.OPEN


def test_where_no_way_may_be_used_the_last_resort_is_recommended() -> None:
    """It leaves things as they are, and every reason is given."""
    found = comparison(method("roll", 10.0, closed("asbestos")), method("decline", 0.0, finishes=False))
    assert found.recommended.plan.method == "decline"
    assert found.why == ("no method is OK here", "Roll is out: asbestos")
    assert found.stretches == ()


def test_a_way_that_does_not_finish_is_no_bargain() -> None:
    """Leaving it alone is always cheaper, and is not what was asked for."""
    assert comparison(method("spray", 200.0), method("decline", 0.0, finishes=False)).recommended.plan.method == "spray"


def test_the_way_that_is_asked_for_is_priced_beside_the_recommended_one() -> None:
    """The client decides; the workbook says what it would have done."""
    found = comparison(method("roll", 100.0), method("spray", 200.0), asked="spray")
    assert (found.recommended.plan.method, found.taken.plan.method) == ("roll", "spray")


def test_a_choice_without_a_pivot_has_no_stretches() -> None:
    """There is nothing to turn it on."""
    assert comparison(method("roll", 100.0), method("spray", 200.0), decision_figure=None).turning == ""


def test_a_way_says_its_chance_where_it_has_a_risk() -> None:
    """And its price as part of the whole job."""
    risky, safe = method("roll", 100.0, repair=400.0), method("spray", 200.0)
    assert risky.chance is LIKELY
    assert safe.chance is None
    assert safe.price == safe.estimate.price
