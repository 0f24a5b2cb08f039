"""What the air and the surface allow: whether paint may be put on, and how long it takes to dry."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from estimating.estimate.pricing.plan import Finding, Suitability
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, work
from estimating.job.site import Site
from estimating.origins import Kind, Origin
from estimating.scopes.shared.exposure import solvent_borne
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import climate, labor
from estimating.units import Reading, convert

COMFORT = (50.0, 95.0)  # °F: within it the printed times are stretched or shortened; outside it no factor is claimed
DAMPEST = 85.0  # percent
SAGS = 90.0  # percent; the climate table's row humidity_sag, above which no drying time is claimed either
COLDEST, HOTTEST = 40.0, 104.0  # °F: outside it no drying time is claimed at all, and paint may not dry
INDEXED = (32.0, 120.0)  # °F that the heat index speaks of


def drying(work_area: WorkArea, product: str) -> Figure:
    """Return how long a product has to dry before the next coat, a water-borne one in the air of this job.

    Where the air was not measured, or lies where no factor is claimed, the printed time stands.
    """
    printed = work_area.basis.figure("coatings", product, "recoat")
    if solvent_borne(product, work_area.basis):
        return printed
    return in_this_air(work_area, printed, f"{product.replace('_', ' ')} to dry")


def dries(work_area: WorkArea) -> Callable[[str], Figure]:
    """Return how long each product has to dry in a work area, as a function of the product."""
    return partial(drying, work_area)


def in_this_air(work_area: WorkArea, printed: Figure, name: str) -> Figure:
    """Return a printed time to dry of something water leaves, stretched or shortened to the air of this job."""
    site = work_area.job.site
    if site.air is None or site.humidity is None:
        return printed
    if not (COMFORT[0] <= site.air.value <= COMFORT[1] and site.humidity <= DAMPEST):
        return printed
    factor = work(climate.drying_time_factor, "drying in this air", **_air(site), **_standard(work_area.basis))
    return work(labor.adjusted_hours, name, hours=printed, factor=factor)


def _air(site: Site) -> dict[str, Figure]:
    assert site.air is not None
    assert site.humidity is not None
    air = Origin(Kind.MEASURED, place=f"site · air, {site.air.text}")
    humidity = Origin(Kind.MEASURED, place="site · humidity")
    return {
        "air": leaf("air", site.air.value, "degF", air, key="site · air"),
        "humidity": leaf("humidity", site.humidity, "percent", humidity, key="site · humidity"),
    }


def _standard(basis: Basis) -> dict[str, Figure]:
    tenfold = leaf("drop that doubles it", 10.0, "delta_degC", Origin(Kind.MEMORY, note="time doubles per 10 °C"))
    return {
        "standard_air": basis.figure("climate", "drying_reference_temperature", "any"),
        "standard_humidity": basis.figure("climate", "drying_reference_humidity", "any"),
        "doubling": tenfold,
    }


def dry_by_row(work_area: WorkArea, row: str, name: str) -> Figure:
    """Return how long something that water leaves has to dry, by a row of the rates, in the air of this job."""
    printed = work_area.basis.figure("production", "dry", row, "any")
    return in_this_air(work_area, printed, f"{name} to dry, in this air")


def compound_dry(work_area: WorkArea) -> Figure:
    """Return how long joint compound has to dry before it is sanded or primed."""
    return dry_by_row(work_area, "joint_compound", "joint compound")


def spackle_dry(work_area: WorkArea) -> Figure:
    """Return how long small fillings have to dry before they are sanded or primed."""
    return dry_by_row(work_area, "spackle", "spackle")


def washed_dry(work_area: WorkArea) -> Figure:
    """Return how long what was washed has to dry before anything goes on."""
    return dry_by_row(work_area, "washed_surface", "washed surfaces")


def scraped_dry(work_area: WorkArea) -> Figure:
    """Return how long a ceiling wetted to scrape its texture off has to dry before compound."""
    return dry_by_row(work_area, "scraped_ceiling", "scraped board")


def _first(fact: str, indoors: str, outside: bool) -> Finding:
    """Return a condition: indoors, air can be warmed and dried before the work begins; outdoors it is waited for."""
    remedy = "waited for outdoors, until a better hour or day" if outside else indoors
    return Finding(Suitability.CONDITIONS, f"{fact}: {remedy}")


def _not_now(text: str) -> Finding:
    """Return that the work is not done while it stays so; no time to dry is claimed there."""
    return Finding(Suitability.CLOSED, f"not now: {text}")


def findings(work_area: WorkArea, *, outside: bool = False) -> Iterator[Finding]:
    """Yield what the weather has against painting: too cold, too hot, too damp, or dew about to fall."""
    site = work_area.job.site
    for name, reading in (("air", site.air), ("surface", site.surface)):
        if reading is not None:
            yield from _temperature(work_area.basis, name, reading, outside)
    if site.humidity is not None:
        most = work_area.basis.figure("climate", "humidity_most", "any").value
        if site.humidity > SAGS:
            yield _not_now(f"humidity {site.humidity:.0f} %: paint sags and runs above {SAGS:.0f} %")
        elif site.humidity > most:
            yield _first(f"humidity {site.humidity:.0f} %, more than {most:.0f} %", "dry the air first", outside)
    yield from _dew(work_area, outside)
    yield from _heat(work_area)


def _temperature(basis: Basis, name: str, reading: Reading, outside: bool) -> Iterator[Finding]:
    least = basis.figure("climate", f"{name}_least", "waterborne").value
    most = basis.figure("climate", f"{name}_most", "any").value
    if not COLDEST <= reading.value <= HOTTEST:
        yield _not_now(f"{name} at {reading.value:.0f} °F, outside {COLDEST:.0f} to {HOTTEST:.0f} °F")
    elif reading.value < least:
        below = f"{name} at {reading.value:.0f} °F, below the {least:.0f} °F of water-borne paint"
        yield _first(below, "warm it first", outside)
    elif reading.value > most:
        yield _first(f"{name} at {reading.value:.0f} °F, over {most:.0f} °F", "laps and heat", outside)


def _dew(work_area: WorkArea, outside: bool) -> Iterator[Finding]:
    margin = dew_margin(work_area.job.site)
    least = work_area.basis.figure("climate", "dew_point_margin", "any").value
    if margin is not None and margin <= 0:
        yield _not_now("the surface is at or below the dew point, and water stands on it")
    elif margin is not None and margin < least:
        near = f"the surface is {margin:.0f} °F above the dew point, {least:.0f} °F is the least"
        yield _first(near, "dry the air", outside)


def _heat(work_area: WorkArea) -> Iterator[Finding]:
    index = heat_index(work_area.job.site)
    if index is not None and index >= work_area.basis.library.row("cautions", "heat_extreme").likely:
        yield _not_now(f"heat index {index:.0f} °F: nobody works in it")


def heat_index(site: Site) -> float | None:
    """Return how hot the air feels in shade (°F); None where it was not measured or lies outside the table."""
    if site.air is None or site.humidity is None or not INDEXED[0] <= site.air.value <= INDEXED[1]:
        return None
    return float(climate.heat_index(air=site.air.value, humidity=site.humidity))


def dew_margin(site: Site) -> float | None:
    """Return how far the surface is above the dew point (°F); None where that was not measured."""
    if site.air is None or site.humidity is None or site.surface is None or site.humidity <= 0:
        return None
    dew = climate.dew_point(air=convert(site.air.value, "degF", "degC"), humidity=site.humidity)
    margin = climate.dew_margin(surface=convert(site.surface.value, "degF", "degC"), dew_point=dew)
    return float(convert(margin, "delta_degC", "delta_degF"))
