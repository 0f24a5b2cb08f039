"""A document as one page of HTML that prints on US letter and A4; nothing in it runs or loads."""

from __future__ import annotations

from base64 import b64encode
from functools import singledispatch
from html import escape
from importlib.resources import files

from estimating.reports.documents.content import (
    Block,
    Bullets,
    Document,
    Drawing,
    Drawings,
    Facts,
    Letterhead,
    NewPage,
    Paragraph,
    Rank,
    Row,
    Run,
    Section,
    Signatures,
    Style,
    Table,
    Text,
    runs,
)

CSS = files("estimating.reports").joinpath("document.css").read_text(encoding="utf-8")
POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
MEDIA = {"png": "image/png", "jpg": "image/jpeg", "svg": "image/svg+xml"}


def as_html(document: Document) -> str:
    """Return the document as HTML."""
    head = document.letterhead
    foot = f'<footer><p class="small">{escape(document.foot)}</p></footer>' if document.foot else ""
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
        f"<title>{escape(head.title)}: {escape(head.subject)}</title><style>{CSS}</style></head><body>"
        f"{_letterhead(head)}<main>{''.join(_part(part) for part in document.parts)}</main>{foot}</body></html>\n"
    )


def _letterhead(head: Letterhead) -> str:
    logo = ""
    if head.logo:
        data = b64encode(head.logo).decode("ascii")
        logo = f'<img alt="" src="data:{MEDIA[head.logo_kind]};base64,{data}">'
    sender = "<br>".join([f"<strong>{escape(head.company)}</strong>", *map(escape, head.lines)])
    facts = "".join(f"<p>{escape(name)} <strong>{escape(said)}</strong></p>" for name, said in head.facts)
    mark = f'<p class="alert">{escape(head.mark)}</p>' if head.mark else ""
    return (
        f'<header><div class="from">{logo}<p>{sender}</p></div>'
        f'<div class="what"><h1>{escape(head.title)}</h1>{facts}</div></header>'
        f'<p class="subject">{escape(head.subject)}</p>{mark}'
    )


def _part(part: Section | Block) -> str:
    return _section(part) if isinstance(part, Section) else laid_out(part)


def _section(part: Section) -> str:
    kinds = " ".join(name for name, on in (("half", part.half), ("keep", part.keep), ("dense", part.dense)) if on)
    inside = "".join(map(laid_out, part.blocks))
    return f'<section class="{part.frame} {kinds}"><h2>{escape(part.heading)}</h2>{inside}</section>'


def inline(text: Text) -> str:
    """Return a text as HTML, each run in its style."""
    return "".join(map(_run, runs(text)))


def _run(run: Run) -> str:
    said = escape(run.text).replace("\n", "<br>")
    match run.style:
        case Style.PLAIN:
            return said
        case Style.STRONG:
            return f"<strong>{said}</strong>"
        case Style.BLANK:
            return '<span class="blank">\u00a0</span>'
    return f'<span class="{run.style}">{said}</span>'


@singledispatch
def laid_out(block: Block) -> str:
    """Return one block as HTML."""
    raise TypeError(f"a document has no {type(block).__name__}")


@laid_out.register
def _(block: Paragraph) -> str:
    return f"<p>{inline(block.text)}</p>"


@laid_out.register
def _(block: Bullets) -> str:
    return f"<ul>{''.join(f'<li>{inline(item)}</li>' for item in block.items)}</ul>"


@laid_out.register
def _(block: Facts) -> str:
    rows = "".join(f'<tr><th scope="row">{escape(name)}</th><td>{inline(said)}</td></tr>' for name, said in block.rows)
    return f'<table class="facts"><tbody>{rows}</tbody></table>'


@laid_out.register
def _(block: Table) -> str:
    head = "".join(
        f'<th scope="col" class="{kind}">{escape(each)}</th>'
        for kind, each in zip(block.columns, block.head, strict=True)
    )
    body = "".join(_row(row, block.columns) for row in block.rows)
    top = f"<thead><tr>{head}</tr></thead>" if any(block.head) else ""
    return f"<table>{top}<tbody>{body}</tbody></table>"


def _row(row: Row, columns: str) -> str:
    if row.rank is Rank.GROUP:
        first, *rest = row.cells
        span = f'<th scope="rowgroup" colspan="{len(columns) - len(rest)}">{inline(first)}</th>'
        return f'<tr class="group">{span}{_cells(rest, columns[len(columns) - len(rest) :])}</tr>'
    return f'<tr class="{row.rank}">{_cells(row.cells, columns)}</tr>'


def _cells(cells: tuple[Text, ...] | list[Text], columns: str) -> str:
    return "".join(f'<td class="{kind}">{inline(cell)}</td>' for kind, cell in zip(columns, cells, strict=True))


@laid_out.register
def _(block: Signatures) -> str:
    return f'<div class="signed">{"".join(f"<p>{escape(name)}</p>" for name in block.names)}</div>'


@laid_out.register
def _(block: Drawings) -> str:
    kind = "drawings small-ones" if block.small else "drawings"
    return f'<div class="{kind}">{"".join(map(_drawing, block.several))}</div>'


def _drawing(drawing: Drawing) -> str:
    caption = f"<figcaption>{escape(drawing.caption)}</figcaption>" if drawing.caption else ""
    return f"<figure>{drawing.svg}{caption}</figure>"


@laid_out.register
def _(block: NewPage) -> str:
    return '<div class="new-page"></div>'
