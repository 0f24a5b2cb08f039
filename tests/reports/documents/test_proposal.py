"""The proposal: what the client reads in it, and what never stands in it."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from paper_jobs import CEILING, NASTY, REPAINT, STUDY, made, read, with_own, with_terms, with_work

from estimating.errors import InputErrors
from estimating.estimate.pricing.lines import Section
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.estimate.uncertainty.ranges import Spread
from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.as_pdf import as_images
from estimating.reports.documents.documents import html_documents
from estimating.reports.documents.proposal import proposal
from estimating.reports.format import UnitSystem, dollars
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
    return read(as_html(proposal(outcome, ON, shown, price_range)))


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
    """No wage, markup, overhead or cost of anything, in figures or in words, whatever the way."""

    def odd(job: dict[str, Any]) -> None:
        with_work(method=method)(job)
        with_own(ODD)(job)

    outcome = made(odd)
    said = text(outcome)
    assert leaks(said, outcome) == set()


def test_the_scan_for_costs_looks() -> None:
    """Each kind of figure and word it is to find is found when it is put there."""
    outcome = made(with_own(ODD))
    for leak in ("28.37", "35.83", f"{outcome.estimate.cost.value:,.2f}", "overhead", "Markup"):
        assert leaks(f"{text(outcome)} {leak}", outcome)


def test_parties_site_dates_and_price_are_in_it() -> None:
    """Who, where, when, until when, and how much."""
    said = offered(contractor="Plain & Sons", license="no. 7", number="26-014", validity_days=21)
    price = dollars(made().estimate.price)
    for part in ("R. Example", "Plain & Sons", "no. 7", "14 Alder Row", "26-014", "May 4, 2026", "May 25, 2026", price):
        assert part in said


def test_the_job_file_may_date_it() -> None:
    """A date in the job file comes before the day it is printed; the usual validity comes from the table."""
    assert "Date March 1, 2026" in offered(dated="2026-03-01")
    assert "Valid through March 31, 2026" in offered(dated="2026-03-01")


@pytest.mark.parametrize("path", [CEILING, REPAINT, STUDY])
def test_it_fits_two_pages(path: Path) -> None:
    """A job of up to three rooms, with everything that is to be said and signed."""
    assert len(as_images(proposal(made(path=path), ON), 20)) <= 2


@pytest.mark.parametrize("path", [CEILING, REPAINT, STUDY])
def test_its_prices_add_up_to_the_price(path: Path) -> None:
    """Surfaces to their room, rooms to the total, to the cent, as they stand on the page."""
    page = as_html(proposal(made(path=path), ON))
    scope = page.split("Scope of work and price")[1].split("</table>")[0]

    def amounts(kind: str) -> list[Decimal]:
        rows = re.findall(rf'<tr class="{kind}">(.*?)</tr>', scope, re.DOTALL)
        found = [re.findall(r"\$([\d,]+\.\d\d)</td>$", row) for row in rows]
        return [Decimal(each[0].replace(",", "")) for each in found if each]

    (total,) = amounts("total")
    assert total == made(path=path).estimate.price
    assert sum(amounts("group")) == total
    assert sum(amounts("plain")) == total


def test_room_surfaces_products_and_coats_are_named() -> None:
    """Sizes as they were taped, doors and windows by number, each surface with its product, color and coats."""
    said = text(made(with_work(method="spray")))
    for part in (
        "19' 6\" × 14' 3 1/2\"",
        "2 doors and 1 window",
        "Ceiling Ceiling flat, water-borne, flat white 2 coats",
        "Preparation: vacuum the ceiling with a soft brush; seal the stains",
        "hang the wall drape",
        "Preparation and repairs not listed above",
    ):
        assert part in said


def test_only_what_was_there_before_is_disclaimed() -> None:
    """One more coat, should a color want it, is allowed for; nobody signs that it is not warranted."""
    said = text(made(path=REPAINT))
    assert "One more coat, where it turns out to be needed: $" in said
    assert "Please read before you sign" not in said


def test_care_of_tools_and_paint_left_in_them_is_no_work_on_the_house() -> None:
    """Setting up, washing and what stays in the sprayer are not listed."""
    said = text(made(with_work(method="spray")))
    assert "prime the sprayer" not in said
    assert "left in the" not in said


def test_chosen_wallcovering_is_named_with_its_number() -> None:
    """The paper to be hung is on the proposal, paste and blades are not."""
    said = text(made(path=STUDY))
    assert "Paper “leaf, green”, rolls of one batch 9" in said
    assert "paste" not in said.lower()


@pytest.mark.parametrize(
    ("terms", "there", "gone"),
    [
        ({"exclusions": "wardrobe; attic hatch"}, "Wardrobe.", "rot, leaks"),
        ({"acceptance": "by daylight"}, "By daylight.", "magnifying"),
        ({"warranty": "three years on peeling"}, "Three years on peeling.", "Not covered"),
        ({"payment": "half when the drape is up; half at the end"}, "Half at the end.", "After the final walk"),
        ({"furniture": "you empty the room"}, "You empty the room.", "no such part"),
        ({"allowances": "two hours of patching"}, "Two hours of patching.", "repairs up to"),
        ({"change_rate": "$75"}, "$75 an hour", "$68 an hour"),
        ({"mended_square_feet": 12}, "repairs up to 12 ft² are in the price", "repairs up to $"),
        (
            {"start_earliest": "2026-06-01", "start_latest": "2026-06-12"},
            "between June 1, 2026 and June 12, 2026",
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
    assert "Not included" not in offered(exclusions="none")


def test_stages_of_payment_add_up_to_the_price() -> None:
    """Shares of the price by stage, to the cent; shares that are not the whole are refused."""
    stages = [{"when": "On signing", "percent": 10}, {"when": "At the end", "percent": 90}]
    said = offered(stages=stages)
    found = re.findall(r"(?:On signing|At the end) \([\d.]+ %\): \$([\d,.]+\d)", said)
    assert sum(Decimal(each.replace(",", "")) for each in found) == made().estimate.price
    with pytest.raises(InputErrors, match="shares that add up to 100 %"):
        offered(stages=stages[:1])


def test_no_deposit_is_asserted() -> None:
    """Without stages all is due at the end, and the law of the state comes first, whatever it holds."""
    said = text(made())
    assert "After the final walk-through: $" in said
    assert "the law comes first" in said
    assert not re.search(r"\d ?%[^.]*deposit|deposit of", said)

    def in_ohio(job: dict[str, Any]) -> None:
        job["site"]["state"] = "Ohio"

    assert "The law of Ohio may cap deposits" in text(made(in_ohio))


def test_acceptance_says_distance_and_light() -> None:
    """Some three feet or more, in the light of the room; meters where these are asked for."""
    assert "from about 3 feet or more, in the room's normal light" in text(made())
    assert "from 991 mm or more, in" in text(made(), UnitSystem.METRIC)


def test_no_range_of_the_cost_is_shown_to_a_client() -> None:
    """One sentence that the price is fixed where the terms say so, and never how the cost may come out."""
    for answer, times in (("yes", 1), ("no", 0)):
        outcome = made(with_terms(show_range=answer))
        sure = estimate_ranges(outcome.estimate)
        said = read(html_documents(outcome, sure, ON)["proposal.html"])
        assert said.count("whatever the work turns out to cost us") == times
        for end in (sure.cost.low, sure.cost.high):
            assert f"${end:,.0f}" not in said


def test_a_risk_taken_on_is_signed_for() -> None:
    """Where tests are marginal the client signs for the chance; where the history is good nobody has to."""
    outcome = made(with_work(method="spray"))
    (risk,) = outcome.estimate.plans[0].risks
    for part in ("Please read before you sign", f"about {risk.chance.value:.0%}", "not covered by our warranty"):
        assert part in text(outcome)
    sound = made(with_work(history="primed and painted twice", tests="none", stains="none"))
    assert "Please read before you sign" not in text(sound)


def test_a_method_that_may_not_be_used_is_not_offered() -> None:
    """Asking for a method that is ruled out says so with the reason."""
    said = text(made(with_work(method="roll")))
    assert "we do not offer to coat or cover it as it is" in said
    assert "The chance that texture comes down is" in said


def test_declining_offers_no_price() -> None:
    """Where nothing is done nothing is priced or signed."""
    said = text(made(with_work(method="decline")))
    assert "we do not offer" in said
    assert "Client, date" not in said


def test_the_household_is_told_what_concerns_it_and_not_the_crews_part() -> None:
    """Lead, vapor and alarms are for the household; the gun and the ladder are not. Local rules come first."""
    said = text(made(with_work(method="spray")))
    for part in ("Paint of this age may hold lead", "solvent primer is in use", "Smoke and CO alarms"):
        assert part in said
    assert "spray gun" not in said.lower()
    assert "ladder" not in said.lower()
    assert "Local codes and licensed practice come first" in said


def test_the_lead_pamphlet_is_acknowledged_where_the_house_is_old_enough() -> None:
    """A line to sign for it in a house of before 1978 or of unknown age, none in a newer one."""

    def built(year: int | str) -> str:
        return text(made(lambda job: job["site"].update(year_built=year)))

    assert "I received the pamphlet" in built(1962)
    assert "I received the pamphlet" in built("unknown")
    assert "pamphlet" not in built(2004)


def test_open_questions_go_to_the_contractor_and_never_to_the_client() -> None:
    """What the notes leave open stands on the list of what to settle before sending, with the place it is about."""

    def forget(job: dict[str, Any]) -> None:
        job["site"].update(travel_minutes="unknown", asbestos_test="unknown")

    outcome = made(forget)
    files = html_documents(outcome, estimate_ranges(outcome.estimate), ON)
    assert outcome.questions
    for question in outcome.questions:
        assert question.text not in read(files["proposal.html"])
        assert f"{question.field}: {question.text}" in read(files["before_you_send.html"])


@pytest.mark.parametrize("path", [CEILING, REPAINT, STUDY])
def test_no_remark_of_the_workbook_is_in_it(path: Path) -> None:
    """No kind of evidence, name of a row, key of a field or figure beyond what a client reads."""
    said = text(made(path=path))
    for remark in (
        "from memory",
        "not checked",
        "practice, no source",
        "drop cloths are",
        "_",
        "unknown,",
    ):
        assert remark not in said.replace("or of unknown age, and", "")


def spoil(job: dict[str, Any]) -> None:
    job["title"] = NASTY
    job["client"]["name"] = NASTY
    job["site"].update(address=NASTY, state=NASTY)
    job["rooms"][0]["name"] = NASTY
    job["work"][0].update(room=NASTY, color_wanted=NASTY)
    words = ("contractor", "license", "working_hours", "furniture", "exclusions", "allowances", "acceptance")
    job["terms"] = dict.fromkeys((*words, "payment", "warranty", "contractor_contact", "number"), NASTY)


@pytest.mark.parametrize("name", ["proposal", "crew_sheet", "shopping_list", "change_order", "invoice_1"])
def test_typed_text_stays_text_in_every_document(name: str) -> None:
    """A script typed in any field is printed and never run; the page could not run one either."""
    outcome = made(spoil)
    page = html_documents(outcome, estimate_ranges(outcome.estimate), ON, before=made(spoil))[f"{name}.html"]
    assert "<script" not in page
    assert NASTY in read(page)
    assert "default-src 'none'" in page


def test_an_invented_job_says_so() -> None:
    """Nobody takes the demo for an offer."""
    assert "An invented job" in text(made())
    assert "An invented job" not in text(made(lambda job: job.update(invented=False)))
