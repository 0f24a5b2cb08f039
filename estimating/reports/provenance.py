"""Where a figure comes from: its tree of formulas, values and origins, and the same in a few words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from estimating.evidence import Library
from estimating.figures import Figure
from estimating.norms import Comparison, figures_beside
from estimating.origins import Kind
from estimating.reports.format import UnitSystem, quantity


def origin_words(figure: Figure) -> str:
    """Return the kinds of evidence under a figure, weakest named first, with the published sources it rests on."""
    leaves = [each for each in figure.walk() if each.rule is None and each.origin.kind is not Kind.DEFINITION]
    counts = Counter(each.origin.kind for each in leaves)
    sources = sorted({key for each in leaves for key in each.origin.source.split("; ") if key})
    kinds = ", ".join(f"{kind} ({counts[kind]})" for kind in reversed(list(Kind)) if counts[kind])
    return f"{kinds}; sources: {', '.join(sources)}" if sources else kinds or str(Kind.DEFINITION)


CODES: Mapping[Kind, str] = MappingProxyType(
    {
        Kind.PUBLISHED: "P",
        Kind.DERIVED: "D",
        Kind.COMMON_PRACTICE: "C",
        Kind.MEMORY: "M",
        Kind.JUDGMENT: "J",
        Kind.INVENTED: "I",
        Kind.MEASURED: "T",
        Kind.ENTERED: "E",
        Kind.OWN_RECORD: "O",
        Kind.DEFINITION: "A",
    }
)
LEGEND = (
    "origin: P published, D derived from what is published, C common practice, M from memory, J judgment, I invented "
    "for the demo, T taped on site, E entered by hand, O own records, A arithmetic; a number says how many; +N what is "
    "published of the very work stands beside the rate"
)
SOURCED = frozenset({Kind.PUBLISHED, Kind.DERIVED})


def origin_code(figure: Figure) -> str:
    """Return the kinds of evidence under a figure as letters with their numbers: P2 J3; LEGEND says what they mean."""
    counts = Counter(each.origin.kind for each in figure.walk() if each.rule is None)
    said = [f"{CODES[kind]}{counts[kind]}" for kind in CODES if counts[kind] and kind is not Kind.DEFINITION]
    return " ".join(said) or CODES[Kind.DEFINITION]


def rate_words(library: Library, held: Mapping[str, Sequence[Comparison]], row: str) -> str:
    """Return what the rate of a line rests on: its origin, and one task for which something published stands beside it.

    held: the tasks that norms speak of, by row. row: the address of the rate; blank where a line has none.
    """
    if not row:
        return ""
    origin = library.named(row).origin
    sources = f" ({origin.source})" if origin.kind in SOURCED else ""
    beside = [figures_beside(each) for each in held.get(row, ())[:1]]
    return "; ".join([f"rate: {origin.kind}{sources}", *(f"beside it {each}" for each in beside)])


def trail(figure: Figure, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the whole tree under a figure: what it is, how it was worked out, and where every leaf comes from.

    Numbers are in the units shown; a formula stays as its source writes it, in the units of its source.
    """
    return "\n".join(_lines(figure, 0, set(), shown))


def _lines(figure: Figure, depth: int, seen: set[int], shown: UnitSystem) -> Iterator[str]:
    indent = "  " * depth
    head = f"{indent}{figure.name}: {quantity(figure.value, figure.unit, shown) or 'not drawn'}"
    if id(figure) in seen and figure.inputs:
        yield f"{head}  (as above)"
        return
    seen.add(id(figure))
    if figure.rule is None:
        yield f"{head}{_range(figure, shown)}  [{figure.origin}]{_note(figure)}"
        return
    yield f"{head}  = {figure.formula}  [{figure.origin}]"
    for _, each in figure.inputs:
        yield from _lines(each, depth + 1, seen, shown)


def _range(figure: Figure, shown: UnitSystem) -> str:
    if figure.low is None or figure.high is None or figure.low == figure.high:
        return ""
    return f" ({quantity(figure.low, figure.unit, shown)} to {quantity(figure.high, figure.unit, shown)})"


def _note(figure: Figure) -> str:
    parts = [part for part in (figure.key, figure.origin.note) if part]
    return f"  {' — '.join(parts)}" if parts else ""
