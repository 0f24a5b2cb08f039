"""Figures that others have printed, held against the reference tables and the rules of the trade.

Each row of reference/printed/practice_*.csv is one printed figure with its source; `check` names the function below
that says what the row must agree with, `subject` what it is asked of. Tolerance is half the last printed digit or
what the source itself allows; where it is wider, `place` says why.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from places import PUBLISHED

from estimating.evidence import Library, Row, load_library
from estimating.trade import climate, masking, pricing
from estimating.trade.spraying import read_tip_code
from estimating.units import convert

FT2_PER_100_M2 = 1076.391
HOURS_PER_DAY = 8.0
TOLERANCE = 1e-9
SHEETS = sorted(PUBLISHED.glob("practice_*.csv"))


@dataclass(frozen=True)
class Printed:
    """One printed figure, or a range of two ends, and what it is about."""

    subject: str
    ends: tuple[float, float]
    unit: str
    tolerance: float

    @property
    def value(self) -> float:
        """The figure, where one and not a range was printed."""
        low, high = self.ends
        assert low == high, f"{self.subject}: a range, where one figure is wanted"
        return low

    def agrees(self, ours: float) -> bool:
        """Say whether ours is within the tolerance of the printed figure."""
        return abs(ours - self.value) <= self.tolerance + TOLERANCE * abs(self.value)


def _row(library: Library, address: str) -> Row:
    table, *keys = address.split("/")
    return library.row(table, *keys)


def _ends(row: Row, unit: str) -> tuple[float, float, float]:
    low, likely, high = (float(convert(each, row.unit, unit)) for each in (row.low, row.likely, row.high))
    return low, likely, high


def _likely(library: Library, address: str, unit: str) -> float:
    return _ends(_row(library, address), unit)[1]


def _within(low: float, value: float, high: float, tolerance: float) -> bool:
    return low - tolerance - TOLERANCE * abs(low) <= value <= high + tolerance + TOLERANCE * abs(high)


def row(library: Library, printed: Printed) -> bool:
    """The likely value of the row is the printed one."""
    return printed.agrees(_likely(library, printed.subject, printed.unit))


def holds(library: Library, printed: Printed) -> bool:
    """The range of the row holds the printed figure, or both ends of the printed range."""
    low, _, high = _ends(_row(library, printed.subject), printed.unit)
    return all(_within(low, end, high, printed.tolerance) for end in printed.ends)


def meets(library: Library, printed: Printed) -> bool:
    """The likely value lies in the printed range, or, for a single figure, our range holds it."""
    low, likely, high = _ends(_row(library, printed.subject), printed.unit)
    first, last = printed.ends
    return _within(low, first, high, 0) if first == last else _within(first, likely, last, printed.tolerance)


def hours_per_100_m2(library: Library, printed: Printed) -> bool:
    """A norm in hours for 100 m² is the likely rate of the row."""
    rate = _likely(library, printed.subject, "ft**2/hour")
    return printed.agrees(FT2_PER_100_M2 / rate)


def holds_hours_per_100_m2(library: Library, printed: Printed) -> bool:
    """The range of the row holds a norm in hours for 100 m²."""
    low, _, high = _ends(_row(library, printed.subject), "ft**2/hour")
    return _within(FT2_PER_100_M2 / high, printed.value, FT2_PER_100_M2 / low, printed.tolerance)


def days_per_10_m2(library: Library, printed: Printed) -> bool:
    """A norm in days of eight hours for 10 m² is the likely rate of the row."""
    rate = _likely(library, printed.subject, "ft**2/hour")
    return printed.agrees(FT2_PER_100_M2 / 10 / rate / HOURS_PER_DAY)


def timed(library: Library, printed: Printed) -> bool:
    """The fast end of the row is what a fast hand was timed at: so many feet in 45 minutes."""
    address, _, end = printed.subject.partition(" · ")
    assert end == "high"
    return printed.agrees(_ends(_row(library, address), "ft/hour")[2] * 45 / 60)


def room(library: Library, printed: Printed) -> bool:
    """A bedroom of 320 ft² of wall and 109 ft of cutting takes the printed hours somewhere within our rates."""
    roll = _ends(_row(library, "production/roll_wall/roll/smooth"), "ft**2/hour")
    cut = _ends(_row(library, "production/cut_in/brush/sealed"), "ft/hour")
    slow, _, fast = (320 / area + 109 / length for area, length in zip(roll, cut, strict=True))
    return _within(fast, printed.value, slow, printed.tolerance)


def one_after_other(library: Library, printed: Printed) -> bool:
    """Two tasks on the same area, one after the other, hold the rate printed for both together."""
    tasks = [_ends(_row(library, f"production/{each}"), "ft**2/hour") for each in printed.subject.split(", ")]
    low, _, high = (1 / sum(1 / rate for rate in rates) for rates in zip(*tasks, strict=True))
    return _within(low, printed.value, high, printed.tolerance)


def fan(library: Library, printed: Printed) -> bool:
    """The code of a tip reads as the printed fan, and its row says the same."""
    said = float(library.row("tips", printed.subject).words["fan"])
    return printed.agrees(read_tip_code(printed.subject).fan_inches) and printed.agrees(said)


def orifice(library: Library, printed: Printed) -> bool:
    """The code of a tip reads as the printed orifice, and its row says the same."""
    said = _likely(library, f"tips/{printed.subject}", "inch")
    return printed.agrees(read_tip_code(printed.subject).orifice_inches) and printed.agrees(said)


def reaches(library: Library, printed: Printed) -> bool:
    """One width of film, hung from its run of paper, reaches the floor of an 8 ft room."""
    width = {"height": 8.0, "tail": 0.0}
    for name, address in (("paper_width", "paper_run/width"), ("overlap", "overlap/film_on_paper")):
        width[name] = _likely(library, f"masking_stock/{address}", "ft")
    drop = masking.drape_drop(**width)
    return bool(masking.film_tiers(drop=drop, film_width=convert(printed.value, printed.unit, "ft"), overlap=0.0) == 1)


def heat_band(_library: Library, printed: Printed) -> bool:
    """The band begins at the printed heat index: a hair below it is still the band before."""
    return (
        climate.heat_band(printed.value) == printed.subject
        and climate.heat_band(printed.value - 0.01) != printed.subject
    )


def ladder_angle(library: Library, printed: Printed) -> bool:
    """Four up to one out is, to half a degree, the angle at which ladders are tested."""
    return printed.agrees(math.degrees(math.atan(_likely(library, printed.subject, "dimensionless"))))


def roll_area(library: Library, printed: Printed) -> bool:
    """The width and the length of a roll come to the printed area."""
    length_unit = printed.unit.removesuffix("**2")
    sides = (_likely(library, f"wallcovering/{printed.subject}/{side}", length_unit) for side in ("width", "length"))
    return printed.agrees(math.prod(sides))


def ends(library: Library, printed: Printed) -> bool:
    """Low and high of the row lie the printed share below and above the likely value."""
    found = _row(library, printed.subject)
    return all(printed.agrees(abs(end / found.likely - 1) * 100) for end in (found.low, found.high))


def _business(library: Library, item: str, unit: str) -> float:
    return _likely(library, f"business/{item}", unit)


def share(library: Library, printed: Printed) -> bool:
    """One row is the printed share of another."""
    part, whole = (_business(library, each, "dollar/hour") for each in printed.subject.split(" of "))
    return printed.agrees(part / whole * 100)


def total(library: Library, printed: Printed) -> bool:
    """Several rows add up to the printed total."""
    return printed.agrees(math.fsum(_business(library, each, printed.unit) for each in printed.subject.split(" + ")))


def remainder(library: Library, printed: Printed) -> bool:
    """The row and the printed share make up the whole."""
    return printed.agrees(100 - _likely(library, printed.subject, "percent"))


def margin_at_markup(_library: Library, printed: Printed) -> bool:
    """The rule turns the markup into the printed margin."""
    markup = float(printed.subject.split()[0]) / 100
    return printed.agrees(float(pricing.margin_from_markup(markup=markup)) * 100)


CHECKS: dict[str, Callable[[Library, Printed], bool]] = {
    each.__name__: each
    for each in (
        row,
        holds,
        meets,
        hours_per_100_m2,
        holds_hours_per_100_m2,
        days_per_10_m2,
        timed,
        room,
        one_after_other,
        fan,
        orifice,
        reaches,
        heat_band,
        ladder_angle,
        roll_area,
        ends,
        share,
        total,
        remainder,
        margin_at_markup,
    )
}


def _lines() -> list[dict[str, str]]:
    found: list[dict[str, str]] = []
    for sheet in SHEETS:
        with sheet.open(newline="", encoding="utf-8") as lines:
            found.extend(csv.DictReader(lines))
    return found


def _printed(line: dict[str, str]) -> Printed:
    low, _, high = line["value"].partition(" to ")
    return Printed(line["subject"], (float(low), float(high or low)), line["unit"], float(line["tolerance"]))


LINES = _lines()


@pytest.mark.parametrize("line", LINES, ids=lambda line: f"{line['check']}-{line['subject']}-{line['value']}")
def test_agrees_with_print(line: dict[str, str]) -> None:
    """The printed figure and ours agree, within what the source itself allows."""
    assert CHECKS[line["check"]](load_library(), _printed(line)), (
        f"{line['subject']}: {line['title']}, {line['place']} prints {line['value']} {line['unit']}"
    )


def test_there_are_many_figures_from_many_sources() -> None:
    """At least 60 figures from 15 sources, each with a title, a place in it and how it was seen."""
    assert len(LINES) >= 60
    assert len({(line["title"], line["publisher"]) for line in LINES}) >= 15
    for line in LINES:
        assert all(line[each] for each in ("title", "year", "place", "url", "seen")), line


def test_every_check_is_used() -> None:
    """No check waits for a figure that nobody printed."""
    assert set(CHECKS) == {line["check"] for line in LINES}
