import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_up import made, masks, paint, round_basis, tape

from estimating.errors import EvidenceError
from estimating.estimate.pricing.order import can_prices, order_paint, order_supplies
from estimating.estimate.pricing.plan import Material

needs = st.lists(st.floats(0.0, 30.0), min_size=1, max_size=6)


@given(needs)
def test_what_is_bought_holds_the_need(gallons: list[float]) -> None:
    """Of all rooms together, in whole containers, with less than a container of waste each way."""
    (order,) = order_paint([paint(each) for each in gallons], round_basis())
    assert order.need.value == pytest.approx(math.fsum(gallons))
    assert order.containers.gallons_bought >= order.need.value * (1 - 1e-9)
    assert order.leftover < 5


@given(needs)
def test_the_cost_is_that_of_the_containers(gallons: list[float]) -> None:
    """12 dollars a quart, 30 a gallon, 120 a five: the figure that varies with the need is the order that is placed."""
    (order,) = order_paint([paint(each) for each in gallons], round_basis())
    bought = order.containers
    assert order.cost.value == pytest.approx(12 * bought.quarts + 30 * bought.gallons + 120 * bought.fives)


@given(st.floats(0, 30), st.floats(0, 5))
def test_no_dearer_for_less(gallons: float, more: float) -> None:
    """More need never costs less, though its containers are others."""
    costs = [order_paint([paint(each)], round_basis())[0].cost.value for each in (gallons, gallons + more)]
    assert costs[0] <= costs[1]


@pytest.mark.parametrize(
    ("need", "bought"),
    [
        (0.0, "nothing"),
        (0.5, "2 quarts"),  # 24 dollars, against 30 for the gallon
        (0.6, "1 gallon"),  # three quarts would be 36
        (1.2, "1 gallon, 1 quart"),
        (3.1, "3 gallons, 1 quart"),  # 102 dollars, against 120 for the five
        (4.0, "1 five"),  # four gallons cost as much and hold less
        (5.25, "1 five, 1 quart"),
    ],
)
def test_the_cheapest_containers_are_bought(need: float, bought: str) -> None:
    """At 12, 30 and 120 dollars a quart, a gallon and a five."""
    assert str(order_paint([paint(need)], round_basis())[0].containers) == bought


def test_each_color_is_an_order_of_its_own() -> None:
    """Half a gallon of white and half of gray are not one gallon; each says what it is for, once."""
    wanted = [("white", 0.5, "hall"), ("gray", 0.5, "den"), ("white", 0.5, "stairs"), ("white", 0.1, "hall")]
    orders = order_paint([paint(need, color, purpose) for color, need, purpose in wanted], round_basis())
    assert [(each.color, each.need.value, each.purposes) for each in orders] == [
        ("white", pytest.approx(1.1), ("hall", "stairs")),
        ("gray", pytest.approx(0.5), ("den",)),
    ]


def test_a_product_without_a_price_is_refused_by_name() -> None:
    """Nothing is bought for nothing."""
    with pytest.raises(EvidenceError, match="whitewash"):
        order_paint([Material("whitewash", "Whitewash", made(1.0, "gallon"), "a coat")], round_basis())


def test_the_prices_of_a_product_are_three() -> None:
    """A quart, a gallon, a five."""
    assert {size: price.value for size, price in can_prices(round_basis(), "ceiling_flat").items()} == {
        "quart": 12.0,
        "gallon": 30.0,
        "five": 120.0,
    }


@given(st.lists(st.integers(0, 500), min_size=1, max_size=5))
def test_rolls_are_whole_and_for_the_whole_job(lengths: list[int]) -> None:
    """Two rooms that need half a roll each buy one."""
    (order,) = order_supplies([tape(each) for each in lengths])
    assert order.count.value == math.ceil(sum(lengths) / 180)
    assert order.cost.value == pytest.approx(5.0 * order.count.value)


def test_what_is_bought_singly_is_counted() -> None:
    """Two masks and three are five, at 4 dollars each."""
    (order,) = order_supplies([masks(2.0), masks(3.0)])
    assert (order.need.value, order.count.value, order.cost.value) == (5.0, 5.0, 20.0)


def test_a_need_in_yards_is_met_by_rolls_in_feet() -> None:
    """60 yards are 180 ft, one roll; an inch more is two."""
    for yards, rolls in ((60.0, 1.0), (60.03, 2.0)):
        supply = tape(1.0)
        (order,) = order_supplies([type(supply)(supply.item, "Tape", made(yards, "yard"), supply.holds, supply.price)])
        assert order.count.value == rolls
