"""Taking the old covering off: how likely it goes easily or badly, and its hours either way.

The hours are those of three outcomes, and luck decides among them: the range of the cost shows all three.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Phase, Task
from estimating.figures import Figure, leaf, random_draw, total, work
from estimating.job.values import Answer
from estimating.origins import Kind, Origin, definition
from estimating.scopes.kinds.wallcovering.notes import OldCovering, Release, StripTest, Wallcovering
from estimating.scopes.shared import rework
from estimating.scopes.shared.drying import in_this_air
from estimating.scopes.shared.repairs import compound_dries
from estimating.scopes.shared.work_area import WorkArea, with_crew_note, with_dry_time
from estimating.takeoff import counted, taped
from estimating.trade import adhesion, measuring, pricing
from estimating.trade.wallcovering import hanging as rules
from estimating.trade.wallcovering import removal as weighed

BAD = "chance that the wall comes off badly"
OUTCOMES = ("best", "likely", "worst")
GOES_BADLY = (Release.TORN, Release.STUCK)
GOES_AS_USUAL = (Release.WATER, Release.STEAM)


@dataclass(frozen=True)
class Removal:
    """The removal of one work area in its three outcomes; hours are before the factors of the site."""

    tests: tuple[StripTest, ...]
    tests_wanted: Figure
    bad: Figure
    easy: Figure  # among the removals that do not go badly
    lets_go: Figure  # the chance that it comes off by itself when papered over
    stripping: dict[str, Figure]
    mending: dict[str, Figure]
    strip_hours: Figure
    mend_hours: Figure
    rate: Figure  # the row of the likely outcome

    def among(self, *results: Release) -> tuple[StripTest, ...]:
        """Return the test strips that came off in one of these ways."""
        return tuple(test for test in self.tests if test.result in results)


def removal(item: Wallcovering, work_area: WorkArea, area: Figure) -> Removal:
    """Return the odds and hours of taking the covering off these walls."""
    tests = item.existing.tests
    bad, easy = bad_chance(item, work_area), easy_chance(item, work_area)
    layers = _layers(item)
    stripping = {
        each: work(rules.removal_hours, f"stripping, {each}", area=area, layers=layers, rate=rate)
        for each, rate in _rates(item, work_area).items()
    }
    mending = {each: _mending(work_area, area, each) for each in OUTCOMES}
    outcome = {
        "random_draw": random_draw("outcome of the removal"),
        "bad": bad,
        "easy": easy,
    }  # a wall comes off one way
    wanted = work(
        rules.removal_tests_wanted,
        "test strips wanted",
        area=area,
        area_per_test=work_area.basis.figure("wallcovering", "tests_wanted", "area"),
        least=work_area.basis.figure("wallcovering", "tests_wanted", "least"),
    )
    return Removal(
        tests,
        wanted,
        bad,
        easy,
        _lets_go(item, work_area),
        stripping,
        mending,
        work(weighed.hours_by_outcome, "stripping, whatever it turns out", **outcome, **stripping),
        work(weighed.hours_by_outcome, "mending, whatever it turns out", **outcome, **mending),
        work_area.basis.figure("wallcovering", "remove_likely", "rate"),
    )


def _layers(item: Wallcovering) -> Figure:
    known = item.existing.layers
    if known:
        return counted(known, "layers", f'work "{item.room}" · existing · layers')
    return leaf("layers", 1.0, "dimensionless", Origin(Kind.JUDGMENT, note="one, where nobody has counted them"))


def bad_chance(item: Wallcovering, work_area: WorkArea) -> Figure:
    """Return the chance that the wall comes off with the paper: the table first, then history, then tests."""
    basis, old = work_area.basis, item.existing
    chance = basis.figure("wallcovering", "chance_worst", "share")
    said = (
        (old.wall_sized is Answer.YES, "wall_sized"),
        (old.wall_sized is Answer.NO, "wall_unsized"),
        (old.painted_over is Answer.YES, "painted_over"),
    )
    for row in (row for holds, row in said if holds):
        chance = _with(work_area, chance, row, "goes badly")
    return _after_tests(item, work_area, chance, BAD, old.tests, GOES_BADLY)


def easy_chance(item: Wallcovering, work_area: WorkArea) -> Figure:
    """Return the chance that the covering peels off where the wall does not come off badly."""
    basis, old = work_area.basis, item.existing
    chance = work(
        weighed.chance_of_the_rest,
        "goes easily where it does not go badly",
        chance=basis.figure("wallcovering", "chance_best", "share"),
        other=basis.figure("wallcovering", "chance_worst", "share"),
    )
    if old.covering is OldCovering.STRIPPABLE:
        chance = _with(work_area, chance, "strippable", "goes easily")
    rest = [test for test in old.tests if test.result not in GOES_BADLY]
    return _after_tests(item, work_area, chance, "chance that it peels off easily", rest, (Release.DRY,))


def _lets_go(item: Wallcovering, work_area: WorkArea) -> Figure:
    chance = work_area.basis.figure("wallcovering", "over_fails", "share")
    return _after_tests(
        item, work_area, chance, "chance that the old covering lets go", item.existing.tests, (Release.DRY,)
    )


def _with(work_area: WorkArea, chance: Figure, row: str, what: str) -> Figure:
    said = row.replace("_", " ")
    return work(
        adhesion.updated_chance,
        f"{what}: {said}",
        chance=chance,
        ratio=work_area.basis.figure("wallcovering", row, "odds"),
        weight=leaf("weight of what is known", 1.0, "dimensionless", definition("known, and counted once")),
    )


def _after_tests(
    item: Wallcovering,
    work_area: WorkArea,
    chance: Figure,
    name: str,
    tests: Iterable[StripTest],
    event: tuple[Release, ...],
) -> Figure:
    made = list(tests)
    key = f'work "{item.room}" · existing · tests'
    if not made:
        nothing = leaf("no test strips", 0.0, "dimensionless", Origin(Kind.MEASURED, place=f"{key}, none made"))
        return work(
            weighed.chance_after_tests,
            name,
            chance=chance,
            share_seen=nothing,
            tests=nothing,
            table_worth=_table(work_area),
        )
    seen = sum(test.result in event for test in made)
    words = " or ".join(event)
    share = leaf(
        f"{words}, share seen",
        seen / len(made),
        "dimensionless",
        Origin(Kind.MEASURED, place=f"{key}, {seen} of {len(made)}"),
        key=key,
    )
    worth = _worth(work_area, len(made), key)
    return work(
        weighed.chance_after_tests, name, chance=chance, share_seen=share, tests=worth, table_worth=_table(work_area)
    )


def _table(work_area: WorkArea) -> Figure:
    return work_area.basis.figure("wallcovering", "table_worth", "tests")


def _worth(work_area: WorkArea, tests: int, key: str) -> Figure:
    alike = work_area.basis.figure("wallcovering", "tests_alike", "share")
    made = counted(tests, "test strips", key)
    return work(adhesion.effective_tests, "worth of the test strips", tests=made, correlation=alike)


def _rates(item: Wallcovering, work_area: WorkArea) -> dict[str, Figure]:
    """Return the rate of each outcome: the table's, with the timed tests weighed in."""
    basis, key = work_area.basis, f'work "{item.room}" · existing · tests'
    rates = {each: basis.figure("wallcovering", f"remove_{each}", "rate") for each in OUTCOMES}
    timed = [test for test in item.existing.tests if test.width and test.height and test.minutes]
    usual = [test for test in timed if test.result in GOES_AS_USUAL]
    if usual:
        rates["likely"] = work(
            weighed.rate_after_tests,
            "rate after the timed test strips",
            rate=rates["likely"],
            tested=_tested(usual, key),
            tests=_worth(work_area, len(usual), key),
            table_worth=_table(work_area),
        )
    slow = [test for test in timed if test.result is not Release.DRY]
    if slow:
        rates["worst"] = work(
            rules.worst_removal_rate,
            "rate of the worst outcome",
            slowest_tested=min((_tested([test], key) for test in slow), key=lambda rate: rate.value),
            slowest_known=rates["worst"],
            tests=counted(len(item.existing.tests), "test strips", key),
            enough_tests=basis.figure("wallcovering", "tests_wanted", "enough"),
        )
    return rates


def _tested(tests: Iterable[StripTest], key: str) -> Figure:
    areas, minutes = [], []
    for test in tests:
        place = test.where or "a test strip"
        sides = {side: taped(getattr(test, side), f"{place}, {side}", key) for side in ("width", "height")}
        areas.append(
            work(measuring.rectangle_area, f"{place}, area", length=sides["height"], width=sides["width"]),
        )
        spent = Origin(Kind.MEASURED, place=f"{key}, {place}")
        minutes.append(leaf(f"{place}, time", float(test.minutes or 0), "minute", spent, key=key))
    return work(
        weighed.rate_tested,
        "rate of the test strips",
        area=total("test strips, area", areas, unit="ft**2"),
        minutes=total("test strips, time", minutes, unit="minute"),
    )


def _mending(work_area: WorkArea, area: Figure, outcome: str) -> Figure:
    basis = work_area.basis
    return work(
        rules.wall_repair_hours,
        f"mending, {outcome}",
        area=area,
        damaged=basis.figure("wallcovering", f"damage_{outcome}", "share"),
        rate=basis.figure("wallcovering", "mend_wall", "rate"),
    )


def strip_tasks(found: Removal, work_area: WorkArea) -> list[Task]:
    """Return stripping with washing, and mending, each with its three outcomes and the wait after it."""
    basis = work_area.basis
    strip = work_area.task(
        "strip", "Strip the old covering and wash the wall", Phase.REMOVE, found.strip_hours, found.rate
    )
    mend = work_area.task(
        "mend_wall",
        "Seal and mend what came off with it",
        Phase.PREPARE,
        found.mend_hours,
        basis.figure("wallcovering", "mend_wall", "rate"),
    )
    printed = basis.figure("wallcovering", "stripped_dry", "wait")
    dry = in_this_air(work_area, printed, "stripped wall to dry through, in this air")
    spans = f"{_three(work_area, found.stripping)} before any mending; stop and tell the client at the first torn place"
    return [
        with_dry_time(with_crew_note(strip, spans), dry, "stripped wall to dry through"),
        compound_dries(work_area, with_crew_note(mend, _three(work_area, found.mending))),
    ]


def _three(work_area: WorkArea, hours: dict[str, Figure]) -> str:
    spans = (work_area.task("", "", Phase.REMOVE, each, each).hours.value for each in hours.values())
    return "best {:.1f}, likely {:.1f}, worst {:.1f} hours".format(*spans)


def by_the_hour(found: Removal, work_area: WorkArea) -> dict[str, Figure]:
    """Return what stripping and mending come to by time and material in each outcome, and on average (dollars)."""
    hours = {
        each: total(f"removal, {each}", [found.stripping[each], found.mending[each]], unit="hour") for each in OUTCOMES
    }
    hours["average"] = total("removal, on average", [found.strip_hours, found.mend_hours], unit="hour")
    return {each: _charged(work_area, each, worked) for each, worked in hours.items()}


def _charged(work_area: WorkArea, name: str, hours: Figure) -> Figure:
    title = f"removal, {name}"
    worked = work_area.task("", title, Phase.REMOVE, hours, hours).hours
    markup = work_area.basis.figure("business", "markup")
    cost = rework.cost_again(work_area, title, [worked])
    return work(pricing.price_from_markup, f"{title}, by the hour", cost=cost, markup=markup)
