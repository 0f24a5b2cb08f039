"""What is stood on by height, and the cautions that no kind of work indoors can raise."""

from __future__ import annotations

import pytest

from estimating.estimate.pricing.plan import Plan
from estimating.evidence import Basis, load_library
from estimating.figures import Figure, leaf
from estimating.origins import definition
from estimating.scopes.shared import heights
from estimating.scopes.shared.cautions import cautions
from estimating.scopes.shared.exposure import Exposure, Facts, facts_of
from estimating.scopes.shared.heights import Footing
from estimating.scopes.shared.work_area import WorkArea
from estimating.workbook import build_job


def facts(exposure: Exposure, **site: object) -> Facts:
    """Return the facts of a plan in a small room on a site with these notes."""
    shape = {"kind": "rectangle", "length": "10 ft", "width": "10 ft"}
    job = build_job(
        {
            "title": "a den",
            "site": site,
            "rooms": [{"name": "den", "shape": shape, "height": "8 ft"}],
            "work": [{"kind": "textured_ceiling", "room": "den", "texture": "popcorn"}],
        }
    )
    area = WorkArea.of(job.work[0], job, Basis(load_library()))
    return facts_of(Plan("den", "roll", "Roll"), area, exposure)


def feet(value: float, unit: str = "ft") -> Figure:
    """Return a plain figure."""
    return leaf("given", value, unit, definition("given for the test"))


@pytest.mark.parametrize(
    ("top", "stood", "lines", "hired"),
    [
        (7.0, Footing.FLOOR, [], 0),
        (8.0, Footing.STEP_LADDER, [], 0),
        (12.0, Footing.PLANK, ["set_plank"], 0),
        (17.0, Footing.SCAFFOLD, ["set_scaffold"], 1),
    ],
)
def test_what_is_stood_on_follows_the_height(top: float, stood: Footing, lines: list[str], hired: int) -> None:
    """A step ladder is at hand; a plank takes minutes, a scaffold its set-up and its hire."""
    found = facts(Exposure(top=feet(top)))
    assert heights.footing(found) is stood
    assert [task.key for task in heights.set_up(found)] == lines
    assert len(heights.hire(found)) == hired


def test_an_extension_ladder_stands_only_over_a_stair_or_outside() -> None:
    """And only there is anybody told about landings and slope."""
    over = {each.key for each in cautions(facts(Exposure(top=feet(8.0), over_stairs=True)))}
    inside = {each.key for each in cautions(facts(Exposure(top=feet(17.0))))}
    assert {"ladders", "ladder_slope", "work_height"} <= over
    assert not {"ladders", "ladder_slope"} & inside
    assert "work_height" in inside


def test_outdoors_has_its_own_limits() -> None:
    """Twenty square feet of old paint, sheeting on the ground, mist in the wind, power lines, the washer."""
    outside = Exposure(sprayed=True, outside=True, power_washed=True, old_paint=feet(21.0, "ft**2"), top=feet(12.0))
    raised = {each.key for each in cautions(facts(outside, year_built=1950))}
    assert {"lead_minor_repair_exterior", "lead_ground_sheeting", "overspray_outdoors"} <= raised
    assert {"power_lines", "pressure_washer", "ladders"} <= raised
    assert not {"lead_minor_repair_interior", "lead_floor_sheeting", "mist_on_finishes"} & raised
    few = Exposure(outside=True, old_paint=feet(20.0, "ft**2"))
    assert "lead_minor_repair_exterior" not in {each.key for each in cautions(facts(few, year_built=1950))}


def test_found_asbestos_over_a_large_area_is_for_a_firm_that_gives_notice() -> None:
    """More than 160 ft² in which a laboratory found it."""
    texture = Exposure(suspects=("ceiling texture",), suspect_area=feet(200.0, "ft**2"))
    assert "asbestos_renovation_area" in {each.key for each in cautions(facts(texture, asbestos_test="positive"))}
    assert "asbestos_renovation_area" not in {each.key for each in cautions(facts(texture, year_built=1960))}


def test_leaving_a_surface_alone_raises_nothing_about_work() -> None:
    """Only what the surface itself may hold."""
    alone = Exposure(worked=False, suspects=("ceiling texture",))
    assert {each.key for each in cautions(facts(alone, year_built=1960))} == {"asbestos_texture", "lead_paint"}
