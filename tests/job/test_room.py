import pytest
from pydantic import ValidationError

from estimating.job.room import CeilingForm, Fixtures, LShape, Polygon, Rectangle, Room
from estimating.units import Reading

BOX = {"kind": "rectangle", "length": "12 ft", "width": "10 ft"}
ELL = {"kind": "l_shape", "length": "19' 6\"", "width": "14 ft", "notch_length": "6 ft", "notch_width": "4 ft"}


def refused(**fields: object) -> str:
    """Return what is said against a room."""
    with pytest.raises(ValidationError) as problem:
        Room.model_validate({"name": "attic", "shape": BOX, **fields})
    return str(problem.value)


def test_a_room_keeps_the_tape_readings_as_they_were_written() -> None:
    """With what they come to in feet."""
    room = Room.model_validate({"name": "attic", "shape": ELL, "height": "8′ 2″"})
    assert isinstance(room.shape, LShape)
    assert room.shape.length == Reading("19' 6\"", 19.5, "ft")
    assert room.height == Reading("8′ 2″", pytest.approx(98 / 12), "ft")


def test_what_was_not_measured_is_unknown() -> None:
    """Height, openings, fixtures, floor and furniture; the ceiling is flat and the tape fair unless told otherwise."""
    room = Room.model_validate({"name": "attic", "shape": BOX})
    assert isinstance(room.shape, Rectangle)
    assert (room.height, room.openings, room.floor, room.furniture) == (None, None, None, None)
    assert all(getattr(room.fixtures, kind) is None for kind in Fixtures.model_fields)
    assert room.ceiling is CeilingForm.FLAT
    assert room.soffits == ()


@pytest.mark.parametrize(("notch", "side"), [("notch_length", "19' 6\""), ("notch_width", "14 ft")])
def test_a_notch_is_smaller_than_the_room(notch: str, side: str) -> None:
    """As long as the side it is cut from, it leaves another shape."""
    assert f"less than the whole side, {side}" in refused(shape={**ELL, notch: side})


@pytest.mark.parametrize("ceiling", ["sloped", "vaulted"])
def test_a_slope_has_a_rise(ceiling: str) -> None:
    """Its area cannot be had from the plan alone."""
    assert f"how far the {ceiling} ceiling climbs" in refused(ceiling=ceiling)
    assert Room.model_validate({"name": "attic", "shape": BOX, "ceiling": ceiling, "rise": "2 ft"}).rise is not None


def test_corners_may_lie_on_either_side_of_the_first() -> None:
    """Nought needs no unit; what lies the other way is written with a minus."""
    room = Room.model_validate(
        {"name": "attic", "shape": {"kind": "polygon", "corners": [["0", "0"], ["-12 ft", "0"], ["-12 ft", "3 m"]]}}
    )
    assert isinstance(room.shape, Polygon)
    assert [x.value for x, _ in room.shape.corners] == [0.0, -12.0, -12.0]
    assert room.shape.corners[2][1].text == "3 m"


@pytest.mark.parametrize("corner", ["-", "- ", "nought", "-0", "--7 ft"])
def test_a_corner_is_a_tape_reading_like_any_other(corner: str) -> None:
    """Only nought goes without its unit."""
    assert "tape reads it" in refused(shape={"kind": "polygon", "corners": [["0", "0"], [corner, "0"], ["0", "9 ft"]]})


@pytest.mark.parametrize("length", ["0 ft", "-3 ft", "0", 0])
def test_a_side_is_longer_than_nothing(length: object) -> None:
    """And has a unit."""
    assert "tape reads it" in refused(shape={**BOX, "length": length})
