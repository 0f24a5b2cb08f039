import pytest

from estimating.estimate.pricing.order import order_paint, order_supplies
from estimating.estimate.pricing.plan import Material, Phase, Supply, Task
from estimating.estimate.pricing.rooms import in_order, one_of_each_shared
from estimating.evidence import Basis, load_library
from estimating.figures import leaf
from estimating.origins import Kind, Origin

MADE_UP = Origin(Kind.INVENTED)


def made(value, unit="hour"):
    return leaf("made up", value, unit, MADE_UP)


def task(key, phase, hours=1.0, room="hall", share_key="", wait=None):
    return Task(key, key, phase, made(hours), room, made(wait) if wait else None, share_key=share_key)


def test_what_is_shared_is_kept_once_at_its_longest():
    """Two floor covers of one room are one, and it takes the longer of the two; others stay as they are."""
    tasks = [
        task("cover", Phase.PROTECT, 0.5, share_key="floor cover, hall"),
        task("roll", Phase.WALLS, 2.0),
        task("cover", Phase.PROTECT, 0.75, share_key="floor cover, hall"),
        task("cover", Phase.PROTECT, 0.5, room="den", share_key="floor cover, den"),
    ]
    kept = one_of_each_shared(tasks)
    assert [(each.key, each.room, each.hours.value) for each in kept] == [
        ("cover", "hall", 0.75),
        ("roll", "hall", 2.0),
        ("cover", "den", 0.5),
    ]


def test_a_shared_cover_goes_up_first_and_comes_down_last():
    """Put up for the ceiling, taken down after the walls, whichever of the two takes longer."""
    tasks = [
        task("up", Phase.PROTECT, 1.0, share_key="up"),
        task("up", Phase.MASK, 2.0, share_key="up"),
        task("down", Phase.UNMASK, 2.0, share_key="down"),
        task("down", Phase.CLEAN, 1.0, share_key="down"),
    ]
    assert [(each.phase, each.hours.value) for each in one_of_each_shared(tasks)] == [
        (Phase.PROTECT, 2.0),
        (Phase.CLEAN, 2.0),
    ]


def test_every_surface_of_a_room_gets_its_first_coat_before_any_gets_its_second():
    """Cut and rolled, and then the closet; after the wait they are gone over again."""
    walls = [task("cut 1", Phase.WALLS), task("roll 1", Phase.WALLS, wait=3), task("cut 2", Phase.WALLS)]
    last, first = task("give back", Phase.CLEAN), task("cover", Phase.PROTECT)
    assert [each.key for each in in_order([*walls, last, first])] == ["cover", "cut 1", "roll 1", "cut 2", "give back"]


def test_paint_left_in_one_roller_is_left_once():
    """Three rooms in one color leave paint in one roller cover; a second color leaves its own."""
    left = [
        Material("wall_paint", "Wall paint", made(0.06, "gallon"), "left in the roller", color, room, share_key=color)
        for color, room in (("sage", "hall"), ("sage", "den"), ("chalk", "study"), ("sage", "stair"))
    ]
    orders = order_paint(left, Basis(load_library()))
    assert [(each.color, each.need.value) for each in orders] == [
        ("sage", pytest.approx(0.06)),
        ("chalk", pytest.approx(0.06)),
    ]


def test_shared_supplies_are_bought_for_the_largest_need():
    """Floor paper for a ceiling and for the walls of one room is the same paper."""

    def paper(need, shared):
        return Supply("paper", "Floor paper", made(need, "ft"), made(100, "ft"), made(28, "dollar"), shared)

    [order] = order_supplies([paper(60, "hall"), paper(70, "hall"), paper(40, "den")])
    assert (order.need.value, order.count.value) == (110, 2)
