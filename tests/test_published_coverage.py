"""Published spread rates, films, limits and measuring rules, held against the reference tables and the rules.

reference/printed/<table>.csv holds what sources print. `check` says how a row is read: `least` and `most` are ends of
a printed range and `value` a single printed figure for the reference row in `subject`; `ratio`, `ratio_least` and
`ratio_most` are proportions between two rows; `convert` is a printed conversion; anything else is the name of a rule
of the trade and its `subject` the arguments. `tolerance` is half the last printed digit or what the source allows.
Of every class some sources set the row and others were held back, so that a row is not only checked by itself.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

import pytest
from places import PUBLISHED
from scipy.optimize import brentq

from estimating.evidence import Library, Row, load_library
from estimating.origins import Kind, definition
from estimating.rules import card_of
from estimating.rules import rule as registered
from estimating.trade import film
from estimating.units import convert

TABLES = ["adhesion", "climate", "coatings", "coverage", "film", "losses", "measuring", "naps", "surfaces", "take_up"]
TOLERANCE = 1e-9


@dataclass(frozen=True)
class Check:
    """One printed figure and where it stands."""

    check: str
    subject: str
    value: float
    unit: str
    tolerance: float
    title: str
    publisher: str
    number: str
    year: str
    place: str
    url: str
    seen: str


@cache
def checks(name: str) -> tuple[Check, ...]:
    """Return the rows of one file of printed figures."""
    with (PUBLISHED / f"{name}.csv").open(newline="", encoding="utf-8") as lines:
        rows = list(csv.DictReader(lines))
    return tuple(
        Check(**{**each, "value": float(each["value"]), "tolerance": float(each["tolerance"])})  # type: ignore[arg-type]
        for each in rows
    )


@cache
def source_ids() -> Mapping[tuple[str, str], str]:
    """Return the key of each source by its title and address."""
    return {(each["title"], each.get("URL", "")): key for key, each in load_library().sources.items()}


def source_of(check: Check) -> str:
    """Return the bibliography key of the source a figure was printed in; empty when it is not there."""
    return source_ids().get((check.title, check.url), "")


@dataclass(frozen=True)
class Printed:
    """A printed range in the unit of its row, each end let out by the tolerance; one figure is a range of no width."""

    source: str
    place: str
    least: float
    most: float
    single: bool


def row_of(subject: str) -> Row:
    """Return the reference row a printed figure is about."""
    table, *keys = subject.split("/")
    return load_library().row(table, *keys)


@cache
def printed(table: str) -> Mapping[str, tuple[Printed, ...]]:
    """Return the printed ranges of one table by the row they are about."""
    ends: dict[tuple[str, str, str], dict[str, Check]] = {}
    for each in checks(table):
        if each.check in ("value", "ceiling", "least", "most"):
            place = ends.setdefault((each.subject, source_of(each), each.place), {})
            end = "value" if each.check == "ceiling" else each.check
            assert end not in place, f"{each.subject}: {each.title}, {each.place} stands twice"
            place[end] = each
    found: dict[str, list[Printed]] = {}
    for (subject, source, place), pair in ends.items():
        low = pair["value"] if "value" in pair else pair["least"]
        high = pair["value"] if "value" in pair else pair["most"]
        unit = row_of(subject).unit
        least = float(convert(low.value - low.tolerance, low.unit, unit)) - TOLERANCE
        most = float(convert(high.value + high.tolerance, high.unit, unit)) + TOLERANCE
        found.setdefault(subject, []).append(Printed(source, place, least, most, low is high))
    return {subject: tuple(ranges) for subject, ranges in found.items()}


def every(kind: str = "") -> Iterator[tuple[str, Check]]:
    for path in sorted(PUBLISHED.glob("*.csv")):
        if path.stem in (*TABLES, "film_rules", "conversions"):
            yield from ((path.stem, each) for each in checks(path.stem) if not kind or each.check.startswith(kind))


SUBJECTS = [subject for table in TABLES for subject in printed(table)]
CLASSES = list(printed("coverage"))


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()


def gathered(ranges: tuple[Printed, ...]) -> list[tuple[float, float]]:
    """Return the published ranges; single figures of several sources are together one range of their own."""
    singles = [each for each in ranges if each.single]
    wide = [(each.least, each.most) for each in ranges if not each.single]
    return wide + ([(min(s.least for s in singles), max(s.most for s in singles))] if singles else [])


def test_every_printed_figure_stands_in_a_source_of_the_bibliography() -> None:
    """Title and address of each check are those of an entry; one taken away is missed here."""
    assert not {(each.title, each.url) for _, each in every() if not source_of(each)}


def test_every_printed_figure_says_where_it_stands() -> None:
    """A place in the source, and whether the page or an excerpt of it was seen."""
    assert not [each for _, each in every() if not each.place or each.seen not in ("excerpt", "whole page")]


@pytest.mark.parametrize("subject", SUBJECTS)
def test_a_row_meets_every_range_published_for_it(subject: str) -> None:
    """The low and high of a row overlap what each source prints for its class."""
    row = row_of(subject)
    apart = [each for each in printed(row.table)[subject] if row.high < each.least or row.low > each.most]
    assert not apart, f"{row.low} to {row.high} {row.unit} is apart from {apart}"


@pytest.mark.parametrize("subject", CLASSES)
def test_a_likely_spread_rate_lies_where_sources_print(subject: str) -> None:
    """In the union of the ranges published for the class; our own judgment may lie between two of them, not beyond."""
    row = row_of(subject)
    likely = row.likely
    ranges = gathered(printed("coverage")[subject])
    if row.origin.kind is Kind.JUDGMENT:
        ranges = [(min(least for least, _ in ranges), max(most for _, most in ranges))]
    assert any(least <= likely <= most for least, most in ranges), f"{likely} lies in none of {ranges}"


def test_every_published_coverage_class_has_its_printed_figures(library: Library) -> None:
    """No spread rate is called published without what was printed."""
    published = {row.key for row in library.table("coverage").values() if row.origin.kind is Kind.PUBLISHED}
    assert published <= set(CLASSES)


def test_half_of_the_coverage_classes_are_checked_by_a_source_that_did_not_set_them() -> None:
    """A row is not only checked by the source it was typed from."""
    apart = [
        subject
        for subject, ranges in printed("coverage").items()
        if {each.source for each in ranges} - set(row_of(subject).origin.source.split("; "))
    ]
    assert len(apart) >= len(CLASSES) / 2


def test_there_is_enough_to_check_against() -> None:
    """At least a hundred printed figures from twenty sources, and no figure stands twice."""
    found = [each for _, each in every()]
    assert len(found) == len(set(found))
    assert len(found) >= 100
    assert len({source_of(each) for each in found}) >= 20


def test_most_of_what_the_paint_figures_rest_on_is_published(library: Library) -> None:
    """Three rows in five of coverage, measuring, climate and film stand in a source, or are worked from one."""
    for table in ("coverage", "measuring", "climate", "film"):
        rows = library.table(table).values()
        assert sum(row.origin.kind in (Kind.PUBLISHED, Kind.DERIVED) for row in rows) >= 0.6 * len(rows), table


@pytest.mark.parametrize("subject", sorted({each.subject for _, each in every("ratio")}))
def test_rows_stand_in_the_proportion_that_is_printed(subject: str) -> None:
    """Later coat over first, rough over smooth: the likely values keep the published proportion."""
    upper, lower = subject.split(" over ")
    ours = row_of(upper).likely / row_of(lower).likely
    ends = [each for each in checks("coverage") if each.subject == subject]
    least, most = min(each.value - each.tolerance for each in ends), max(each.value + each.tolerance for each in ends)
    assert least <= ours <= most


def test_every_surface_can_be_asked_for_whatever_its_porosity(library: Library) -> None:
    """The two tables of surfaces know the same ones, and each has a spread rate to fall back on."""
    described = {keys[0] for keys in library.table("surfaces")}
    assert {keys[0] for keys in library.table("coverage")} == described
    for surface in described:
        assert library.nearest("coverage", surface, "porous", "first", "roll").likely > 0


ROUGHER = (
    ("smooth_drywall", "orange_peel", "knockdown", "skip_trowel", "popcorn_light", "popcorn_medium", "popcorn_heavy"),
    ("smooth_ceiling", "popcorn_light"),
    ("smooth_wood", "rough_wood"),
    ("smooth_wood", "weathered_wood"),
    ("smooth_wood", "shingle"),
    ("stucco_smooth", "stucco_rough"),
    ("block_dense", "block_light", "block_split"),
    ("concrete", "concrete_precast", "concrete_textured"),
    ("brick", "brick_coarse"),
    ("concrete", "block_dense"),
)


@pytest.mark.parametrize(("smoother", "rougher"), [pair for chain in ROUGHER for pair in pairwise(chain)])
def test_a_rougher_surface_never_spreads_further(library: Library, smoother: str, rougher: str) -> None:
    """Of two surfaces of one kind the rougher takes more paint, at either end of the range too."""
    rows = library.table("coverage")
    pairs = [
        (rows[smoother, *keys[1:]], row)
        for keys, row in rows.items()
        if keys[0] == rougher and (smoother, *keys[1:]) in rows
    ]
    assert pairs
    for smooth, rough in pairs:
        ends = zip(smooth.written, rough.written, strict=True)
        assert smooth.likely >= rough.likely
        assert all(of_smooth >= of_rough for of_smooth, of_rough in ends)


@pytest.mark.parametrize("coat", ["first", "later"])
def test_a_more_porous_surface_never_spreads_further(library: Library, coat: str) -> None:
    """The more a surface drinks, the less far a gallon goes, first coat and later.

    Linseed oil paint is left out: its primer on bare wood was thinned with oil and so spread further than on old paint.
    """
    rows = library.table("coverage")
    for surface in sorted({keys[0] for keys in rows}):
        order = [
            library.nearest("coverage", surface, porosity, coat, "any")
            for porosity in ("sealed", "slight", "porous", "very_porous")
            if any(keys[:2] == (surface, porosity) and keys[3] == "any" for keys in rows)
        ]
        for less, more in pairwise(order):
            assert less.likely >= more.likely, f"{less.key} against {more.key}"


def test_a_later_coat_goes_no_less_far_than_the_first(library: Library) -> None:
    """On the same porous surface the first coat seals and the next spreads further."""
    rows = library.table("coverage")
    firsts = [row for keys, row in rows.items() if keys[2] == "first" and (*keys[:2], "later", keys[3]) in rows]
    assert firsts
    for first in firsts:
        later = rows[*first.keys[:2], "later", first.keys[3]]
        assert later.written[0] >= first.written[0], first.key
        assert later.likely >= first.likely, first.key


def test_a_later_coat_drinks_no_more_than_the_first(library: Library) -> None:
    """Take-up falls from the first coat to the later, and rises with porosity."""
    share = {keys: row.likely for keys, row in library.table("take_up").items()}
    order = ("sealed", "slight", "porous", "very_porous")
    assert all(share[porosity, "later"] <= share[porosity, "first"] for porosity in order)
    for coat in ("first", "later"):
        assert all(share[less, coat] <= share[more, coat] for less, more in pairwise(order))


@pytest.mark.parametrize(
    ("product", "surface", "porosity", "coat"),
    [
        ("wall_paint", "smooth_drywall", "sealed", "later"),
        ("ceiling_flat", "smooth_ceiling", "sealed", "later"),
        ("drywall_sealer", "smooth_drywall", "porous", "first"),
        ("exterior_paint", "lap_siding", "sealed", "later"),
        ("masonry_primer", "stucco_smooth", "porous", "first"),
        ("masonry_paint", "stucco_smooth", "porous", "later"),
        ("metal_enamel", "metal", "sealed", "first"),
        ("ceiling_flat", "popcorn_medium", "very_porous", "first"),
        ("ceiling_flat", "popcorn_medium", "sealed", "later"),
    ],
)
def test_the_spread_worked_from_the_film_meets_the_spread_as_printed(
    library: Library, product: str, surface: str, porosity: str, coat: str
) -> None:
    """Two ways to one figure, solids over film and the rate a can prints, do not contradict each other."""
    spread = film.practical_spread_rate(
        theoretical=film.theoretical_spread_rate(
            volume_solids=library.row("coatings", product, "volume_solids").likely,
            dry_film=library.row("coatings", product, "dry_film").likely,
        ),
        area_factor=library.row("surfaces", surface, "area_factor").likely,
        take_up=library.row("take_up", porosity, coat).likely,
        loss=0.0,
    )
    row = library.nearest("coverage", surface, porosity, coat, "any")
    assert 0.8 * row.low <= spread <= 1.2 * row.high


@registered(
    "the film at this spread", "thou", definition("worked back"), spread="ft**2/gallon", volume_solids="percent"
)
def film_from_spread(*, spread: float, volume_solids: float) -> float:
    """Return the film a printed spread rate leaves, worked back from the rule by a root finder."""

    def too_far(dry: float) -> float:
        return float(film.theoretical_spread_rate(volume_solids=volume_solids, dry_film=dry)) - spread

    return float(brentq(too_far, 0.01, 1e3))


def _numbered(found: Iterator[tuple[str, Check]]) -> list[object]:
    return [pytest.param(each, id=f"{each.check}: {each.subject}, {each.title}, {each.place}") for _, each in found]


@pytest.mark.parametrize("example", _numbered((name, each) for name, each in every() if name == "film_rules"))
def test_a_rule_of_film_gives_the_printed_answer(example: Check) -> None:
    """Worked examples and data sheets agree with the film rules to their last digit or their own claim."""
    rule = film_from_spread if example.check == "film_from_spread" else getattr(film, example.check)
    card = card_of(rule)
    arguments = {}
    for part in example.subject.split("; "):
        name, _, quantity = part.partition("=")
        number, unit = quantity.split(" ")
        arguments[name] = float(convert(float(number), unit, card.arguments[name]))
    ours = float(convert(float(rule(**arguments)), card.unit, example.unit))
    assert ours == pytest.approx(example.value, abs=example.tolerance + TOLERANCE)


@pytest.mark.parametrize("example", _numbered((name, each) for name, each in every() if name == "conversions"))
def test_units_convert_as_sources_print_them(example: Check) -> None:
    """Where a source prints a figure in two units, ours is the same to its last digit."""
    number, unit = example.subject.split(" ")
    assert float(convert(float(number), unit, example.unit)) == pytest.approx(
        example.value, abs=example.tolerance + TOLERANCE
    )
