"""Units, tape readings and money: the one door through which a quantity comes in.

Inside a rule a quantity is a plain number in the unit the rule declares; here it is checked and converted.
`mil` is deliberately not offered: to pint it is an angle. A film thickness is written in `thou`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

import numpy as np
import numpy.typing as npt
import pint

from estimating.errors import InputError

Number: TypeAlias = float | npt.NDArray[np.float64]

registry: pint.UnitRegistry[float] = pint.UnitRegistry(autoconvert_offset_to_baseunit=False)
registry.define("dollar = [money] = USD")
pint.set_application_registry(registry)  # type: ignore[no-untyped-call]
Quantity = registry.Quantity

OFFSET_UNITS = frozenset({"degF", "degC"})
CENT = Decimal("0.01")

_PRIMES = {"′": "'", "’": "'", "″": '"', "”": '"', "“": '"'}
_VULGAR = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
# The units that may be typed or stand in a table. Unit text is held against this list before anything reads it: what is
# not on it is never evaluated.
UNIT_WORDS = frozenset(
    """degF degC delta_degF delta_degC degree percent dimensionless count dollar USD
    inch in foot feet ft yard yd mile thou mil_length mm cm m km kilometer meter metre millimeter centimeter
    micrometer micron second minute minutes min hour hours h day days week month year psi pascal bar kilopascal
    gallon gallons quart quarts pint pints fluid_ounce liter liters litre litres L l milliliter ml cup
    pound lb ounce oz short_ton metric_ton gram g kg kilogram milligram microgram""".split()  # noqa: SIM905 - a list
)
_UNIT = re.compile(r"(?:1/)?[A-Za-z_]+(?:\*\*[1-3])?(?:\s*[*/]\s*[A-Za-z_]+(?:\*\*[1-3])?){0,3}")
_AMOUNT = r"(?:\d+\s+\d+/\d+|\d+-\d+/\d+|\d+/\d+|\d+(?:\.\d+)?|\.\d+)"
_FEET_INCHES = re.compile(
    rf"^(?:(?P<feet>{_AMOUNT})\s*(?:'|ft|feet|foot)\.?)?[\s,-]*"
    rf"(?:(?P<inches>{_AMOUNT})\s*(?:\"|''|in|inch|inches)?\.?)?$"
)
_METRIC = re.compile(rf"^(?P<amount>{_AMOUNT})\s*(?P<unit>mm|cm|m|metres?|meters?|yd|yards?)$")
_BARE_FEET = re.compile(rf"^{_AMOUNT}$")
_FEET_DASH_INCHES = re.compile(r"^(\d+)-(\d+)$")
_THOUSANDS = re.compile(r"(?<![\d,.])(\d{1,3}(?:,\d{3})+)(?![\d,])")
_LENGTH_HELP = "a length as a tape reads it, such as 12' 6\", 12 ft 6 1/2 in, 150 in or 3.81 m"
LONGEST_TEXT = 40  # letters of a length or an amount; nobody writes a longer one
FINEST = 64  # of an inch: the finest mark of a rule
INCHES = 12


@lru_cache(maxsize=4096)
def factor(given: str, wanted: str) -> float:
    """Return what a number in `given` is multiplied by to be in `wanted`.

    Raises InputError when the two are not of one dimension, or when either has a shifted zero.
    """
    if given in OFFSET_UNITS or wanted in OFFSET_UNITS:
        raise InputError("unit", given, f"a unit that is a multiple of {wanted}, with the same zero")
    try:
        return float(Quantity(1.0, given).to(wanted).magnitude)
    except (pint.DimensionalityError, pint.UndefinedUnitError) as problem:
        raise InputError("unit", given, f"a unit that converts to {wanted} ({problem})") from problem


def convert(value: Number, given: str, wanted: str) -> Number:
    """Return `value` in the unit `wanted`; temperatures too, whose zero shifts."""
    if given == wanted:
        return value
    if given in OFFSET_UNITS or wanted in OFFSET_UNITS:
        return _shifted_once(value, given, wanted) if isinstance(value, float) else _shifted(value, given, wanted)
    return value * factor(given, wanted)


def _shifted(value: Number, given: str, wanted: str) -> Number:
    try:
        converted: Number = Quantity(value, given).to(wanted).magnitude
    except pint.DimensionalityError as problem:
        raise InputError("unit", given, f"a unit that converts to {wanted}") from problem
    return converted


@lru_cache(maxsize=256)  # a temperature of the site is asked for by every coat of every room
def _shifted_once(value: float, given: str, wanted: str) -> Number:
    return _shifted(value, given, wanted)


def is_unit(text: str) -> bool:
    """Say whether a text is a unit of the list, or a few of them multiplied and divided."""
    words = re.findall(r"[A-Za-z_]+", text)
    return len(text) <= LONGEST_TEXT and bool(_UNIT.fullmatch(text)) and UNIT_WORDS.issuperset(words)


def same_dimension(one: str, other: str) -> bool:
    """Say whether two words are units of the same kind of thing."""
    if not (is_unit(one) and is_unit(other)):
        return False
    return bool(registry.Unit(one).dimensionality == registry.Unit(other).dimensionality)


@dataclass(frozen=True)
class Reading:
    """A measurement as it was written down, and what it comes to in `unit`."""

    text: str
    value: float
    unit: str

    def __str__(self) -> str:
        return self.text


def _amount(text: str) -> float:
    """Return a number such as 6, 6.5, 1/2, 6 1/2 or 6-1/2; ValueError for a fraction that no rule is marked with."""
    parts = re.split(r"[\s-]+", text.strip())
    for part in parts:
        top, bottom = [*re.split("[/]", part), ""][:2]
        if bottom and not 0 <= int(top) < int(bottom) <= FINEST:
            raise ValueError(f"{part}: a fraction below 1, in 64ths at the finest")
    return float(sum(Fraction(part) for part in parts))


def _in_feet(feet: str | None, inches: str | None) -> float:
    """Return feet and inches in feet; ValueError where the inches make another foot."""
    further = _amount(inches or "0")
    if feet is not None and further >= INCHES:
        raise ValueError(f"{inches}: inches after feet are below {INCHES}")
    return _amount(feet or "0") + further / INCHES


def _feet(plain: str) -> float | None:
    metric = _METRIC.match(plain)
    if metric:
        unit = metric["unit"]
        name = unit if unit in ("mm", "cm") else {"m": "meter", "y": "yard"}[unit[0]]
        return _amount(metric["amount"]) * factor(name, "ft")
    dashed = _FEET_DASH_INCHES.match(plain)
    if dashed:
        return _in_feet(dashed[1], dashed[2])
    if _BARE_FEET.match(plain):
        return _amount(plain)
    match = _FEET_INCHES.match(plain)
    named = re.search(r"['\"a-z]", plain)
    if not match or not named or (match["feet"] is None and match["inches"] is None):
        return None
    return _in_feet(match["feet"], match["inches"])


def read_length(text: object, field: str = "length") -> Reading:
    """Return a tape reading in feet; the text is kept as it was typed.

    Feet and inches, fractions (`6 1/2`, `6½`), decimals and metric are read; `12-6` is feet and inches, and a bare
    number is in feet, the unit every length field shows. What looks like a slip of the pen (12' 13", 6 3/2 in) is
    refused with what is wrong.
    """
    typed = str(text).strip()
    if isinstance(text, bool) or len(typed) > LONGEST_TEXT:
        raise InputError(field, text, _LENGTH_HELP)
    plain = _THOUSANDS.sub(lambda match: match[1].replace(",", ""), typed)
    for sign, words in {**_PRIMES, **_VULGAR}.items():
        plain = plain.replace(sign, words)
    plain = plain.strip().lower()
    try:
        feet = _feet(plain)
    except ValueError as slip:
        raise InputError(field, text, f"{_LENGTH_HELP} ({slip})") from slip
    if feet is None:
        raise InputError(field, text, _LENGTH_HELP)
    if feet <= 0:
        raise InputError(field, text, f"more than nothing: {_LENGTH_HELP}")
    return Reading(typed, feet, "ft")


def read_quantity(text: object, unit: str, field: str = "quantity") -> Reading:
    """Return a number with its unit (`68 degF`, `350 ft**2/gallon`) converted to `unit`."""
    typed = str(text).strip()
    if len(typed) > LONGEST_TEXT:
        raise InputError(field, typed[:LONGEST_TEXT], f"a number and its unit, such as 1 {unit}")
    match = re.match(r"^(?P<number>[-+]?\d+(?:\.\d+)?)\s*(?P<unit>\D.*)$", typed)
    if not match:
        raise InputError(field, text, f"a number and its unit, such as 1 {unit}")
    given = {"F": "degF", "°F": "degF", "C": "degC", "°C": "degC", "%": "percent"}.get(match["unit"], match["unit"])
    needed = f"a number and a unit that converts to {unit}"
    if not is_unit(given):
        raise InputError(field, text, needed)
    try:
        value = convert(float(match["number"]), given, unit)
    except (InputError, pint.PintError) as problem:
        raise InputError(field, text, needed) from problem
    return Reading(typed, float(value), unit)


@lru_cache(maxsize=2**14)  # a line is rounded wherever it is added up or shown
def cents(amount: float) -> Decimal:
    """Return an amount of money rounded to the cent, halves away from zero."""
    return Decimal(repr(float(amount))).quantize(CENT, rounding=ROUND_HALF_UP)
