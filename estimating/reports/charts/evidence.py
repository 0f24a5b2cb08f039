"""The spread of what is printed, as SVG: a band for our range, a dot or a bar for each source, a mark for one's own."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from html import escape

from estimating.evidence import Row
from estimating.printed import Printed
from estimating.reports.format import number, spoken_unit
from estimating.reports.panes.evidence import Evidence, amount, row_name, span
from estimating.units import convert

WIDTH, LEFT, RIGHT = 980.0, 250.0, 24.0
LANE = 9.0  # height of one dot with its air
PAD = 7.0  # above and below the dots of one band
LIKELY = (2.0, 0.6)  # width of the line at the likely value of one row, and of each of several
MOST = 60  # bands in one picture
WIDE_RANGE = 40.0  # beyond this proportion of highest to lowest the scale is logarithmic
INK = "var(--jp-ui-font-color1,#222)"
FAINT = "var(--jp-border-color2,#ccc)"
BAND = "var(--jp-brand-color3,#90caf9)"
WARN = "var(--jp-warn-color0,#b45309)"
OWN = "var(--jp-success-color0,#176b37)"
LEGEND = (
    "<p>Band: our range, low to high; upright line: likely. Dot: one printed figure; bar: a printed range. "
    f'<span style="color:{WARN}">Hollow</span>: reaches beyond ours. '
    f'<span style="color:{OWN}">▼</span>: yours. Hold the pointer over a dot for its source.</p>'
)


@dataclass(frozen=True)
class Dot:
    """One printed figure or range, in the unit of its band."""

    low: float
    high: float
    words: str
    beyond: bool


@dataclass(frozen=True)
class Band:
    """A row, or all rows of a class and unit: our range, what is printed, and own values."""

    name: str
    unit: str
    low: float
    high: float
    likely: tuple[float, ...]
    dots: tuple[Dot, ...]
    own: tuple[float, ...] = ()

    @property
    def words(self) -> str:
        """The band in a sentence, for who cannot see it."""
        unit = spoken_unit(self.unit)
        low, high = min(dot.low for dot in self.dots), max(dot.high for dot in self.dots)
        return f"{self.name}: ours {span(self.low, self.high)} {unit}; {len(self.dots)} printed, {span(low, high)}"


def bands(rows: Iterable[Row], evidence: Evidence, by_class: bool = False) -> list[Band]:
    """Return a band for each row of which something is printed, or one for all rows of a class in one unit."""
    groups: dict[tuple[str, str], list[Row]] = {}
    for row in rows:
        if evidence.plain(row):
            name = row.keys[0].replace("_", " ") if by_class else row_name(row)
            groups.setdefault((name, row.unit), []).append(row)
    return [_band(name, unit, several, evidence) for (name, unit), several in groups.items()]


def _band(name: str, unit: str, rows: Sequence[Row], evidence: Evidence) -> Band:
    low, high = min(row.low for row in rows), max(row.high for row in rows)
    dots = {dot.words: dot for row in rows for dot in _dots(row, low, high, evidence)}
    own = [evidence.own[row.key] for row in rows if row.key in evidence.own]
    return Band(
        name,
        unit,
        low,
        high,
        tuple(dict.fromkeys(row.likely for row in rows)),
        tuple(sorted(dots.values(), key=lambda dot: (dot.low, dot.high))),
        tuple(float(convert(each.likely, each.unit, unit)) for each in own),
    )


def _dots(row: Row, low: float, high: float, evidence: Evidence) -> Iterator[Dot]:
    for each in evidence.plain(row):
        narrow = each.ends(row.unit, -1)
        yield Dot(*each.ends(row.unit), _dot_words(each), narrow[0] < low or narrow[1] > high)


def _dot_words(each: Printed) -> str:
    facts = ", ".join(part for part in (each.title, each.publisher, each.year, each.place) if part)
    return f"{span(each.low, each.high)} {spoken_unit(each.unit)}: {facts} ({each.seen})"


def spread_plot(found: Sequence[Band]) -> str:
    """Return the picture of the bands, a panel for each unit; a sentence when nothing is printed about the rows."""
    if not found:
        return "<p>Nothing is printed about these rows that the tests hold them to.</p>"
    shown = found[:MOST]
    rest = f"<p>The first {MOST} of {len(found)}; look for a word to see the others.</p>" if len(found) > MOST else ""
    units = dict.fromkeys(band.unit for band in shown)
    return LEGEND + rest + "".join(_panel(unit, [band for band in shown if band.unit == unit]) for unit in units)


@dataclass(frozen=True)
class Scale:
    """From a value to a place across the picture, even or logarithmic."""

    low: float
    high: float
    log: bool

    def at(self, value: float) -> float:
        """Return where a value lies across."""
        if self.log:
            share = math.log(value / self.low) / math.log(self.high / self.low)
        else:
            share = (value - self.low) / (self.high - self.low)
        return LEFT + share * (WIDTH - LEFT - RIGHT)

    def ticks(self) -> list[float]:
        """Return the round values at which a line is drawn."""
        if self.log:
            powers = range(math.floor(math.log10(self.low)), math.ceil(math.log10(self.high)) + 1)
            return [times * 10.0**power for power in powers for times in (1, 2, 5) if self.holds(times * 10.0**power)]
        rough = (self.high - self.low) / 11
        step = next(
            each for each in (times * 10.0 ** math.floor(math.log10(rough)) for times in (1, 2, 5, 10)) if each >= rough
        )
        first = math.ceil(self.low / step - 1e-9)
        return [step * place for place in range(first, math.floor(self.high / step + 1e-9) + 1)]

    def holds(self, value: float) -> bool:
        """Say whether a value is on the scale."""
        return self.low <= value <= self.high


def scale_for(found: Sequence[Band]) -> Scale:
    """Return a scale that all of the bands, their dots and their own values are on, with some air at the ends."""
    ends = [(band.low, band.high) for band in found]
    ends += [(dot.low, dot.high) for band in found for dot in band.dots]
    ends += [(own, own) for band in found for own in band.own]
    low, high = min(low for low, _ in ends), max(high for _, high in ends)
    if low > 0 and high / low > WIDE_RANGE:
        return Scale(low / 1.15, high * 1.15, True)
    air = (high - low) * 0.04 or abs(high) * 0.1 or 1.0
    return Scale(low - air if low < 0 else max(0.0, low - air), high + air, False)


def _panel(unit: str, found: Sequence[Band]) -> str:
    scale = scale_for(found)
    drawn, top = [], 34.0
    for band in found:
        lanes = _lanes(band.dots, scale)
        height = max(2, len(lanes)) * LANE + 2 * PAD
        drawn.append(_drawn(band, lanes, scale, top, height))
        top += height
    title = escape(f"Printed figures beside our ranges, {spoken_unit(unit) or 'numbers'}")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {top + 8:.0f}" width="{WIDTH:.0f}" '
        f'role="img" aria-label="{title}" class="pe-spread" font-size="11"><title>{title}</title>'
        f"{_axis(unit, scale, top)}{''.join(drawn)}</svg>"
    )


def _axis(unit: str, scale: Scale, bottom: float) -> str:
    said = spoken_unit(unit)
    head = f'<text x="{LEFT - 30}" y="14" text-anchor="end" fill="{INK}" font-weight="600">{escape(said)}</text>'
    return head + "".join(
        f'<line x1="{x:.1f}" x2="{x:.1f}" y1="20" y2="{bottom:.0f}" stroke="{FAINT}" stroke-width="0.7"/>'
        f'<text x="{x:.1f}" y="14" text-anchor="middle" fill="{INK}">{number(tick, 4)}</text>'
        for tick in scale.ticks()
        for x in [scale.at(tick)]
    )


def _lanes(dots: Sequence[Dot], scale: Scale) -> list[list[Dot]]:
    """Return the dots in as few lanes as keep them from lying on one another."""
    lanes: list[list[Dot]] = []
    for dot in dots:
        free = (lane for lane in lanes if scale.at(lane[-1].high) + LANE < scale.at(dot.low))
        lane = next(free, None)
        if lane is None:
            lanes.append([dot])
        else:
            lane.append(dot)
    return lanes


def _drawn(band: Band, lanes: Sequence[Sequence[Dot]], scale: Scale, top: float, height: float) -> str:
    middle, box = top + height / 2, (top + 3, height - 6)
    first = middle - (len(lanes) - 1) * LANE / 2
    left, wide = scale.at(band.low), max(2.0, scale.at(band.high) - scale.at(band.low))
    name = f'<text x="{LEFT - 10}" y="{middle + 4:.1f}" text-anchor="end" fill="{INK}">{escape(band.name)}</text>'
    range_ = (
        f'<rect x="{left:.1f}" y="{box[0]:.1f}" width="{wide:.1f}" height="{box[1]:.1f}" fill="{BAND}" opacity="0.45"/>'
    )
    rod = f'y1="{box[0]:.1f}" y2="{sum(box):.1f}" stroke="{INK}" stroke-width="{LIKELY[len(band.likely) > 1]}"'
    likely = "".join(f'<line x1="{x:.1f}" x2="{x:.1f}" {rod}/>' for x in map(scale.at, band.likely))
    dots = "".join(_dot(dot, scale, first + place * LANE) for place, lane in enumerate(lanes) for dot in lane)
    own = "".join(
        f'<text x="{scale.at(each):.1f}" y="{top + 9:.1f}" text-anchor="middle" fill="{OWN}" font-size="13">▼'
        f"<title>yours {escape(amount(each, band.unit))}</title></text>"
        for each in band.own
    )
    return f"<g><title>{escape(band.words)}</title>{name}{range_}{likely}{dots}{own}</g>"


def _dot(dot: Dot, scale: Scale, y: float) -> str:
    ink, fill = (WARN, "none") if dot.beyond else (INK, INK)
    left, right = scale.at(dot.low), scale.at(dot.high)
    bar = f'<line x1="{left:.1f}" x2="{right:.1f}" y1="{y:.1f}" y2="{y:.1f}" stroke="{ink}" stroke-width="2"/>'
    ends = "".join(
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.2" fill="{fill}" stroke="{ink}" stroke-width="1.4"/>'
        for x in sorted({left, right})
    )
    mark = " pe-beyond" if dot.beyond else ""
    return f'<g class="pe-dot{mark}"><title>{escape(dot.words)}</title>{bar if right > left else ""}{ends}</g>'
