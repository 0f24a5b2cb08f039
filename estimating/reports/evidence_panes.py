"""The reference tables as HTML and SVG: rows, what stands behind one, what is printed about it, and own values."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

from estimating.evidence import Library, OwnValue
from estimating.reports.words import number, spoken_unit


def own_in_use(own: Mapping[str, OwnValue], library: Library, warning: str = "") -> str:
    """Return the line of the desk that says which own values stand in place of reference rows; empty for none."""
    each = "; ".join(f"{key} {yours(key, own, library)}" for key in sorted(own))
    said = f'<p class="pe-small">Own values in use: {escape(each)}.</p>' if own else ""
    return said + (f'<p class="pe-error" role="alert">{escape(warning)}</p>' if warning else "")


def yours(key: str, own: Mapping[str, OwnValue], library: Library) -> str:
    """Return a row's own value beside the table's, such as "published 150 → yours 128 ft²/h"."""
    table, *keys = key.split("/")
    row, mine = library.row(table, *keys), own[key]
    before = number(row.likely, 6) if mine.unit == row.unit else f"{number(row.likely, 6)} {spoken_unit(row.unit)}"
    return f"{row.origin.kind} {before} → yours {number(mine.likely, 6)} {spoken_unit(mine.unit)}".strip()
