"""What a document says, before it is laid out: letterhead, sections, paragraphs, lists, tables, blanks and signatures.

A document is put together once, out of these, and laid out twice: as a page to print (`as_html`) and as PDF (`as_pdf`).
Text is what people typed or the workbook says; each layout escapes it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias


class Style(StrEnum):
    """How a few words stand out, or what stands in their place."""

    PLAIN = "plain"
    STRONG = "strong"
    SMALL = "small"
    ALERT = "alert"
    BLANK = "blank"  # a line to write on
    TICK = "tick"  # a box to check


@dataclass(frozen=True)
class Run:
    """A few words in one style."""

    text: str
    style: Style = Style.PLAIN


Text: TypeAlias = str | Run | tuple["str | Run", ...]

BLANK = Run("", Style.BLANK)
TICK = Run("", Style.TICK)


def strong(text: str) -> Run:
    """Return words in bold."""
    return Run(text, Style.STRONG)


def small(text: str) -> Run:
    """Return words in small type."""
    return Run(text, Style.SMALL)


def alert(text: str) -> Run:
    """Return words that must not be overlooked."""
    return Run(text, Style.ALERT)


def runs(text: Text) -> tuple[Run, ...]:
    """Return a text as runs, whichever way it was given."""
    parts = text if isinstance(text, tuple) else (text,)
    return tuple(part if isinstance(part, Run) else Run(part) for part in parts)


def words(text: Text) -> str:
    """Return a text without its styles."""
    return "".join(run.text for run in runs(text))


@dataclass(frozen=True)
class Paragraph:
    """A paragraph."""

    text: Text


@dataclass(frozen=True)
class Bullets:
    """A list."""

    items: tuple[Text, ...]


@dataclass(frozen=True)
class Facts:
    """Names and what they are, one below the other."""

    rows: tuple[tuple[str, Text], ...]


class Rank(StrEnum):
    """What a row of a table is among the others."""

    PLAIN = "plain"
    GROUP = "group"  # heads the rows below it
    TOTAL = "total"


@dataclass(frozen=True)
class Row:
    """A row of a table."""

    cells: tuple[Text, ...]
    rank: Rank = Rank.PLAIN


@dataclass(frozen=True)
class Table:
    """A table. `columns` has a letter for each: l for words, r for amounts, n for words that stay on one line."""

    head: tuple[str, ...]
    rows: tuple[Row, ...]
    columns: str


@dataclass(frozen=True)
class Signatures:
    """A line to sign for each name."""

    names: tuple[str, ...]


@dataclass(frozen=True)
class Drawing:
    """A picture as SVG text, and a few words under it."""

    svg: str
    caption: str = ""


@dataclass(frozen=True)
class Drawings:
    """Pictures side by side, two in a row; small ones where there is little room."""

    several: tuple[Drawing, ...]
    small: bool = False


@dataclass(frozen=True)
class NewPage:
    """What follows begins on a page of its own."""


Block: TypeAlias = "Paragraph | Bullets | Facts | Table | Signatures | Drawings | NewPage"


class Frame(StrEnum):
    """What is drawn round a section."""

    NONE = "none"
    BOX = "box"
    STOP = "stop"


@dataclass(frozen=True)
class Section:
    """Blocks under a heading.

    half: narrow, so that two such sections stand side by side. keep: all of it on one page. dense: in small type.
    """

    heading: str
    blocks: tuple[Block, ...]
    half: bool = False
    keep: bool = False
    dense: bool = False
    frame: Frame = Frame.NONE


@dataclass(frozen=True)
class Letterhead:
    """Who a document comes from, and what it is."""

    company: str
    lines: tuple[str, ...]  # address, telephone, license
    title: str
    subject: str
    facts: tuple[tuple[str, str], ...] = ()  # number, date, how long it is valid
    mark: str = ""  # said in red under it: a demo job is no offer
    logo: bytes = b""
    logo_kind: str = ""  # png, jpg or svg


@dataclass(frozen=True)
class Document:
    """A whole document: its letterhead, what it says, and what stands at the foot of every page.

    smallest: how much smaller than usual what is meant for one page may be, to fit on it; 1 where it may run over.
    """

    letterhead: Letterhead
    parts: tuple[Section | Block, ...]
    foot: str = ""
    smallest: float = 1.0


def section(
    heading: str,
    *blocks: Block | None,
    half: bool = False,
    keep: bool = False,
    dense: bool = False,
    frame: Frame = Frame.NONE,
) -> tuple[Section, ...]:
    """Return a section in a tuple, or an empty tuple where there is nothing to say under the heading."""
    said = tuple(block for block in blocks if block is not None)
    return (Section(heading, said, half, keep, dense, frame),) if said else ()


def paragraph(text: Text) -> Paragraph | None:
    """Return a paragraph; None where there is no text."""
    return Paragraph(text) if any(run.text or run.style in (Style.BLANK, Style.TICK) for run in runs(text)) else None


def bullets(items: Iterable[Text]) -> Bullets | None:
    """Return a list; None where there are no items."""
    several = tuple(items)
    return Bullets(several) if several else None


def facts(rows: Iterable[tuple[str, Text]]) -> Facts | None:
    """Return names and what they are, leaving out what is empty; None where nothing is left."""
    kept = tuple((name, said) for name, said in rows if said)
    return Facts(kept) if kept else None


def table(head: Sequence[str], rows: Iterable[Row | Sequence[Text]], columns: str) -> Table | None:
    """Return a table; None where there are no rows."""
    several = tuple(row if isinstance(row, Row) else Row(tuple(row)) for row in rows)
    return Table(tuple(head), several, columns) if several else None


def sentence(text: str) -> str:
    """Return a text as a sentence: a capital at its start, a full stop at its end."""
    said = text.strip()
    return f"{said[:1].upper()}{said[1:]}{'' if said.endswith(('.', '!', '?', ':')) else '.'}" if said else ""


def listed_words(items: Sequence[str]) -> str:
    """Return words in a row: one, two and three."""
    return f"{', '.join(items[:-1])} and {items[-1]}" if len(items) > 1 else "".join(items)


def counted(count: int, name: str) -> str:
    """Return a number of like things: 1 door, 2 doors."""
    return f"{count} {name}{'' if count == 1 else 's'}"


def clock(hours: float) -> str:
    """Return hours as a clock shows them, to the minute: 1:05."""
    whole, minutes = divmod(round(hours * 60), 60)
    return f"{whole}:{minutes:02d}"
