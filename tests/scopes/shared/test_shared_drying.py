"""What the air allows, and how long paint takes to dry in it."""

from __future__ import annotations

import pytest

from estimating.estimate.pricing.plan import Suitability
from estimating.evidence import Basis, load_library
from estimating.scopes.shared import drying as weather
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import take_off
from estimating.workbook import build_job


def work_area(**site: object) -> WorkArea:
    """Return a piece of work in a small room with this air."""
    job = build_job(
        {
            "title": "air",
            "site": site,
            "rooms": [
                {"name": "den", "shape": {"kind": "rectangle", "length": "10 ft", "width": "10 ft"}, "height": "8 ft"}
            ],
            "work": [{"kind": "textured_ceiling", "room": "den", "texture": "popcorn"}],
        }
    )
    basis = Basis(load_library())
    return WorkArea(job, take_off(job.rooms[0], basis), basis)


def test_air_that_was_not_measured_leaves_the_printed_time() -> None:
    """No reading, no factor."""
    assert (
        weather.drying(work_area(), "ceiling_flat").origin
        == work_area().basis.figure("coatings", "ceiling_flat", "recoat").origin
    )


def test_the_air_of_the_data_sheet_leaves_the_time_as_it_is() -> None:
    """77 °F and 50 % are the air the printed times are for."""
    dry = weather.drying(work_area(air="77 degF", humidity=50), "ceiling_flat")
    assert dry.value == pytest.approx(2.0)


def test_ten_degrees_celsius_colder_doubles_it() -> None:
    """77 °F is 25 °C; at 15 °C, 59 °F, the time doubles: a rule of thumb from memory."""
    dry = weather.drying(work_area(air="59 degF", humidity=50), "ceiling_flat")
    assert dry.value == pytest.approx(4.0)


@pytest.mark.parametrize(
    ("site", "says"),
    [
        ({"air": "40 degF"}, "warm it first"),
        ({"surface": "40 degF"}, "warm it first"),
        ({"air": "97 degF"}, "over 90"),
        ({"humidity": 88}, "dry the air first"),
        ({"air": "70 degF", "surface": "62 degF", "humidity": 75}, "dew point"),
    ],
)
def test_weather_against_paint_is_a_condition(site: dict[str, object], says: str) -> None:
    """Cold, heat, damp and dew are put right before the work begins, and the way says so."""
    found = list(weather.findings(work_area(**site)))
    assert any(says in reason.text for reason in found)
    assert {reason.suitability for reason in found} == {Suitability.CONDITIONS}


@pytest.mark.parametrize(
    ("site", "says"),
    [
        ({"air": "35 degF"}, "outside 40"),
        ({"surface": "33 degF"}, "outside 40"),
        ({"air": "105 degF"}, "outside 40"),
        ({"humidity": 92}, "sags"),
        ({"air": "70 degF", "surface": "50 degF", "humidity": 90}, "dew point"),
        ({"air": "100 degF", "humidity": 60}, "heat index"),
    ],
)
def test_out_of_range_is_not_now(site: dict[str, object], says: str) -> None:
    """Where no time to dry is claimed, water stands on the wall, or nobody can work, the way is closed for now."""
    closed = [each.text for each in weather.findings(work_area(**site)) if each.suitability is Suitability.CLOSED]
    assert any(says in text and text.startswith("not now") for text in closed)


def test_what_holds_no_water_dries_as_printed() -> None:
    """Cold, damp air stretches a water-borne primer and joint compound, and leaves a solvent-borne one as it is."""
    cold = work_area(air="59 degF", humidity=50)
    assert weather.drying(cold, "stain_primer_solvent").rule is None
    assert weather.drying(cold, "wallcovering_primer").rule is not None
    assert weather.compound_dry(cold).value == pytest.approx(48.0)


def test_fair_weather_says_nothing() -> None:
    """70 °F, 50 %, surface as warm: no reason."""
    assert list(weather.findings(work_area(air="70 degF", surface="68 degF", humidity=50))) == []
