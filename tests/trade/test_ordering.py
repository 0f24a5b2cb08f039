import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import ordering
from estimating.trade.ordering import Containers

ENTERED = Origin(Kind.ENTERED)
SIZES = np.array([5.0, 1.0, 0.25])
needs = st.floats(0, 60, allow_subnormal=False)
prices = st.floats(1, 400)


def outside_cost(need, five, gallon, quart):
    """Return the least cost as SciPy's mixed-integer solver finds it (HiGHS), at prices that may be infinite."""
    offered = [(size, price) for size, price in zip(SIZES, (five, gallon, quart), strict=True) if price < math.inf]
    sizes, cost = (np.array(each) for each in zip(*offered, strict=True))
    found = milp(cost, integrality=np.ones(len(cost)), constraints=LinearConstraint(sizes, lb=need))
    assert found.success
    return found.fun


@pytest.mark.parametrize(
    ("five", "gallon", "quart"),
    [
        (180.0, 42.0, 16.0),  # a five is cheaper than five gallons, four quarts dearer than one
        (230.0, 42.0, 16.0),  # a five is no bargain
        (180.0, 42.0, 9.0),  # quarts are cheapest by the quart
        (40.0, 42.0, 50.0),  # a five on sale for less than a gallon
        (60.0, 42.0, 16.0),
        (180.0, 42.0, 41.0),
        (math.inf, 42.0, 16.0),
        (180.0, math.inf, 16.0),
        (180.0, 42.0, math.inf),
        (180.0, math.inf, math.inf),
        (math.inf, math.inf, 16.0),
    ],
)
def test_no_outside_solver_finds_cheaper(five, gallon, quart):
    """Over needs from a cup to eleven gallons SciPy's integer program finds the same least cost."""
    for need in np.arange(0.06, 11.4, 0.47):
        ours = ordering.least_cost(need=need, quart=quart, gallon=gallon, five=five)
        assert ours == pytest.approx(outside_cost(need, five, gallon, quart), rel=1e-9), need


@given(needs, prices, prices, prices)
def test_no_outside_solver_finds_cheaper_at_any_price(need, five, gallon, quart):
    """Whatever the prices, SciPy's integer program agrees; its feasibility tolerance is kept out of the need."""
    need = round(need, 2) + 0.001
    ours = ordering.least_cost(need=need, quart=quart, gallon=gallon, five=five)
    assert ours == pytest.approx(outside_cost(need, five, gallon, quart), rel=1e-9)


@pytest.mark.parametrize(
    ("need", "bought", "said"),
    [
        (0.0, Containers(0, 0, 0), "nothing"),
        (0.2, Containers(0, 0, 1), "1 quart"),
        (0.6, Containers(0, 1, 0), "1 gallon"),  # three quarts at 48 against a gallon at 42
        (2.4, Containers(0, 2, 2), "2 gallons, 2 quarts"),  # 84 + 32 against 126
        (4.3, Containers(1, 0, 0), "1 five"),  # 168 + 32 = 200 against a five at 180
        (6.2, Containers(1, 1, 1), "1 five, 1 gallon, 1 quart"),
    ],
)
def test_what_is_bought(need, bought, said):
    """Worked by hand at 16 a quart, 42 a gallon, 180 a five."""
    found = ordering.containers(need, quart=16.0, gallon=42.0, five=180.0)
    assert found == bought
    assert str(found) == said
    cost = found.fives * 180 + found.gallons * 42 + found.quarts * 16
    assert ordering.least_cost(need=need, quart=16.0, gallon=42.0, five=180.0) == cost


def test_the_larger_one_where_two_cost_the_same():
    """A gallon at the price of two quarts, and a five at the price of five gallons, are taken."""
    assert ordering.containers(0.5, quart=20.0, gallon=40.0, five=200.0) == Containers(0, 1, 0)
    assert ordering.containers(5.0, quart=20.0, gallon=40.0, five=200.0) == Containers(1, 0, 0)


@given(needs, st.lists(st.one_of(st.none(), prices), min_size=3, max_size=3).filter(any))
def test_the_order_holds_the_need(need, offered):
    """What is bought is never less than what is needed, and only sizes that are to be had are bought."""
    quart, gallon, five = offered
    bought = ordering.containers(need, quart=quart, gallon=gallon, five=five)
    assert bought.gallons_bought >= need * (1 - 1e-8)
    assert not (bought.fives and five is None)
    assert not (bought.gallons and gallon is None)
    assert not (bought.quarts and quart is None)


@given(needs, needs)
def test_more_paint_never_costs_less(need, more):
    """Cost grows with the need."""
    costs = [ordering.least_cost(need=each, quart=16.0, gallon=42.0, five=180.0) for each in (need, need + more)]
    assert costs[1] >= costs[0]


@given(st.lists(needs, min_size=1, max_size=6), st.lists(prices, min_size=6, max_size=6))
def test_arrays_answer_as_scalars_do(many, fives):
    """Draws of need and of price at once give what each would give alone."""
    five = np.array(fives[: len(many)])
    at_once = ordering.least_cost(need=np.array(many), quart=16.0, gallon=42.0, five=five)
    for need, price, cost in zip(many, five, at_once, strict=True):
        assert cost == ordering.least_cost(need=need, quart=16.0, gallon=42.0, five=price)


def test_liters_come_in_through_figures():
    """Need in liters is converted; a price in hours is refused."""
    at = {size: leaf(size, price, "dollar", ENTERED) for size, price in (("quart", 16), ("gallon", 42), ("five", 180))}
    cost = work(ordering.least_cost, "paint", need=leaf("need", 9, "liter", ENTERED), **at)
    assert cost.value == 2 * 42 + 2 * 16  # 2.38 gallons
    with pytest.raises(InputError, match="unit"):
        work(
            ordering.least_cost,
            "paint",
            need=leaf("need", 9, "liter", ENTERED),
            **(at | {"five": leaf("five", 1, "hour", ENTERED)}),
        )


def test_nothing_to_be_had_is_refused():
    """Without any size, with a price of nothing or a need below nothing there is no order."""
    with pytest.raises(InputError, match="prices"):
        ordering.containers(1.0)
    with pytest.raises(InputError, match="at least one size"):
        ordering.least_cost(need=1.0, quart=math.inf, gallon=math.inf, five=math.inf)
    for field, value in itertools.product(("quart", "gallon", "five"), (0.0, -1.0)):
        with pytest.raises(InputError, match=field):
            ordering.least_cost(need=1.0, **({"quart": 16.0, "gallon": 42.0, "five": 180.0} | {field: value}))
    with pytest.raises(InputError, match="need"):
        ordering.containers(-1.0, gallon=42.0)


def test_things_by_number():
    """Three rolls at 12.50 are 37.50."""
    assert ordering.count_cost(count=3.0, price=12.5) == 37.5
    with pytest.raises(InputError, match="count"):
        ordering.count_cost(count=-3.0, price=12.5)


def test_rolls_of_any_measure():
    """100 ft of tape in 60 yd rolls is one roll; 300 ft² of sheet in 100 ft² packs is three."""
    tape = work(
        ordering.whole_containers,
        "tape",
        need=leaf("tape", 100, "ft", ENTERED),
        holds=leaf("roll", 60, "yard", ENTERED),
    )
    sheet = work(
        ordering.whole_containers,
        "sheet",
        need=leaf("sheet", 300, "ft**2", ENTERED),
        holds=leaf("pack", 100, "ft**2", ENTERED),
    )
    assert (tape.value, tape.unit, sheet.value) == (1, "dimensionless", 3)
    with pytest.raises(InputError, match="holds"):
        ordering.whole_containers(need=10.0, holds=0.0)


@given(st.floats(0, 5000, allow_subnormal=False), st.floats(1, 500))
def test_rolls_hold_what_is_needed(length, roll):
    """Whole rolls are never shorter than the need."""
    assert ordering.whole_containers(need=length, holds=roll) * roll >= length * (1 - 1e-8)
