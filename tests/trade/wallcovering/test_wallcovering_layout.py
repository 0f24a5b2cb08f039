from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.trade._numbers import round_up
from estimating.trade.wallcovering.layout import Layout, Strip, StripKind, Wall, layout
from estimating.trade.wallcovering.layout import WallOpening as Opening

ROOM = (Wall("north", 5.0, 8.0), Wall("east", 4.0, 8.0), Wall("south", 5.0, 8.0), Wall("west", 4.0, 8.0))
BY_THE_ROLL = {"roll_width": 2.0, "wrap": 0.05, "least_piece": 0.5, "around": True}
ONE_WALL = {"roll_width": 2.0, "wrap": 0.0, "least_piece": 0.0, "around": False}


def _spans(room: Layout) -> list[tuple[int, str, float, float]]:
    return [(strip.number, strip.wall, round(strip.left, 6), round(strip.right, 6)) for strip in room.strips]


def _hung(*openings: Opening, width: float = 8.0) -> Layout:
    return layout([Wall("long", width, 8.0, openings)], **ONE_WALL)


def _kinds(room: Layout) -> list[tuple[int, StripKind, float, float]]:
    return [(strip.number, strip.kind, strip.bottom, strip.length) for strip in room.strips]


def test_a_room_worked_by_hand():
    """A 5 by 4 room in 2 ft strips: each corner splits a strip and costs the wrap, and 18.2 ft of strips is 10.

    The first strip gives its wrap to the starting corner. The third has 1.05 ft left of the north wall, wraps 0.05 ft
    and hangs its other 0.90 ft on the east wall; and so on round.
    """
    room = layout(ROOM, **BY_THE_ROLL)
    assert _spans(room) == [
        (1, "north", 0.0, 1.95),
        (2, "north", 1.95, 3.95),
        (3, "north", 3.95, 5.0),
        (3, "east", 0.0, 0.9),
        (4, "east", 0.9, 2.9),
        (5, "east", 2.9, 4.0),
        (5, "south", 0.0, 0.85),
        (6, "south", 0.85, 2.85),
        (7, "south", 2.85, 4.85),
        (8, "south", 4.85, 5.0),
        (8, "west", 0.0, 1.8),
        (9, "west", 1.8, 3.8),
        (10, "west", 3.8, 4.0),
    ]
    assert room.full_strips == room.strips_taken == 10
    assert room.parts == ()
    assert room.covered_area == 144


def test_seams_are_where_strips_meet():
    """A corner is no seam; neither is the trimmed end of a run."""
    room = layout(ROOM, **BY_THE_ROLL)
    assert room.seams("north") == pytest.approx((1.95, 3.95))
    assert room.seams("west") == pytest.approx((1.8, 3.8))
    assert _hung().seams("long") == (2.0, 4.0, 6.0)


def test_the_wrap_goes_round_the_corner():
    """The first strip reaches back round the starting corner, every strip split at a corner reaches forward."""
    wraps = [(strip.number, strip.wrap_left, strip.wrap_right) for strip in layout(ROOM, **BY_THE_ROLL).strips]
    assert [each for each in wraps if each[1] or each[2]] == [
        (1, 0.05, 0.0),
        (3, 0.0, 0.05),
        (5, 0.0, 0.05),
        (8, 0.0, 0.05),
    ]


def test_a_strip_that_cannot_reach_round_leaves_the_wrap_to_the_next():
    """A wall of just two strips ends in the corner; the third strip reaches back and covers its width less the wrap."""
    run = layout([Wall("one", 4.0, 8.0), Wall("two", 3.0, 8.0)], **{**BY_THE_ROLL, "around": False})
    assert _spans(run) == [(1, "one", 0.0, 2.0), (2, "one", 2.0, 4.0), (3, "two", 0.0, 1.95), (4, "two", 1.95, 3.0)]
    assert run.strips[2].wrap_left == 0.05


def test_a_remainder_too_narrow_to_hang_is_waste():
    """0.45 ft left beyond the corner is under the least of 0.5 ft, so the next wall begins with a new strip."""
    run = layout([Wall("one", 3.5, 8.0), Wall("two", 2.0, 8.0)], **{**BY_THE_ROLL, "around": False})
    assert _spans(run) == [(1, "one", 0.0, 2.0), (2, "one", 2.0, 3.5), (3, "two", 0.0, 2.0)]
    kept = layout(run.walls, **{**BY_THE_ROLL, "around": False, "least_piece": 0.4})
    assert _spans(kept)[2:] == [(2, "two", 0.0, 0.45), (3, "two", 0.45, 2.0)]


def test_a_strip_may_go_round_two_corners():
    """A narrow return is covered by the strip that passes over it."""
    run = layout(
        [Wall("breast", 1.0, 8.0), Wall("return", 0.4, 8.0), Wall("alcove", 2.0, 8.0)],
        **{**BY_THE_ROLL, "around": False, "least_piece": 0.0},
    )
    assert _spans(run) == [
        (1, "breast", 0.0, 1.0),
        (1, "return", 0.0, 0.4),
        (1, "alcove", 0.0, 0.5),
        (2, "alcove", 0.5, 2.0),
    ]
    assert run.full_strips == 2


def test_hanging_may_start_at_another_corner():
    """The walls keep their order; the named one comes first."""
    room = layout(ROOM, **BY_THE_ROLL, start="south")
    assert [wall.name for wall in room.walls] == ["south", "west", "north", "east"]
    assert room.strips[0].wall == "south"


def test_over_a_door_only_a_part_is_hung():
    """A door as wide as a strip, on its seams: a part 1 ft long over it, cut from no full strip."""
    room = _hung(Opening(2.0, 2.0, 0.0, 7.0, "door"))
    assert _kinds(room) == [
        (1, StripKind.FULL, 0.0, 8.0),
        (2, StripKind.OVER, 7.0, 1.0),
        (3, StripKind.FULL, 0.0, 8.0),
        (4, StripKind.FULL, 0.0, 8.0),
    ]
    assert room.full_strips == 3
    assert [(part.number, part.length, part.below_top) for part in room.parts] == [(2, 1.0, 0.0)]


def test_a_window_leaves_a_part_above_and_one_below():
    """The part under the sill begins 5 ft below the ceiling, which decides where its pattern is cut."""
    room = _hung(Opening(2.0, 2.0, 3.0, 7.0, "window"))
    assert [(part.kind, part.length, part.below_top) for part in room.parts] == [
        (StripKind.UNDER, 3.0, 5.0),
        (StripKind.OVER, 1.0, 0.0),
    ]


def test_an_opening_beside_a_seam_is_cut_round():
    """A door 2 ft wide that straddles a seam takes no strip away: both are hung in full and cut round it."""
    room = _hung(Opening(3.0, 2.0, 0.0, 7.0, "door"))
    assert [strip.kind for strip in room.strips] == [
        StripKind.FULL,
        StripKind.CUT_ROUND,
        StripKind.CUT_ROUND,
        StripKind.FULL,
    ]
    assert room.full_strips == 4


def test_openings_side_by_side_act_as_one():
    """Two windows that touch, with sills at 3 and 2 ft, need paper up to the higher sill and down to the lower head."""
    room = _hung(Opening(2.0, 1.0, 3.0, 7.0, "left light"), Opening(3.0, 1.0, 2.0, 6.0, "right light"))
    assert _kinds(room)[1:3] == [(2, StripKind.UNDER, 0.0, 3.0), (2, StripKind.OVER, 6.0, 2.0)]


def test_openings_one_above_the_other_leave_a_part_between():
    """A door with a light above it: the band between them is a part too."""
    room = _hung(Opening(2.0, 2.0, 0.0, 6.0, "door"), Opening(2.0, 2.0, 6.5, 8.0, "light"))
    assert _kinds(room)[1] == (2, StripKind.BETWEEN, 6.0, 0.5)
    assert len(room.parts) == 1


def test_an_opening_to_the_ceiling_takes_the_whole_strip():
    """Nothing is cut for a strip that meets only a built-in."""
    room = _hung(Opening(2.0, 2.0, 0.0, 8.0, "bookcase"))
    assert [strip.number for strip in room.strips] == [1, 3, 4]
    assert room.full_strips == 3
    assert room.parts == ()


def test_a_strip_split_at_a_corner_is_full_if_either_side_is():
    """The door fills the part of the strip on the first wall; its rest on the second wall still needs full height."""
    door = Opening(2.0, 1.0, 0.0, 7.0, "door")
    run = layout([Wall("one", 3.0, 8.0, (door,)), Wall("two", 3.0, 8.0)], **ONE_WALL)
    assert [(strip.number, strip.wall, strip.kind) for strip in run.strips if strip.number == 2] == [
        (2, "one", StripKind.OVER),
        (2, "two", StripKind.FULL),
    ]
    assert run.full_strips == 3
    assert run.parts == ()


def test_a_strip_round_a_corner_is_cut_for_the_taller_wall():
    """Walls of 8 and 9 ft share a strip: it is 9 ft long."""
    run = layout([Wall("low", 3.0, 8.0), Wall("high", 3.0, 9.0)], **ONE_WALL)
    assert [(piece.number, piece.length) for piece in run.pieces] == [(1, 8.0), (2, 9.0), (3, 9.0)]


@pytest.mark.parametrize(
    ("walls", "given_", "field"),
    [
        ([], {}, "walls"),
        ([Wall("a", 0.0, 8.0)], {}, 'walls[0] "a" · width'),
        ([Wall("a", 5.0, -8.0)], {}, 'walls[0] "a" · height'),
        ([Wall("a", 5.0, 8.0), Wall("a", 5.0, 8.0)], {}, 'walls[1] "a" · name'),
        ([Wall("a", 5.0, 8.0)], {"roll_width": 0.0}, "roll_width"),
        ([Wall("a", 5.0, 8.0)], {"wrap": -0.1}, "wrap"),
        ([Wall("a", 5.0, 8.0), Wall("return", 0.1, 8.0)], {"wrap": 0.1}, "wrap"),
        ([Wall("a", 5.0, 8.0)], {"least_piece": 2.0}, "least_piece"),
        ([Wall("a", 5.0, 8.0)], {"start": "b"}, "start"),
        (
            [Wall("a", 5.0, 8.0, (Opening(-0.1, 1.0, 0.0, 7.0, "door"),))],
            {},
            'walls[0] "a" · openings[0] "door" · left',
        ),
        (
            [Wall("a", 5.0, 8.0, (Opening(4.5, 1.0, 0.0, 7.0, "door"),))],
            {},
            'walls[0] "a" · openings[0] "door" · width',
        ),
        (
            [Wall("a", 5.0, 8.0, (Opening(1.0, -1.0, 0.0, 7.0, "door"),))],
            {},
            'walls[0] "a" · openings[0] "door" · width',
        ),
        (
            [Wall("a", 5.0, 8.0, (Opening(1.0, 1.0, -1.0, 7.0, "door"),))],
            {},
            'walls[0] "a" · openings[0] "door" · sill',
        ),
        ([Wall("a", 5.0, 8.0, (Opening(1.0, 1.0, 0.0, 8.5, "door"),))], {}, 'walls[0] "a" · openings[0] "door" · head'),
        ([Wall("a", 5.0, 8.0, (Opening(1.0, 1.0, 7.0, 7.0, "door"),))], {}, 'walls[0] "a" · openings[0] "door" · head'),
        (
            [Wall("a", 5.0, 8.0, (Opening(1.0, 1.0, 0.0, 7.0, "door"), Opening(1.5, 1.0, 3.0, 6.0, "window")))],
            {},
            'walls[0] "a" · openings[1] "window" · left',
        ),
    ],
)
def test_what_cannot_be_laid_out_is_refused_by_name(walls, given_, field):
    """The wall, the opening and the field are named."""
    with pytest.raises(InputError) as caught:
        layout(walls, **{**ONE_WALL, **given_})
    assert caught.value.field == field


# Whole millimeters, so that a hair of binary rounding is never the subject of a test.
def _millimeters(least: int, most: int) -> st.SearchStrategy[float]:
    return st.integers(least, most).map(lambda mm: mm / 1000)


papers = st.fixed_dictionaries(
    {
        "roll_width": _millimeters(450, 1400),
        "wrap": _millimeters(0, 40),
        "least_piece": _millimeters(0, 300),
        "around": st.booleans(),
    }
)


@st.composite
def openings(draw, width: float, height: float) -> tuple[Opening, ...]:
    if width < 0.7 or draw(st.booleans()):
        return ()
    wide = draw(_millimeters(300, int(width * 1000) - 100))
    left = draw(_millimeters(0, int((width - wide) * 1000)))
    sill = draw(st.sampled_from([0.0, 0.2, 0.9]))
    return (Opening(left, wide, sill, draw(_millimeters(1500, int(height * 1000))), "opening"),)


@st.composite
def rooms(draw) -> list[Wall]:
    height = draw(_millimeters(2100, 3200))
    widths = draw(st.lists(_millimeters(100, 6000), min_size=1, max_size=7))
    return [
        Wall(f"wall {place}", width, height, draw(openings(width, height))) for place, width in enumerate(widths, 1)
    ]


def _bare(walls: list[Wall]) -> list[Wall]:
    return [replace(wall, openings=()) for wall in walls]


def _corners(walls: list[Wall], around: bool) -> int:
    return len(walls) if around else len(walls) - 1


@given(rooms(), papers)
def test_strips_stand_edge_to_edge_over_every_wall(walls, paper):
    """On a bare wall each strip begins where the last one ended, from one end of the wall to the other."""
    room = layout(_bare(walls), **paper)
    for wall in walls:
        on_it = [strip for strip in room.strips if strip.wall == wall.name]
        assert on_it[0].left == 0
        assert on_it[-1].right == wall.width
        assert all(one.right == two.left for one, two in pairwise(on_it))
        assert all(0 < strip.right - strip.left <= paper["roll_width"] + 1e-9 for strip in on_it)


@given(rooms(), papers)
def test_strip_widths_cover_the_perimeter_and_what_goes_round_the_corners(walls, paper):
    """Never less paper than wall, nor fewer strips than the run alone takes.

    Where every remainder is hung the layout takes at most one wrap more at each corner: a strip that ends less than
    the wrap short of a corner is trimmed in it, and the next one reaches back.
    """
    room = layout(_bare(walls), **paper)
    run, corners = sum(wall.width for wall in walls), _corners(walls, paper["around"])
    assert room.strips_taken * paper["roll_width"] >= run + corners * paper["wrap"] - 1e-9
    thrifty = layout(_bare(walls), **{**paper, "least_piece": 0.0}).strips_taken
    least, most = (round_up(run + each * paper["wrap"], paper["roll_width"]) for each in (corners, 2 * corners))
    assert least <= thrifty <= most
    assert thrifty <= room.strips_taken


@given(rooms(), papers)
def test_no_strip_is_wider_than_the_roll_round_its_corners(walls, paper):
    """A strip's pieces and its wraps come out of one width of the roll."""
    used: dict[int, float] = {}
    for strip in layout(_bare(walls), **paper).strips:
        used[strip.number] = used.get(strip.number, 0.0) + strip.right - strip.left + strip.wrap_left + strip.wrap_right
    assert max(used.values()) <= paper["roll_width"] + 1e-9


@given(rooms(), papers, st.data())
def test_strips_never_fall_when_a_wall_grows(walls, paper, data):
    """Growing any one bare wall takes as many strips as before, or more."""
    grown = data.draw(st.integers(0, len(walls) - 1))
    larger = _bare(walls)
    larger[grown] = replace(larger[grown], width=larger[grown].width + data.draw(_millimeters(1, 2000)))
    assert layout(larger, **paper).strips_taken >= layout(_bare(walls), **paper).strips_taken


@given(rooms(), papers)
def test_an_opening_never_adds_a_full_strip_nor_moves_a_seam(walls, paper):
    """Seams stay where they were; strips that meet only openings are no longer cut in full."""
    papered, bare = layout(walls, **paper), layout(_bare(walls), **paper)
    assert papered.full_strips <= bare.full_strips == bare.strips_taken
    assert {(s.number, s.wall, s.left, s.right) for s in papered.strips} <= {
        (s.number, s.wall, s.left, s.right) for s in bare.strips
    }


def _overlap(strip: Strip, opening: Opening) -> float:
    across = min(strip.right, opening.right) - max(strip.left, opening.left)
    up = min(strip.bottom + strip.length, opening.head) - max(strip.bottom, opening.sill)
    return max(across, 0.0) * max(up, 0.0)


@given(rooms(), papers)
def test_paper_less_what_is_cut_out_is_the_wall_less_its_openings(walls, paper):
    """Every bit of bare wall is covered, once."""
    room = layout(walls, **paper)
    gaps = {wall.name: wall.openings for wall in walls}
    on_the_wall = sum(
        (strip.right - strip.left) * strip.length - sum(_overlap(strip, each) for each in gaps[strip.wall])
        for strip in room.strips
    )
    assert on_the_wall == pytest.approx(room.covered_area)
