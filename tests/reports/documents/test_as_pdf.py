"""A document as PDF: numbered pages, every kind of block, and typed text that stays text."""

from __future__ import annotations

import re

from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.as_pdf import as_images, as_pdf
from estimating.reports.documents.content import (
    BLANK,
    TICK,
    Document,
    Drawing,
    Drawings,
    Frame,
    Letterhead,
    NewPage,
    Rank,
    Row,
    Signatures,
    alert,
    bullets,
    facts,
    paragraph,
    section,
    small,
    strong,
    table,
)

NASTY = '#panic("run") $x$ *bold* <script> \\'
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="10" height="10" fill="#111"/></svg>'
PNG = bytes.fromhex(
    "89504e470d0a1a0a0000000d4948445200000001000000010806000000"
    "1f15c4890000000d49444154789c6360606060000000050001a5f645400000000049454e44ae426082"
)


def document(*parts: object, logo: bytes = b"") -> Document:
    head = Letterhead("Plain & Sons", (NASTY,), "Proposal", NASTY, (("No.", "1"),), "not an offer", logo, "png")
    return Document(head, parts, "Local codes come first.")  # type: ignore[arg-type]


EVERYTHING = (
    *section("Words", paragraph((NASTY, strong("b"), small("s"), alert("a"), BLANK, TICK)), bullets([NASTY, "two"])),
    *section("Half", facts([("name", NASTY)]), half=True),
    *section("Other half", facts([("name", "said")]), half=True, dense=True),
    *section(
        "Table",
        table(
            ("Item", "", "Price"),
            [Row(("Room", "$3.00"), Rank.GROUP), ("a", "b", "$3.00"), Row(("Total", "", "$3.00"), Rank.TOTAL)],
            "lnr",
        ),
        frame=Frame.BOX,
    ),
    NewPage(),
    Drawings((Drawing(SVG, "one"), Drawing(SVG))),
    Signatures(("Client, date", "Contractor, date")),
)


def test_every_block_is_laid_out_in_both_ways() -> None:
    """What is typed is printed as it is, and runs neither as markup of the page nor of the typesetter."""
    whole = document(*EVERYTHING)
    made = as_pdf(whole)
    assert made.startswith(b"%PDF")
    assert len(as_images(whole, 20)) == 2
    page = as_html(whole)
    assert "<script>" not in page
    assert page.count("&lt;script&gt;") >= 4


def test_pages_are_as_many_as_the_words_need() -> None:
    """A long list runs over onto further pages."""
    long = document(*section("List", bullets([f"item {number}" for number in range(200)])))
    assert len(as_images(long, 20)) > 2


def test_a_logo_is_put_into_the_head() -> None:
    """As a picture inside the page: nothing is fetched from anywhere."""
    with_logo = document(logo=PNG)
    assert 'src="data:image/png;base64,' in as_html(with_logo)
    assert len(as_pdf(with_logo)) > len(as_pdf(document()))


def test_the_same_document_makes_the_same_pages() -> None:
    """No day, place or machine goes into the picture of a page."""
    assert as_images(document(*EVERYTHING), 20) == as_images(document(*EVERYTHING), 20)


def test_the_page_is_a_whole_one_that_loads_nothing() -> None:
    """Its style is in it, and there is no address in it."""
    page = as_html(document(*EVERYTHING))
    assert page.startswith("<!doctype html>")
    assert not re.search(r"(src|href)=\"(?!data:)", page)
