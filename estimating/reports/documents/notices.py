"""What a client is told of each caution, in a sentence; those for the crew alone have none.

The wording is ours. What a caution rests on stands in the reference table and on the crew sheet.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from estimating.estimate.pricing.plan import Audience, Caution
from estimating.workbook import Outcome

TAIL = (
    "Usual cautions, not advice for this building. Local codes and licensed practice come first; nothing here says "
    "that work complies with any rule."
)
NOTICES: Mapping[str, str] = MappingProxyType(
    {
        "asbestos_texture": "Texture, joint compound and plaster of this age may hold asbestos. Please do not scrape, "
        "sand or drill them; a laboratory test settles it, and if it is positive the work is for a licensed firm.",
        "asbestos_content": "What counts as asbestos material is set by local rules and found by a laboratory.",
        "asbestos_renovation_area": "Removal of asbestos is for a licensed contractor, who also gives any notice due.",
        "lead_paint": "Paint of this age may hold lead. Until it is tested we do not dry-scrape, dry-sand or burn it. "
        "Where the lead rules apply, a certified firm and its work practices are needed; local rules may ask more.",
        "lead_minor_repair_interior": "More old paint is opened here than the small-repair limit of the lead rules for "
        "a room: the work practices of those rules apply.",
        "lead_minor_repair_exterior": "More old paint is opened outside than the small-repair limit of the lead rules: "
        "the work practices of those rules apply.",
        "lead_floor_sheeting": "While old paint is disturbed, please stay out of the sheeted area until it is cleaned.",
        "lead_ground_sheeting": "While old paint is disturbed, please stay off the sheeted ground until it is cleaned.",
        "silica_dust": "Sanding is done damp or with a vacuum. Some fine dust is still possible: keep the doors to the "
        "other rooms closed.",
        "solvent_fire": "While solvent primer is in use, pilot lights, igniters and anything that sparks stay off, and "
        "the room is aired to the outside.",
        "solvent_vapor": "While solvent primer is in use, people and pets stay out until the smell is gone.",
        "live_fixtures": "Lights stay off at the breaker while they are covered. Opening a fixture is an electrician's "
        "work.",
        "detectors": "Smoke and CO alarms are covered only while we work and are uncovered and tested before we leave "
        "each day. If yours are monitored, please let the monitoring company know.",
        "sprinkler_heads": "Sprinkler heads are never painted. We cover them only as local rules allow.",
        "mist_on_finishes": "Spray mist settles on what is left uncovered: please take out anything you want kept "
        "clear of it.",
        "texture_release": "Old texture can come loose when it gets wet. If it does, we stop, show you, and go on as "
        "agreed in writing.",
        "mold": "Where there is a stain, the leak has to be found and fixed first. Mold over a larger area, or where "
        "anyone is ill, is for a specialist.",
        "confined_air": "Please stay out of closets and other closed spaces while they are painted.",
        "pressure_washer": "While we pressure-wash, please stay clear and keep windows closed.",
        "overspray_outdoors": "Please move cars and outdoor things away before we spray; we do not spray in wind.",
        "waste_solvent": "Leftover solvent goes to a collection site, never down a drain.",
        "steam_stripping": "Power to the walls stays off while they are soaked or steamed, and the water is hot: "
        "please stay out of the room.",
        "wood_cleaners": "Wood is washed with bleach, lye or acid cleaners, one at a time, and rinsed. Please keep "
        "people and pets off it until it is rinsed; plants beside it are wetted and covered.",
        "power_lines": "Please tell us of any wires above or beside the house; the utility can cover or isolate them.",
    }
)


def cautions_taken(outcome: Outcome) -> tuple[Caution, ...]:
    """Return the cautions of every method taken, each once."""
    raised = {each.key: each for plan in reversed(outcome.estimate.plans) for each in reversed(plan.cautions)}
    return tuple(reversed(raised.values()))


def client_notices(outcome: Outcome) -> list[str]:
    """Return what the client is told, each once, in the order in which the work raises it."""
    told = [each for each in cautions_taken(outcome) if each.audience is Audience.EVERYONE]
    return [NOTICES[each.key] for each in told]
