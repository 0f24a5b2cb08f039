"""What may be assumed for an open question until somebody has looked: the usual, and always marked as assumed.

Which answer is usual is this project's judgment; where the contractor has typed a usual house, that goes before it.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from estimating.errors import Location
from estimating.job.values import UNKNOWN

ASSUMED = "assumed"  # kept beside the notes of the job: the places that were filled with the usual
USUAL: Mapping[str, Any] = MappingProxyType(
    {
        "change": "near",
        "deep_base": "no",
        "occupied": "yes",
        "closets": "none",
        "stains": "none",
        "over_stairs_feet": "0",
        "caulk_feet": "0",
        "painted_over": "no",
        "tight": "yes",
        "sound": "yes",
        "layers": "1",
        "airflow": "yes",
        "substrate": "gypsum board",
        "depth": "medium",
        "people": "1",
        "sides": "1",
        "walls_next": "yes",
        "covering": "paper",
        "format": "US double roll",
        "supplied_by": "client",
        "spare": "0",
        "obstacles": "none",
        "ceiling_line": "straight and level",
        "place": "open room",
        "wall": "sound, flat paint",
        "travel_minutes": "20",
        "wall_sized": "yes",
        "painted": "no",
        "experience": "experienced",
    }
)
NONE_COUNTED = ("fixtures", "repairs", "removals")
HOUSE = ("height", "sheen_now", "condition", "washing", "texture", "floor", "furniture")


def usual_answer(location: Location, house: Mapping[str, Any]) -> Any | None:
    """Return the usual answer to what stands at a place; None where nobody could say."""
    name = str(location[-1]) if location else ""
    if len(location) > 1 and location[-2] in NONE_COUNTED:
        return "0"
    if location[:1] == ("work",) and location[-2:] == ("walls", "painted"):
        return "yes"
    known = house.get(name) if name in HOUSE else USUAL.get(name)
    return known if known not in (None, UNKNOWN, "") else None
