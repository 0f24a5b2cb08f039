"""What fields, words and reference rows were called in older job files and records, and what they are called now.

A name is added here when it is changed, and never taken away: a file of any age opens.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from estimating.row_key import RowKey

OWN = "own"  # the part of a job file whose keys are addresses of reference rows
FIELDS: Mapping[str, str] = MappingProxyType(
    {
        "way": "method",
        "colour_now": "color_now",
        "colour_wanted": "color_wanted",
        "licence": "license",
        "bulkheads": "soffits",
        "recessed_trim": "recessed_light",
        "flush_light": "ceiling_light",
    }
)
WORDS: Mapping[tuple[str, str], str] = MappingProxyType(  # by the field they answer
    {
        ("change", "same colour"): "same color",
        ("kind", "louvred"): "louvered",
        ("ceiling_line", "crown moulding"): "crown molding",
    }
)
ADDRESSES: Mapping[str, str] = MappingProxyType(  # the parts of a row's address, by themselves or after the table
    {
        "above_three_storeys": "above_three_stories",
        "added_per_storey": "added_per_story",
        "change_colour": "change_color",
        "extra_colour": "extra_color",
        "labour_share": "labor_share",
        "louvred": "louvered",
        "mobilise": "mobilize",
        "mould": "mold",
        "recessed_trim": "recessed_light",
        "flush_light": "ceiling_light",
        "middling_opening": "average_opening",
        "release/way": "release/method",
        "second_coat_labour": "second_coat_labor",
        "solvent_vapour": "solvent_vapor",
        "storey": "story",
    }
)


# What a gentler method does was once an odds ratio. At a low chance that is the same figure as a share.
SHARES = RowKey.of("release", "method")


def current_address(address: str) -> str:
    """Return what the address of a reference row is called now, such as production/change_color/airless/any."""
    row = RowKey.parse(address)
    keys = [_current_key(row.table, key) for key in row.keys]
    if RowKey.of(row.table, *keys).below(SHARES) and keys[-1] == "odds":
        keys[-1] = "share"
    return str(RowKey.of(row.table, *keys))


def _current_key(table: str, key: str) -> str:
    moved = ADDRESSES.get(str(RowKey.of(table, key)))
    return RowKey.parse(moved).keys[-1] if moved else ADDRESSES.get(key, key)


def current(plain: Mapping[str, Any]) -> tuple[dict[str, Any], tuple[str, ...]]:
    """Return the plain values of a job in today's names, and a sentence for each old name that stood in it."""
    said: dict[str, None] = {}
    renamed = {FIELDS.get(name, name): _current(name, value, said) for name, value in _fields(plain, said)}
    return renamed, tuple(said)


def _current(field: str, value: Any, said: dict[str, None]) -> Any:
    if isinstance(value, Mapping):
        if field == OWN:
            return {_say(key, current_address(key), said): each for key, each in value.items()}
        return {FIELDS.get(name, name): _current(name, each, said) for name, each in _fields(value, said)}
    if isinstance(value, list | tuple):
        return [_current(field, each, said) for each in value]
    if isinstance(value, str) and (field, value) in WORDS:
        return _say(value, WORDS[field, value], said)
    return value


def _fields(plain: Mapping[str, Any], said: dict[str, None]) -> list[tuple[str, Any]]:
    """Return fields and values, the old name of a field left out where the new one stands beside it."""
    kept = [(name, value) for name, value in plain.items() if FIELDS.get(name) not in plain]
    for name, _ in kept:
        _say(name, FIELDS.get(name, name), said)
    return kept


def _say(old: str, new: str, said: dict[str, None]) -> str:
    if old != new:
        said[f"“{old}” is called “{new}” now; it was read as that, and saving the job writes it so"] = None
    return new
