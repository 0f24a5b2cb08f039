"""The shared operations on a made-up room: each once, whatever kind of work asks for them."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Phase
from estimating.evidence import Basis, load_library
from estimating.figures import leaf
from estimating.job.repairs import Repairs
from estimating.job.surfaces import Coloring, Stain, StainKind
from estimating.origins import Kind, Origin
from estimating.scopes.shared import access, coat, masking, measure, prime, protection, rework
from estimating.scopes.shared.coat import Coating, Tool
from estimating.scopes.shared.color import Coats, coats_of, further_colors
from estimating.scopes.shared.drying import dries
from estimating.scopes.shared.products import title_of
from estimating.scopes.shared.surface import Surface
from estimating.scopes.shared.work_area import WorkArea
from estimating.workbook import build_job

MADE_UP = Origin(Kind.INVENTED)
DOOR = {"kind": "door", "width": "3 ft", "height": "7 ft"}


def room(height: str = "8 ft", **changes: Any) -> WorkArea:
    """Return a room of 12 by 10 ft with one door, tape surely read, empty, and nobody in the house."""
    plain: dict[str, Any] = {
        "title": "a room",
        "site": {"occupied": "no"},
        "rooms": [
            {
                "name": "den",
                "shape": {"kind": "rectangle", "length": "12 ft", "width": "10 ft"},
                "height": height,
                "openings": [DOOR],
                "furniture": "none",
                "measured": "sure",
                **changes,
            }
        ],
        "work": [{"kind": "interior_repaint", "room": "den"}],
    }
    job = build_job(plain)
    return WorkArea.of(job.work[0], job, Basis(load_library()))


def surface(**changes: Any) -> Surface:
    """Return 200 ft² of wall with 40 ft to cut in and two coats."""
    area, line = leaf("area", 200.0, "ft**2", MADE_UP), leaf("line", 40.0, "ft", MADE_UP)
    parts: dict[str, Any] = {"coats": Coats(2, 2, contrast="near"), "color": "sage", **changes}
    return Surface("walls", "walls", "wall_paint", area, line, **parts)


@pytest.mark.parametrize(("height", "slowed"), [("9 ft", False), ("9.5 ft", True), ("20 ft", True)])
def test_height_slows_from_nine_feet_up(height: str, slowed: bool) -> None:
    """What a step ladder reaches is the plain case."""
    assert (access.height(room(height)) is not None) is slowed


def test_a_high_wall_is_slowed_less_than_its_top() -> None:
    """Only the part above what is reached goes slower."""
    high = room("14 ft")
    whole, top = access.high_wall(high), access.height(high)
    assert whole is not None
    assert top is not None
    assert 1 < whole.value < top.value


def test_more_wall_over_a_stair_than_the_room_is_round_is_refused() -> None:
    """44 ft round."""
    assert access.over_stairs(room(), 0, "stairs") is None
    with pytest.raises(InputError, match="44"):
        access.over_stairs(room(), 45, "stairs")


def test_the_line_to_cut_in_goes_along_ceiling_and_floor_and_round_the_door() -> None:
    """44 along the ceiling, 44 less 3 along the floor, 7 up, 3 over and 7 down: 102 ft."""
    assert measure.cut_line(room()).value == pytest.approx(44 + 41 + 17)


def test_walls_apart_come_off_the_main_color_by_area_and_by_line() -> None:
    """12 ft of 44: 96 ft² of 352 go, and the share of the line with them."""
    area = room()
    whole, _ = measure.measured_walls(area, (), "work")
    rest, (apart,) = measure.measured_walls(area, [("north", area.room.room.shape.length)], "work")  # type: ignore[union-attr]
    assert apart.area.value == pytest.approx(96)
    assert rest.area.value == pytest.approx(whole.area.value - 96)
    assert rest.line.value == pytest.approx(whole.line.value * (1 - 12 / 44))


@pytest.mark.parametrize("tool", [coat.ROLLER, coat.BRUSH, coat.SPRAYER, coat.BACK_ROLLED, coat.PASS_BY_PASS])
def test_each_tool_puts_on_the_coats_that_are_planned(tool: Tool) -> None:
    """Two coats of paint and what stays in the tool; a roller is cut in for; mist is waited for."""
    layer = coat.finish([Coating(room(), surface(), tool)], dries(room()))
    keys = [task.key for task in layer.tasks]
    assert [key for key in keys if key.startswith("walls_")] == ["walls_1", "walls_2"]
    assert ("cut_walls_1" in keys) is (tool is coat.ROLLER)
    assert len(layer.paint) == 3
    assert bool(layer.tasks[-1].wait) is (tool.name == "sprayer")


def test_a_primed_surface_takes_in_nothing_of_the_first_coat() -> None:
    """On porous board the first coat takes more paint than the second, on a primed one as much."""
    bare, primed = (Coating(room(), surface(porosity="porous"), coat.ROLLER, each) for each in (False, True))
    first, second = (each.paint.gallons.value for each in bare.coats)
    assert first > second
    assert [each.paint.gallons.value for each in primed.coats] == pytest.approx([second, second])


def test_surfaces_painted_together_dry_together() -> None:
    """The first coat of both stands before either waits."""
    both = [Coating(room(), surface(), coat.ROLLER), Coating(room(), surface(), coat.BRUSH)]
    waits = [task.key for task in coat.finish(both, dries(room())).tasks if task.wait]
    assert len(waits) == 1


def test_small_stains_are_dabbed_and_large_ones_rolled() -> None:
    """20 ft² are the most that is dabbed."""
    for square_feet, rate in ((20, "stain_spot"), (21, "stain_seal")):
        stain = Stain(kind=StainKind.SMOKE, square_feet=square_feet)
        (task,), _ = prime.stains(room(), [stain], "stain_primer_waterborne", "stains")
        assert rate in task.rate_key


def test_nothing_mended_is_not_primed() -> None:
    """No spot, no crack, no line."""
    assert not prime.spots(room(), Repairs(), "repairs").tasks
    assert prime.spots(room(), Repairs(nail_pops=4), "repairs").tasks


def test_a_layer_waits_for_its_slowest_paint() -> None:
    """What dries together dries as long as the slowest of it."""
    area = room()
    bare = surface(porosity="porous")
    both = [prime.all_over(area, bare, each, "Prime", "priming") for each in ("drywall_sealer", "bonding_primer")]
    layer = prime.dried(prime.one_after_another(both), dries(area))
    slowest = max(dries(area)(each.product).value for each in layer.paint)
    assert layer.tasks[-1].wait is not None
    assert layer.tasks[-1].wait.value == slowest


def test_no_edge_and_no_film_is_no_roll() -> None:
    """Only what is needed is bought."""
    none, some = leaf("none", 0.0, "ft", MADE_UP), leaf("some", 30.0, "ft", MADE_UP)
    assert [each.item for each in masking.rolls(room(), paper=none, film=none, tape=some)] == ["tape_edge"]


def test_an_empty_room_has_no_furniture_to_move() -> None:
    """One with furniture has, once for the room."""
    assert not protection.move_furniture(room())
    (task,) = protection.move_furniture(room(furniture="light"))
    assert task.phase is Phase.PROTECT
    assert "den" in task.share_key


def test_doing_it_again_costs_wage_overhead_and_paint() -> None:
    """Nothing bought: wage and overhead of two hours are twice those of one."""
    area, hour = room(), leaf("an hour", 1.0, "hour", MADE_UP)
    once = rework.cost_again(area, "again", [hour]).value
    assert rework.cost_again(area, "again", [hour, hour]).value == pytest.approx(2 * once)
    ten = leaf("ten dollars", 10.0, "dollar", MADE_UP)
    assert rework.cost_again(area, "again", [hour], ten).value == pytest.approx(once + 10)


def test_the_first_color_of_a_paint_is_no_further_one() -> None:
    """The second is, in whatever room it comes."""
    mine, others = [("wall_paint", "sage")], [[("wall_paint", "white")], [("wall_paint", "sage")]]
    assert further_colors(mine, others) == mine
    assert further_colors(mine, others[1:]) == []


def test_a_strong_change_takes_a_barrier_and_leaving_it_out_more_coats() -> None:
    """As the table has them."""
    coats = coats_of(Coloring(color_now="red", color_wanted="white", change="strong"), room().basis, even=True)  # type: ignore[arg-type]
    assert coats.barrier >= 1
    assert coats.bare > coats.finish


def test_a_product_without_a_title_goes_by_the_word_of_the_tables() -> None:
    """Its first letter large."""
    assert title_of("block_filler") == "Block filler"
    assert title_of("ceiling_flat") == "Ceiling flat, water-borne"
