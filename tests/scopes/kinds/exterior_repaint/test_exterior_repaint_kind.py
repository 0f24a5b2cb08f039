"""The outside of a house: walls and gables from the tape, failing paint by its share, and figures that others print."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

import pytest
from places import JOBS

from estimating.errors import InputError, InputErrors
from estimating.estimate.pricing.plan import Phase, Plan, Suitability
from estimating.evidence import Basis, load_library
from estimating.job.model import Job
from estimating.scopes.kinds.exterior_repaint.kind import KIND
from estimating.scopes.shared import heights
from estimating.workbook import build_job, estimate_job, own_values

DEMO = tomllib.loads((JOBS / "willow_bend_house.toml").read_text("utf-8"))
LIBRARY = load_library()


def changed(*steps: Any, site: dict[str, Any] | None = None, **changes: Any) -> Job:
    """Return the demo job with answers of its work item changed, at a part of it named by steps."""
    plain = copy.deepcopy(DEMO)
    at = plain["work"][0]
    for step in steps:
        at = at[step]
    at |= changes
    plain["site"] |= site or {}
    return build_job(plain)


def plans(found: Job) -> dict[str, Plan]:
    """Return the plans of the first work item by their method."""
    return {plan.method: plan for plan in KIND.plans(found.work[0], found, Basis(LIBRARY, own_values(found.own)))}


def hours(plan: Plan, key: str) -> float:
    return next(task.hours.value for task in plan.tasks if task.key == key)


def area(plan: Plan, purpose: str) -> float:
    paint = next(each for each in plan.materials if each.purpose == purpose)
    return float(dict(paint.gallons.inputs)["area"].value)


def gallons(plan: Plan, purpose: str) -> float:
    return sum(each.gallons.value for each in plan.materials if each.purpose == purpose)


def plain_house(length: str, width: str, height: str, spread: float, *sides: dict[str, str]) -> Job:
    """Return the siding of a house without openings, one coat, whose paint goes so many ft² a gallon."""
    plain = copy.deepcopy(DEMO)
    shape = {"kind": "rectangle", "length": length, "width": width}
    plain["rooms"][0] |= {"openings": "none", "height": height, "shape": shape}
    plain["work"][0] |= {"cladding": "panel", "elevations": list(sides), "trim": {"painted": "no"}}
    plain["work"][0]["walls"] = {"painted": "yes", "coats": 1, "failing_percent": 0}
    plain["own"] = {"coverage/board_and_batten/any/any/any": {"likely": spread, "unit": "ft**2/gallon"}}
    return build_job(plain)


def test_a_published_house_with_two_gables_end_to_end() -> None:
    """Chicago Tribune, September 29, 2000, "How Much Paint Do You Need?".

    20 by 50 ft and 18 ft to the gables: 140 · 18 = 2,520 ft². Two gables 50 ft wide and 10 ft high: 500. In all 3,020,
    divided by 400: 7.55 gallons.
    """
    long, short = {"width": "50 ft", "height": "18 ft", "gable": "10 ft"}, {"width": "20 ft", "height": "18 ft"}
    sides = [{"name": f"{n}", **side} for n, side in enumerate((long, long, short, short))]
    plan = plans(plain_house("50 ft", "20 ft", "18 ft", 400.0, *sides))["brush"]
    assert area(plan, "coat 1 of the siding") == pytest.approx(2520 + 500, abs=0.5)
    assert gallons(plan, "coat 1 of the siding") == pytest.approx(7.55, abs=0.005)


@pytest.mark.parametrize(
    ("length", "width", "height", "spread", "printed", "paint", "digit"),
    [
        # "How much paint to buy", Mother Earth News: 20 by 40 ft, 13 ft and 2 for gables: 1,800 ft²; undercoat 4 gal,
        ("40 ft", "20 ft", "15 ft", 450.0, 1800.0, 4.0, 0.05),
        # and finish three and a half
        ("40 ft", "20 ft", "15 ft", 500.0, 1800.0, 3.5, 0.25),
        # "How much exterior paint should I buy?", constructionwork.com: 30, 30, 50, 50 by 14 ft: 2,240 ft², 5.6 gal
        ("50 ft", "30 ft", "14 ft", 400.0, 2240.0, 5.6, 0.05),
    ],
)
def test_published_houses_by_their_outline(
    length: str, width: str, height: str, spread: float, printed: float, paint: float, digit: float
) -> None:
    """Where no side was measured by itself, the outline times its height, as these pages do it."""
    plan = plans(plain_house(length, width, height, spread))["brush"]
    assert area(plan, "coat 1 of the siding") == pytest.approx(printed, abs=0.5)
    assert gallons(plan, "coat 1 of the siding") == pytest.approx(paint, abs=digit)


def test_a_cartridge_of_caulk_goes_as_far_as_its_volume_says() -> None:
    """Midwest Sealant Supply: 18.3 in³ in 10.1 oz, so 24.4 ft of a 1/4 by 1/4 in joint with nothing wasted."""
    row = LIBRARY.row("members", "caulk_tube", "run")
    assert row.low <= 18.3 / (0.25 * 0.25 * 12) <= row.high


def test_a_plank_on_ladder_jacks_is_no_higher_than_a_state_allows() -> None:
    """Michigan R 408.10528(1): 20 ft. Above what is reached from it, a scaffold firm's work is a condition."""
    assert heights.JACKS == 20
    high = {"name": "tall side", "width": "40 ft", "height": "22 ft", "gable": "9 ft"}
    plan = plans(changed(elevations=[high]))["brush"]
    assert any("scaffold put up by a firm" in each.text for each in plan.findings)
    assert not any("scaffold put up" in each.text for each in plans(changed())["brush"].findings)


def test_the_demo_by_hand() -> None:
    """Two sides of 42 and two of 26 ft, 10 ft high, with gables 8 1/2 ft high: 1,360 + 221 ft², less the openings.

    A window of 13.5 ft² is over 0.5 m² and under 3: half comes off this face; a door of 20 ft² likewise.
    """
    plan = plans(changed())["brush"]
    net = 1360 + 221 - (12 * 13.5 + 2 * 20) / 2
    assert area(plan, "coat 1 of the siding") == pytest.approx(net * (1 + 0.5 / 4.5), rel=1e-3)
    assert hours(plan, "loose_paint_siding") > 0.12 * net * 1.11 / 50
    assert sum(each.need.value for each in plan.supplies if each.item == "caulk") == 260


def test_preparation_grows_with_the_paint_that_fails() -> None:
    """Scraping and sanding by share, slower where more of it fails; from two fifths on a whole coat of primer."""
    found = [plans(changed("walls", failing_percent=share))["brush"] for share in (5, 15, 35, 60)]
    spent = [hours(plan, "loose_paint_siding") for plan in found]
    assert spent == sorted(spent)
    assert spent[1] > 3 * spent[0]
    assert [any(task.key == "prime_siding_0" for task in plan.tasks) for plan in found] == [False, False, False, True]
    primers = [[each for each in plan.materials if "primer" in each.product and each.surface] for plan in found]
    assert [len(each) for each in primers] == [0, 0, 0, 1]  # spots are no coat


@pytest.mark.parametrize("method", ["brush", "spray_back_brush"])
def test_in_the_order_of_the_trade(method: str) -> None:
    """Plants covered, washed and dried, made ready, caulked, and then the coats; siding before trim."""
    plan = plans(changed())[method]
    keys = [task.key for task in plan.tasks]
    order = ["cover_plants", "wash_outside", "loose_paint_siding", "caulk", "paint_siding_1", "paint_soffit_1"]
    assert [key for key in keys if key in order] == order
    washed = next(task for task in plan.tasks if task.key == "wash_outside")
    assert washed.wait is not None


@pytest.mark.parametrize(
    ("job", "allowed"),
    [
        (changed(site={"year_built": 1995}), Suitability.OPEN),
        (changed(), Suitability.CONDITIONS),
        (changed(site={"lead_test": "positive"}), Suitability.CLOSED),
        (changed(site={"lead_test": "negative"}), Suitability.OPEN),
        (changed("walls", site={"year_built": 1995}, failing_percent=55), Suitability.CONDITIONS),
        (changed("walls", site={"year_built": 1995}, chalky="yes"), Suitability.CONDITIONS),
        (changed(site={"year_built": 1995}, moisture=19), Suitability.CONDITIONS),
    ],
)
def test_lead_chalk_and_damp_decide(job: Job, allowed: Suitability) -> None:
    """Old failing paint, a positive test, chalk, and wood that is too wet."""
    assert plans(job)["brush"].suitability is allowed


def test_plastic_lies_on_the_ground_where_old_paint_may_hold_lead() -> None:
    """136 ft of wall, ten feet out; under 20 ft² of it there is no such work."""
    plan = plans(changed())["brush"]
    assert hours(plan, "lead_ground_set_up") == pytest.approx(1360 / 250)
    plain = copy.deepcopy(DEMO)
    plain["work"][0]["walls"]["failing_percent"] = 0.5
    plain["work"][0]["trim"]["failing_percent"] = 0
    assert not any(task.key.startswith("lead_") for task in plans(build_job(plain))["brush"].tasks)


def test_ladders_are_set_for_every_pass() -> None:
    """136 ft in sets of 8 ft are 17; washed, made ready and coated twice: 68 times seven minutes."""
    assert hours(plans(changed())["brush"], "move_ladders") == pytest.approx(68 * 7 / 60)


def test_siding_is_sprayed_and_trim_is_not() -> None:
    """Spraying needs film over the openings; the wind may rule it out."""
    found = plans(changed())
    assert hours(found["spray_back_brush"], "paint_siding_1") < hours(found["brush"], "paint_siding_1")
    assert hours(found["spray_back_brush"], "paint_fascia_0_1") == hours(found["brush"], "paint_fascia_0_1")
    film = next(task for task in found["spray_back_brush"].tasks if task.key == "mask_opening")
    assert film.phase > Phase.PREPARE  # not before all is washed
    windy = plans(changed(site={"season": {"wind_mph": 14}}))
    assert windy["spray_back_brush"].suitability is Suitability.CLOSED


@pytest.mark.parametrize("cladding", ["lap", "board and batten", "shingle", "panel"])
def test_every_cladding_is_priced(cladding: str) -> None:
    """Each by its own skin and rate."""
    outcome = estimate_job(changed(cladding=cladding))
    assert outcome.estimate.price > 0


def test_nothing_to_paint_and_too_many_openings_are_refused() -> None:
    """With the place in the job file."""
    plain = copy.deepcopy(DEMO)
    plain["work"][0]["walls"]["painted"] = plain["work"][0]["trim"]["painted"] = "no"
    with pytest.raises((InputError, InputErrors)):
        plans(build_job(plain))
    plain = copy.deepcopy(DEMO)
    plain["rooms"][0]["openings"][1]["count"] = 300
    with pytest.raises((InputError, InputErrors)):
        plans(build_job(plain))
    with pytest.raises((InputError, InputErrors)):
        plans(changed("trim", edges=[{"kind": "downspout"}]))


def test_the_demo_is_priced_and_says_what_is_open() -> None:
    """What nobody noted is asked, with what is taken until then."""
    outcome = estimate_job(changed())
    assert outcome.comparisons[0].recommended is not None
    fields = {each.field for each in estimate_job(changed("walls", failing_percent=None)).questions}
    assert 'work "house" · walls · failing_percent' in fields
