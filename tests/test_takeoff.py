"""Take-off against geometry done by hand; lengths are chosen so that a pencil is enough."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.evidence import Basis, load_library
from estimating.figures import leaves
from estimating.job.room import OpeningKind, Room
from estimating.origins import Kind
from estimating.takeoff import TakeOff, take_off

inches = st.integers(24, 480)


def room_of(shape: dict[str, Any], **fields: object) -> Room:
    return Room.model_validate({"name": "attic", "shape": shape, "height": "8 ft", **fields})


def measured(shape: dict[str, Any], **fields: object) -> TakeOff:
    return take_off(room_of(shape, **fields), Basis(load_library()))


def box(length: str, width: str) -> dict[str, Any]:
    return {"kind": "rectangle", "length": length, "width": width}


def corners(*points: tuple[str, str]) -> dict[str, Any]:
    return {"kind": "polygon", "corners": [list(point) for point in points]}


def test_a_rectangle() -> None:
    """12 ft × 10 ft 6 in: 126 ft² of floor and ceiling, 45 ft round, 45 × 8 = 360 ft² of wall."""
    room = measured(box("12 ft", "10' 6\""))
    assert room.floor.value == pytest.approx(126)
    assert room.ceiling.value == pytest.approx(126)
    assert room.perimeter.value == pytest.approx(45)
    assert room.walls.value == pytest.approx(360)


def test_an_l() -> None:
    """20 × 14 ft less a corner of 8 × 4: 280 − 32 = 248 ft²; 68 ft round, as far as round the whole rectangle."""
    room = measured(
        {"kind": "l_shape", "length": "20 ft", "width": "14 ft", "notch_length": "8 ft", "notch_width": "4 ft"}
    )
    assert room.floor.value == pytest.approx(248)
    assert room.perimeter.value == pytest.approx(68)
    assert room.walls.value == pytest.approx(68 * 8)


def test_a_polygon_with_a_slanting_wall() -> None:
    """A 12 × 9 ft room whose corner is cut by a wall from (12, 6) to (8, 9), the slope of a 3-4-5 triangle.

    108 ft² less half of 4 × 3 is 102 ft²; round it 12 + 6 + 5 + 8 + 9 = 40 ft.
    """
    room = measured(corners(("0", "0"), ("12 ft", "0"), ("12 ft", "6 ft"), ("8 ft", "9 ft"), ("0", "9 ft")))
    assert room.floor.value == pytest.approx(102)
    assert room.perimeter.value == pytest.approx(40)
    assert room.walls.value == pytest.approx(320)


@settings(max_examples=25, deadline=None)
@given(inches, inches, inches, inches)
def test_a_room_by_its_corners_is_the_room_by_its_sides(length: int, width: int, across: int, along: int) -> None:
    """Wherever the first corner stands, and whichever way round they are named."""

    def at(x: int, y: int) -> tuple[str, str]:
        return tuple("0" if each == 0 else f"{each} in" for each in (x - across, y - along))

    points = [at(0, 0), at(length, 0), at(length, width), at(0, width)]
    by_sides = measured(box(f"{length} in", f"{width} in"))
    for walk in (points, points[::-1], [*points[2:], *points[:2]]):
        by_corners = measured(corners(*walk))
        assert by_corners.floor.value == pytest.approx(by_sides.floor.value, rel=1e-9)
        assert by_corners.perimeter.value == pytest.approx(by_sides.perimeter.value, rel=1e-9)


@settings(max_examples=25, deadline=None)
@given(inches, inches, inches)
def test_a_room_taken_in_two_parts_is_the_same_ceiling(one: int, other: int, width: int) -> None:
    """The areas add up; the line between them is in no wall, so the way round is longer by twice its length."""
    whole = measured(box(f"{one + other} in", f"{width} in"))
    parts = [measured(box(f"{part} in", f"{width} in")) for part in (one, other)]
    assert sum(part.ceiling.value for part in parts) == pytest.approx(whole.ceiling.value)
    assert sum(part.perimeter.value for part in parts) == pytest.approx(whole.perimeter.value + 2 * width / 12)


def test_an_l_is_its_two_rectangles() -> None:
    """20 × 14 less 8 × 4, cut across: 12 × 14 and 8 × 10."""
    ell = measured(
        {"kind": "l_shape", "length": "20 ft", "width": "14 ft", "notch_length": "8 ft", "notch_width": "4 ft"}
    )
    parts = [measured(box("12 ft", "14 ft")), measured(box("8 ft", "10 ft"))]
    assert ell.ceiling.value == pytest.approx(sum(part.ceiling.value for part in parts))


def test_a_ceiling_that_slopes_one_way() -> None:
    """20 × 12 ft, rising 5 ft across the 12: the slope is 13 ft long, so 20 × 13 = 260 ft².

    Walls: 64 ft × 8 ft = 512 ft²; two gables of 12 × 5 / 2 = 30 ft² each; 20 × 5 = 100 ft² under the high edge.
    """
    room = measured(box("20 ft", "12 ft"), ceiling="sloped", rise="5 ft")
    assert room.floor.value == pytest.approx(240)
    assert room.ceiling.value == pytest.approx(260)
    assert room.walls.value == pytest.approx(512 + 2 * 30 + 100)


def test_a_vault() -> None:
    """20 × 24 ft, ridged in the middle 5 ft up: two slopes of 13 ft over runs of 12, so 20 × 26 = 520 ft².

    Walls: 88 ft × 8 ft = 704 ft², and two gables of 24 × 5 / 2 = 60 ft² each.
    """
    room = measured(box("20 ft", "24 ft"), ceiling="vaulted", rise="5 ft")
    assert room.ceiling.value == pytest.approx(520)
    assert room.walls.value == pytest.approx(704 + 2 * 60)


def test_a_slope_needs_a_span() -> None:
    """A room given by corners has no width to climb across; the sentence names the room and the way out."""
    with pytest.raises(InputError, match="flat for a room given by corners") as refused:
        measured(corners(("0", "0"), ("9 ft", "0"), ("0", "9 ft")), ceiling="vaulted", rise="2 ft")
    assert refused.value.field == 'rooms "attic" · ceiling'


def test_a_soffit_against_a_wall_and_a_beam() -> None:
    """The underside takes the place of the ceiling above it; only the sides are added.

    Against a wall, 9 ft long, 1 ft 2 in wide, 1 ft deep: 9 × 1 + 2 × 1⅙ × 1 = 11⅓ ft².
    A beam from wall to wall, 10 ft long, 6 in deep, both sides seen and no ends: 2 × 10 × ½ = 10 ft².
    """
    against = {"length": "9 ft", "width": "14 in", "drop": "12 in"}
    beam = {"length": "10 ft", "width": "8 in", "drop": "6 in", "faces": 2, "ends": 0}
    room = measured(box("12 ft", "10 ft"), soffits=[against, beam])
    assert room.ceiling.value == pytest.approx(120 + 11 + 1 / 3 + 10)
    assert room.floor.value == pytest.approx(120)


def test_openings_by_kind() -> None:
    """Two doors of 32 × 80 in are 2 × 2560 / 144 = 35.56 ft²; a window of 4 × 3 ft is 12; a skylight of 2 × 2, 4."""
    room = measured(
        box("12 ft", "10 ft"),
        openings=[
            {"kind": "door", "width": "32 in", "height": "80 in", "count": 2},
            {"kind": "window", "width": "4 ft", "height": "3 ft"},
            {"kind": "skylight", "width": "2 ft", "height": "2 ft"},
        ],
    )
    assert room.opening_area(OpeningKind.DOOR).value == pytest.approx(5120 / 144)
    assert room.opening_area(OpeningKind.WINDOW, OpeningKind.SKYLIGHT).value == pytest.approx(16)
    assert room.opening_area().value == pytest.approx(5120 / 144 + 16)
    assert room.opening_area(OpeningKind.ARCH).value == 0
    assert measured(box("12 ft", "10 ft")).opening_area().value == 0


def test_metric_and_feet_measure_one_room() -> None:
    """3.6576 m is 12 ft, 3.048 m is 10 ft."""
    assert measured(box("3.6576 m", "304.8 cm")).floor.value == pytest.approx(120)


def test_a_height_that_was_not_measured_is_asked_for() -> None:
    """It is no 8 ft by custom: everything that hangs on the walls depends on it."""
    with pytest.raises(InputError, match="the height of the room") as refused:
        take_off(room_of(box("12 ft", "10 ft"), height="unknown"), Basis(load_library()))
    assert refused.value.field == 'rooms "attic" · height'


@pytest.mark.parametrize(
    ("points", "needed"),
    [
        ((("0", "0"), ("9 ft", "9 ft"), ("9 ft", "0"), ("0", "9 ft")), "walls that do not cross"),
        ((("0", "0"), ("9 ft", "0"), ("4 ft", "0")), "does not turn back along itself"),
        ((("0", "0"), ("9 ft", "0"), ("9 ft", "0"), ("0", "9 ft")), "no corner twice in a row"),
    ],
)
def test_an_outline_that_bounds_no_room_is_refused_by_its_name(
    points: tuple[tuple[str, str], ...], needed: str
) -> None:
    """With the path to it, because a job has many rooms."""
    with pytest.raises(InputError, match=needed) as refused:
        measured(corners(*points))
    assert refused.value.field == 'rooms "attic" · shape · corners'


def test_every_quantity_leads_back_to_the_tape() -> None:
    """Each leaf is a reading or a count made on site, or how true the tape is; the reading stands as it was typed."""
    room = measured(
        box("12' 6½\"", "3 m"),
        ceiling="sloped",
        rise="2 ft",
        soffits=[{"length": "9 ft", "width": "14 in", "drop": "12 in"}],
        openings=[{"kind": "door", "width": "32 in", "height": "80 in"}],
    )
    found = leaves([room.floor, room.perimeter, room.ceiling, room.walls, room.opening_area()])
    (tape_accuracy,) = {each for each in found if each.origin.kind is not Kind.MEASURED}
    assert tape_accuracy.key.startswith("factors/measured/")
    places = " | ".join(each.origin.place for each in found)
    assert 'rooms "attic" · length, 12\' 6½"' in places
    assert 'rooms "attic" · soffits[0] · drop, 12 in' in places
    assert 'rooms "attic" · openings[0] · width, 32 in' in places


def test_a_room_measured_twice_varies_as_one() -> None:
    """Floor, ceiling and walls stand on one length: a long tape is long for all of them."""
    room = measured(box("12 ft", "10 ft"))
    (length,) = [each for each in leaves([room.floor, room.walls]) if each.key == 'rooms "attic" · length']
    assert length in room.floor.walk()
    assert length in room.walls.walk()


def test_reveals_finished_like_the_wall_are_taken_off_too() -> None:
    """Two windows 3 × 4 ft, 6 in deep: (2 · 3 + 2 · 4) · ½ = 7 ft² each; a door 3 × 7 ft has no sill: 8½ ft²."""
    window = {"kind": "window", "width": "3 ft", "height": "4 ft", "count": 2, "reveal": "6 in"}
    door = {"kind": "door", "width": "3 ft", "height": "7 ft", "reveal": "6 in"}
    cased = {"kind": "window", "width": "3 ft", "height": "4 ft"}
    room = measured(box("12 ft", "10 ft"), openings=[window, door, cased])
    assert [each.value for each in room.reveals] == pytest.approx([14, 8.5])
    assert measured(box("12 ft", "10 ft"), openings=[cased]).reveals == ()


def test_a_skylight_has_no_reveal() -> None:
    """Its shaft is ceiling, and is noted as a soffit."""
    skylight = {"kind": "skylight", "width": "2 ft", "height": "4 ft", "reveal": "1 ft"}
    with pytest.raises(InputError, match="note the sides of its shaft"):
        measured(box("12 ft", "10 ft"), openings=[skylight])
