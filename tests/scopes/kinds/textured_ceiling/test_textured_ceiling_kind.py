"""The textured ceiling of doubtful history: what changes the way, what closes it, and how it is sprayed."""

from __future__ import annotations

import copy
import tomllib
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from places import JOBS

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.plan import Caution, Phase, Plan, Suitability
from estimating.estimate.whatif.compare import Comparison
from estimating.evidence import Basis, load_library
from estimating.job.model import Job
from estimating.reports.exports.explain import explain_method
from estimating.scopes.kinds.textured_ceiling import methods as textured_ceiling
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.scopes.kinds.textured_ceiling.methods import METHODS
from estimating.scopes.kinds.textured_ceiling.release import PRIORS
from estimating.scopes.shared.coat import PASS_BY_PASS
from estimating.scopes.shared.spray import Spraying
from estimating.scopes.shared.work_area import WorkArea
from estimating.workbook import Outcome, build_job, estimate_job

DEMO = JOBS / "alder_row_sitting_room.toml"
ROLLED, SPRAYED, SEALED = ("roll", "seal_roll"), ("spray", "seal_spray"), ("seal_roll", "seal_spray")
OPEN, CONDITIONS, CLOSED = Suitability.OPEN, Suitability.CONDITIONS, Suitability.CLOSED

WORK, SITE, ROOM = ("work", 0), ("site",), ("rooms", 0)


def demo_with(*changes: tuple[tuple[str | int, ...], object]) -> Job:
    """Return the demo job with answers changed, each by its steps into the file."""
    plain: Any = copy.deepcopy(tomllib.loads(DEMO.read_text(encoding="utf-8")))
    for steps, answer in changes:
        here = plain
        for step in steps[:-1]:
            here = here[step] if isinstance(step, int) else here.setdefault(step, {})
        here[steps[-1]] = answer
    return build_job(plain)


def priced(*changes: tuple[tuple[str | int, ...], object]) -> Outcome:
    return estimate_job(demo_with(*changes))


def ceiling_of(job: Job) -> Ceiling:
    return Ceiling(job.work[0], WorkArea.of(job.work[0], job, Basis(load_library())))


def first_coat(job: Job) -> Spraying:
    ceiling = ceiling_of(job)
    return Spraying(ceiling.work_area, ceiling.surface, "first")


def plans(*changes: tuple[tuple[str | int, ...], object]) -> dict[str, Plan]:
    job = demo_with(*changes)
    return {plan.method: plan for plan in textured_ceiling.plans(job.work[0], job, Basis(load_library()))}


def estimated(method: str, *changes: tuple[tuple[str | int, ...], object]) -> Estimate:
    job = demo_with(*changes)
    ceiling = ceiling_of(job)
    return build_up([METHODS[method](ceiling)], job, ceiling.work_area.basis)


def tasks(plan: Plan, *phases: Phase) -> list[str]:
    return [task.key for task in plan.tasks if not phases or task.phase in phases]


SPRAYER = ("set_up_sprayer", "wash_sprayer", "ceiling_1", "ceiling_2")
SOURCES = ("pilot_flame", "gas_appliance", "open_fire", "electric_motor")
NO_LEAD = ((*SITE, "lead_test"), "negative")
NO_STAINS = ((*WORK, "stains"), [])


def findings(plan: Plan, standing: Suitability) -> str:
    return " | ".join(reason.text for reason in plan.findings if reason.suitability is standing)


def caution(plan: Plan, key: str) -> Caution | None:
    return next((each for each in plan.cautions if each.key == key), None)


@pytest.fixture(scope="module")
def demo() -> Comparison:
    return priced().comparisons[0]


def test_the_demo_is_compared_in_every_way_there_is(demo: Comparison) -> None:
    """Coated four ways, made smooth two ways, or left alone; each priced as part of the whole job."""
    assert [option.plan.method for option in demo.options] == list(METHODS)
    for option in demo.options:
        assert (option.chance is not None) == (option.plan.method in ROLLED + SPRAYED)
        assert (option.price > 0) == (option.plan.method != "decline")


# History and tests


def test_history_decides_the_way(demo: Comparison) -> None:
    """What looks unpainted is sealed first; what was primed and painted twice is rolled, and rolling costs far less."""
    painted = priced(((*WORK, "history"), "primed and painted twice")).comparisons[0]
    assert demo.recommended.plan.method == "seal_roll"
    assert painted.recommended.plan.method == "roll"
    before, after = ({each.plan.method: each for each in one.options}["roll"] for one in (demo, painted))
    assert before.plan.suitability is CLOSED
    assert findings(after.plan, CONDITIONS) == "people and pets stay out until the smell is gone"  # of the stain primer
    assert after.price < before.price


def test_the_recommendation_turns_between_the_two_histories(demo: Comparison) -> None:
    """Rolling gives way to sealing at a chance between that of the one history and that of the other."""
    painted = priced(((*WORK, "history"), "primed and painted twice")).comparisons[0]
    assert demo.decision_figure is not None
    assert painted.decision_figure is not None
    first, second = demo.stretches[:2]
    assert [demo.options[each.place].plan.method for each in (first, second)] == ["roll", "seal_roll"]
    assert painted.decision_figure.value < first.high < demo.decision_figure.value < second.high


def test_the_explanation_says_why_and_what_would_change_it(demo: Comparison) -> None:
    """The way, the next best with its difference, what closes the others, where it turns, the odds to the last row."""
    with_crew_note = explain_method(demo)
    assert "ceiling, sitting room: Seal with solvent-borne primer, then roll is recommended" in with_crew_note
    assert "the cheapest of the methods that are OK here, risks priced in" in with_crew_note
    assert "next is Spray, water-borne, " in with_crew_note
    assert "Roll, water-borne is out: the chance that texture comes down is" in with_crew_note
    assert "% roll, water-borne, above " in with_crew_note
    assert "release, prior: looks unpainted" in with_crew_note
    assert "release/evidence/mist_darkens/odds" in with_crew_note
    painted = explain_method(priced(((*WORK, "history"), "primed and painted twice")).comparisons[0])
    assert "Roll, water-borne is recommended" in painted
    assert "release, prior: painted twice" in painted


def test_more_paint_on_the_texture_never_makes_release_likelier() -> None:
    """From never painted to primed and painted twice, with the same tests."""
    order = ["never painted", "looks unpainted", "painted once, primer unknown", "primed and painted"]
    chances = [ceiling_of(demo_with(((*WORK, "history"), history))).release.weak.value for history in order]
    assert chances == sorted(chances, reverse=True)
    twice = ceiling_of(demo_with(((*WORK, "history"), "primed and painted twice"))).release.weak.value
    assert twice < chances[2]


@pytest.mark.parametrize("history", [str(history) if history else "unknown" for history in PRIORS])
def test_bare_board_behind_fallen_texture_was_never_primed(history: str) -> None:
    """A sure sign overrides what anybody remembers: whatever the history, the chance starts from the bare board."""
    seen = ceiling_of(
        demo_with(((*WORK, "history"), history), ((*WORK, "bare_board_behind_fallen"), "yes"))
    ).release.weak
    bare = load_library().row("release", "prior", "bare_board", "probability")
    assert bare.key in {figure.key for figure in seen.walk()}
    assert [key for figure in seen.walk() if (key := figure.key).startswith("release/prior/")] == [bare.key]
    hidden = ceiling_of(demo_with(((*WORK, "history"), history))).release.weak
    if history != "never painted":
        assert seen.value > hidden.value


def test_a_test_moves_the_odds_the_way_it_should() -> None:
    """Rubbed clean, beading, nothing on the tape: less likely. Chalk, dark water, a covered tape: likelier."""

    def base(*tests: dict[str, object]) -> float:
        return ceiling_of(demo_with(((*WORK, "tests"), list(tests)))).release.weak.value

    none = base()
    for good in ({"kind": "dry rub", "outcome": "clean"}, {"kind": "water mist", "outcome": "beads"},
                 {"kind": "tape pull", "removed": 0}, {"kind": "roller patch", "outcome": "clean"}):  # fmt: skip
        assert base(good) < none
    for bad in ({"kind": "dry rub", "outcome": "chalky"}, {"kind": "water mist", "outcome": "darkens"},
                {"kind": "tape pull", "removed": 60}, {"kind": "roller patch", "outcome": "crumbs"}):  # fmt: skip
        assert base(bad) > none
    assert base({"kind": "tape pull", "removed": 60}) > base({"kind": "tape pull", "removed": 10})


def test_two_like_tests_tell_less_than_twice_as_much_as_one() -> None:
    """They are of one room: the second moves the odds, and less than the first did."""
    rub = {"kind": "dry rub", "outcome": "clean"}
    odds = []
    for count in (0, 1, 2, 3):
        chance = ceiling_of(demo_with(((*WORK, "tests"), [rub] * count))).release.weak.value
        odds.append(chance / (1 - chance))
    assert odds[0] > odds[1] > odds[2] > odds[3]
    assert odds[1] / odds[2] < odds[0] / odds[1]


def test_clean_tests_are_not_called_a_pass() -> None:
    """Five clean tests still allow 45 % of the ceiling to be bad: 1 − 0.05^(1/5) = 0.451."""
    rub = {"kind": "dry rub", "outcome": "clean"}
    notes = " ".join(plans(((*WORK, "tests"), [rub] * 5))["roll"].notes)
    assert "5 of 5 spot tests clean: up to 45% of the ceiling may still be bad" in notes
    assert "no spot test was made" in " ".join(plans(((*WORK, "tests"), "none"))["roll"].notes)


def test_sealing_and_spraying_both_lower_the_chance_of_release(demo: Comparison) -> None:
    """Rolled with water most, sealed first and sprayed least."""
    chance = {option.plan.method: option.chance.value for option in demo.options if option.chance}
    assert chance["roll"] > chance["spray"] > chance["seal_spray"]
    assert chance["roll"] > chance["seal_roll"] > chance["seal_spray"]


# What closes a way


@pytest.mark.parametrize("year", [1974, 1980, "unknown"])
def test_without_a_negative_test_an_old_ceiling_is_sampled_before_anything_touches_it(year: object) -> None:
    """Built by 1980, or nobody knows when: samples, their bill and the wait for the laboratory are the first line."""
    found = plans(((*SITE, "asbestos_test"), "not tested"), ((*SITE, "year_built"), year))
    for method, plan in found.items():
        raised = caution(plan, "asbestos_texture")
        assert raised is not None
        assert "rub and tape tests disturb it too" in raised.because
        assert "Do not rub, scrape" in raised.advice
        assert "cfr29-1926-1101" in raised.citation
        if method != "decline":
            assert plan.suitability is not OPEN
            assert "only after a negative result" in findings(plan, CONDITIONS)
            assert plan.tasks[0].key == "bulk_sample"
            assert plan.tasks[0].wait is not None
            assert [charge.quantity.value for charge in plan.charges if charge.key == "asbestos_sample"] == [3]


@pytest.mark.parametrize(("year", "result"), [(1981, "not tested"), (1974, "negative"), ("unknown", "negative")])
def test_a_negative_test_or_a_later_house_opens_scraping(year: object, result: str) -> None:
    """And the caution is not raised."""
    found = plans(((*SITE, "asbestos_test"), result), ((*SITE, "year_built"), year), NO_LEAD, NO_STAINS)
    assert found["scrape"].suitability is OPEN
    assert caution(found["scrape"], "asbestos_texture") is None


def test_a_test_nobody_answered_is_no_negative_test() -> None:
    """Unknown is not negative."""
    found = plans(((*SITE, "asbestos_test"), "unknown"), ((*SITE, "year_built"), 1974))
    assert found["scrape"].tasks[0].key == "bulk_sample"


def test_a_scraped_ceiling_of_an_old_house_carries_lead_safe_work() -> None:
    """The whole ceiling is disturbed; rolling over it disturbs no paint. A negative test clears it."""
    untested, cleared = plans(), plans(NO_LEAD)
    keys = {task.key for task in untested["scrape"].tasks}
    assert {"lead_pamphlet", "lead_set_up", "lead_clean", "lead_verify"} <= keys
    assert "certified renovator" in findings(untested["scrape"], CONDITIONS)
    assert not any(task.key.startswith("lead_") for plan in cleared.values() for task in plan.tasks)
    assert not any(task.key.startswith("lead_") for task in untested["roll"].tasks)
    assert caution(cleared["roll"], "lead_paint") is None


def test_asbestos_found_leaves_only_declining() -> None:
    """In a house of any age; the recommendation is to leave it alone, at no price."""
    for year in (1974, 2005):
        outcome = priced(((*SITE, "asbestos_test"), "positive"), ((*SITE, "year_built"), year))
        (comparison,) = outcome.comparisons
        standing = {option.plan.method: option.plan.suitability for option in comparison.options}
        assert standing.pop("decline") is OPEN
        assert set(standing.values()) == {CLOSED}
        assert comparison.recommended.plan.method == "decline"
        assert comparison.why[0] == "no method is OK here"
        assert outcome.estimate.price == 0


UNSAFE = [
    *(((*SITE, "ignition", source), state) for source in SOURCES for state in ("cannot be shut off", "unknown")),
    ((*SITE, "household"), ["pregnancy"]),
    ((*SITE, "household"), "unknown"),
    ((*SITE, "airflow"), "no"),
    ((*SITE, "airflow"), "unknown"),
]


@pytest.mark.parametrize(("steps", "answer"), UNSAFE)
def test_where_solvent_vapor_may_do_harm_no_plan_has_a_solvent_borne_product(
    steps: tuple[str | int, ...], answer: object
) -> None:
    """An open question counts as a yes: what is sealed is sealed water-borne, and the plan says what that costs."""
    for plan in plans((steps, answer)).values():
        assert not [each for each in plan.materials if each.product == "stain_primer_solvent"]
        assert not [each for each in plan.supplies if each.item == "respirator_cartridges"]
        assert "solvent-borne primer" not in " ".join([plan.title, *(risk.what_then for risk in plan.risks)])
        assert not {"solvent_fire", "solvent_vapor", "spontaneous_rags"} & {each.key for each in plan.cautions}
        if any(each.product == "stain_primer_waterborne" for each in plan.materials):
            assert "takes the place of the solvent-borne one" in findings(plan, CONDITIONS)
            assert "less surely" in findings(plan, CONDITIONS)


def test_sealing_with_a_water_borne_primer_is_less_sure() -> None:
    """It wets the texture: the chance of release is dearer than under solvent, and no better than halved by it."""
    water, usual = plans(((*SITE, "airflow"), "no"))["seal_roll"], plans()["seal_roll"]
    assert water.risks[0].chance.value > 2 * usual.risks[0].chance.value
    assert "solvent-borne it would be" in " ".join(water.notes)


def test_what_can_be_shut_off_bars_nothing() -> None:
    """The demo's own answers: solvent for stains and sealing, cartridges bought, people out of the room."""
    for method in (*SEALED, "roll", "spray"):
        plan = plans()[method]
        assert any(each.product == "stain_primer_solvent" for each in plan.materials)
        assert any(each.item == "respirator_cartridges" for each in plan.supplies)
        assert {"solvent_fire", "solvent_vapor", "respirators"} <= {each.key for each in plan.cautions}


def test_unsound_texture_is_not_coated() -> None:
    """Loose material comes off before anything is put on, or is covered; no answer is taken as sound, and asked for."""
    found = plans(((*WORK, "sound"), "no"), NO_LEAD, NO_STAINS)
    assert all(found[method].suitability is CLOSED for method in (*ROLLED, *SPRAYED))
    assert "not sound" in findings(found["seal_roll"], CLOSED)
    assert found["scrape"].suitability is OPEN
    unsound = ((*WORK, "sound"), "no")
    assert priced(unsound).comparisons[0].recommended.plan.method == "decline"  # taking it off was not asked for
    smooth = priced(unsound, ((*WORK, "smooth_wanted"), "yes"))
    assert smooth.comparisons[0].recommended.plan.method in ("scrape", "overlay")
    asked = priced(((*WORK, "sound"), "unknown"))
    assert any("sound" in question.field for question in asked.questions)


def test_a_stain_whose_cause_is_not_cured_is_a_condition_of_every_way() -> None:
    """It comes back through any coat."""
    for cured in ("no", "unknown"):
        found = plans(((*WORK, "stains", 0, "cause_cured"), cured))
        assert all(
            "comes back through any coat" in findings(found[method], CONDITIONS) for method in (*ROLLED, *SPRAYED)
        )
    assert "comes back" not in findings(plans()["roll"], CONDITIONS)


# Protection


def test_rolling_needs_floor_and_edges_only() -> None:
    """No film on the walls, none on doors and windows; furniture moved, fixtures covered one by one."""
    rolled = plans()["roll"]
    put_up = set(tasks(rolled, Phase.PROTECT, Phase.MASK))
    assert put_up >= {"move_furniture", "protect_floor", "mask_edge"}
    assert not put_up & {"hang_film", "mask_opening"}
    assert "hang_film" in tasks(plans()["spray"])
    assert "mask_opening" in tasks(plans()["spray"])
    assert not any(supply.item == "wall_film" for supply in rolled.supplies)


@pytest.mark.parametrize("method", SPRAYED)
def test_walls_that_are_painted_next_need_no_drape(method: str) -> None:
    """Nor a cut line; doors and windows are still covered, and the hours are saved."""
    before, after = plans()[method], plans(((*WORK, "walls_next"), "yes"))[method]
    assert {"hang_film", "mask_edge"} <= set(tasks(before))
    assert not {"hang_film", "mask_edge"} & set(tasks(after))
    assert "mask_opening" in tasks(after)
    assert not any(supply.item == "wall_film" for supply in after.supplies)
    assert estimated(method, ((*WORK, "walls_next"), "yes")).price < estimated(method).price


def test_walls_nobody_spoke_of_are_protected_and_asked_about() -> None:
    """Unknown is not yes."""
    assert "hang_film" in tasks(plans(((*WORK, "walls_next"), "unknown"))["spray"])
    questions = priced(((*WORK, "walls_next"), "unknown")).questions
    assert any(question.field.endswith("walls_next") for question in questions)


def test_detectors_are_counted_out_and_in_again() -> None:
    """Covered before, uncovered after, by number on both sheets; not counted yet is said, none is nothing."""
    three = plans(((*ROOM, "fixtures", "detector"), 3))["spray"]
    details = {task.key: task.detail for task in three.tasks if task.key in ("mask_detector", "uncover_detector")}
    assert details == {"mask_detector": "3 out, 3 back", "uncover_detector": "3 out, 3 back"}
    raised = caution(three, "detectors")
    assert raised is not None
    assert raised.because == "3 counted out, 3 to be counted back in"
    unknown = caution(plans(((*ROOM, "fixtures", "detector"), "unknown"))["spray"], "detectors")
    assert unknown is not None
    assert unknown.because == "not counted yet"
    none = plans(((*ROOM, "fixtures", "detector"), 0))["spray"]
    assert caution(none, "detectors") is None
    assert "mask_detector" not in tasks(none)


def test_fixtures_nobody_counted_are_asked_about() -> None:
    """None counted is none planned for, and a question; none is no question."""
    unknown = priced(((*ROOM, "fixtures"), {}))
    asked = [question.field for question in unknown.questions if "fixtures" in question.field]
    assert len(asked) == 8
    assert not [question for question in priced().questions if "fixtures" in question.field]


def test_trims_nobody_spoke_of_are_asked_about() -> None:
    """None are in the price; where there are no lights in the ceiling there is nothing to ask."""
    asked = priced(((*WORK, "trims_to_coat"), "unknown"))
    assert any(question.field.endswith("trims_to_coat") for question in asked.questions)
    assert not any(line.key == "coat_trims" for line in asked.estimate.lines)
    without = priced(((*WORK, "trims_to_coat"), "unknown"), ((*ROOM, "fixtures", "recessed_light"), "none"))
    assert not any(question.field.endswith("trims_to_coat") for question in without.questions)


def test_trims_are_coated_whatever_is_done_to_the_ceiling() -> None:
    """Each way delivers what was asked for, or the ways could not be compared."""
    for method, plan in plans().items():
        assert ("coat_trims" in tasks(plan)) == (method != "decline")


# Spraying


def test_the_demo_is_sprayed_at_reduced_pressure_through_a_narrow_tip() -> None:
    """The pass plan chooses it: two crossed passes or more, at a speed an arm can hold, nothing standing against it."""
    first, later = ceiling_of(demo_with()).coatings[PASS_BY_PASS, False].passes.values()
    set_up = first.chosen
    assert set_up.setting == "reduced"
    assert set_up in first.as_good
    assert later.chosen.tip == set_up.tip  # one tip is bought, and it is as good as any for either coat
    assert set_up.plan.possible
    assert set_up.plan.passes >= 2
    with_crew_note = next(task.detail for task in plans()["spray"].tasks if task.key == "ceiling_1")
    assert f"tip {set_up.tip}, reduced pressure" in with_crew_note
    assert f"{set_up.plan.passes} crossed passes at {set_up.plan.arm_speed:.1f} ft/s" in with_crew_note


def test_the_set_up_that_leaves_least_mist_comes_first() -> None:
    """Of those that can lay an even film; those that cannot come after all that can."""
    found = first_coat(demo_with()).set_ups
    possible = [each.plan.possible for each in found]
    assert possible == sorted(possible, reverse=True)
    mist = [round(each.plan.mist, 6) for each in found if each.plan.possible]
    assert mist == sorted(mist)


def test_the_tip_that_is_asked_for_is_used() -> None:
    """For every coat, where it can lay one."""
    found = plans(((*WORK, "tip"), "213"))["spray"]
    details = [task.detail for task in found.tasks if task.key.startswith("ceiling_")]
    assert len(details) == 2
    assert all(detail.startswith("tip 213") for detail in details)


def test_a_tip_that_cannot_lay_the_film_closes_spraying_and_says_why() -> None:
    """A block filler's tip: more than the pump gives, faster than an arm can go."""
    found = plans(((*WORK, "tip"), "635"))
    for method in SPRAYED:
        assert found[method].suitability is CLOSED
        assert "tip 635" in findings(found[method], CLOSED)
    with_crew_note = findings(found["spray"], CLOSED)
    assert "the pump gives" in with_crew_note
    assert found["roll"].findings == plans()["roll"].findings


@pytest.mark.parametrize("tip", ["999", "13", "fine", "2l3", ""])
def test_a_code_that_is_no_tip_is_refused_with_what_a_code_says(tip: str) -> None:
    """With the path to the field; an empty one is no answer."""
    if not tip:
        assert plans(((*WORK, "tip"), tip))["spray"].suitability is CONDITIONS
        return
    with pytest.raises(InputError, match="half the fan in inches at 12 inches") as refused:
        plans(((*WORK, "tip"), tip))
    assert refused.value.field == 'work "sitting room" · tip'


@pytest.mark.parametrize("height", ["7' 6\"", "8 ft", "9 ft"])
def test_mist_settles_before_the_masking_comes_down(height: str) -> None:
    """What marks is down in a couple of minutes and is waited for; finer mist hangs longer, longest in a high room."""
    found = plans(((*ROOM, "height"), height))["spray"]
    marks, settling = (each for each in found.figures if each.name in ("what marks down", "fine mist down"))
    assert (marks.unit, settling.unit) == ("minute", "minute")
    assert 1 <= marks.value <= 4
    assert 10 <= settling.value <= 120
    coats = [task for task in found.tasks if task.key.startswith("ceiling_")]
    assert coats[-1].wait is not None
    assert coats[-1].wait.name == "what marks down"
    assert coats[-1].settles is not None
    assert coats[-1].settles.value == settling.value
    assert coats[-1].wait_for == "what would mark to be down before unmasking"
    keys = [task.key for task in estimated("spray", ((*ROOM, "height"), height)).schedule.tasks]
    assert keys.index("ceiling_2") < keys.index("unmask")
    low = next(
        figure for figure in plans(((*ROOM, "height"), "7 ft"))["spray"].figures if figure.name == "fine mist down"
    )
    assert settling.value > low.value


# Size and price

sides = st.integers(60, 420)  # inches
more = st.integers(0, 60)


def waited(estimate: Estimate) -> Decimal:
    """Return what the client pays for waiting, at what an hour of the whole job comes to."""
    hours = estimate.schedule.idle.value
    return estimate.price * Decimal(hours / estimate.hours.value)


@settings(max_examples=12, deadline=None)
@given(st.sampled_from(["roll", "spray", "seal_roll", "seal_spray", "scrape", "overlay"]), sides, sides, more, more)
def test_a_larger_ceiling_never_costs_less(method: str, length: int, width: int, longer: int, wider: int) -> None:
    """By any way, with its paint and its mending; and never takes less paint.

    What is waited on pay may end with the day when the work takes longer: by that much it can cost less.
    """

    def box(long: int, wide: int) -> Estimate:
        shape = {"kind": "rectangle", "length": f"{long} in", "width": f"{wide} in"}
        return estimated(method, ((*ROOM, "shape"), shape))

    small, large = box(length, width), box(length + longer, width + wider)
    assert large.price >= small.price - waited(small)
    assert large.gallons >= small.gallons


def test_a_heavier_texture_takes_more_paint() -> None:
    """Light, medium, heavy; a texture of unknown depth is taken as medium and asked about."""
    gallons = [estimated("roll", ((*WORK, "depth"), depth)).gallons for depth in ("light", "medium", "heavy")]
    assert gallons == sorted(gallons)
    assert gallons[0] < gallons[2]
    assert estimated("roll", ((*WORK, "depth"), "unknown")).gallons == pytest.approx(gallons[1])
    assert any(each.field.endswith("depth") for each in priced(((*WORK, "depth"), "unknown")).questions)


def test_a_learning_crew_takes_longer_and_a_third_coat_costs_more() -> None:
    """Nothing else changes."""
    assert estimated("roll", (("crew", "experience"), "learning")).hours.value > estimated("roll").hours.value
    assert estimated("roll", ((*WORK, "coats"), 3)).price > estimated("roll", ((*WORK, "coats"), 2)).price


def test_two_ceilings_are_one_visit() -> None:
    """One van, one sprayer on each day it sprays, one order: dearer than one, cheaper than two by themselves."""
    job = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    second = {**copy.deepcopy(job["rooms"][0]), "name": "dining room"}
    job["rooms"].append(second)
    job["work"].append({**copy.deepcopy(job["work"][0]), "room": "dining room"})
    both = estimate_job(build_job(job)).estimate
    one = priced().estimate
    assert one.price < both.price < 2 * one.price
    at_the_sprayer = [task.key for task in both.schedule.tasks if task.key in SPRAYER]
    first, second = ["ceiling_1"], ["ceiling_2", "ceiling_1", "ceiling_2"]  # a day each; one sprayer for both rooms
    assert at_the_sprayer == [SPRAYER[0], *first, SPRAYER[1], SPRAYER[0], *second, SPRAYER[1]]
    assert len([line for line in both.lines if line.key == "ceiling_flat"]) == 1


def test_a_way_that_is_asked_for_is_priced_and_one_that_is_none_is_refused() -> None:
    """The recommendation stands beside it."""
    outcome = priced(((*WORK, "method"), "spray"))
    (comparison,) = outcome.comparisons
    assert (comparison.recommended.plan.method, comparison.taken.plan.method) == ("seal_roll", "spray")
    assert outcome.estimate.price == comparison.taken.price
    with pytest.raises(InputError, match="one of roll, spray, seal_roll"):
        priced(((*WORK, "method"), "whitewash"))


def test_every_way_of_coating_has_a_stop_rule_and_its_cautions(demo: Comparison) -> None:
    """Each caution with the fact that raises it and the rule it rests on."""
    for option in demo.options:
        if option.plan.method in ROLLED + SPRAYED:
            assert "stop" in option.plan.stop_rule
            assert caution(option.plan, "texture_release") is not None
        for each in option.plan.cautions:
            assert each.title
            assert each.because
            assert each.advice
            assert each.citation
    sealed = next(option.plan for option in demo.options if option.plan.method == "seal_spray")
    raised = {each.key for each in sealed.cautions}
    assert {"solvent_fire", "solvent_vapor", "spontaneous_rags", "spray_injection", "respirators"} <= raised
