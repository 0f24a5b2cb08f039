import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import EvidenceError, InputError
from estimating.figures import add_up, evaluate, is_luck, leaf, leaves, random_draw, total, work
from estimating.origins import Kind, Origin, definition
from estimating.rules import rule
from estimating.trade import adhesion, film, measuring
from estimating.trade import labor as labor
from estimating.units import Number

TAPE = Origin(Kind.MEASURED, place="tape")
small = st.floats(0.1, 1e3)


def taped(name, value, unit="ft", **ends):
    return leaf(name, value, unit, TAPE, **ends)


def unregistered(*, length: Number) -> Number:
    return length


@rule("t − 32", "delta_degF", definition("a difference"), degrees="degF")
def above_freezing(*, degrees: Number) -> Number:
    return degrees - 32


def test_a_number_without_an_origin_cannot_enter() -> None:
    """The sentence names the number and asks where it comes from."""
    with pytest.raises(EvidenceError, match="wage has no origin"):
        leaf("wage", 28.0, "dollar/hour", None)


@pytest.mark.parametrize(("low", "high"), [(11.0, 13.0), (9.0, 9.5), (math.nan, 12.0), (9.0, math.nan)])
def test_a_range_holds_its_likely_value(low: float, high: float) -> None:
    """10 is neither in 11 to 13 nor in 9 to 9½, nor beside what is no number."""
    with pytest.raises(InputError, match="low ≤ likely ≤ high"):
        taped("length", 10.0, low=low, high=high)


def test_not_a_number_is_no_leaf() -> None:
    """A number nobody has is unknown, and is asked for before it gets here."""
    with pytest.raises(InputError):
        taped("length", math.nan)


def test_a_worked_figure_keeps_rule_inputs_and_formula() -> None:
    """12 × 10 ft is 120 ft², and the figure says how."""
    length, width = taped("length", 12.0), taped("width", 10.0)
    area = work(measuring.rectangle_area, "floor", length=length, width=width)
    assert (area.value, area.unit) == (120.0, "ft**2")
    assert area.formula == "A = length · width"
    assert area.inputs == (("length", length), ("width", width))
    assert length.formula == ""


def test_units_are_converted_at_the_door() -> None:
    """144 in by 3.048 m is the same 120 ft²."""
    length, width = taped("length", 144.0, "inch"), taped("width", 3.048, "meter")
    assert work(measuring.rectangle_area, "floor", length=length, width=width).value == pytest.approx(120.0)


def test_a_temperature_is_converted_with_its_zero() -> None:
    """20 °C stands 36 °F above freezing."""
    warm = taped("air", 20.0, "degC")
    above = work(above_freezing, "above freezing", degrees=warm)
    assert above.value == pytest.approx(36.0)
    np.testing.assert_allclose(evaluate([above], {warm: np.array([0.0, 100.0])})[0], [0.0, 180.0], atol=1e-9)


def test_a_wrong_dimension_is_refused() -> None:
    """Gallons are no length."""
    with pytest.raises(InputError, match="gallon"):
        work(measuring.rectangle_area, "floor", length=taped("length", 12.0, "gallon"), width=taped("width", 10.0))


def test_a_bare_number_is_refused() -> None:
    """The sentence names the rule, the argument and the number."""
    with pytest.raises(EvidenceError, match=r"rectangle_area · width: 10\.0 is a bare number"):
        work(measuring.rectangle_area, "floor", length=taped("length", 12.0), width=10.0)


def test_a_function_that_is_no_rule_is_refused() -> None:
    """Nothing is worked out without a formula, units and a source."""
    with pytest.raises(EvidenceError, match="unregistered is no rule"):
        work(unregistered, "length", length=taped("length", 12.0))


def test_an_argument_the_rule_does_not_take_is_refused() -> None:
    """The sentence names the arguments it does take."""
    with pytest.raises(EvidenceError, match="takes no depth; it takes length, width"):
        work(measuring.rectangle_area, "floor", length=taped("length", 12.0), depth=taped("depth", 10.0))


def test_a_rule_out_of_its_range_names_the_figure() -> None:
    """Not only `rate`: whose rate."""
    area, rate = taped("ceiling", 120.0, "ft**2"), taped("rate", 0.0, "ft**2/hour")
    with pytest.raises(InputError, match="rolling · rate") as refused:
        work(labor.hours_by_area, "rolling", area=area, rate=rate)
    assert refused.value.value == 0.0


def test_a_sum_takes_the_unit_of_its_first_part() -> None:
    """90 minutes and half an hour are 2 hours, or 120 minutes, whichever comes first."""
    minutes, hours = taped("drive", 90.0, "minute"), taped("walk", 0.5, "hour")
    assert total("both", [minutes, hours], unit="hour").value == pytest.approx(120.0)
    assert total("both", [hours, minutes], unit="hour").value == pytest.approx(2.0)
    assert total("both", [hours, minutes], unit="hour").unit == "hour"


def test_a_sum_of_nothing_is_nothing_and_says_so() -> None:
    """It has its unit, and an origin."""
    none = total("openings", [], unit="ft**2")
    assert (none.value, none.unit, none.origin.place) == (0.0, "ft**2", "nothing to add")


def test_what_cannot_be_added_is_refused() -> None:
    """Hours and dollars make no sum."""
    with pytest.raises(InputError):
        total("both", [taped("drive", 90.0, "minute"), taped("fee", 5.0, "dollar")], unit="hour")


def test_every_figure_is_walked_once_inputs_first() -> None:
    """A tape used twice is one tape."""
    length = taped("length", 12.0)
    square = work(measuring.rectangle_area, "square", length=length, width=length)
    both = total("two squares", [square, square], unit="ft**2")
    assert list(both.walk()) == [length, square, both]
    assert leaves([both, square]) == [length]


def test_two_equal_readings_are_two_figures() -> None:
    """They vary apart; one used twice varies as one."""
    one, other = taped("length", 12.0), taped("length", 12.0)
    assert one != other
    twice = total("twice", [one, one], unit="ft")
    once = total("once each", [one, other], unit="ft")
    draws = {one: np.array([11.0, 13.0])}
    np.testing.assert_allclose(evaluate([twice], draws)[0], [22.0, 26.0])
    np.testing.assert_allclose(evaluate([once], draws)[0], [23.0, 25.0])


@given(small, small, small, st.floats(0, 90))
def test_working_out_again_with_the_likely_values_changes_nothing(
    length: float, width: float, rate: float, loss: float
) -> None:
    """The tree worked out anew is the tree as it was built."""
    sides = taped("length", length), taped("width", width)
    area = work(measuring.rectangle_area, "area", length=sides[0], width=sides[1])
    spread = work(
        film.practical_spread_rate,
        "spread",
        theoretical=taped("rate", rate, "ft**2/gallon"),
        area_factor=taped("factor", 2.0, "dimensionless"),
        take_up=taped("suction", 0.5, "dimensionless"),
        loss=taped("loss", loss, "percent"),
    )
    paint = work(film.paint_for_coat, "paint", area=area, spread=spread)
    likely = {each: each.value for each in leaves([paint])}
    assert evaluate([paint], likely)[0] == pytest.approx(paint.value, rel=1e-12)


def test_draws_and_single_numbers_go_the_same_way() -> None:
    """An array of lengths gives the array of what each would have given alone, in the order of the targets."""
    length, width = taped("length", 12.0), taped("width", 120.0, "inch")
    area = work(measuring.rectangle_area, "area", length=length, width=width)
    around = work(measuring.rectangle_perimeter, "around", length=length, width=width)
    lengths = np.array([10.0, 12.0, 15.0])
    rounds, areas = evaluate([around, area], {length: lengths})
    np.testing.assert_allclose(areas, [evaluate([area], {length: float(each)})[0] for each in lengths])
    np.testing.assert_allclose(rounds, 2 * (lengths + 10.0))


def test_a_worked_figure_can_be_set_and_then_stands() -> None:
    """What rests on it follows; what it rested on no longer counts."""
    length = taped("length", 12.0)
    area = work(measuring.rectangle_area, "area", length=length, width=taped("width", 10.0))
    twice = total("twice", [area, area], unit="ft**2")
    assert evaluate([twice], {area: 100.0, length: 50.0}) == [200.0]


def test_a_figure_no_draw_reaches_keeps_its_likely_value() -> None:
    """No draw, no work."""
    length, other = taped("length", 12.0), taped("other", 3.0)
    assert evaluate([other, length], {length: 5.0}) == [3.0, 5.0]


def test_a_draw_outside_a_rule_names_the_figure_and_what_was_drawn() -> None:
    """The same sentence as for one number."""
    rate = taped("rate", 10.0, "ft**2/hour")
    hours = work(labor.hours_by_area, "rolling", area=taped("ceiling", 120.0, "ft**2"), rate=rate)
    with pytest.raises(InputError, match="rolling · rate"):
        evaluate([hours], {rate: np.array([5.0, -1.0])})


def test_luck_has_no_likely_value_of_its_own() -> None:
    """Undrawn, an event counts with its chance; drawn, it happens or not."""
    chance, dice = taped("chance", 0.25, "dimensionless"), random_draw("release")
    happens = work(adhesion.occurs, "happens", chance=chance, random_draw=dice)
    assert is_luck(dice)
    assert not is_luck(chance)
    assert happens.value == 0.25
    np.testing.assert_array_equal(evaluate([happens], {dice: np.array([0.1, 0.9])})[0], [1.0, 0.0])


@given(st.lists(small, min_size=1, max_size=8))
def test_a_total_is_the_sum_of_its_parts(amounts: list[float]) -> None:
    """Whatever the parts are."""
    parts = [taped(f"part {place}", amount, "dollar") for place, amount in enumerate(amounts)]
    whole = total("whole", parts, unit="dollar")
    assert whole.value == pytest.approx(math.fsum(amounts))
    assert whole.rule is add_up


def test_a_figure_is_written_short_whatever_it_rests_on() -> None:
    """A tree of twenty doublings, a million paths to one leaf, is named in a line."""
    figure = leaf("length", 2.0, "ft", Origin(Kind.DEFINITION, place="made up"))
    for _ in range(20):
        figure = total("sum", [figure, figure], unit="ft")
    assert repr(figure) == "Figure('sum', 2.09715e+06 ft)"
