"""The drawing of papered walls says what the layout says."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from places import JOBS

from estimating.reports.charts.wall_drawing import drawn_walls, elevations, wall_elevation
from estimating.reports.format import UnitSystem
from estimating.scopes.drawings import Elevation
from estimating.scopes.kinds.wallcovering.elevations import elevations as of_layout
from estimating.trade.wallcovering.layout import Wall, layout
from estimating.trade.wallcovering.layout import WallOpening as Opening
from estimating.workbook import estimate_job, read_job

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def room() -> list[Elevation]:
    walls = [Wall("a <b>", 6.0, 8.0, (Opening(2.0, 2.0, 3.0, 6.0, "window"),)), Wall("end", 4.0, 8.0)]
    return list(of_layout(layout(walls, roll_width=2.0, wrap=0.0, least_piece=0.0, around=False)))


def test_every_strip_seam_and_opening_is_drawn(room: list[Elevation]) -> None:
    """Three strips of which the middle is two parts, two seams, one window."""
    svg = ElementTree.fromstring(wall_elevation(room[0]))
    texts = [each.text for each in svg.iter(f"{SVG}text")]
    numbers = [each.text for each in svg.iter(f"{SVG}text") if each.get("class") == "pe-strip"]
    seams = [each for each in svg.iter(f"{SVG}line") if each.get("class") == "pe-seam"]
    assert sorted(numbers) == ["1", "2", "2", "3"]
    assert len(seams) == 2
    assert texts.count("window") == 1


def test_a_wall_is_drawn_to_scale(room: list[Elevation]) -> None:
    """The frame is as wide to high as the wall, and the window stands where it was taped."""
    svg = ElementTree.fromstring(wall_elevation(room[0]))
    boxes = [
        {side: float(each.get(side) or 0) for side in ("x", "y", "width", "height")} for each in svg.iter(f"{SVG}rect")
    ]
    frame, window = boxes[-1], boxes[-2]
    assert frame["width"] / frame["height"] == pytest.approx(6 / 8, abs=0.01)
    assert (window["x"] - frame["x"]) / frame["width"] == pytest.approx(2 / 6, abs=0.01)
    assert (window["y"] - frame["y"]) / frame["height"] == pytest.approx((8 - 6) / 8, abs=0.01)


def test_names_are_escaped_and_the_drawing_has_a_title(room: list[Elevation]) -> None:
    """What was typed is text, never markup; a screen reader is told which wall it is."""
    drawn = wall_elevation(room[0])
    assert "a &lt;b&gt;" in drawn
    assert 'role="img"' in drawn
    assert ElementTree.fromstring(drawn).find(f"{SVG}title") is not None


def test_lengths_are_shown_in_either_system(room: list[Elevation]) -> None:
    """Feet and inches, or meters."""
    assert "6′ 0″" in wall_elevation(room[0])
    assert "1.83 m" in wall_elevation(room[0], UnitSystem.METRIC)


def test_walls_come_in_the_order_they_are_hung(room: list[Elevation]) -> None:
    """One drawing a wall."""
    drawn = elevations(room)
    assert drawn.count("<svg") == 2
    assert drawn.index("a &lt;b&gt;") < drawn.index("end")


def test_a_job_draws_its_papered_walls_and_no_others() -> None:
    """Four walls of the study; none where nothing is papered."""
    study, ceiling = (
        estimate_job(read_job(JOBS / f"{name}.toml")) for name in ("quarry_lane_study", "alder_row_sitting_room")
    )
    assert drawn_walls(study).count("<svg") == 4
    assert drawn_walls(ceiling) == ""
