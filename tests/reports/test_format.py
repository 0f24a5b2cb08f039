"""Numbers and units in words, in both systems: only what is shown changes."""

from __future__ import annotations

import csv
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from places import PUBLISHED

from estimating.evidence import load_library
from estimating.reports.format import (
    PAIRS,
    UnitSystem,
    in_words,
    length,
    quantity,
    shown_unit,
    shown_value,
    spoken_unit,
    unit_words,
)
from estimating.units import convert, read_length, same_dimension

US, METRIC = UnitSystem.US, UnitSystem.METRIC
CONVERSIONS = PUBLISHED / "conversions.csv"
UNITS = sorted({row.unit for rows in load_library().tables.values() for row in rows.values()})
OF_ONE_SYSTEM = re.compile(r"ft|\bin\b|inch|gal|mil\b|mile|mph|lb|psi|°F|ton|yard")


def printed_in_both() -> list[tuple[float, str, float, str, float]]:
    """Return quantities that data sheets print in both systems, with the tolerance of the metric one."""
    with CONVERSIONS.open(newline="", encoding="utf-8") as lines:
        rows = [row for row in csv.DictReader(lines) if row["check"] == "convert"]
    found = []
    for row in rows:
        value, _, unit = row["subject"].partition(" ")
        found.append((float(value), unit, float(row["value"]), row["unit"], float(row["tolerance"])))
    return found


@pytest.mark.parametrize(("value", "unit", "metric", "metric_unit", "tolerance"), printed_in_both())
def test_metric_is_what_data_sheets_print_beside(
    value: float, unit: str, metric: float, metric_unit: str, tolerance: float
) -> None:
    """A quantity shown in metric is the figure that the sheet's own maker prints for it."""
    ours = shown_value(value, unit, METRIC)
    assert convert(ours, shown_unit(unit, METRIC), metric_unit) == pytest.approx(metric, abs=tolerance)


@pytest.mark.parametrize(("us", "metric"), PAIRS)
@given(value=st.floats(-1e6, 1e6))
def test_what_is_shown_converts_back(us: str, metric: str, value: float) -> None:
    """Either way and back again gives the number there was."""
    assert same_dimension(us, metric)
    for unit, shown in ((us, METRIC), (metric, US)):
        there = shown_value(value, unit, shown)
        assert math.isclose(convert(there, shown_unit(unit, shown), unit), value, rel_tol=1e-9, abs_tol=1e-9)


@pytest.mark.parametrize("unit", UNITS)
def test_no_unit_of_the_tables_is_left_in_the_other_system(unit: str) -> None:
    """Whatever the tables hold is said in metric words, and spelled as people write it."""
    assert not OF_ONE_SYSTEM.search(unit_words(unit, METRIC))
    for shown in UnitSystem:
        assert "**" not in unit_words(unit, shown)
        assert "meter" not in unit_words(unit, shown)


@pytest.mark.parametrize("shown", UnitSystem)
def test_money_is_the_same_in_both_systems(shown: UnitSystem) -> None:
    """An amount, and a rate of money by the hour, do not depend on the units shown."""
    assert quantity(1234.5, "dollar", shown) == "$1,234.50"
    assert quantity(36.06, "dollar/hour", shown) == "$36.06/h"


def test_a_rate_of_money_follows_its_unit() -> None:
    """A price by area is said by the area shown."""
    assert quantity(2.0, "dollar/ft**2") == "$2.00/ft²"
    assert quantity(2.0, "dollar/ft**2", METRIC) == "$21.53/m²"


def test_a_unit_can_be_said_without_changing_it() -> None:
    """Where a number stays as it was typed, so does its unit."""
    assert spoken_unit("degC") == "°C"
    assert unit_words("degC", US) == "°F"


@given(feet=st.floats(0.1, 200), shown=st.sampled_from(UnitSystem))
def test_a_length_reads_back_as_a_tape_reads_it(feet: float, shown: UnitSystem) -> None:
    """What is drawn beside a wall can be typed in again, to an eighth of an inch or half a centimeter."""
    slack = 1 / 96 if shown is US else 0.005 / 0.3048
    assert read_length(length(feet, shown)).value == pytest.approx(feet, abs=slack + 1e-9)


@pytest.mark.parametrize(
    ("said", "metric"),
    [
        ("tip 317, 6 in fan, strokes 3 in apart, 2 crossed passes at 3.3 ft/s", "152 mm fan, strokes 76 mm apart"),
        ("drop 8.2 ft, taped to the floor", "drop 2.5 m, taped"),
        ("First strip of 10 square feet: any piece over an inch down", "0.93 m²: any piece over 25 mm down"),
        ("ceiling at 68 °F, dew point 50 °F: 18 °F apart", "20 °C, dew point 10 °C: 10 °C apart"),
        ("nap about 0.5 in; one direction", "nap about 13 mm; one"),
        ("a gun at 2000 psi", "138 bar"),
    ],
)
def test_sentences_of_the_workbook_are_said_in_metric(said: str, metric: str) -> None:
    """Lengths, areas, speeds, temperatures and differences of temperature inside a sentence follow."""
    assert metric in in_words(said, METRIC)
    assert in_words(said, US) == said


@pytest.mark.parametrize(
    "said",
    [
        "coat 1 in the morning",
        "3 of 4 spot tests clean",
        "1 five, 1 gallon",
        "built 1974",
        "$12 in all",
        "8 in 10 jobs",
    ],
)
def test_what_is_no_length_stays(said: str) -> None:
    """A number before the word `in` is a length only where nothing else can be meant."""
    assert in_words(said, METRIC) == said
