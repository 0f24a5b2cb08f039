"""Every kind × method × hazard fact: the facts are read off the plan itself, and compared with what it says of them."""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from functools import cache

import hazard_table
import pytest
from hazard_table import LIBRARY, Case, cases

from estimating.estimate.pricing.plan import Phase, Plan, Suitability
from estimating.evidence import REFERENCE
from estimating.scopes.registry import KINDS
from estimating.scopes.shared.cautions import RAISED_BY

OILS = {"clear_wood_finish", "semitransparent_stain"}  # they dry by taking up air
SANDED = (
    "remove_finish",
    "loose_paint",
    "sand_",
    "scuff_",
    "degloss",
    "scrape",
    "strip",
    "patch_",
    "crack_",
    "skim",
    "point_up",
)
OUTSIDE = {"deck_fence", "exterior_repaint"}  # kinds of work outdoors


@cache
def table() -> tuple[tuple[Case, tuple[Plan, ...]], ...]:
    """Return every case with its plans, worked out once."""
    return tuple((each, each.plans()) for each in cases())


def keys(plan: Plan) -> set[str]:
    return {task.key for task in plan.tasks}


def works(plan: Plan) -> bool:
    return bool(plan.tasks)


def sprayed(plan: Plan) -> bool:
    return any(charge.key == "equipment_sprayer" for charge in plan.charges)


def solvent(plan: Plan) -> bool:
    return any(LIBRARY.row("coatings", each.product, "voc").likely >= 250 for each in plan.materials)


def sands(plan: Plan) -> bool:
    return any(key.startswith(SANDED) for key in keys(plan))


def old(case: Case, last: int) -> bool:
    year = case.job.site.year_built
    return year is None or year <= last


def lead(case: Case) -> bool:
    return case.job.site.lead_test == "positive" or (old(case, 1977) and case.job.site.lead_test != "negative")


def asbestos(case: Case) -> bool:
    test = case.job.site.asbestos_test
    return test == "positive" or (old(case, 1980) and test != "negative")


def unsafe(case: Case) -> bool:
    """Say whether anything speaks against solvent vapor, or nobody asked."""
    site = case.job.site
    lit = [getattr(site.ignition, name) for name in hazard_table.IGNITION]
    return (
        site.airflow != "yes"
        or any(each in (None, "cannot be shut off") for each in lit)
        or site.household is None
        or "pregnancy" in site.household
    )


def outside(case: Case) -> bool:
    return case.kind in OUTSIDE


def height(case: Case) -> float:
    """Return the highest place that is worked at: a ceiling, the peak of a gable, or the railing of a high deck."""
    if case.kind == "exterior_repaint":
        sides = getattr(case.job.work[0], "elevations", ())
        return max(side.height.value + (side.gable.value if side.gable else 0) for side in sides)
    if case.kind == "deck_fence":
        boards = getattr(case.job.work[0], "above_ground", None)
        return boards.value + 3 if boards is not None and boards.value >= 4 else 0
    found = case.job.rooms[0].height
    assert found is not None
    return found.value


def on_ladders(case: Case) -> bool:
    return over_stairs(case) or (outside(case) and height(case) > 9)


def over_stairs(case: Case) -> bool:
    item = case.job.work[0]
    return bool(getattr(item, "over_stairs_feet", 0)) or getattr(item, "place", None) == "stairs"


def water(case: Case) -> bool:
    item = case.job.work[0]
    return any(stain.kind == "water" for stain in getattr(item, "stains", None) or ()) or (
        getattr(item, "wall", None) == "damp"
    )


LEAD_INSIDE = {"lead_pamphlet", "lead_set_up", "lead_clean", "lead_verify"}
LEAD_OUTSIDE = {"lead_pamphlet", "lead_ground_set_up", "lead_ground_clean", "lead_ground_check"}
Expect = Callable[[Case, Plan], bool]
BY_THE_PLAN: Mapping[str, Expect] = {
    "lead_paint": lambda case, plan: lead(case),
    "lead_minor_repair_interior": lambda case, plan: "lead_set_up" in keys(plan),
    "lead_minor_repair_exterior": lambda case, plan: "lead_ground_set_up" in keys(plan),
    "lead_ground_sheeting": lambda case, plan: "lead_ground_set_up" in keys(plan),
    "lead_floor_sheeting": lambda case, plan: "lead_set_up" in keys(plan),
    "asbestos_content": lambda case, plan: "bulk_sample" in keys(plan),
    "solvent_fire": lambda case, plan: solvent(plan),
    "solvent_vapor": lambda case, plan: solvent(plan),
    "waste_solvent": lambda case, plan: solvent(plan),
    "spontaneous_rags": lambda case, plan: solvent(plan) or any(each.product in OILS for each in plan.materials),
    "spray_injection": lambda case, plan: sprayed(plan),
    "spray_gun_safety": lambda case, plan: sprayed(plan),
    "mist_on_finishes": lambda case, plan: sprayed(plan) and not outside(case),
    "overspray_outdoors": lambda case, plan: sprayed(plan) and outside(case),
    "power_lines": lambda case, plan: works(plan) and outside(case),
    "pressure_washer": lambda case, plan: "wash_outside" in keys(plan) or "remove_finish" in keys(plan),
    "wood_cleaners": lambda case, plan: "wash_outside" in keys(plan) or "remove_finish" in keys(plan),
    "heat": lambda case, plan: (
        works(plan) and ((sprayed(plan) and not outside(case)) or heat(case) == 1) and heat(case) < 2
    ),
    "heat_high": lambda case, plan: works(plan) and heat(case) == 2,
    "heat_extreme": lambda case, plan: works(plan) and heat(case) == 3,
    "work_height": lambda case, plan: works(plan) and (height(case) >= 13 or over_stairs(case)),
    "step_ladders": lambda case, plan: works(plan) and 7 < height(case) <= 12 and not on_ladders(case),
    "ladders": lambda case, plan: works(plan) and on_ladders(case),
    "ladder_slope": lambda case, plan: works(plan) and on_ladders(case),
    "mold": lambda case, plan: water(case),
    "two_person_lift": lambda case, plan: works(plan) and case.job.rooms[0].furniture == "heavy",
    "steam_stripping": lambda case, plan: "strip" in keys(plan),
}


def heat(case: Case) -> int:
    """Return the band of heat by the published chart: 72 °F and 60 % is cool, 92 °F 105, 100 °F 129 °F."""
    return {"92 degF": 2, "100 degF": 3}.get(case.facts.get("heat", ""), 0)


def test_every_kind_is_in_the_table() -> None:
    """The kinds come from the registry; each has a demo job, and each fact acts on at least one of them."""
    assert {case.kind for case, _ in table()} == set(KINDS)
    for fact, values in hazard_table.FACTS.items():
        found = {case.facts[fact] for case, _ in table() if fact in case.facts}
        assert found == set(values), fact


@pytest.mark.parametrize("key", sorted(BY_THE_PLAN))
def test_a_caution_is_raised_by_its_fact_and_by_nothing_else(key: str) -> None:
    """In every kind and method: no caution without its fact, no fact without its caution."""
    for case, plans in table():
        for plan in plans:
            raised = key in {each.key for each in plan.cautions}
            assert raised == BY_THE_PLAN[key](case, plan), (case.kind, plan.method, case.facts)


def test_no_solvent_borne_product_where_it_may_not_be() -> None:
    """And where a water-borne one takes its place, the plan says so; where nothing is unsafe, nothing is said."""
    seen = set()
    for case, plans in table():
        for plan in plans:
            assert not (solvent(plan) and unsafe(case)), (case.kind, plan.method, case.facts)
            told = any("takes the place of the solvent-borne one" in each.text for each in plan.findings)
            assert not told or unsafe(case)
            seen.add((case.kind, told, solvent(plan)))
            for text in (plan.title, *plan.notes, *(risk.what_then for risk in plan.risks)):
                assert "the solvent-borne primer" not in text or not unsafe(case)
    assert {told for _, told, _ in seen} == {True, False}


def test_nothing_suspect_is_touched_before_its_sample() -> None:
    """The sample comes before all else in the room and is waited for; found asbestos closes every way."""
    sampled = 0
    for case, plans in table():
        for plan in plans:
            suspect = any(each.key == "asbestos_texture" for each in plan.cautions)
            assert not suspect or asbestos(case), (case.kind, plan.method, case.facts)
            if not suspect or not works(plan):
                continue
            if case.job.site.asbestos_test == "positive":
                assert plan.suitability is Suitability.CLOSED
                continue
            sample = next(task for task in plan.tasks if task.key == "bulk_sample")
            assert sample.phase is Phase.TEST
            assert sample.wait is not None
            assert sample.wait.value >= 24
            assert all(task.phase > Phase.TEST or task.phase is Phase.ARRIVE for task in plan.tasks if task != sample)
            assert any(charge.key == "asbestos_sample" for charge in plan.charges)
            assert plan.suitability is not Suitability.OPEN
            assert any("only after a negative result" in each.text for each in plan.findings)
            sampled += 1
    assert sampled > 50


def test_texture_and_opened_compound_are_suspect_in_every_kind() -> None:
    """A plan that mends, strips or scrapes an old untested house, or has texture in it, is sampled."""
    touching = ("patch_", "crack_", "strip", "scrape", "overlay", "skim", "mend_wall")
    for case, plans in table():
        for plan in plans:
            touched = any(key.startswith(touching) for key in keys(plan))
            if asbestos(case) and touched:
                assert any(each.key == "asbestos_texture" for each in plan.cautions), (
                    case.kind,
                    plan.method,
                    case.facts,
                )


def test_old_paint_that_is_disturbed_is_worked_on_lead_safe() -> None:
    """Sanding, scuffing, scraping and mending count alike in every kind; a negative test clears all of it."""
    for case, plans in table():
        for plan in plans:
            safe = (LEAD_OUTSIDE if outside(case) else LEAD_INSIDE) <= keys(plan)
            assert not safe or (lead(case) and sands(plan)), (case.kind, plan.method, case.facts)
            if not safe:
                assert not any(key.startswith("lead_") for key in keys(plan))
                continue
            bought = {"plastic_sheeting"} if outside(case) else {"plastic_sheeting", "verification_cloth"}
            assert bought <= {each.item for each in plan.supplies}
            assert any(charge.key == "equipment_hepa_vacuum" for charge in plan.charges)
            assert any("certified" in each.text and "local rules" in each.text for each in plan.findings)
            assert any("pamphlet" in each for each in plan.client_requirements)


def test_walls_of_an_old_house_are_never_sanded_as_if_they_were_new() -> None:
    """Whole walls are more than the 6 ft² of the rule; an old covering that is hung over is paper, not paint."""
    for case, plans in table():
        for plan in plans:
            if (
                lead(case)
                and plan.method != "hang_over"
                and keys(plan) & {"sand_walls", "scrape", "strip", "sand_wall", "degloss"}
            ):
                assert "lead_set_up" in keys(plan), (case.kind, plan.method, case.facts)


def test_every_caution_has_what_raises_it_and_a_place_where_it_is_raised() -> None:
    """The reference table and the table of facts hold the same cautions, and each of them comes up."""
    with (REFERENCE / "cautions.csv").open(newline="", encoding="utf-8") as lines:
        rows = {row["caution"] for row in csv.DictReader(lines)}
    assert rows == set(RAISED_BY)
    raised = {each.key for _, plans in table() for plan in plans for each in plan.cautions}
    assert rows - raised <= {"sprinkler_heads"}


DEFERS_TO = (
    *("local", "state", "licensed", "certified", "label", "code", "data sheet", "authority", "manual", "specialist"),
    *("laboratory", "monitors", "insurance", "clearance"),
)


def test_every_caution_cites_and_defers() -> None:
    """Each says what it rests on, and who has the last word: a code, a label, a licensed or certified firm."""
    for key, row in LIBRARY.tables["cautions"].items():
        assert row.origin.source or row.origin.note, key
        advice = row.words["advice"].lower()
        assert any(word in advice for word in DEFERS_TO), key
