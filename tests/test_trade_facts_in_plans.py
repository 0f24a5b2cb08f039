"""Facts of the trade, asked of the workbook's own answer on an ordinary textured ceiling. Common practice, no source.

Each fact is put as a question to the plans; beside it stands how an answer is spoiled, and the question has to notice.
"""

from __future__ import annotations

import copy
import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import pytest
from places import JOBS

from estimating.estimate.pricing.plan import Plan, Suitability, Task
from estimating.evidence import Basis, load_library
from estimating.reports.documents.crew_sheet import crew_sheet
from estimating.scopes.kinds.textured_ceiling import methods as textured_ceiling
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.scopes.shared.spray import SetUp, Spraying
from estimating.scopes.shared.work_area import WorkArea
from estimating.workbook import build_job, estimate_job

DEMO = JOBS / "alder_row_sitting_room.toml"
Plans = Mapping[str, Plan]


def answered(**answers: object) -> dict[str, Any]:
    """Return the job of an ordinary popcorn ceiling, with some of the notes on it answered otherwise."""
    plain: dict[str, Any] = copy.deepcopy(tomllib.loads(DEMO.read_text(encoding="utf-8")))
    plain["work"][0] |= answers
    return plain


@cache
def plans(**answers: object) -> Plans:
    job = build_job(answered(**answers))
    return {plan.method: plan for plan in textured_ceiling.plans(job.work[0], job, Basis(load_library()))}


def set_ups() -> tuple[SetUp, ...]:
    job = build_job(answered())
    ceiling = Ceiling(job.work[0], WorkArea.of(job.work[0], job, Basis(load_library())))
    return Spraying(ceiling.work_area, ceiling.surface, "first").set_ups


def crew_notes(plan: Plan, *begins: str) -> str:
    return " ".join(task.detail for task in plan.tasks if task.key.startswith(begins))


def naps(plan: Plan) -> tuple[float, float]:
    """Return the nap the roller takes and the deepest it may have, in inches, as the crew reads them."""
    found = re.search(r"nap about ([\d.]+) in; up to ([\d.]+) in", crew_notes(plan, "ceiling_1"))
    return (float(found[1]), float(found[2])) if found else (0.0, 0.0)


def _noted(change: Callable[[str], str], *begins: str) -> Callable[[Plans], Plans]:
    """Return what spoils the notes to the crew on some tasks of every plan."""

    def spoiled(task: Task) -> Task:
        return replace(task, detail=change(task.detail)) if task.key.startswith(begins) else task

    def of(all_plans: Plans) -> Plans:
        return {
            method: replace(plan, tasks=tuple(map(spoiled, plan.tasks)), notes=tuple(map(change, plan.notes)))
            for method, plan in all_plans.items()
        }

    return of


def _without(*keys: str) -> Callable[[Plans], Plans]:
    def of(all_plans: Plans) -> Plans:
        return {
            method: replace(plan, tasks=tuple(task for task in plan.tasks if not task.key.startswith(keys)))
            for method, plan in all_plans.items()
        }

    return of


def _stops(change: Callable[[str], str]) -> Callable[[Plans], Plans]:
    return lambda all_plans: {
        method: replace(plan, stop_rule=change(plan.stop_rule)) for method, plan in all_plans.items()
    }


@dataclass(frozen=True)
class Fact:
    """A fact as a question to the plans, and a way to spoil them that it has to notice."""

    holds: Callable[[Plans], bool]
    spoiled: Callable[[Plans], Plans]


COATED = ("roll", "spray", "seal_roll", "seal_spray")
FACTS: dict[str, Fact] = {
    "soiled recessed trims take three light passes": Fact(
        lambda all_plans: all(
            crew_notes(all_plans[each], "coat_trims").startswith("3 light passes") for each in COATED
        ),
        _noted(lambda text: text.replace("3 light passes", "1 heavy pass"), "coat_trims"),
    ),
    "the drape hangs from paper 9 in wide, sealed along its whole length": Fact(
        lambda all_plans: all(
            "paper 9 in wide" in crew_notes(all_plans[each], "hang_film")
            and "whole length" in crew_notes(all_plans[each], "hang_film")
            and any(bought.item == "paper_run" and "9 in" in bought.title for bought in all_plans[each].supplies)
            for each in ("spray", "seal_spray")
        ),
        _noted(lambda text: text.replace("along its whole length", "here and there"), "hang_film"),
    ),
    "the nap is 3/4 to 1 in on popcorn, and pulls harder the deeper it is": Fact(
        lambda all_plans: (
            naps(all_plans["roll"]) == (0.75, 1.0)
            and "the deeper it is the harder it pulls" in crew_notes(all_plans["roll"], "ceiling_1")
        ),
        _noted(lambda text: text.replace("nap about 0.75 in", "nap about 0.375 in"), "ceiling_1"),
    ),
    "once texture comes down on the roller: stop, and go over to the sprayer": Fact(
        lambda all_plans: "stop" in all_plans["roll"].stop_rule and "the sprayer" in all_plans["roll"].stop_rule,
        _stops(lambda rule: rule.replace("the sprayer", "more paint")),
    ),
    "edges are bound with a solvent-borne primer before the small repair": Fact(
        lambda all_plans: all(
            "Bind the edges with the solvent-borne primer before a small repair" in all_plans[each].stop_rule
            for each in COATED
        ),
        _stops(lambda rule: rule.replace("before", "after")),
    ),
    "matching an old texture over a large area is to be avoided": Fact(
        lambda all_plans: all("large area shows and is to be avoided" in all_plans[each].stop_rule for each in COATED),
        _stops(lambda rule: rule.replace("is to be avoided", "is soon done")),
    ),
    "what would mark is down long before the fine mist: one governs unmasking, the other respirators and alarms": Fact(
        lambda all_plans: all(
            _two_settlings(crew_notes(all_plans[each], "ceiling_2")) for each in ("spray", "seal_spray")
        ),
        _noted(lambda text: text.replace("respirators stay on", "respirators come off"), "ceiling_"),
    ),
    "alarms are covered for the spraying and counted back": Fact(
        lambda all_plans: crew_notes(all_plans["spray"], "uncover_detector") == "1 out, 1 back",
        _without("uncover_detector"),
    ),
}


def _two_settlings(text: str) -> bool:
    found = re.search(
        r"is down (\d+) min after the last pass: the masking comes down then; "
        r"finer mist hangs (\d+) min: until then respirators stay on and alarms stay covered",
        text,
    )
    return found is not None and int(found[1]) <= 5 < int(found[2])


@pytest.mark.parametrize("fact", FACTS)
def test_the_workbook_answers_as_the_trade_would(fact: str) -> None:
    """On an ordinary popcorn ceiling; and a spoiled answer is noticed."""
    asked = FACTS[fact]
    assert asked.holds(plans())
    assert not asked.holds(asked.spoiled(plans()))


def test_where_vapor_may_do_harm_the_edges_are_bound_with_a_water_borne_primer() -> None:
    """The hazards come before the fact."""
    plain = answered()
    plain["site"]["household"] = ["pregnancy"]
    job = build_job(plain)
    for plan in textured_ceiling.plans(job.work[0], job, Basis(load_library())):
        assert "solvent-borne primer" not in plan.stop_rule
        assert not plan.stop_rule or "Bind the edges with the water-borne primer" in plan.stop_rule


def test_a_small_tip_at_about_half_the_usual_pressure_is_among_the_set_ups() -> None:
    """Tips that begin with 2 lay a 4 in fan; the 211 lays an even film, slower, with less mist than usual pressure."""
    narrow = [each for each in set_ups() if str(each.tip).startswith("2")]
    assert narrow
    assert all(each.plan.fan == pytest.approx(4.0, abs=0.5) for each in narrow)
    slow = next(each for each in set_ups() if str(each.tip) == "211" and each.setting == "reduced")
    chosen = set_ups()[0]
    usual = [each for each in set_ups() if each.setting == "usual" and each.plan.possible]
    assert slow.plan.possible
    assert slow.plan.gun_on > chosen.plan.gun_on
    assert slow.plan.mist < min(each.plan.mist for each in usual)
    assert slow.plan.flow < chosen.plan.flow


def test_the_plan_says_what_the_small_tip_would_do_instead() -> None:
    """What is picked is compared with the 211: more minutes at the trigger, a slower arm, more control."""
    (compared,) = [note for note in plans()["spray"].notes if note.startswith("set-ups compared")]
    assert re.search(r"with more control: .*\b211 \d+ min of trigger", compared)


def test_both_settling_times_are_on_the_crew_sheet() -> None:
    """The crew reads when the masking comes down, and when the respirators may come off."""
    outcome = estimate_job(build_job(answered(method="spray")))
    assert _two_settlings(str(crew_sheet(outcome)))


def test_bare_board_behind_fallen_texture_means_it_was_never_primed() -> None:
    """Whatever history was noted: the chance is that of texture on bare board, higher than that of any primed one."""
    bare, primed = (
        _chance(plans(history=history, bare_board_behind_fallen="yes", tests=()), "spray")
        for history in ("never painted", "primed and painted twice")
    )
    assert bare == pytest.approx(primed)
    assert primed > _chance(plans(history="primed and painted twice", tests=()), "spray")


@pytest.mark.parametrize("sign", ["next_room_came_down", "humid_years"])
def test_what_weakens_the_hold_raises_the_chance(sign: str) -> None:
    """Texture that came down in the next room is evidence for this one; so are years of humid air."""
    for method in COATED:
        assert _chance(plans(**{sign: "yes"}), method) > _chance(plans(**{sign: "no"}), method)


def test_where_the_twin_came_down_to_bare_board_it_is_not_rolled_but_may_be_sprayed() -> None:
    """Spraying in light passes is offered with its chance, sealing first beside it; no limit closes it."""
    found = plans(next_room_came_down="yes")
    assert found["roll"].suitability is Suitability.CLOSED
    assert found["spray"].suitability is Suitability.CONDITIONS
    assert found["seal_spray"].suitability is not Suitability.CLOSED
    assert any(f"{_chance(found, 'spray'):.0%}" in each.text for each in found["spray"].findings)
    assert _chance(found, "seal_spray") < _chance(found, "spray")


def _chance(found: Plans, method: str) -> float:
    return next(risk.chance.value for risk in found[method].risks if risk.surface is not None)
