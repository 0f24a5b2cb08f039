"""Which surfaces of a room a job may have work on: each once, whatever the kinds of work."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.errors import InputErrors
from estimating.job.model import Job
from estimating.workbook import build_job

ROOM = {"name": "den", "shape": {"kind": "rectangle", "length": "12 ft", "width": "10 ft"}, "height": "8 ft"}
CEILING = {"kind": "textured_ceiling", "room": "den", "texture": "popcorn"}
WALL = {"name": "north", "width": "12 ft"}


def job(*work: dict[str, Any]) -> Job:
    return build_job({"title": "a room", "rooms": [ROOM], "work": list(work)})


@pytest.mark.parametrize(
    ("work", "said"),
    [
        (
            (CEILING, CEILING),
            "work[1] · room: got 'den', needs another room, or no such item: the ceiling of this room",
        ),
        (
            (CEILING, {"kind": "interior_repaint", "room": "den", "ceiling": {"painted": "yes"}}),
            "work[1] · ceiling · painted: got 'yes', needs no",
        ),
        (
            ({"kind": "interior_repaint", "room": "den", "ceiling": {"painted": "yes"}}, CEILING),
            "work[0] · ceiling · painted: got 'yes', needs no: the ceiling of this room is in work[1]",
        ),
        (
            tuple({"kind": "wallcovering", "room": "den", "walls": [WALL]} for _ in range(2)),
            "the wall north of this room is in work[0], wallcovering",
        ),
    ],
)
def test_a_surface_is_in_one_work_item_only(work: tuple[dict[str, Any], ...], said: str) -> None:
    """The complaint stands at the answer that can give the surface up, whichever item comes first."""
    with pytest.raises(InputErrors) as caught:
        job(*work)
    assert said in str(caught.value)


def test_two_papers_may_share_a_room() -> None:
    """Walls of other names are other surfaces."""
    other = {"kind": "wallcovering", "room": "den", "walls": [{"name": "south", "width": "12 ft"}]}
    assert len(job({"kind": "wallcovering", "room": "den", "walls": [WALL]}, other).work) == 2
