"""The terms of an offer as a client reads them: time, payment, changes, acceptance, warranty and what is left out.

Wording that the job file gives under `terms` stands in place of the usual wording.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from itertools import takewhile

from estimating.estimate.pricing.lines import Section as Part
from estimating.estimate.pricing.lines import sum_of
from estimating.estimate.pricing.plan import Risk
from estimating.estimate.pricing.room_prices import shared_out
from estimating.job.values import Answer
from estimating.reports.documents.content import BLANK, Text, counted, listed_words, sentence
from estimating.reports.documents.letterhead import assumed, us_date
from estimating.reports.documents.time_and_materials import billing_words, by_time, rate_words
from estimating.reports.format import UnitSystem, number, plain_dollars, quantity, whole_dollars
from estimating.reports.panes.selling import sold_lines
from estimating.workbook import Outcome

EXCLUSIONS = (
    "Damage that cannot be seen before work starts, such as rot, leaks, mold, or loose drywall or plaster",
    "Materials that may hold asbestos or lead, beyond what is said here; that work is for licensed firms",
    "Preparation and repairs not listed above",
    "Electrical, gas and sprinkler work, and anything a licensed trade has to open or take down",
    "Damage by others after the work is done; colors and samples beyond those named here",
)
SMALL = 50  # dollars: an allowance below it is no sum to name
BY_TIME = "Billed when the work is done, for the hours worked and the materials used"
WARRANTY_LIMITS = (
    "Not covered: moisture, movement of the building, ordinary wear, damage by others, and materials you supply.",
    "You keep every right the law gives you.",
)


def own_words(text: str | None, usual: Sequence[str]) -> tuple[str, ...]:
    """Return the contractor's own sentences, or the usual ones; `none` is none."""
    if text is None:
        return tuple(usual)
    return () if text.strip().lower() == "none" else tuple(part.strip() for part in text.split(";") if part.strip())


def time_words(outcome: Outcome) -> list[str]:
    """Return how long the work takes, when it starts, and the working hours."""
    terms, plan = outcome.job.terms, outcome.estimate.schedule
    window = [us_date(date.fromisoformat(each)) for each in (terms.start_earliest, terms.start_latest) if each]
    start = f"between {' and '.join(window)}" if len(window) > 1 else "".join(window) or "to be agreed"
    return [
        f"About {counted(round(plan.days.value), 'working day')} with a crew of {round(plan.crew.value)}, drying time "
        f"included. Start: {start}.",
        f"Working hours: {terms.working_hours}." if terms.working_hours else "",
    ]


def price_words(outcome: Outcome) -> list[Text]:
    """Return what is said of the price beside its amount."""
    tax = sum_of(outcome.estimate.section(Part.SALES_TAX))
    off = sum_of(outcome.estimate.section(Part.DISCOUNT))
    said: list[Text] = [f"The prices above include a discount of {plain_dollars(-off)}." if off else ""]
    said.append(f"The total includes {plain_dollars(tax)} of sales tax." if tax else "")
    named = [each.replace("_", " ") for each in outcome.job.terms.client_supplies or ()]
    said.append(f"You supply: {listed_words(named)}. It is not in the price." if named else "")
    said += billing_words(outcome)
    if outcome.job.terms.show_range is Answer.YES and not by_time(outcome):
        said.append(
            "Your price is the total above, whatever the work turns out to cost us. It changes only by a signed "
            "change order."
        )
    return said


def allowances(outcome: Outcome, shown: UnitSystem) -> list[str]:
    """Return what is allowed for in the price; things of one remedy in one sentence."""
    terms = outcome.job.terms
    if terms.allowances is not None:
        return [sentence(each) for each in own_words(terms.allowances, ())]
    alike: dict[str, list[Risk]] = {}
    for risk in (risk for plan in (*outcome.estimate.plans, outcome.estimate.own) for risk in plan.risks):
        alike.setdefault(risk.what_then or risk.title, []).append(risk)
    return [_allowance(risks, outcome, shown) for risks in alike.values()]


def _allowance(risks: Sequence[Risk], outcome: Outcome, shown: UnitSystem) -> str:
    sold = {id(line.amount): amount for line, amount in sold_lines(outcome.estimate).items()}
    amount = whole_dollars(sum((sold.get(id(risk.expected), Decimal(0)) for risk in risks), Decimal(0)))
    what = _in_common([risk.title for risk in risks])
    whole = sum((sold.get(id(risk.expected), Decimal(0)) for risk in risks), Decimal(0))
    if risks[0] in outcome.estimate.own.risks:
        return f"{what}: {amount} is in the price."
    if risks[0].surface is None:
        return f"{what}, where it turns out to be needed: {amount} is in the price."
    mended = outcome.job.terms.mended_square_feet
    most = quantity(mended, "ft**2", shown) if mended else amount
    small = not mended and whole < SMALL
    fixed = "small spots are fixed in the price" if small else f"repairs up to {most} are in the price"
    return f"{what}: {fixed}. Beyond that we stop, show you, and go on by change order."


def _in_common(titles: Sequence[str]) -> str:
    """Return what several titles say alike, or all of them where they begin differently."""
    alike = takewhile(lambda words: len(set(words)) == 1, zip(*(title.split() for title in titles), strict=False))
    shared = [words[0] for words in alike]
    while len(titles) > 1 and shared and shared[-1] in ("on", "in", "of", "the"):
        shared.pop()
    return " ".join(shared) if shared else listed_words(titles)


def stages(outcome: Outcome, price: Decimal | None = None) -> list[tuple[str, Decimal]]:
    """Return the payments of a job, which add up to its price to the cent."""
    price = outcome.estimate.price if price is None else price
    agreed = outcome.job.terms.stages
    if not agreed:
        return [("After the final walk-through", price)]
    shares = shared_out({place: stage.percent for place, stage in enumerate(agreed)}, price)
    return [(f"{stage.when} ({number(stage.percent)} %)", shares[place]) for place, stage in enumerate(agreed)]


def payment_words(outcome: Outcome) -> list[str]:
    """Return how the price is paid, stage by stage, and that local law comes first."""
    state = outcome.job.site.state
    usual = (
        [BY_TIME]
        if by_time(outcome) and not outcome.job.terms.stages
        else [f"{when}: {plain_dollars(amount)}" for when, amount in stages(outcome)]
    )
    law = f"the law of {state}" if state else "state law"
    return [
        *map(sentence, own_words(outcome.job.terms.payment, usual)),
        f"{law[:1].upper()}{law[1:]} may cap deposits and payments or ask for a notice here; the law comes first.",
    ]


def change_words(outcome: Outcome) -> Text:
    """Return how the work is changed, and the rate for it."""
    lead = "We write up every change, with its price and days, and both of us sign before it is done. Extra work: "
    return (lead, rate_words(outcome) or BLANK, " plus materials.")


def acceptance_words(outcome: Outcome, shown: UnitSystem) -> list[str]:
    """Return when the work is accepted."""
    own = outcome.job.terms.acceptance
    if own is not None:
        return [sentence(each) for each in own_words(own, ())]
    distance = assumed(outcome, "business", "acceptance_distance")
    metric = shown is UnitSystem.METRIC
    away = quantity(distance.value, distance.unit, shown) if metric else f"about {distance.value / 12:.0f} feet"
    return [
        f"When the work is done we look at it together from {away} or more, in "
        "the room's normal light. What needs touching up goes on one punch list, and we take care of it once."
    ]


def warranty_words(outcome: Outcome) -> list[Text]:
    """Return what is warranted, and for how long: a blank to fill in where nobody said."""
    own = outcome.job.terms.warranty
    if own is not None:
        return [sentence(each) for each in own_words(own, ())]
    return [
        ("We put right peeling, blistering or flaking of our work for ", BLANK, " after the final walk-through."),
        *WARRANTY_LIMITS,
    ]


def exclusions(outcome: Outcome) -> list[str]:
    """Return what is not in the price."""
    return [sentence(each) for each in own_words(outcome.job.terms.exclusions, EXCLUSIONS)]
