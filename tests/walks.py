"""What the workbook says a test is worth, against typing each of its results in: `python tests/walks.py`.

Every textured ceiling of the demo jobs and fifty random ones, or so many with a number. For each kind of test: its
worth as the workbook says it, beside the difference that is found by walking the workbook through its results, each
typed in, and what is then recommended done. And the chance expected after each test, beside the chance now.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from places import JOBS
from random_ceilings import plain_ceilings, shown

from estimating.estimate.pricing.preference import beyond_mending
from estimating.estimate.whatif.value_of_testing import Trial, results, worths
from estimating.evidence import Basis, load_library
from estimating.job.file import plain_job
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.scopes.kinds.textured_ceiling.methods import tests as further_tests
from estimating.scopes.kinds.textured_ceiling.notes import FieldTest
from estimating.scopes.kinds.textured_ceiling.release import Release
from estimating.scopes.kinds.textured_ceiling.suitability import COATED
from estimating.scopes.shared.work_area import WorkArea
from estimating.workbook import Outcome, build_job, estimate_job, read_job

SEED, COUNT = 2027, 50
KINDS = tuple(FieldTest)
Plain = Mapping[str, Any]


@dataclass(frozen=True)
class Walk:
    """One kind of test: what it is said to be worth, and what walking through its results saves, in dollars."""

    kind: FieldTest
    said: float
    walked: float

    @property
    def apart(self) -> float:
        """How far the two lie apart; a test that is expected to lose is worth nothing, since nobody has to make it."""
        return abs(self.said - max(0.0, self.walked))


def release_of(plain: Plain, place: int = 0) -> Release:
    """Return what the texture of a ceiling is held to do."""
    job = build_job(plain)
    item = job.work[place]
    return Ceiling(item, WorkArea.of(item, job, Basis(load_library()))).release


def with_test(plain: Plain, test: Plain, place: int) -> dict[str, Any]:
    """Return the job with one more test noted."""
    work = [*plain["work"]]
    work[place] = work[place] | {"tests": [*work[place]["tests"], test]}
    return {**plain, "work": work}


def moved(plain: Plain, place: int = 0) -> float:
    """Return how far the chance expected after any test lies from the chance now, at most, over tests and methods."""
    now = release_of(plain, place)
    far = [0.0]
    for kind, trial in zip(KINDS, now.further_tests().trials, strict=True):
        found = results(trial, 1, now.signs.alike.value)[::-1]  # the clean result first, as they are shown
        often = [float(each.chance(now.weak.value)) for each in found]
        after = [release_of(with_test(plain, test, place), place) for test in shown(kind)]
        far.append(abs(sum(often) - 1))
        for method in COATED:
            expected = sum(p * each.chance(method).value for p, each in zip(often, after, strict=True))
            far.append(abs(expected - now.chance(method).value))
    return max(far)


def walks(plain: Plain, place: int = 0, kinds: Sequence[FieldTest] = KINDS) -> list[Walk]:
    """Return what each kind of test is said to be worth, and what walking through its results saves."""
    now = estimate_job(build_job(plain))
    further = further_tests(now.job.work[place], now.job, now.basis)
    found = {each[1].trial.title: each[1] for each in worths(further, now.comparisons[place], now.basis, most=1)}
    alike = further.alike.value
    return [
        Walk(kind, found[str(kind)].saves.value, _walked(plain, found[str(kind)].trial, alike, now, place))
        for kind in kinds
    ]


def _walked(plain: Plain, trial: Trial, alike: float, now: Outcome, place: int) -> float:
    weak = now.comparisons[place].decision_figure
    assert weak is not None
    saved = _weighed(now, place)
    for test, result in zip(shown(FieldTest(trial.title)), results(trial, 1, alike)[::-1], strict=True):
        after = estimate_job(build_job(with_test(plain, test, place)))
        saved -= float(result.chance(weak.value)) * _weighed(after, place)
    return saved


def _weighed(outcome: Outcome, place: int) -> float:
    best = outcome.comparisons[place].recommended
    return best.likely.cost + beyond_mending(best.plan, outcome.comparisons[place].appetite)


def cases(count: int = COUNT) -> Iterator[tuple[Plain, int]]:
    """Yield jobs with the place of a textured ceiling in each: those of the demo jobs, then random ones."""
    for path in sorted(JOBS.glob("*.toml")):
        plain = plain_job(read_job(path))
        yield from ((plain, place) for place, each in enumerate(plain["work"]) if each["kind"] == "textured_ceiling")
    yield from ((plain, 0) for plain in plain_ceilings(SEED, count))


def main(count: int = COUNT) -> str:
    """Return the closing figures."""
    ceilings = [*cases(count)]
    found = [each for plain, place in ceilings for each in walks(plain, place)]
    figures = (
        ("ceilings", f"{len(ceilings)}"),
        ("tests looked at, each by all its results", f"{len(found)}"),
        ("worth something", f"{sum(each.said > 0 for each in found)}"),
        ("the most said to be worth, dollars", f"{max(each.said for each in found):.2f}"),
        ("the least said to be worth, dollars", f"{min(each.said for each in found):.2f}"),
        ("said and walked lie apart, at most, dollars", f"{max(each.apart for each in found):.4f}"),
        ("a test moves the chance expected, at most", f"{max(moved(*each) for each in ceilings):.0e}"),
    )
    return "\n".join(f"{name:<48}{value:>10}" for name, value in figures)


if __name__ == "__main__":
    print(main(*map(int, sys.argv[1:2])))
