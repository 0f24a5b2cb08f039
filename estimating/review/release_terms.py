"""The odds of release a price was made with, kept with the estimate, so that the job can later say how they did."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.estimate.whatif.compare import Option
from estimating.evidence import Library
from estimating.origins import Kind
from estimating.records.sent import SentAssumption, SentEstimate
from estimating.row_key import RowKey
from estimating.scopes.registry import KINDS
from estimating.workbook import Outcome

ODDS = RowKey.of("this job", "release odds")  # + method, work area; no table is called so
AREA = RowKey.of("this job", "worked area")


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
        surface = risk.surface
        if surface is None or surface.prior is None:
            continue
        odds = _odds(risk.chance.value) / _odds(surface.prior.value)
        area = surface.area.value if surface.area else 0.0
        yield _kept(_term(ODDS, option.plan.method, work), odds, "dimensionless", surface.history)
        yield _kept(_term(AREA, option.plan.method, work), area, "ft**2", surface.history)


def _term(of: RowKey, method: str, work: str) -> str:
    return str(RowKey.of(of.table, *of.keys, method, work))


def _odds(chance: float) -> float:
    return chance / (1 - chance)


def prior_address(history: str, library: Library) -> str:
    """Return the address of the chance of a class of history; empty where the tables have none."""
    addresses = (kind.prior.format(history=history) for kind in KINDS.values() if kind.prior)
    return next(filter(library.has, addresses), "")


def history_classes(library: Library) -> tuple[str, ...]:
    """Return every class of history that the tables have a chance for."""
    rows = [row.keys for table in library.tables.values() for row in table.values()]
    return tuple(each for each in dict.fromkeys(key for keys in rows for key in keys) if prior_address(each, library))


def _kept(key: str, value: float, unit: str, history: str) -> SentAssumption:
    note = "worked out for this job, as the chance of release was priced"
    return SentAssumption(key, value, value, value, unit, str(Kind.JUDGMENT), place=history, note=note)


def terms_of(sent: SentEstimate) -> tuple[ReleaseTerms, ...]:
    """Return what a sent estimate held of the chance of release; nothing where nothing could come down."""
    kept = {each.key: each for each in sent.assumptions}
    found = []
    for key, each in kept.items():
        term = RowKey.parse(key, most=3)  # the name of a work area may hold the sign between keys
        if term.below(ODDS):
            _, method, work = term.keys
            area = kept[_term(AREA, method, work)].likely
            found.append(ReleaseTerms(work, method, each.place, each.likely, area))
    return tuple(found)
