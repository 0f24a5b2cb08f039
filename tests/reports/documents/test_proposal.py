"""The proposal: what the client reads in it, and what never stands in it."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from paper_jobs import NASTY, REPAINT, STUDY, made, read, with_own, with_terms, with_work

from estimating.estimate.pricing.lines import Section
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.estimate.uncertainty.ranges import Spread
from estimating.reports.documents.documents import papers
from estimating.reports.documents.proposal import in_coats, proposal
from estimating.reports.format import UnitSystem, dollars
from estimating.reports.panes.selling import hourly_charge
from estimating.workbook import Outcome

ON = date(2026, 5, 4)
ODD = {  # figures so odd that none of them stands on a paper by chance
    "business/wage": (28.37, "dollar/hour"),
    "business/burden": (28.73, "percent"),
    "business/overhead": (14.59, "dollar/hour"),
    "business/markup": (35.83, "percent"),
    "business/purchase_tax": (8.61, "percent"),
}
WORDS_OF_COST = re.compile(r"\b(markup|mark-up|overhead|wage|burden|profit|margin|cost|costs)\b", re.IGNORECASE)


def text(outcome: Outcome, shown: UnitSystem = UnitSystem.US, price_range: Spread | None = None) -> str:
    return read(proposal(outcome, ON, shown, price_range))


def offered(**terms: Any) -> str:
    return text(made(with_terms(**terms)))


def figures_of_cost(outcome: Outcome) -> set[str]:
    """Return every figure that is the contractor's own, as it would be written down."""
    estimate = outcome.estimate
    lines = [line for line in estimate.lines if line.section is not Section.SALES_TAX]
    money = [line.cost for line in lines] + [line.unit_cost.value for line in lines if line.unit_cost]
    money += [estimate.cost.value, estimate.profit, *(value for value, _ in ODD.values())]
    money += [risk.cost_if.value for plan in estimate.plans for risk in plan.risks]
    return {f"{amount:,.2f}" for amount in money if amount >= 1}


def leaks(paper: str, outcome: Outcome) -> set[str]:
    """Return what of the contractor's own figures and words stands on a paper."""
    numbers = set(re.findall(r"[\d,]+\.\d\d", paper))
    return (figures_of_cost(outcome) & numbers) | set(WORDS_OF_COST.findall(paper))


@pytest.mark.parametrize("method", ["spray", "seal_roll", "seal_spray", "scrape", "overlay"])
def test_nothing_the_client_should_not_see_is_in_it(method: str) -> None:
    """No wage, markup, overhead, cost of hours or worth of an allowance, in figures or in words, whatever the way."""

    def odd(job: dict[str, Any]) -> None:
        with_work(method=method)(job)
        with_own(ODD)(job)

    outcome = made(odd)
    said = text(outcome, price_range=estimate_ranges(outcome.estimate).price)
    assert leaks(said, outcome) == set()


def test_the_scan_for_costs_looks() -> None:
    """Each kind of figure and word it is to find is found when it is put there."""
    outcome = made(with_own(ODD))
    for leak in ("28.37", "35.83", f"{outcome.estimate.cost.value:,.2f}", "overhead", "Markup"):
        assert leaks(f"{text(outcome)} {leak}", outcome)


def test_parties_site_dates_and_price_are_in_it() -> None:
    """Who, where, when, until when, and how much."""
    said = offered(contractor="Plain & Sons", license="no. 7", validity_days=21)
    price = dollars(made().estimate.price)
    for part in ("R. Example", "Plain & Sons", "no. 7", "14 Alder Row", "2026-05-04", "2026-05-25 (21 days)", price):
        assert part in said


def test_the_job_file_may_date_it() -> None:
    """A date in the job file comes before the day it is printed; the usual validity comes from the table."""
    assert "2026-03-01" in offered(dated="2026-03-01")
    assert "2026-03-31 (30 days)" in offered(dated="2026-03-01")


def test_room_surfaces_products_and_counts_are_named() -> None:
    """Sizes as they were taped, openings and fixtures by number, products with what each of them coats."""
    said = text(made(with_work(method="spray")))
    for part in (
        "19' 6\" × 14' 3 1/2\"",
        "2 doors, 1 window",
        "4 recessed trims, 1 fan, 2 grilles, 1 detector",
        "Ceiling flat, water-borne flat white 2 coats of the ceiling",
        "Spray, 2 coats",
        "Stain-sealing primer, solvent-borne – sealing stains",
        "Vacuum the ceiling with a soft brush",
        "Hang the wall drape",
        "No preparation beyond what is listed",
    ):
        assert part in said


def test_coats_are_counted() -> None:
    """One coat after the other is said once, with their number; what has no coats is said as it is."""
    said = [
        "Cut in the ceiling, coat 1",
        "Roll the ceiling, coat 1",
        "Cut in the ceiling, coat 2",
        "Dust",
        "Roll the ceiling, coat 2",
        "Dust",
        "coat 1 of the trim",
    ]
    assert in_coats(said) == ["Cut in, 2 coats", "Roll, 2 coats", "Dust", "1 coat of the trim"]


def test_only_what_was_there_before_is_disclaimed() -> None:
    """One more coat, should a color want it, is allowed for; nobody signs that it is not warranted."""
    said = text(made(path=REPAINT))
    assert "One more coat on" in said
    assert "an allowance for this is in the price" in said
    assert "Told before signing" not in said


def test_care_of_tools_and_paint_left_in_them_is_no_work_on_the_house() -> None:
    """Setting up, washing and what stays in the sprayer are not listed."""
    said = text(made(with_work(method="spray")))
    assert "prime the sprayer" not in said
    assert "left in the" not in said


def test_chosen_goods_are_named_with_their_number() -> None:
    """The paper to be hung is on the proposal, paste and blades are not."""
    said = text(made(path=STUDY))
    assert "Paper “leaf, green”, rolls of one batch: 9" in said
    assert "paste" not in said.lower()


@pytest.mark.parametrize(
    ("terms", "there", "gone"),
    [
        ({"exclusions": "wardrobe; attic hatch"}, "wardrobe", "rot, damp"),
        ({"acceptance": "by daylight"}, "by daylight", "magnification"),
        ({"warranty": "three years on peeling"}, "three years on peeling", "Not covered"),
        ({"payment": "half when the drape is up; half at the end"}, "half at the end", "One payment"),
        ({"furniture": "the client empties the room"}, "the client empties the room", "contractor moves"),
        ({"allowances": "two hours of patching"}, "two hours of patching", "putting right up to"),
        ({"change_rate": "$75"}, "$75.00 an hour", f"{hourly_charge(made().estimate)} an hour"),
        ({"mended_square_feet": 12}, "putting right up to 12 ft² of it", "putting right up to  of"),
        (
            {"start_earliest": "2026-06-01", "start_latest": "2026-06-12"},
            "between 2026-06-01 and 2026-06-12",
            "agreed.",
        ),
        ({"working_hours": "8 to 4"}, "Working hours: 8 to 4", "no such part"),
    ],
)
def test_the_contractors_own_wording_takes_the_place_of_the_usual(terms: dict[str, Any], there: str, gone: str) -> None:
    """Each part that the job file words itself is worded so."""
    said = offered(**terms)
    assert there in said
    assert gone not in said


def test_none_leaves_a_part_out() -> None:
    """The word none is an answer: no heading without a list."""
    assert "Not in the price" not in offered(exclusions="none")


def test_without_a_state_no_deposit_is_asserted() -> None:
    """An unknown state is said to be unknown, and no share of the price is asked for beforehand."""
    said = text(made())
    assert "The state is not recorded" in said
    assert "No deposit is asked for here" in said
    assert not re.search(r"\d ?%[^.]*deposit|deposit of", said)


def test_a_known_state_is_deferred_to() -> None:
    """The law of the state comes first; nothing is said about what it holds."""

    def choose_methods(job: dict[str, Any]) -> None:
        job["site"]["state"] = "Ohio"

    said = text(made(choose_methods))
    assert "follow the law of Ohio" in said
    assert "not recorded" not in said


def test_acceptance_says_distance_light_and_how_its_source_was_seen() -> None:
    """Thirty-nine inches or more, in the light of the room, from a standard that was read only where it is quoted."""
    said = text(made())
    assert "from 39 in or more, without magnification, in the light the room will have" in said
    assert "standard P1" in said
    assert "the standard itself was not opened" in said
    assert "from 0.99 m or more" in text(made(), UnitSystem.METRIC)


def test_the_range_is_shown_only_where_the_contractor_chooses() -> None:
    """One sentence with both ends when the terms say so, none otherwise."""
    for answer, times in (("yes", 1), ("no", 0)):
        outcome = made(with_terms(show_range=answer))
        sure = estimate_ranges(outcome.estimate)
        said = read(papers(outcome, sure, ON)["proposal.html"])
        assert said.count("Eight times in ten") == times
        assert (f"${sure.price.low:,.0f} and ${sure.price.high:,.0f}" in said) == bool(times)


def test_a_risk_taken_on_is_signed_for() -> None:
    """Where tests are marginal the client signs for the chance; where the history is good nobody has to."""
    outcome = made(with_work(method="spray"))
    (risk,) = outcome.estimate.plans[0].risks
    for part in ("Told before signing", f"about {risk.chance.value:.0%}", "no part of the warranty"):
        assert part in text(outcome)
    sound = made(with_work(history="primed and painted twice", tests="none", stains="none"))
    assert "Told before signing" not in text(sound)


def test_a_way_that_may_not_be_used_is_not_sent() -> None:
    """Asking for a closed way prints a warning on top with the reason."""
    said = text(made(with_work(method="roll")))
    assert "Not to be sent" in said
    assert "This way may not be used here as the notes stand: the chance that texture comes down is" in said


def test_declining_offers_no_price() -> None:
    """Where nothing is done nothing is priced or signed."""
    said = text(made(with_work(method="decline")))
    assert "We do not offer" in said
    assert "$" not in said
    assert "Client, date" not in said


def test_the_household_is_told_what_concerns_it_and_not_the_crews_part() -> None:
    """Lead, vapor and detectors are for the household; the gun and the ladder are not. Local rules come first."""
    said = text(made(with_work(method="spray")))
    for title in ("Old paint may hold lead", "Solvent vapor can burn", "Smoke and gas detectors"):
        assert title in said
    assert "Spray can go through skin" not in said
    assert "Ladder above the landing" not in said
    assert "Local codes and licensed practice come first" in said


def test_open_questions_are_told() -> None:
    """What the notes leave open stands on the paper, but for what only the contractor asks himself."""

    def forget(job: dict[str, Any]) -> None:
        job["site"].update(travel_minutes="unknown", asbestos_test="unknown")

    said = text(made(forget))
    assert "Were texture, compound or plaster tested by a laboratory?" in said
    assert "drive" not in said


def spoil(job: dict[str, Any]) -> None:
    job["title"] = NASTY
    job["client"]["name"] = NASTY
    job["site"].update(address=NASTY, state=NASTY)
    job["rooms"][0]["name"] = NASTY
    job["work"][0].update(room=NASTY, color_wanted=NASTY)
    words = ("contractor", "license", "working_hours", "furniture", "exclusions", "allowances", "acceptance")
    job["terms"] = dict.fromkeys((*words, "payment", "warranty", "contractor_contact"), NASTY)


@pytest.mark.parametrize("name", ["proposal.html", "crew_sheet.html", "purchase_list.html", "change_order.html"])
def test_typed_text_stays_text_on_every_paper(name: str) -> None:
    """A script typed in any field is printed and never run; the page could not run one either."""
    outcome = made(spoil)
    paper = papers(outcome, estimate_ranges(outcome.estimate), ON, before=made())[name]
    assert "<script" not in paper
    assert NASTY in read(paper)
    assert "default-src 'none'" in paper


@pytest.mark.parametrize("change", [lambda job: None, with_terms(contractor="A")])
def test_it_is_a_whole_page_that_sets_no_paper_size(change: Callable[[dict[str, Any]], None]) -> None:
    """It prints on A4 and on US letter: margins are set, size is left to the printer, nothing is wider than either."""
    paper = proposal(made(change), ON)
    assert paper.startswith("<!doctype html>")
    (rule,) = re.findall(r"@page \{([^}]*)\}", paper)
    assert "size" not in rule
    assert all(float(width) <= 182 for width in re.findall(r"width: ([\d.]+)mm", paper))


def test_an_invented_job_says_so() -> None:
    """Nobody takes the demo for an offer."""
    assert "An invented job" in text(made())
    assert "An invented job" not in text(made(lambda job: job.update(invented=False)))
