"""The odds of release a price was made with, kept with the estimate, so that the job can later say how they did."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Risk
from estimating.estimate.whatif.compare import Option
from estimating.figures import Figure
from estimating.origins import Kind
from estimating.records.sent import SentAssumption, SentEstimate
from estimating.trade import adhesion
from estimating.workbook import Outcome

PRIOR = "release/prior/"  # rows of the chance by class of history
ODDS = "this job/release odds/"  # + way/piece of work; no table is called so
AREA = "this job/worked area/"


@dataclass(frozen=True)
class ReleaseTerms:
    """What was held of one way of doing one piece of work: class of history, and what multiplied its odds."""

    work: str
    method: str
    history: str
    odds: float
    area: float  # ft**2


def release_terms(outcome: Outcome) -> tuple[SentAssumption, ...]:
    """Return, for each way that may bring an old coating down, the odds tests and way came to, and the area.

    The odds are those of the chance that was priced over those of the class of history alone.
    """
    return tuple(
        each
        for comparison in outcome.comparisons
        for option in comparison.options
        for each in _of_option(comparison.scope, option)
    )


def _of_option(work: str, option: Option) -> Iterator[SentAssumption]:
    for risk in option.plan.risks:
        prior = next((each for each in risk.chance.walk() if each.key.startswith(PRIOR)), None)
        if prior is None:
            continue
        odds = _odds(risk.chance.value) / _odds(prior.value)
        place = prior.key.removeprefix(PRIOR).split("/")[0]
        yield _kept(f"{ODDS}{option.plan.method}/{work}", odds, "dimensionless", place)
        yield _kept(f"{AREA}{option.plan.method}/{work}", _area(risk), "ft**2", place)


def _odds(chance: float) -> float:
    return chance / (1 - chance)


def _area(risk: Risk) -> float:
    """Return the area the mending was worked out for; nothing where it was not worked out by area."""
    found: Figure | None = next((each for each in risk.cost_if.walk() if each.rule is adhesion.released_area), None)
    return dict(found.inputs)["ceiling"].value if found else 0.0


def _kept(key: str, value: float, unit: str, history: str) -> SentAssumption:
    note = "worked out for this job, as the chance of release was priced"
    return SentAssumption(key, value, value, value, unit, str(Kind.JUDGMENT), place=history, note=note)


def terms_of(sent: SentEstimate) -> tuple[ReleaseTerms, ...]:
    """Return what a sent estimate held of the chance of release; nothing where nothing could come down."""
    kept = {each.key: each for each in sent.assumptions}
    found = []
    for key, each in kept.items():
        if key.startswith(ODDS):
            method, _, work = key.removeprefix(ODDS).partition("/")
            area = kept[f"{AREA}{method}/{work}"].likely
            found.append(ReleaseTerms(work, method, each.place, each.likely, area))
    return tuple(found)
