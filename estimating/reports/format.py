"""Numbers and units as people read them, in US customary units or metric ones. What was typed is never touched."""

from __future__ import annotations

import math
import re
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache

from estimating.units import convert, registry


class UnitSystem(StrEnum):
    """The units a result is shown in. Nothing else about it changes: not a price, not what was typed."""

    US = "US customary"
    METRIC = "metric"


PAIRS = (
    ("ft", "meter"),
    ("yard", "meter"),
    ("inch", "millimeter"),
    ("mile", "kilometer"),
    ("ft**2", "meter**2"),
    ("ft**3", "meter**3"),
    ("gallon", "liter"),
    ("quart", "liter"),
    ("gallon/minute", "liter/minute"),
    ("ft**2/gallon", "meter**2/liter"),
    ("ft**2/hour", "meter**2/hour"),
    ("ft/hour", "meter/hour"),
    ("ft/second", "meter/second"),
    ("mile/hour", "kilometer/hour"),
    ("degF", "degC"),
    ("delta_degF", "delta_degC"),
    ("psi", "bar"),
    ("pound", "kilogram"),
    ("pound/gallon", "kilogram/liter"),
    ("count/inch", "count/centimeter"),
    ("ft**2*thou/gallon", "meter**2*micrometer/liter"),
    ("ft**2/short_ton", "meter**2/metric_ton"),
    ("dollar/ft", "dollar/meter"),
    ("dollar/ft**2", "dollar/meter**2"),
    ("dollar/gallon", "dollar/liter"),
    ("dollar/mile", "dollar/kilometer"),
    ("thou", "micrometer"),
)
BOTH = ("kilogram/liter", "micrometer")  # a density and a droplet are said in these in either system

WORDS = {
    "ft": "ft",
    "ft**2": "ft²",
    "ft**3": "ft³",
    "ft**2/hour": "ft²/h",
    "ft/hour": "ft/h",
    "ft**2/gallon": "ft²/gal",
    "gallon": "gal",
    "gallon/minute": "gal/min",
    "hour": "h",
    "minute": "min",
    "minute/count": "min each",
    "hour/count": "h each",
    "inch": "in",
    "thou": "mil",
    "ft/second": "ft/s",
    "mile/hour": "mph",
    "pound": "lb",
    "dollar": "$",
    "percent": "%",
    "dimensionless": "",
    "count": "",
    "meter": "m",
    "millimeter": "mm",
    "kilometer": "km",
    "meter**2": "m²",
    "meter**3": "m³",
    "liter": "L",
    "liter/minute": "L/min",
    "meter**2/liter": "m²/L",
    "meter**2/hour": "m²/h",
    "meter/hour": "m/h",
    "meter/second": "m/s",
    "kilometer/hour": "km/h",
    "kilogram": "kg",
    "micrometer": "µm",
    "degF": "°F",
    "degC": "°C",
    "delta_degF": "°F",
    "delta_degC": "°C",
    "kilogram/liter": "kg/L",
    "gram/centimeter**3": "g/cm³",
    "gram/liter": "g/L",
    "liter/meter**2": "L/m²",
    "milligram/meter**3": "mg/m³",
    "microgram/meter**3": "µg/m³",
    "count/hour": "an hour",
    "count/inch": "to the inch",
    "count/centimeter": "to the cm",
    "ft**2*thou/gallon": "ft² · mil/gal",
    "meter**2*micrometer/liter": "m² · µm/L",
    "ft**2/short_ton": "ft²/ton",
    "meter**2/metric_ton": "m²/t",
}


QUARTERS = ("", "¼", "½", "¾")


@lru_cache(maxsize=512)
def _plain(unit: str) -> str:
    """Return a unit by its full name, however it was spelled."""
    return str(registry.Unit(unit))


METRIC = {_plain(us): metric for us, metric in PAIRS}
CUSTOMARY = {_plain(metric): us for us, metric in reversed(PAIRS) if metric not in BOTH}
SPOKEN = {_plain(unit): words for unit, words in WORDS.items()}


@lru_cache(maxsize=512)
def shown_unit(unit: str, shown: UnitSystem) -> str:
    """Return the unit in which a quantity of this unit is shown; itself where both systems share it."""
    return (METRIC if shown is UnitSystem.METRIC else CUSTOMARY).get(_plain(unit), unit)


def shown_value(value: float, unit: str, shown: UnitSystem) -> float:
    """Return a number in the unit in which it is shown."""
    return float(convert(value, unit, shown_unit(unit, shown)))


@lru_cache(maxsize=512)
def unit_words(unit: str, shown: UnitSystem = UnitSystem.US) -> str:
    """Return a unit as the trade writes it; a film thickness in thou is said in mils."""
    return spoken_unit(shown_unit(unit, shown))


@lru_cache(maxsize=512)
def spoken_unit(unit: str) -> str:
    """Return a unit as the trade writes it and no other unit: for a number that stays as it is."""
    if unit.startswith("dollar/"):
        return f"$/{spoken_unit(unit.removeprefix('dollar/'))}"
    return SPOKEN.get(_plain(unit), unit)


def number(value: float, digits: int = 3) -> str:
    """Return a number to so many significant digits, without an exponent; blank when it was never drawn."""
    if math.isnan(value):
        return ""
    if value == 0:
        return "0"
    decimals = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def quantity(value: float, unit: str, shown: UnitSystem = UnitSystem.US, digits: int = 3) -> str:
    """Return a number with its unit; money to the cent, and a rate of money as $36.12/h."""
    inside = shown_value(value, unit, shown)
    if unit.startswith("dollar"):
        return f"{dollars(inside)}{unit_words(unit, shown).removeprefix('$')}"
    return f"{number(inside, digits)} {unit_words(unit, shown)}".strip()


def length(feet: float, shown: UnitSystem = UnitSystem.US) -> str:
    """Return a length as a tape reads it: feet, inches and quarters of them, or meters to the centimeter."""
    if shown is UnitSystem.METRIC:
        return f"{shown_value(feet, 'ft', shown):.2f} m"
    whole, quarters = divmod(round(feet * 48), 48)
    return f"{whole}′ {quarters // 4}{QUARTERS[quarters % 4]}″"


def dollars(amount: float | Decimal) -> str:
    """Return an amount of money to the cent."""
    return f"${amount:,.2f}"


def plain_dollars(amount: float | Decimal) -> str:
    """Return an amount of money as a client reads it: $1,985 where it is whole dollars, else to the cent."""
    return f"${amount:,.0f}" if round(amount, 2) == round(amount) else dollars(amount)


def whole_dollars(amount: float | Decimal) -> str:
    """Return an amount of money rounded to the dollar."""
    return f"${amount:,.0f}"


_UNITS_IN_TEXT = {
    "ft/s": "ft/second",
    "ft²/gal": "ft**2/gallon",
    "ft²/h": "ft**2/hour",
    "ft/h": "ft/hour",
    "ft²": "ft**2",
    "square feet": "ft**2",
    "ft": "ft",
    "inch": "inch",
    "inches": "inch",
    "in": "inch",
    "mil": "thou",
    "gal": "gallon",
    "psi": "psi",
    "lb": "pound",
    "°F": "degF",
}
# `in` is a unit before a stop or one of these words only: "two coats, 1 in the morning" is no length.
_AFTER_INCHES = r"(?=$|[,;:.)]| (?:fan|apart|wide|deep|long|thick|nap|or)\b)"
_APART = r"(?= (?:apart|above|below|more|less)\b)"
_IN_TEXT = re.compile(
    rf"\ban inch\b|(?<![\w.,$])(?P<amount>\d+(?:\.\d+)?) (?:(?P<gap>°F){_APART}|(?P<inches>in){_AFTER_INCHES}"
    rf"|(?P<unit>{'|'.join(sorted(set(_UNITS_IN_TEXT) - {'in'}, key=len, reverse=True))})(?![\w²/]))"
)


def in_words(text: str, shown: UnitSystem) -> str:
    """Return a sentence of the workbook's own with its US customary lengths, areas and temperatures as shown.

    Only for sentences that are written here, in US customary units; never for what somebody typed.
    """
    return _IN_TEXT.sub(_reworded, text) if shown is UnitSystem.METRIC else text


def _reworded(found: re.Match[str]) -> str:
    typed = found["amount"] or "1"
    unit = "delta_degF" if found["gap"] else _UNITS_IN_TEXT[found["inches"] or found["unit"] or "inch"]
    significant = typed.replace(".", "").lstrip("0") if "." in typed else typed.rstrip("0")
    digits = max(2, len(significant))
    return f"{number(shown_value(float(typed), unit, UnitSystem.METRIC), digits)} {unit_words(unit, UnitSystem.METRIC)}"
