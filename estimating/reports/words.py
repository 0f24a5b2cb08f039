"""Numbers and units as people read them."""

from __future__ import annotations

import math
from decimal import Decimal

UNITS = {
    "ft**2": "ft²",
    "ft**2/hour": "ft²/h",
    "ft/hour": "ft/h",
    "ft**2/gallon": "ft²/gal",
    "gallon": "gal",
    "gallon/minute": "gal/min",
    "hour": "h",
    "minute": "min",
    "minute/count": "min each",
    "inch": "in",
    "thou": "mil",
    "ft/second": "ft/s",
    "dollar": "$",
    "dollar/hour": "$/h",
    "percent": "%",
    "dimensionless": "",
    "count": "",
    "micrometer": "µm",
    "degF": "°F",
    "kilogram/liter": "kg/L",
    "kg/liter": "kg/L",
    "g/cm**3": "g/cm³",
}


def unit_words(unit: str) -> str:
    """Return a unit as the trade writes it; a film thickness in thou is said in mils."""
    return UNITS.get(unit, unit)


def number(value: float, digits: int = 3) -> str:
    """Return a number to so many significant digits, without an exponent; blank when it was never drawn."""
    if math.isnan(value):
        return ""
    if value == 0:
        return "0"
    decimals = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def quantity(value: float, unit: str) -> str:
    """Return a number with its unit."""
    if unit == "dollar":
        return dollars(value)
    return f"{number(value)} {unit_words(unit)}".strip()


def dollars(amount: float | Decimal) -> str:
    """Return an amount of money to the cent."""
    return f"${amount:,.2f}"
