"""What was held of a release when a price was made, kept with the estimate, so that the job can say how it did."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from estimating.estimate.whatif.compare import Option
from estimating.evidence import Library
from estimating.origins import Kind
from estimating.records.sent import SentAssumption, SentEstimate
from estimating.row_key import RowKey
from estimating.scopes.registry import KINDS
from estimating.workbook import Outcome

ODDS = RowKey.of("this job", "release odds")  # + method, work area; no table is called so
SHARE = RowKey.of("this job", "share of weak surfaces")
SOUND = RowKey.of("this job", "release though sound")
AREA = RowKey.of("this job", "worked area")


@dataclass(frozen=True)
class ReleaseTerms:
    """What was held of one way of doing one work item: class of history, tests, and what the method does."""

    work: str
    method: str
    history: str
    odds: float  # what tests multiplied the odds of a weak surface by
    area: float  # ft**2
    share: float = 1.0  # of weak surfaces, how many the method brings down
    sound: float = 0.0  # the chance that it brings down a sound one


def release_terms(outcome: Outcome) -> tuple[SentAssumption, ...]:
    """Return, for each way that may bring an old coating down, what tests did, what the method does, the area.

    The odds are those of a weak surface over those of the class of history alone, as they were priced.
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
        held = dict(risk.chance.inputs)
        odds = _odds(held["weak"].value) / _odds(surface.prior.value)
        area = surface.area.value if surface.area else 0.0
        kept = ((ODDS, odds, "dimensionless"), (AREA, area, "ft**2"))
        told = ((SHARE, held["share"].value, "dimensionless"), (SOUND, held["sound"].value, "dimensionless"))
        for of, value, unit in (*kept, *told):
            yield _kept(_term(of, option.plan.method, work), value, unit, surface.history)


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
            found.append(_terms(kept, each, method, work))
    return tuple(found)


def _terms(kept: Mapping[str, SentAssumption], odds: SentAssumption, method: str, work: str) -> ReleaseTerms:
    """Return what was held of one method. Older estimates kept no share: what the method did is in their odds."""
    area = kept[_term(AREA, method, work)].likely
    more = (kept.get(_term(each, method, work)) for each in (SHARE, SOUND))
    share, sound = (fallback if each is None else each.likely for each, fallback in zip(more, (1.0, 0.0), strict=True))
    return ReleaseTerms(work, method, odds.place, odds.likely, area, share, sound)
