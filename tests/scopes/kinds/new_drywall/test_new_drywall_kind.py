"""New drywall: what each level of finish allows, the primer that is always there, and what it shows."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

import pytest
from places import JOBS

from estimating.errors import InputError, InputErrors
from estimating.estimate.pricing.plan import Plan, Suitability
from estimating.evidence import Basis, load_library
from estimating.job.model import Job
from estimating.scopes.kinds.new_drywall.kind import KIND
from estimating.workbook import build_job, estimate_job

DEMO = tomllib.loads((JOBS / "mill_end_addition.toml").read_text("utf-8"))
FLAT_IN_EVEN_LIGHT: dict[str, Any] = {"light": "even", "walls": {"sheen": "flat"}, "ceiling": {"sheen": "flat"}}


def job(**changes: Any) -> Job:
    """Return the demo job with answers of its work item changed."""
    plain = copy.deepcopy(DEMO)
    plain["work"][0] |= changes
    return build_job(plain)


def plans(found: Job) -> dict[str, Plan]:
    """Return the plans of the first work item by their method."""
    return {plan.method: plan for plan in KIND.plans(found.work[0], found, Basis(load_library()))}


def standing(**changes: Any) -> Suitability:
    """Return whether rolling may be done with answers changed."""
    return plans(job(**changes))["roll"].suitability


@pytest.mark.parametrize("level", ["level 0", "level 1", "level 2"])
def test_what_is_finished_to_be_concealed_is_not_painted(level: str) -> None:
    """GA-214: levels 0 to 2 are for board that is concealed, or under tile."""
    assert standing(level=level, **FLAT_IN_EVEN_LIGHT) is Suitability.CLOSED


@pytest.mark.parametrize(
    ("changes", "allowed"),
    [
        ({"level": "level 4"}, Suitability.OPEN),
        ({"level": "level 4", "light": "raking"}, Suitability.CONDITIONS),
        ({"level": "level 4", "walls": {"sheen": "eggshell"}}, Suitability.CONDITIONS),
        ({"level": "level 5", "light": "raking", "walls": {"sheen": "gloss"}}, Suitability.OPEN),
        ({"level": "level 3"}, Suitability.CONDITIONS),
        ({"level": None}, Suitability.CONDITIONS),
        ({"level": "level 5", "dry": "no"}, Suitability.CLOSED),
    ],
)
def test_level_light_and_sheen_go_together(changes: dict[str, Any], allowed: Suitability) -> None:
    """GA-214: level 4 for flat paint in even light, level 5 for sheens above flat and for light from the side."""
    assert standing(**{**FLAT_IN_EVEN_LIGHT, **changes}) is allowed


@pytest.mark.parametrize("method", ["roll", "spray_back_roll"])
def test_new_board_is_primed_touched_up_and_gets_two_coats(method: str) -> None:
    """In this order; the primer is drywall primer and nothing goes over it before it is touched up."""
    plan = plans(job())[method]
    keys = [task.key for task in plan.tasks]
    order = ["dust_walls", "prime_walls", "touch_up_primer", "walls_1", "walls_2"]
    assert [key for key in keys if key in order] == order
    products = [each.product for each in plan.materials]
    assert products.count("wall_paint") == products.count("ceiling_flat") == 3  # two coats, and what stays in the tool
    assert "drywall_sealer" in products


def test_primer_by_hand_is_worked_out_from_the_walls() -> None:
    """65.67 ft round and 9 ft high are 591 ft², less what the openings take; at 220 ft²/h, two people cleared."""
    plan = plans(job())["roll"]
    walls = next(task for task in plan.tasks if task.key == "prime_walls")
    inputs = dict(walls.hours.inputs)
    assert inputs["rate"].value == 220
    assert walls.hours.value == pytest.approx(inputs["area"].value / 220)
    assert 480 < inputs["area"].value < 591


def test_a_better_level_shows_less_under_the_primer() -> None:
    """The touch-up shrinks from level 3 to level 5."""
    hours = [
        next(task.hours.value for task in plans(job(level=level))["roll"].tasks if task.key == "touch_up_primer")
        for level in ("level 3", "level 4", "level 5")
    ]
    assert hours == sorted(hours, reverse=True)
    assert hours[0] > hours[-1]


def test_an_unfinished_floor_is_swept_and_a_finished_one_covered() -> None:
    """Dust comes off a subfloor; it is not covered."""
    bare = {task.key for task in plans(job())["roll"].tasks}
    plain = copy.deepcopy(DEMO)
    plain["rooms"][0]["floor"] = "hard"
    covered = {task.key for task in plans(build_job(plain))["roll"].tasks}
    assert "sweep_floor" in bare - covered
    assert "protect_floor" in covered - bare


def test_new_board_disturbs_nothing_old() -> None:
    """In an old house too: no lead-safe set-up and no sample, but the dust of compound."""
    plain = copy.deepcopy(DEMO)
    plain["site"]["year_built"] = 1950
    plan = plans(build_job(plain))["roll"]
    keys = {each.key for each in plan.cautions}
    assert "silica_dust" in keys
    assert not keys & {"lead_minor_repair_interior", "asbestos_texture"}
    assert not {"lead_set_up", "bulk_sample"} & {task.key for task in plan.tasks}


def test_nothing_to_paint_is_refused() -> None:
    """With the place in the job file."""
    with pytest.raises((InputError, InputErrors)):
        plans(job(walls={"painted": "no"}, ceiling={"painted": "no"}))


def test_the_demo_is_priced_and_says_what_is_open() -> None:
    """Spraying does not pay for one empty room; the level asks for a written word."""
    outcome = estimate_job(job())
    assert outcome.comparisons[0].recommended is not None
    assert outcome.estimate.price > 0
    assert estimate_job(job(level=None)).questions
