import math
from contextlib import suppress
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.units import (
    UNIT_WORDS,
    Quantity,
    cents,
    convert,
    factor,
    is_unit,
    read_length,
    read_quantity,
    registry,
    same_dimension,
)

INCH = 1 / 12
METER = 1 / 0.3048  # ft; the foot is 0.3048 m exactly, NIST Handbook 44, Appendix C

READINGS = [
    ("12' 6\"", 12.5),
    ("12'6\"", 12.5),
    ("12'-6\"", 12.5),
    ("12' 6''", 12.5),
    ("12′ 6″", 12.5),
    ("12’ 6”", 12.5),
    ("12' 6", 12.5),
    ("12'", 12),
    ("12 ft", 12),
    ("12.5 ft", 12.5),
    ("12½ ft", 12.5),
    ("1/2 ft", 0.5),
    (".5 ft", 0.5),
    ("12 ft 6 in", 12.5),
    ("12ft6in", 12.5),
    ("12 ft. 6 in.", 12.5),
    ("12 feet, 6 inches", 12.5),
    ("12 FT 6 IN", 12.5),
    ("  12 ft 6 in  ", 12.5),
    ("12 ft 6 1/2 in", 12 + 6.5 * INCH),
    ("12′ 6½″", 12 + 6.5 * INCH),
    ("12' 6-1/2\"", 12 + 6.5 * INCH),
    ("12 ft ⅝ in", 12 + 0.625 * INCH),
    ('6½"', 6.5 * INCH),
    ("6 1/2 in", 6.5 * INCH),
    ("150 in", 12.5),
    ('150"', 12.5),
    ("3.81 m", 12.5),
    ("381 cm", 12.5),
    ("3810 mm", 12.5),
    ("2 meters", 2 * METER),
    ("2 meters", 2 * METER),
    ("4 yd", 12),
    ("1½ yards", 4.5),
    ("2 metres", 2 * METER),
    ("12", 12),
    ("12.5", 12.5),
    ("6 1/2", 6.5),
    ("6½", 6.5),
    ("12-6", 12.5),
    ("10,000 ft", 10000),
    ("1,250", 1250),
]

REFUSED = [
    "", "   ", None, True, "twelve feet", "ft", "'", "-3 ft", "0 ft", "0 ft 0 in",
    "12 lb", "12 ft 6 lb", "6\" 12'", "12' 6\" 3", "3 m 20 cm", "12,5 m", "12 m²", "12 km", "12 mil", "1e3 ft",
    "nan ft", "inf m", "12 6\"", "1/0 ft", "12 ft 1/0 in", "12.5.1 ft",
    "12'13\"", "12' 14\"", "5'-80\"", "12-13", "6 3/2 in", "12 ft 6 3/2 in", "9" * 400,
    "1/1000000000000000000000000000 in",
    "12,5", "1,25 ft", "28,50",
]  # fmt: skip


@pytest.mark.parametrize(("text", "feet"), READINGS)
def test_a_tape_reading_is_read_as_it_is_written_down(text: str, feet: float) -> None:
    """Feet and inches, fractions, typographic primes and metric all come to feet, and the text is kept."""
    reading = read_length(text)
    assert reading.value == pytest.approx(feet, rel=1e-12)
    assert reading.unit == "ft"
    assert str(reading) == text.strip()


@pytest.mark.parametrize("text", REFUSED)
def test_anything_else_is_refused_with_an_example(text: object) -> None:
    """What no tape shows, and what looks like a slip of the pen."""
    with pytest.raises(InputError, match=r"12' 6") as refused:
        read_length(text, "rooms · height")
    assert refused.value.field == "rooms · height"
    assert refused.value.value == text


@given(st.integers(0, 400), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_come_back_exactly(feet: int, inches: int, sixteenths: int) -> None:
    """Whatever a tape with sixteenths can show is read to the last digit."""
    whole = Fraction(feet) + Fraction(inches, 12) + Fraction(sixteenths, 192)
    text = f"{feet}' {inches} {sixteenths}/16\""
    if whole == 0:
        with pytest.raises(InputError):
            read_length(text)
    else:
        assert read_length(text).value == pytest.approx(float(whole), rel=1e-14)


@given(st.text(max_size=12))
def test_no_text_does_worse_than_be_refused(text: str) -> None:
    """Whatever is typed, a reading comes out above nothing, or it is refused."""
    with suppress(InputError):
        assert read_length(text).value > 0


@pytest.mark.parametrize(
    ("text", "fahrenheit"),
    [("68 degF", 68), ("68°F", 68), ("68 F", 68), ("20 C", 68), ("20 °C", 68), ("-40 degC", -40)],
)
def test_a_temperature_is_read_with_its_shifted_zero(text: str, fahrenheit: float) -> None:
    """20 °C is 68 °F and not 36: the zero moves, the step alone will not do."""
    assert read_quantity(text, "degF").value == pytest.approx(fahrenheit)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("68", "degF"), ("warm", "degF"), ("68 ft", "degF"), ("68 florins", "degF"), ("68 degF + 1", "degF"),
        ("68 )(", "degF"), ("68 (f", "degF"), ("1 2 ft", "ft"), ("8 mil", "thou"), ("5e3 ft", "ft"), ("", "ft"),
    ],
)  # fmt: skip
def test_a_quantity_of_another_kind_or_in_no_unit_is_refused(text: str, unit: str) -> None:
    """The sentence names the unit wanted, whatever the parser of units made of the text."""
    with pytest.raises(InputError, match=unit):
        read_quantity(text, unit)


@given(st.text("abdefgimnt°%$()[]/.+-\"' ", max_size=8))
def test_a_word_is_a_unit_or_it_is_not(word: str) -> None:
    """No word, however odd, brings the parser of units down."""
    assert is_unit(word) in (True, False)
    assert same_dimension(word, "ft") in (True, False)


def test_a_mil_is_not_taken_for_a_film_thickness() -> None:
    """To the library of units a mil is an angle, and would pass through any ratio as a plausible number."""
    assert registry.Unit("mil").dimensionless
    assert not same_dimension("mil", "thou")
    with pytest.raises(InputError, match="thou"):
        convert(8.0, "mil", "thou")
    assert convert(8.0, "thou", "inch") == pytest.approx(0.008)


def test_degrees_do_not_scale() -> None:
    """Twice 70 °F is not 140 °F: temperatures with a shifted zero have no factor, and cannot be multiplied."""
    with pytest.raises(InputError, match="degC"):
        factor("degC", "degF")
    with pytest.raises(pint.OffsetUnitCalculusError):
        _ = Quantity(70.0, "degF") * 2
    assert convert(212.0, "degF", "degC") == pytest.approx(100.0)
    assert convert(10.0, "delta_degC", "delta_degF") == pytest.approx(18.0)


@pytest.mark.parametrize(
    ("given_unit", "wanted"), [("gallon", "ft"), ("ft", "degF"), ("degF", "hour"), ("smoot", "ft")]
)
def test_a_unit_of_another_dimension_is_refused(given_unit: str, wanted: str) -> None:
    """Gallons are no feet, on either side of the door."""
    with pytest.raises(InputError, match=wanted):
        convert(1.0, given_unit, wanted)


def test_the_gallon_is_the_one_paint_is_sold_by() -> None:
    """231 cubic inches, the US gallon of NIST Handbook 44, Appendix C; a quart is a quarter of it."""
    assert factor("gallon", "inch**3") == pytest.approx(231, rel=1e-12)
    assert factor("quart", "gallon") == pytest.approx(0.25, rel=1e-12)
    assert factor("ft", "meter") == pytest.approx(0.3048, rel=1e-12)


def test_arrays_of_draws_convert_like_single_numbers() -> None:
    """What the ranges are made of passes the same door."""
    degrees = convert(np.array([32.0, 212.0]), "degF", "degC")
    np.testing.assert_allclose(degrees, [0.0, 100.0], atol=1e-9)
    np.testing.assert_allclose(convert(np.array([1.0, 2.0]), "ft", "inch"), [12.0, 24.0])


def test_one_registry_serves_everything() -> None:
    """A quantity made by any library in the process can be added to ours."""
    assert pint.application_registry.get() is registry
    assert same_dimension("USD/hour", "dollar/day")


@pytest.mark.parametrize(
    ("amount", "rounded"),
    [
        (0.125, "0.13"),
        (2.675, "2.68"),
        (1.005, "1.01"),
        (-0.005, "-0.01"),
        (10.0, "10.00"),
        (1e9 + 0.005, "1000000000.01"),
    ],
)
def test_money_is_rounded_once_and_halves_go_up(amount: float, rounded: str) -> None:
    """As it is written, and not as binary fractions happen to fall."""
    assert cents(amount) == Decimal(rounded)


@given(st.floats(-1e9, 1e9))
def test_rounding_moves_no_amount_by_more_than_half_a_cent(amount: float) -> None:
    """What is rounded is the amount that stands there."""
    assert math.isclose(float(cents(amount)), amount, abs_tol=0.0050001)


@pytest.mark.parametrize(
    "text",
    ["70 9**9**9**9", "70 1/0", "70 ft**9", "70 __import__('os')", "70 degF.real", "70 " + "ft*" * 60 + "ft", "70 ()"],
)
def test_unit_text_is_held_against_a_list_and_never_evaluated(text: str) -> None:
    """What is no unit of ours is refused at once, whatever it would come to."""
    with pytest.raises(InputError, match="unit"):
        read_quantity(text, "degF", "surface")


def test_every_unit_of_the_list_is_one() -> None:
    """Each word of the list is known to the unit library, so that none is offered that cannot be read."""
    assert [word for word in sorted(UNIT_WORDS) if not registry.Unit(word)] == []


def test_a_slip_is_said_with_what_is_wrong() -> None:
    """Inches that make another foot, and a fraction above 1, are more likely slips than lengths."""
    with pytest.raises(InputError, match="inches after feet are below 12"):
        read_length("12'13\"")
    with pytest.raises(InputError, match="a fraction below 1"):
        read_length("6 3/2 in")
