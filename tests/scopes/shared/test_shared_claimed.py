"""A wall that another work item covers is not painted as well, unless the notes say so."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Plan
from estimating.evidence import Basis, load_library
from estimating.job.model import Job
from estimating.scopes.registry import KINDS
from estimating.workbook import build_job, estimate_job

ROOM = {
    "name": "den",
    "shape": {"kind": "rectangle", "length": "14 ft", "width": "12 ft"},
    "height": "8 ft",
    "measured": "sure",
    "openings": [{"kind": "door", "width": "3 ft", "height": "7 ft"}],
}
GROSS = 2 * (14 + 12) * 8.0
WINDOW = {"kind": "window", "left": "2 ft", "width": "4 ft", "sill": "3 ft", "head": "6 ft"}


def job(walls: list[dict[str, Any]], **answers: Any) -> Job:
    repaint = {"kind": "interior_repaint", "room": "den", "walls": {"painted": "yes", **answers}}
    papered = [{"kind": "wallcovering", "room": "den", "walls": walls}] if walls else []
    return build_job({"title": "a den", "rooms": [ROOM], "work": [repaint, *papered]})


def rolled(found: Job) -> Plan:
    item = found.work[0]
    plans = KINDS[item.kind].plans(item, found, Basis(load_library()))
    return next(plan for plan in plans if plan.method == "roll")


def painted(found: Job) -> float:
    """Return the area of the walls that the first coat is rolled on (ft²)."""
    named = [
        figure for each in rolled(found).materials for figure in each.gallons.walk() if figure.name == "walls to paint"
    ]
    return named[0].value


@pytest.mark.parametrize(
    ("wall", "less"),
    [
        ({"name": "bed wall", "width": "12 ft"}, 12 * 8.0),
        ({"name": "bed wall", "width": "12 ft", "height": "3 ft"}, 12 * 3.0),
        ({"name": "bed wall", "width": "12 ft", "openings": [WINDOW]}, 12 * 8.0 - 4 * 3.0),
    ],
)
def test_a_covered_wall_is_taken_out_of_the_painting(wall: dict[str, Any], less: float) -> None:
    """Its own area less its openings, which the room takes off already: 96 ft² of a bed wall 12 ft by 8 ft."""
    assert painted(job([])) - painted(job([wall])) == pytest.approx(less)


def test_it_is_painted_as_well_where_the_notes_say_so() -> None:
    """Then the painting is that of the room without the other item."""
    wall = [{"name": "bed wall", "width": "12 ft"}]
    assert painted(job(wall, covered_walls_too="yes")) == painted(job([]))
    asked = [each.text for each in estimate_job(job(wall)).questions if "covered_walls_too" in each.field]
    assert asked == ["Are the walls that get another covering painted too? They are left out of the painting."]
    assert not [each for each in estimate_job(job([])).questions if "covered_walls_too" in each.field]


def test_less_wall_takes_less_time_at_every_task_on_it() -> None:
    """Cutting in goes with the line, rolling with the area: neither is paid for twice."""
    alone, beside = (
        {task.key: task.hours.value for task in rolled(job(walls)).tasks if task.key.startswith(("walls", "cut"))}
        for walls in ([], [{"name": "bed wall", "width": "12 ft"}])
    )
    assert set(alone) == set(beside)
    assert alone
    assert all(beside[key] < alone[key] for key in alone)


def test_where_every_wall_is_covered_the_painting_of_walls_is_refused() -> None:
    """The complaint stands at the answer that can give the walls up."""
    walls = [{"name": name, "width": width} for name, width in zip("nesw", ("14 ft", "12 ft") * 2, strict=True)]
    walls[0]["openings"] = [{"kind": "door", "left": "1 ft", "width": "3 ft", "head": "7 ft"}]
    with pytest.raises(InputError) as caught:
        estimate_job(job(walls))
    assert caught.value.field == 'work "den" · walls · painted'
