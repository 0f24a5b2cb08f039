"""The site notes of an interior repaint: what is asked, what is refused, and that nothing unknown becomes nothing."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from places import JOBS

from estimating.errors import InputErrors
from estimating.job.file import dump_job
from estimating.job.surfaces import Change, Condition, Sheen, WallTexture, Washing
from estimating.job.trim import ClosetSize, DoorKind, TrimKind, WindowKind
from estimating.job.values import UNKNOWN, Answer
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.workbook import build_job, parse_job, read_job

DEMO = JOBS / "birch_lane_upstairs.toml"
LEAST: dict[str, Any] = {
    "title": "a room",
    "rooms": [{"name": "den", "shape": {"kind": "rectangle", "length": "12 ft", "width": "10 ft"}, "height": "8 ft"}],
    "work": [{"kind": "interior_repaint", "room": "den"}],
}


def work(**answers: Any) -> InteriorRepaint:
    plain = copy.deepcopy(LEAST)
    plain["work"][0].update(answers)
    return build_job(plain).work[0]


def complaint(plain: dict[str, Any]) -> str:
    with pytest.raises(InputErrors) as refused:
        build_job(plain)
    return " | ".join(str(each) for each in refused.value.problems)


def test_nothing_answered_is_nothing_known():
    """A room with no notes at all is a job: every answer is unknown, none is no and none is nought."""
    item = work()
    assert (item.walls.painted, item.ceiling.painted, item.trim.painted) == (None, None, None)
    assert (item.closets, item.stains, item.caulk_feet, item.over_stairs_feet) == (None, None, None, None)
    assert (item.walls.change, item.walls.deep_base, item.walls.coats, item.walls.condition) == (None,) * 4
    assert all(getattr(item.repairs, field) is None for field in type(item.repairs).model_fields)


def test_none_is_an_answer_and_unknown_is_not():
    """`none` counts as nought and as an empty list; `unknown` leaves the question open."""
    item = work(closets="none", stains="unknown", repairs={"nail_pops": "none", "small_patches": "unknown"})
    assert item.closets == ()
    assert item.stains is None
    assert (item.repairs.nail_pops, item.repairs.small_patches) == (0, None)


def test_the_demo_is_written_as_it_was_read():
    """Every answer of the invented job survives the file, with lengths as they were typed."""
    job = read_job(DEMO)
    assert job.invented
    assert parse_job(dump_job(job)) == job
    accent = job.work[0].walls.accents[0]
    assert (accent.length.text, accent.deep_base, accent.change) == ("12' 5\"", Answer.YES, Change.STRONG)


@pytest.mark.parametrize(
    ("answers", "field", "needed"),
    [
        ({"walls": {"coats": 0}}, "walls · coats", "1 coat or more"),
        ({"walls": {"accents": [{"name": "north", "length": "9 ft", "coats": 0}]}}, "accents[0]", "1 coat or more"),
        ({"trim": {"doors": [{"kind": "panel", "sides": 3}]}}, "doors[0] · sides", "1 or 2 sides"),
        ({"trim": {"doors": [{"kind": "panel", "count": "unknown"}]}}, "doors[0] · count", "whole number"),
        ({"trim": {"runs": [{"kind": "skirting"}]}}, "runs[0] · kind", "base"),
        ({"walls": {"sheen_now": "shiny"}}, "walls · sheen_now", "eggshell"),
        ({"walls": {"accents": [{"name": "north"}]}}, 'accents[0] "north" · length', "an answer"),
        ({"walls": {"accents": [{"name": "north", "length": "12 steps"}]}}, "length", "as a tape reads it"),
        ({"repairs": {"nail_pops": -2}}, "repairs · nail_pops", "whole number"),
        ({"color": "white"}, "color", "a field this file knows"),
    ],
)
def test_what_cannot_be_is_refused_in_the_files_own_words(answers, field, needed):
    """Each wrong answer is named by its place, with what would be right."""
    plain = copy.deepcopy(LEAST)
    plain["work"][0].update(answers)
    said = complaint(plain)
    assert field.split(" ")[0] in said
    assert field.split(" · ")[-1] in said
    assert needed in said


def test_a_room_is_repainted_once():
    """Two repaints of one room would paint it twice; the second is refused."""
    plain = copy.deepcopy(LEAST)
    plain["work"].append({"kind": "interior_repaint", "room": "den"})
    assert "one interior repaint for each room" in complaint(plain)


def test_a_textured_ceiling_is_not_painted_a_second_time():
    """Where the ceiling is a piece of work of its own, the repaint of the room leaves it out, and the walls stay in."""
    plain = copy.deepcopy(LEAST)
    plain["work"] = [
        {"kind": "textured_ceiling", "room": "den", "texture": "popcorn"},
        {"kind": "interior_repaint", "room": "den", "ceiling": {"painted": "yes"}},
    ]
    assert "the ceiling of this room is in work[0], textured ceiling" in complaint(plain)
    plain["work"][1]["ceiling"]["painted"] = "no"
    assert [item.kind for item in build_job(plain).work] == ["textured_ceiling", "interior_repaint"]


# Any notes that can be written can be read again as they were.

counts = st.integers(0, 30)
lengths = st.builds("{}' {}\"".format, st.integers(1, 20), st.integers(0, 11))
unsure = st.just(UNKNOWN)


def maybe(answer: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.one_of(unsure, answer)


def one_of(kinds: Any) -> st.SearchStrategy[str]:
    return st.sampled_from([str(each) for each in kinds])


def listed(parts: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.one_of(unsure, st.just("none"), st.lists(parts, min_size=1, max_size=2))


coloring = {
    "color_now": maybe(st.sampled_from(["white", "sage"])),
    "color_wanted": maybe(st.sampled_from(["white", "deep teal"])),
    "change": maybe(one_of(Change)),
    "deep_base": maybe(one_of(Answer)),
    "coats": maybe(st.integers(1, 4)),
}
surface = {
    **coloring,
    "painted": maybe(one_of(Answer)),
    "sheen_now": maybe(one_of(Sheen)),
    "condition": maybe(one_of(Condition)),
    "washing": maybe(one_of(Washing)),
}
accents = st.fixed_dictionaries({"name": st.just("north wall"), "length": lengths}, optional=coloring)
sizes = {"width": maybe(lengths), "height": maybe(lengths), "count": counts}
doors = st.fixed_dictionaries({"kind": one_of(DoorKind)}, optional={**sizes, "sides": maybe(st.integers(1, 2))})
windows = st.fixed_dictionaries({"kind": one_of(WindowKind)}, optional=sizes)
runs = st.fixed_dictionaries({"kind": one_of(TrimKind)}, optional={"length": maybe(lengths)})
closets = st.fixed_dictionaries({"size": one_of(ClosetSize)}, optional={"count": counts})
notes = st.fixed_dictionaries(
    {},
    optional={
        "walls": st.fixed_dictionaries(
            {}, optional={**surface, "texture": maybe(one_of(WallTexture)), "accents": st.lists(accents, max_size=2)}
        ),
        "ceiling": st.fixed_dictionaries({}, optional=surface),
        "trim": st.fixed_dictionaries(
            {},
            optional={
                **surface,
                "runs": listed(runs),
                "doors": listed(doors),
                "windows": listed(windows),
                "door_frames": maybe(counts),
            },
        ),
        "closets": listed(closets),
        "caulk_feet": maybe(counts),
        "over_stairs_feet": maybe(counts),
    },
)


@given(notes)
def test_notes_are_written_as_they_were_read(answers):
    """Known, none or unknown: what is read is what is written, and written again it is the same text."""
    plain = copy.deepcopy(LEAST)
    plain["work"][0].update(answers)
    job = build_job(plain)
    text = dump_job(job)
    assert parse_job(text) == job
    assert dump_job(parse_job(text)) == text
