"""What every paper is made of: a page that prints on A4 and US letter, headings, lists, tables and blanks to fill in.

Text given to these functions is what people typed or the workbook says, and is escaped here; only what these
functions return is HTML, and it is put together with `Html`.

A paper is printed, or kept as PDF, from the browser that shows it. A library that makes PDF of HTML was tried: it drew
the plans black, for it knows no CSS variables in SVG, and it wants a text engine from the system beside it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from html import escape
from importlib.resources import files

from estimating.estimate.pricing.plan import Caution
from estimating.evidence import Basis, Library
from estimating.figures import Figure
from estimating.origins import Kind, Origin
from estimating.reports.format import UnitSystem, in_words, quantity
from estimating.workbook import Outcome


class Html(str):
    """Text that is HTML already."""

    __slots__ = ()


STYLE = files("estimating.reports").joinpath("paper.css").read_text(encoding="utf-8")
POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"  # nothing on a paper runs or loads
BLANK = Html('<span class="blank">\u00a0</span>')
TICK = Html('<span class="tick"></span>')
_SPOKEN_OF = re.compile(r"\bthis far\b|\b(above|below|than|under) this\b", re.IGNORECASE)
TAIL = (
    "Usual cautions, not advice for this building. Local codes and licensed practice come first; nothing here says "
    "that work complies with any rule."
)


def html(part: str) -> Html:
    """Return a part as HTML: as it is where it is HTML, escaped where it is text."""
    return part if isinstance(part, Html) else Html(escape(part))


def joined(*parts: str) -> Html:
    """Return parts one after the other."""
    return Html("".join(html(part) for part in parts))


def page(title: str, outcome: Outcome, *parts: str) -> Html:
    """Return a whole document with its own print style."""
    terms, job = outcome.job.terms, outcome.job
    sender = map(html, filter(None, (terms.contractor, terms.contractor_contact, terms.license)))
    invented = "An invented job, to show the workbook: nothing here is an offer." if job.invented else ""
    return Html(
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
        f"<title>{escape(title)}: {escape(job.title)}</title><style>{STYLE}</style></head><body>"
        f'<header><div><h1>{escape(title)}</h1><p>{escape(job.title)}</p></div><p class="from">'
        f"{'<br>'.join(sender)}</p></header>"
        f"{paragraph(invented, 'stale') if invented else ''}{joined(*parts)}</body></html>\n"
    )


def section(heading: str, *parts: str, kind: str = "") -> Html:
    """Return parts under a heading; nothing where there is nothing to say."""
    inside = joined(*parts)
    if not inside:
        return Html("")
    return Html(f'<section class="{kind}"><h2>{escape(heading)}</h2>{inside}</section>')


def paragraph(text: str, kind: str = "") -> Html:
    """Return a paragraph; nothing where there is no text."""
    return Html(f'<p class="{kind}">{html(text)}</p>' if text else "")


def listed(items: Iterable[str]) -> Html:
    """Return a list; nothing where there are no items."""
    rows = "".join(f"<li>{html(each)}</li>" for each in items)
    return Html(f"<ul>{rows}</ul>" if rows else "")


def grid(head: Sequence[str], rows: Iterable[Sequence[str]], caption: str = "") -> Html:
    """Return a table whose rows are headed by their first cell; nothing where there are no rows."""
    top = "".join(f'<th scope="col">{html(each)}</th>' for each in head)
    body = "".join(
        f'<tr><th scope="row">{html(cells[0])}</th>' + "".join(f"<td>{html(cell)}</td>" for cell in cells[1:]) + "</tr>"
        for cells in rows
    )
    title = f"<caption>{html(caption)}</caption>" if caption else ""
    return Html(f"<table>{title}<thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>" if body else "")


def facts(rows: Iterable[tuple[str, str]], kind: str = "facts") -> Html:
    """Return names and what they are, one below the other, leaving out what is empty."""
    body = "".join(f'<tr><th scope="row">{html(name)}</th><td>{html(said)}</td></tr>' for name, said in rows if said)
    return Html(f'<table class="{kind}"><tbody>{body}</tbody></table>')


def amount(value: float, unit: str, shown: UnitSystem, digits: int = 3) -> str:
    """Return a number with its unit that stay on one line."""
    return quantity(value, unit, shown, digits).replace(" ", "\u00a0")


def one_line(text: str) -> Html:
    """Return a text that stays on one line."""
    return Html(f'<span class="one">{html(text)}</span>')


def clock(hours: float) -> str:
    """Return hours as a clock shows them, to the minute: 1:05."""
    whole, minutes = divmod(round(hours * 60), 60)
    return f"{whole}:{minutes:02d}"


def small(text: str) -> Html:
    """Return a text in small type."""
    return Html(f'<span class="small">{html(text)}</span>')


def kept(*parts: str) -> Html:
    """Return parts that stay on one page."""
    return Html(f'<div class="keep">{joined(*parts)}</div>')


def signed(*names: str) -> Html:
    """Return a line for each name to sign on."""
    lines = "".join(f"<p>{html(name)}, date</p>" for name in names)
    return Html(f'<div class="signed">{lines}</div>')


def sentences(text: str | None, usual: Sequence[str]) -> tuple[str, ...]:
    """Return the contractor's own sentences, or the usual ones; `none` is none."""
    if text is None:
        return tuple(usual)
    return () if text.strip().lower() == "none" else tuple(part.strip() for part in text.split(";") if part.strip())


def assumed(outcome: Outcome, table: str, *keys: str) -> Figure:
    """Return an assumption that no line rests on, leaving those the estimate has used as they are."""
    return Basis(outcome.basis.library, outcome.basis.own).figure(table, *keys)


def cited(origin: Origin, library: Library) -> str:
    """Return what a number rests on, its sources by their titles."""
    if origin.kind not in (Kind.PUBLISHED, Kind.DERIVED):
        return str(origin.kind)
    titles = [str(library.sources[key]["title"]) for key in origin.source.split("; ") if key]
    derived = "derived from " if origin.kind is Kind.DERIVED else ""
    return f"{derived}{'; '.join(titles)}: {origin.place}"


def caution_text(caution: Caution, outcome: Outcome, shown: UnitSystem) -> str:
    """Return the fact that raises a caution and what is usually done; a limit spoken of as `this` is put in."""
    row = outcome.basis.library.row("cautions", caution.key)
    limit = quantity(row.likely, row.unit, shown)
    advice = _SPOKEN_OF.sub(lambda found: f"{found[1]} {limit}" if found[1] else limit, in_words(caution.advice, shown))
    return f"{in_words(caution.because, shown)}. {advice}"


def caution_items(cautions: Iterable[Caution], outcome: Outcome, shown: UnitSystem) -> Html:
    """Return cautions with the fact that raises each, what is usually done, and what it rests on; then the tail."""
    library = outcome.basis.library
    items = [
        joined(
            Html(f"<strong>{escape(each.title)}</strong>"),
            f" – {caution_text(each, outcome, shown)} ",
            small(cited(library.row("cautions", each.key).origin, library)),
        )
        for each in cautions
    ]
    return joined(listed(items), paragraph(small(TAIL))) if items else Html("")


def cautions_taken(outcome: Outcome) -> tuple[Caution, ...]:
    """Return the cautions of every way taken, each once."""
    raised = {each.key: each for plan in reversed(outcome.estimate.plans) for each in reversed(plan.cautions)}
    return tuple(reversed(raised.values()))
