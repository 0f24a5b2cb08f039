"""What a plan asks of the client's household, by its facts and by nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from estimating.job.site import Household
from estimating.job.values import Answer
from estimating.scopes.shared import lead
from estimating.scopes.shared.exposure import Facts

HOUSEHOLD: Mapping[Household, str] = MappingProxyType(
    {
        Household.CHILDREN: "keep children out of the rooms we work in until the paint is dry",
        Household.PETS: "keep pets out of the rooms we work in until the paint is dry",
        Household.PREGNANCY: "anyone who is expecting should stay out of the rooms we work in until the smell is gone",
        Household.ALLERGIES: "tell us about allergies before we start, and stay out of a room until it is aired",
        Household.DAY_SLEEPER: "tell us which hours have to be quiet; scraping, sanding and sprayers are loud",
        Household.WORKS_FROM_HOME: "plan to work from another room while yours is being painted",
    }
)


def client_requirements(facts: Facts) -> tuple[str, ...]:
    """Return what the household is asked to do or to keep away from."""
    exposure, site = facts.exposure, facts.work_area.job.site
    if not exposure.worked:
        return ()
    outside = exposure.outside
    occupied = site.occupied is not Answer.NO
    inside = occupied and not outside
    wanted = [
        (inside, "keep the rooms we work in free from the first morning until the final walk-through"),
        *((inside and each in (site.household or ()), text) for each, text in HOUSEHOLD.items()),
        (outside, "keep people, pets, cars and outdoor furniture away from the work until it is dry"),
        (outside and exposure.power_washed, "shut and lock the windows while we wash, and cover outdoor outlets"),
        (lead.over_the_limit(facts), "read the lead pamphlet we hand you before work begins, and sign for it"),
        (exposure.closets, "empty the closets we paint"),
        (exposure.sprayed and outside, "keep windows and doors shut and air intakes off while we spray"),
        (
            exposure.sprayed and not outside,
            "leave heating, cooling and fans off until we tell you the spray mist has settled",
        ),
        (
            exposure.paint_dries_on_doors,
            "leave freshly painted doors and windows open, and do not lean on them, until the paint is hard",
        ),
        (
            bool(facts.solvents),
            "turn off pilot lights and anything that can spark, and keep the room closed to the house and aired to the "
            "outside, until the smell is gone",
        ),
        (exposure.stripped, "leave the power to these walls off at the breaker while they are wet"),
    ]
    return tuple(text for holds, text in wanted if holds)
