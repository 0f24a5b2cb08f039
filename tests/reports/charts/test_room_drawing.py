import subprocess
import sys
from typing import Any
from xml.etree import ElementTree

import pytest
from places import JOBS

from estimating.evidence import Basis, load_library
from estimating.job.file import plain_job
from estimating.job.room import Room
from estimating.reports.charts.room_drawing import SIGNS, ceiling_plan, corners, plans_of_ceilings
from estimating.reports.format import UnitSystem
from estimating.takeoff import take_off
from estimating.trade.outline import outline_area, outline_perimeter
from estimating.workbook import build_job, estimate_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
SVG = "{http://www.w3.org/2000/svg}"
SHAPES: dict[str, dict[str, Any]] = {
    "rectangle": {"kind": "rectangle", "length": "12' 6\"", "width": "10 ft"},
    "l_shape": {"kind": "l_shape", "length": "20 ft", "width": "14 ft", "notch_length": "8 ft", "notch_width": "4 ft"},
    "polygon": {
        "kind": "polygon",
        "corners": [["-2 ft", "0"], ["12 ft", "-3 ft"], ["12 ft", "6 ft"], ["8 ft", "9 ft"], ["0", "9 ft"]],
    },
}
each_shape = pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES)


def room_of(shape: dict[str, Any], name: str = "attic", **fields: Any) -> Room:
    return Room.model_validate({"name": name, "shape": shape, "height": "8 ft", **fields})


def drawn(room: Room, spacing: float | None = None, shown: UnitSystem = UnitSystem.US) -> ElementTree.Element:
    return ElementTree.fromstring(ceiling_plan(room, spacing, shown))


def texts(svg: ElementTree.Element) -> list[str]:
    return [each.text or "" for each in svg.iter(f"{SVG}text")]


@each_shape
def test_what_is_drawn_is_what_is_priced(shape: dict[str, Any]) -> None:
    """The outline has the area and the way round of the take-off."""
    room = room_of(shape)
    measured = take_off(room, Basis(load_library()))
    named = {
        f"{axis}{at}": each for at, corner in enumerate(corners(room)) for axis, each in zip("xy", corner, strict=True)
    }
    assert outline_area(**named) == pytest.approx(measured.floor.value)
    assert outline_perimeter(**named) == pytest.approx(measured.perimeter.value)


@each_shape
def test_everything_lies_inside_the_picture(shape: dict[str, Any]) -> None:
    """Wherever the first corner stands."""
    svg = drawn(room_of(shape))
    _, _, width, height = map(float, svg.attrib["viewBox"].split())
    for polygon in svg.iter(f"{SVG}polygon"):
        for point in polygon.attrib["points"].split():
            x, y = map(float, point.split(","))
            assert 0 < x < width
            assert 0 < y < height


def test_every_wall_has_its_length() -> None:
    """As a tape reads it, or in meters."""
    room = room_of(SHAPES["l_shape"])
    walls = ["20′ 0″", "10′ 0″", "8′ 0″", "4′ 0″", "12′ 0″", "14′ 0″"]
    assert texts(drawn(room))[:6] == walls
    assert texts(drawn(room, shown=UnitSystem.METRIC))[:2] == ["6.10 m", "3.05 m"]


def test_every_fixture_that_was_counted_is_drawn_and_named() -> None:
    """So many signs of each kind; what nobody counted is not drawn, and the drawing says that places are not known."""
    svg = drawn(room_of(SHAPES["l_shape"], fixtures={"recessed_light": 7, "detector": 1, "fan": 0}))
    found = texts(svg)
    assert found.count(SIGNS["recessed_light"][0]) == 7
    assert found.count(SIGNS["detector"][0]) == 1
    assert SIGNS["fan"][0] not in found
    legend = " ".join(found)
    assert "recessed light" in legend
    assert "fixtures are counted, not placed" in legend


def test_lanes_are_drawn_where_the_ceiling_is_sprayed() -> None:
    """10 ft wide with strokes 6 in apart is 20 lanes, clipped to the outline; a rolled ceiling has none."""
    room = room_of(SHAPES["rectangle"])
    lanes = drawn(room, 6.0)
    assert len(list(lanes.iter(f"{SVG}line"))) == 20
    (clip,) = lanes.iter(f"{SVG}clipPath")
    group = next(each for each in lanes.iter(f"{SVG}g") if "clip-path" in each.attrib)
    assert group.attrib["clip-path"] == f"url(#{clip.attrib['id']})"
    assert list(drawn(room).iter(f"{SVG}line")) == []


def test_a_name_is_text_and_no_markup() -> None:
    """Whatever a room is called, the picture stays a picture."""
    svg = drawn(room_of(SHAPES["rectangle"], name='<script>alert("&")</script>'))
    assert list(svg.iter(f"{SVG}script")) == []
    (title,) = svg.iter(f"{SVG}title")
    assert title.text == 'Plan of the ceiling, <script>alert("&")</script>'


def test_the_same_room_gives_the_same_picture_every_time() -> None:
    """In another process too: a saved notebook does not differ from the next run of it."""
    code = (
        "from estimating.job.room import Room; from estimating.reports.charts.room_drawing import ceiling_plan; "
        f"print(ceiling_plan(Room.model_validate({{'name': 'attic', 'shape': {SHAPES['rectangle']!r}}}), 6.0), end='')"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, encoding="utf-8", check=True, timeout=120)
    assert run.stdout == ceiling_plan(room_of(SHAPES["rectangle"]), 6.0)


def test_a_job_shows_the_ceilings_it_coats_with_lanes_where_it_sprays_them() -> None:
    """The demo sprays; asked to roll, it draws the same room without lanes; declined, none."""
    job = plain_job(read_job(DEMO))

    def drawings(method: str) -> str:
        work = [{**job["work"][0], "method": method}]
        return plans_of_ceilings(estimate_job(build_job({**job, "work": work})))

    assert "<line" in drawings("spray")
    assert drawings("roll").count("<svg") == 1
    assert "<line" not in drawings("roll")
    assert drawings("decline") == ""
