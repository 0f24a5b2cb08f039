"""What a plan asks of the client's household, by its facts and by nothing else."""

from __future__ import annotations

from estimating.job.values import Answer
from estimating.scopes.shared import lead
from estimating.scopes.shared.exposure import Facts


def client_requirements(facts: Facts) -> tuple[str, ...]:
    """Return what the household is asked to do or to keep away from."""
    exposure, site = facts.exposure, facts.work_area.job.site
    if not exposure.worked:
        return ()
    outside = exposure.outside
    occupied = site.occupied is not Answer.NO
    household = ", ".join(str(each) for each in site.household or ())
    wanted = [
        (occupied and not outside, "keep the room free from the first morning until the final walk"),
        (
            occupied and bool(household) and not outside,
            f"keep clear of the room while work goes on ({household})",
        ),
        (outside, "keep people, pets, cars and outdoor furniture away from the work until it is dry"),
        (outside and exposure.power_washed, "windows shut and locked while washing goes on, and outlets covered"),
        (lead.over_the_limit(facts), "read the lead pamphlet handed over before work begins, and sign for it"),
        (exposure.closets, "empty the closets that are painted"),
        (exposure.sprayed and outside, "windows and doors shut and air intakes off while spraying"),
        (exposure.sprayed and not outside, "air handling off while spraying and until the mist has settled"),
        (
            exposure.paint_dries_on_doors,
            "leave painted doors and windows open, and do not lean on them, until the paint is hard",
        ),
        (
            bool(facts.solvents),
            "every flame and igniter off, and the room shut to the house and aired outdoors, until the vapor has gone",
        ),
        (exposure.stripped, "power to the walls off while they are soaked"),
    ]
    return tuple(text for holds, text in wanted if holds)
