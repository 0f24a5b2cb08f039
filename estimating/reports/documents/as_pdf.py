"""A document as PDF with numbered pages: one template, and the document as data beside it.

The typesetting library brings its own fonts, so the same document makes the same pages on every machine; it reads
nothing but what it is handed here.
"""

from __future__ import annotations

import json
from functools import singledispatch
from importlib.resources import files
from typing import Any

import typst

from estimating.reports.documents.content import (
    Block,
    Bullets,
    Document,
    Drawings,
    Facts,
    NewPage,
    Paragraph,
    Section,
    Signatures,
    Table,
    Text,
    runs,
)

TEMPLATE = files("estimating.reports").joinpath("document.typ").read_bytes()


def as_pdf(document: Document) -> bytes:
    """Return the document as PDF."""
    return typst.compile(TEMPLATE, format="pdf", ignore_system_fonts=True, sys_inputs=_inputs(document))


def as_images(document: Document, dots_per_inch: float = 100) -> list[bytes]:
    """Return the pages of the document as PNG pictures, to be looked at."""
    inputs = _inputs(document)
    made: bytes | list[bytes] = typst.compile(
        TEMPLATE, format="png", ignore_system_fonts=True, sys_inputs=inputs, ppi=dots_per_inch
    )
    return made if isinstance(made, list) else [made]


def _inputs(document: Document) -> dict[str, str]:
    return {"data": json.dumps(as_data(document), ensure_ascii=False)}


def as_data(document: Document) -> dict[str, Any]:
    """Return the document as plain values for the template."""
    head = document.letterhead
    return {
        "company": head.company,
        "lines": list(head.lines),
        "title": head.title,
        "subject": head.subject,
        "facts": [list(pair) for pair in head.facts],
        "mark": head.mark,
        "logo": list(head.logo),
        "foot": document.foot,
        "smallest": document.smallest,
        "parts": [_part(part) for part in document.parts],
    }


def _part(part: Section | Block) -> dict[str, Any]:
    if not isinstance(part, Section):
        return plain(part)
    return {
        "kind": "section",
        "heading": part.heading,
        "half": part.half,
        "keep": part.keep,
        "dense": part.dense,
        "frame": str(part.frame),
        "blocks": [plain(block) for block in part.blocks],
    }


def _text(text: Text) -> list[list[str]]:
    return [[str(run.style), run.text] for run in runs(text)]


@singledispatch
def plain(block: Block) -> dict[str, Any]:
    """Return one block as plain values."""
    raise TypeError(f"a document has no {type(block).__name__}")


@plain.register
def _(block: Paragraph) -> dict[str, Any]:
    return {"kind": "paragraph", "text": _text(block.text)}


@plain.register
def _(block: Bullets) -> dict[str, Any]:
    return {"kind": "bullets", "items": [_text(item) for item in block.items]}


@plain.register
def _(block: Facts) -> dict[str, Any]:
    return {"kind": "facts", "rows": [[name, _text(said)] for name, said in block.rows]}


@plain.register
def _(block: Table) -> dict[str, Any]:
    rows = [{"rank": str(row.rank), "cells": [_text(cell) for cell in row.cells]} for row in block.rows]
    return {"kind": "table", "head": list(block.head), "columns": list(block.columns), "rows": rows}


@plain.register
def _(block: Signatures) -> dict[str, Any]:
    return {"kind": "signatures", "names": list(block.names)}


@plain.register
def _(block: Drawings) -> dict[str, Any]:
    several = [[drawing.svg, drawing.caption] for drawing in block.several]
    return {"kind": "drawings", "several": several, "small": block.small}


@plain.register
def _(block: NewPage) -> dict[str, Any]:
    return {"kind": "new_page"}
