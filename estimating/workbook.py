"""One way through: a job and its assumptions in; every way compared, the chosen one priced, ordered and scheduled."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from types import MappingProxyType
from typing import Any

from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.choose_methods import Choice, choose_methods
from estimating.estimate.pricing.engine import Engine
from estimating.estimate.pricing.order import SIZES
from estimating.estimate.pricing.plan import Question
from estimating.estimate.pricing.rework import Reworked, Reworking
from estimating.estimate.whatif.compare import Comparison, compare_each
from estimating.evidence import Basis, Library, OwnValue, load_library
from estimating.job.bounds import hold_own, own_second_look, unusual
from estimating.job.file import plain_job, spell
from estimating.job.model import Job, OwnFigure, WorkNotes
from estimating.row_key import RowKey
from estimating.scopes.drawings import Drawing
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.registry import KINDS, READER


@dataclass(frozen=True)
class Outcome:
    """What the workbook makes of a job: the estimate at once, the comparison of methods when it is looked at."""

    job: Job
    basis: Basis
    estimate: Estimate
    choices: tuple[Choice, ...]
    questions: tuple[Question, ...]
    engine: Engine = field(repr=False, compare=False)

    @cached_property
    def comparisons(self) -> tuple[Comparison, ...]:
        """The methods of each work item, priced beside the methods taken for the others."""
        return compare_each(self.choices, self.estimate, self.engine)

    @cached_property
    def _reworking(self) -> Reworking:
        return Reworking(self.estimate)

    def moved(self, values: Mapping[str, float]) -> Reworked:
        """Return the job with other values of assumptions (business/wage, production/…), in milliseconds.

        Nothing is planned anew: methods, coats and the order of rooms stay; cans, days and waiting follow the values.
        Each value is in the unit of its row; InputError names a key that the price does not rest on.
        """
        return self._reworking.moved(values)

    @cached_property
    def drawings(self) -> tuple[Drawing, ...]:
        """What the kinds of work have drawn of the plans taken, in the order of the work."""
        taken = zip(self.job.work, self.estimate.plans, strict=True)
        return tuple(
            each for item, plan in taken for each in KINDS[item.kind].drawings(item, plan, self.job, self.basis)
        )


def read_job(path: Path) -> Job:
    """Return the job in a TOML file; InputErrors lists every field that is wrong."""
    return READER.read(path)


def parse_job(text: str, name: str = "job") -> Job:
    """Return the job in a TOML text; `name` is what an error calls it."""
    return READER.parse(text, name)


def build_job(plain: Mapping[str, Any]) -> Job:
    """Return the job made of plain values, as a form gives them; InputErrors lists every field that is wrong."""
    return READER.build(plain)


def estimate_job(
    job: Job, library: Library | None = None, own: Mapping[str, OwnValue] = MappingProxyType({})
) -> Outcome:
    """Return the priced job, each work item done the recommended method or the method the job asks for.

    own: the contractor's own values in place of reference rows; the job's own figures go before them.
    Raises InputError where an answer the price cannot do without is missing or impossible.
    """
    basis = Basis(library or load_library(), MappingProxyType({**own, **client_paint(job), **own_values(job.own)}))
    for key in job.own:
        if basis.library.has(key):
            hold_own(basis.library.named(key), basis.own[key])
    pieces = [(item, KINDS[item.kind]) for item in job.work]
    choices = tuple(_choice(kind, item, job, basis) for item, kind in pieces)
    asked = (each for item, kind in pieces for each in kind.questions(item, job, basis))
    questions = tuple(dict.fromkeys((*second_looks(job, own, basis.library), *asked)))
    engine = Engine(job, basis)
    taken = choose_methods(choices, Engine(_before_the_deal(job), basis) if _has_a_deal(job) else engine)
    estimate = build_up(taken, job, basis, questions)
    return Outcome(job, basis, estimate, choices, questions, engine)


def _choice(kind: KindOfWork, item: WorkNotes, job: Job, basis: Basis) -> Choice:
    plans = kind.plans(item, job, basis)
    return Choice(
        plans, item.method, next((each for each in map(kind.decision_figure, plans) if each is not None), None)
    )


def _has_a_deal(job: Job) -> bool:
    return job.terms.discount is not None or bool(job.terms.round_up_to)


def _before_the_deal(job: Job) -> Job:
    """Return the job without discount and rounding: what is offered never changes how the work is done."""
    plain = job.terms.model_copy(update={"discount": None, "round_up_to": None})
    return job.model_copy(update={"terms": plain})


def client_paint(job: Job) -> Mapping[str, OwnValue]:
    """Return the price of paint that the client supplies: too little to come to a cent, for a price list knows no 0.

    By the quart, so that no can is cheaper than its content.
    """
    quarts = dict(zip(SIZES, (1, 4, 20), strict=True))
    return {
        str(RowKey.of("prices", product, size)): OwnValue(1e-6 * quarts[size], "dollar", note="the client supplies it")
        for product in job.terms.client_supplies or ()
        for size in SIZES
    }


def second_looks(job: Job, own: Mapping[str, OwnValue], library: Library) -> Iterator[Question]:
    """Yield what was typed, in the job or as an own value, that is possible and needs a second look."""
    found = unusual(job)
    plain = plain_job(job) if found else {}
    for place, text in found:
        yield Question(spell(place, plain), text, blocks=False)
    for key, each in {**own, **own_values(job.own)}.items():
        text = own_second_look(library.named(key), each) if library.has(key) else ""
        if text:
            yield Question(f"own · {key}", text, blocks=False)


def own_values(own: Mapping[str, OwnFigure]) -> Mapping[str, OwnValue]:
    """Return the job's own figures as the assumptions they stand in for."""
    return MappingProxyType(
        {key: OwnValue(each.likely, each.unit, each.low, each.high, each.note, each.date) for key, each in own.items()}
    )
