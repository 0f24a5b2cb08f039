"""Where a number comes from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """How much a number has behind it."""

    PUBLISHED = "published"
    DERIVED = "derived"  # worked from what sources print by the rule in its note: halved, transferred, converted
    COMMON_PRACTICE = "common practice, no source"
    MEMORY = "from memory, not checked"
    JUDGMENT = "judgment"
    INVENTED = "invented for the demo"
    MEASURED = "measured on site"
    ENTERED = "entered by hand"
    OWN_RECORD = "own record"
    DEFINITION = "definition"


@dataclass(frozen=True)
class Origin:
    """The kind of evidence, the key of the source in the bibliography, and the place in it."""

    kind: Kind
    source: str = ""  # bibliography keys, separated by "; "
    place: str = ""  # table, page or equation; or who measured, and when
    note: str = ""
    year: str = ""

    def __str__(self) -> str:
        parts = [str(self.kind)]
        if self.source:
            parts.append(self.source)
        if self.place:
            parts.append(self.place)
        return ", ".join(parts)


def published(source: str, place: str, note: str = "") -> Origin:
    """Return the origin of a formula or value that stands in a named source."""
    return Origin(Kind.PUBLISHED, source, place, note)


def definition(place: str) -> Origin:
    """Return the origin of a rule that holds by arithmetic, geometry or the meaning of its words."""
    return Origin(Kind.DEFINITION, "", place)


def judgment(note: str) -> Origin:
    """Return the origin of a rule that is our own reading of the trade, and says so."""
    return Origin(Kind.JUDGMENT, "", "", note)


def practice(note: str) -> Origin:
    """Return the origin of a rule of thumb of the trade that nobody published."""
    return Origin(Kind.COMMON_PRACTICE, "", "", note)
