"""What an argument of a rule may be, said once in words: `0 or more`, `more than 0, at most 100`, `0 to 1`."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

import numpy as np

from estimating.errors import EvidenceError, InputError
from estimating.units import Number

_NUMBER = r"[-−]?\d+(?:\.\d+)?"
_WORDS = re.compile(
    rf"(?:an? [a-z ]+ from )?"
    rf"(?:(?P<least>{_NUMBER})(?P<own>(?: [a-z]+)*?) or more|more than (?P<above>{_NUMBER})"
    rf"|(?P<start>{_NUMBER}) to (?P<end>{_NUMBER}))?"
    rf"(?:(?:,| and)? ?(?:at most (?P<most>{_NUMBER})|less than (?P<below>{_NUMBER})))?"
    rf"(?P<rest>.*)"
)
_ENDS = ("least", "above", "start", "end", "most", "below")
_UNDRAWN = "or not drawn"  # a draw of luck is not a number until the dice are thrown
_SPOKEN = {
    "ft**2": "ft²",
    "inch": "inches",
    "percent": "percent",
    "hour": "hours",
    "minute": "minutes",
    "dollar": "dollars",
    "gallon": "gallons",
    "micrometer": "micrometers",
    "degF": "°F",
    "degC": "°C",
    "delta_degC": "degrees",
    "ft/hour": "ft an hour",
    "ft/second": "ft a second",
    "ft**2/hour": "ft² an hour",
    "ft**2/gallon": "ft² a gallon",
    "gallon/minute": "gallons a minute",
    "dollar/hour": "dollars an hour",
    "1/hour": "an hour",
    "kilogram/liter": "kg/L",
    "kilogram/meter**3": "kg/m³",
    "dimensionless": "",
    "count": "",
    "same": "",
}


@dataclass(frozen=True)
class Bound:
    """The least and the most an argument may be, both allowed, and the same in words, bare and with the unit."""

    least: float
    most: float
    words: str
    needed: str
    undrawn: bool = False

    def holds(self, value: Number) -> bool:
        """Say whether every number given is within the bound; not-a-number is not, unless it stands for undrawn."""
        if not isinstance(value, np.ndarray):
            return bool(self.least <= value <= self.most) or (self.undrawn and math.isnan(value))
        if self.undrawn:
            value = value[~np.isnan(value)]
        lowest = np.minimum.reduce(value, axis=None, initial=math.inf)
        return bool(lowest >= self.least) and (
            self.most == math.inf or bool(np.maximum.reduce(value, axis=None, initial=-math.inf) <= self.most)
        )

    def refuse(self, field: str, value: Number) -> InputError:
        """Return the error that names the field, the first number out of bounds and what is needed."""
        numbers = np.ravel(np.asarray(value, dtype=float))
        broken = numbers[~((numbers >= self.least) & (numbers <= self.most))]
        return InputError(field, float(broken[0]), self.needed)


def _float(text: str) -> float:
    return float(text.replace("−", "-"))


def read_bound(text: str, unit: str) -> Bound:
    """Return the bound that words stand for; where they name no unit of their own, `unit` is put in.

    Raises EvidenceError for words that set no bound. `more than` and `less than` leave the number itself out.
    """
    found = _WORDS.fullmatch(text)
    ends = {name: _float(found[name]) for name in _ENDS if found and found[name]}
    if not found or not ends:
        raise EvidenceError(f"{text!r} sets no bound: say such as '0 or more', 'more than 0, at most 100', '0 to 1'")
    least = ends.get("least", ends.get("start", -math.inf))
    most = ends.get("most", ends.get("end", math.inf))
    if "above" in ends:
        least = math.nextafter(ends["above"], math.inf)
    if "below" in ends:
        most = math.nextafter(ends["below"], -math.inf)
    return Bound(least, most, text, _with_unit(found, text, unit), text.endswith(_UNDRAWN))


def _with_unit(found: re.Match[str], text: str, unit: str) -> str:
    words = _SPOKEN.get(unit, unit)
    if not words or found["own"] or not (found["rest"] == "" or found["rest"].startswith((",", ";", " ("))):
        return text
    place = max(found.end(name) for name in _ENDS)
    return f"{text[:place]} {words}{text[place:]}"
