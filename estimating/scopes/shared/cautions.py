"""One table for every kind of work: which fact of a plan raises which caution of the reference table."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from estimating.estimate.pricing.plan import Caution
from estimating.job.room import Fixtures, Furniture
from estimating.job.surfaces import StainKind
from estimating.scopes.shared import asbestos, drying, heights, lead
from estimating.scopes.shared.exposure import Facts
from estimating.scopes.shared.heights import Footing

Because = Callable[[Facts], str]  # the fact in words; empty where it is not there
EXTENDED = (Footing.EXTENSION_LADDER,)
STEPPED = (Footing.STEP_LADDER, Footing.PLANK)


def cautions(facts: Facts) -> tuple[Caution, ...]:
    """Return the cautions that the facts of a plan raise, in the order of the table."""
    found = ((key, because(facts)) for key, because in RAISED_BY.items())
    return tuple(facts.work_area.caution(key, text) for key, text in found if text)


def built(facts: Facts) -> str:
    """Return the age of the building in words."""
    year = facts.work_area.job.site.year_built
    return f"built {year}" if year else "year built not known"


def _suspect(facts: Facts) -> str:
    if not asbestos.suspect(facts):
        return ""
    said = "a laboratory found asbestos" if asbestos.found(facts.work_area.job.site) else "no negative laboratory test"
    return f"{asbestos.named(facts)}, {built(facts)}, {said}; rub and tape tests disturb it too"


def _sampled(facts: Facts) -> str:
    return f"samples of {asbestos.named(facts)} go to a laboratory" if asbestos.sampled_first(facts) else ""


def _removed(facts: Facts) -> str:
    area = facts.exposure.suspect_area
    least = facts.work_area.basis.library.row("cautions", "asbestos_renovation_area").likely
    large = area is not None and area.value > least and asbestos.found(facts.work_area.job.site)
    return f"{area.value:.0f} ft² of {asbestos.named(facts)} in which asbestos was found" if large and area else ""


def _old_paint(facts: Facts) -> str:
    site = facts.work_area.job.site
    tested = ", lead found" if site.lead_test == "positive" else ""
    return f"{built(facts)}{tested}" if lead.lead_open(site, facts.work_area.basis) else ""


def _disturbed(outside: bool) -> Because:
    def because(facts: Facts) -> str:
        over = lead.over_the_limit(facts) and facts.exposure.outside is outside
        return f"about {lead.disturbed(facts):.0f} ft² of old paint sanded, scraped or cut open" if over else ""

    return because


def _lead_work(outside: bool) -> Because:
    def because(facts: Facts) -> str:
        over = lead.over_the_limit(facts) and facts.exposure.outside is outside
        return "paint that may hold lead is worked on" if over else ""

    return because


def _dusty(facts: Facts) -> str:
    return facts.exposure.compound if facts.exposure.worked else ""


def _solvent(what: str) -> Because:
    return lambda facts: f"{what}{_listed(facts.solvents)}" if facts.solvents else ""


def _rags(facts: Facts) -> str:
    titles = tuple(dict.fromkeys((*facts.solvents, *facts.oils)))
    return f"rags wet with {_listed(titles)}" if titles else ""


def _listed(titles: tuple[str, ...]) -> str:
    return " and ".join(each[:1].lower() + each[1:] for each in titles)


def _sprayed(text: str) -> Because:
    return lambda facts: text if facts.exposure.sprayed else ""


def _mist(facts: Facts) -> str:
    exposure = facts.exposure
    return "spray mist in a room with finishes that stay" if exposure.sprayed and not exposure.outside else ""


def _breathed(facts: Facts) -> str:
    exposure = facts.exposure
    found = [
        (exposure.sprayed, "spray mist outdoors" if exposure.outside else "spray mist in a closed room"),
        (exposure.scraped, "scraping"),
        (exposure.old_paint is not None and exposure.old_paint.value > 0, "sanding old paint"),
        (bool(exposure.compound), exposure.compound),
        (bool(facts.solvents), "solvent vapor"),
    ]
    return ", ".join(text for holds, text in found if holds) if exposure.worked else ""


def _hot(low: str, high: str | None) -> Because:
    """Return why it is hot: a heat index from one row of the table up to the next, or mist in a sealed room."""

    def because(facts: Facts) -> str:
        library = facts.work_area.basis.library
        index = drying.heat_index(facts.work_area.job.site)
        least = library.row("cautions", low).likely
        most = library.row("cautions", high).likely if high else float("inf")
        if facts.exposure.worked and index is not None and least <= index < most:
            return f"heat index {index:.0f} °F in moving shade"
        cooler = index is None or index < least
        sealed = low == "heat" and facts.exposure.sprayed and not facts.exposure.outside
        return "a sealed room without moving air" if sealed and cooler else ""

    return because


def _stood_on(*wanted: Footing) -> Because:
    def because(facts: Facts) -> str:
        stood, top = heights.footing(facts), facts.exposure.top
        if stood not in wanted or top is None:
            return ""
        if facts.exposure.over_stairs:
            return "walls over a stair"
        return f"{facts.exposure.top_name} at {top.value:.1f} ft"

    return because


def _high(facts: Facts) -> str:
    top = facts.exposure.top
    if top is None or not heights.falls_far(facts, facts.work_area.basis):
        return ""
    return "walls over a stair" if facts.exposure.over_stairs else f"{facts.exposure.top_name} at {top.value:.1f} ft"


def _lines(facts: Facts) -> str:
    return "ladders and poles along the house" if facts.exposure.outside and facts.exposure.worked else ""


def _fixtures(facts: Facts) -> Fixtures:
    return facts.work_area.room.room.fixtures


def _powered(facts: Facts) -> str:
    exposure, there = facts.exposure, _fixtures(facts)
    lights = (there.recessed_light, there.ceiling_light, there.pendant, there.fan)
    covered = exposure.covers_fixtures and any(each != 0 for each in lights)
    found = ["lights and fans in reach of paint and film"] if covered else []
    found += ["switch and outlet plates taken off"] if exposure.plates else []
    return " and ".join(found) if exposure.worked else ""


def _counted(kind: str, uncounted: str = "") -> Because:
    """Return how many there are of a kind of fixture; `uncounted` is what is said where nobody counted them."""

    def because(facts: Facts) -> str:
        count = getattr(_fixtures(facts), kind)
        if not (facts.exposure.worked and facts.exposure.covers_fixtures) or count == 0:
            return ""
        return uncounted if count is None else f"{count} counted out, {count} to be counted back in"

    return because


def _wet(facts: Facts) -> str:
    stained = any(each.kind is StainKind.WATER for each in facts.exposure.stains)
    return "a water stain" if stained else "the wall is damp" if facts.exposure.damp else ""


def _splashed(facts: Facts) -> str:
    exposure = facts.exposure
    found = ["work above the head"] if exposure.overhead else []
    found += ["strippers and hot water"] if exposure.strippers else []
    return " and ".join(found) if exposure.worked else ""


def _heavy(facts: Facts) -> str:
    heavy = facts.work_area.room.room.furniture is Furniture.HEAVY
    return "heavy furniture" if heavy and facts.exposure.worked else ""


def _if(fact: Callable[[Facts], bool], text: str) -> Because:
    return lambda facts: text if facts.exposure.worked and fact(facts) else ""


RAISED_BY: Mapping[str, Because] = MappingProxyType(
    {
        "asbestos_texture": _suspect,
        "asbestos_content": _sampled,
        "asbestos_renovation_area": _removed,
        "lead_paint": _old_paint,
        "lead_minor_repair_interior": _disturbed(outside=False),
        "lead_minor_repair_exterior": _disturbed(outside=True),
        "lead_floor_sheeting": _lead_work(outside=False),
        "lead_ground_sheeting": _lead_work(outside=True),
        "silica_dust": _dusty,
        "solvent_fire": _solvent(""),
        "solvent_vapor": _solvent(""),
        "waste_solvent": _solvent("left over: "),
        "spontaneous_rags": _rags,
        "spray_injection": _sprayed("airless spraying"),
        "spray_gun_safety": _sprayed("airless spraying"),
        "mist_on_finishes": _mist,
        "overspray_outdoors": _if(lambda facts: facts.exposure.sprayed and facts.exposure.outside, "spraying outdoors"),
        "respirators": _breathed,
        "heat": _hot("heat", "heat_high"),
        "heat_high": _hot("heat_high", "heat_extreme"),
        "heat_extreme": _hot("heat_extreme", None),
        "texture_release": lambda facts: facts.exposure.release,
        "step_ladders": _stood_on(*STEPPED),
        "ladders": _stood_on(*EXTENDED),
        "ladder_slope": _stood_on(*EXTENDED),
        "work_height": _high,
        "power_lines": _lines,
        "live_fixtures": _powered,
        "detectors": _counted("detector", "not counted yet"),
        "sprinkler_heads": _counted("sprinkler_head"),
        "mold": _wet,
        "confined_air": _if(lambda facts: facts.exposure.closets, "closets painted inside"),
        "steam_stripping": _if(lambda facts: facts.exposure.stripped, "walls with outlets are soaked or steamed"),
        "cleanup_skin": _splashed,
        "two_person_lift": _heavy,
        "wood_cleaners": lambda facts: facts.exposure.cleaners if facts.exposure.worked else "",
        "treated_wood_dust": _if(lambda facts: facts.exposure.treated_wood, "treated wood of unknown age is sanded"),
        "pressure_washer": _if(lambda facts: facts.exposure.power_washed, "washing under pressure"),
    }
)
"""Every caution of the reference table, with what raises it."""
