"""Hours from quantities, and what an hour costs.

A rate is per person-hour, so hours are hours on the clock of one person until `crew_elapsed` shares them out.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, practice, published
from estimating.rules import rule
from estimating.trade._numbers import require
from estimating.units import Number

MINUTES_PER_HOUR = 60
RATE = definition("a production rate is quantity over person-hours")


@rule("hours = area / rate", "hour", RATE, area="ft**2, 0 or more", rate="ft**2/hour, more than 0")
def hours_by_area(*, area: Number, rate: Number) -> Number:
    """Return the person-hours for an area (ft²) at a rate (ft² per person-hour)."""
    return area / rate


@rule("hours = length / rate", "hour", RATE, length="ft, 0 or more", rate="ft/hour, more than 0")
def hours_by_length(*, length: Number, rate: Number) -> Number:
    """Return the person-hours for a length (ft) at a rate (ft per person-hour)."""
    return length / rate


@rule("hours = count · minutes each / 60", "hour", RATE, count="dimensionless, 0 or more", minutes="minute, 0 or more")
def hours_by_count(*, count: Number, minutes: Number) -> Number:
    """Return the person-hours for a number of like things at so many minutes each."""
    return count * minutes / MINUTES_PER_HOUR


@rule(
    "hours = minutes each / 60 · (1 + (count − 1) · share), for less than one · count",
    "hour",
    practice("a batch of small repairs takes less for each than a single one"),
    count="dimensionless, 0 or more",
    minutes="minute, 0 or more",
    further="dimensionless, a share from 0 to 1",
)
def hours_by_batch(*, count: Number, minutes: Number, further: Number) -> Number:
    """Return the person-hours for like repairs done in one go: the first at full length, each further at a share of it.

    >>> float(hours_by_batch(count=5.0, minutes=15.0, further=0.5))
    0.75
    """
    return minutes / MINUTES_PER_HOUR * (np.minimum(count, 1.0) + further * np.maximum(count - 1.0, 0.0))


@rule(
    "hours = hours · factor",
    "hour",
    definition("a factor is hours here over hours in the plain case"),
    hours="hour, 0 or more",
    factor="dimensionless, more than 0",
)
def adjusted_hours(*, hours: Number, factor: Number) -> Number:
    """Return the hours made longer or shorter by one condition of the site."""
    return hours * factor


@rule(
    "factor = 1 + share · (factor − 1)",
    "dimensionless",
    judgment("height slows only the part that is high; a factor on the whole room overcharges it"),
    share="dimensionless, a share from 0 to 1",
    factor="dimensionless, more than 0",
)
def part_factor(*, share: Number, factor: Number) -> Number:
    """Return the factor for work of which only a share meets the condition, such as the high part of a wall."""
    return 1 + share * (factor - 1)


@rule(
    "hourly cost = wage · (1 + burden)",
    "dollar/hour",
    published("bls-ecec-2022", "Table 4", "Burden: what the employer pays on top, as a share of pay."),
    wage="dollar/hour, 0 or more",
    burden="dimensionless, 0 or more, as a share of the wage",
)
def loaded_wage(*, wage: Number, burden: Number) -> Number:
    """Return what a paid hour costs the employer: wage plus burden (taxes, insurance, benefits).

    >>> round(loaded_wage(wage=28.0, burden=0.29), 2)
    36.12
    """
    return wage * (1 + burden)


@rule(
    "cost = hours · loaded wage",
    "dollar",
    definition("hours at the wage with its burden"),
    hours="hour, 0 or more",
    loaded_wage="dollar/hour, 0 or more",
)
def labor_cost(*, hours: Number, loaded_wage: Number) -> Number:
    """Return what hours of labor cost, burden included and overhead left out."""
    return hours * loaded_wage


@rule(
    "rate = yearly overhead / productive hours",
    "dollar/hour",
    definition("overhead spread over the hours that can be charged"),
    yearly_overhead="dollar, 0 or more",
    productive_hours="hour, more than 0",
)
def overhead_rate(*, yearly_overhead: Number, productive_hours: Number) -> Number:
    """Return the overhead each charged hour has to carry (dollars per hour)."""
    return yearly_overhead / productive_hours


@rule(
    "cost = hours · overhead",
    "dollar",
    definition("overhead per hour"),
    hours="hour, 0 or more",
    overhead="dollar/hour, 0 or more",
)
def overhead_cost(*, hours: Number, overhead: Number) -> Number:
    """Return the overhead that a job's hours have to carry."""
    return hours * overhead


@rule(
    "elapsed = hours / crew",
    "hour",
    definition("hours shared evenly"),
    hours="hour, 0 or more",
    crew="dimensionless, more than 0 people",
)
def crew_elapsed(*, hours: Number, crew: Number) -> Number:
    """Return how long a crew is busy with hours that all of them can share."""
    return hours / crew


@rule(
    "working day = day on site − daily start / crew",
    "hour",
    definition("what opening and closing leave of the day; all hands share them"),
    day_length="hour",
    daily_start="hour",
    crew="dimensionless",
)
def working_day(*, day_length: Number, daily_start: Number, crew: Number) -> Number:
    """Return the hours of a day on site in which work goes forward; `daily_start` is in person-hours."""
    left = day_length - crew_elapsed(hours=daily_start, crew=crew)
    require(left > 0, "daily_start", daily_start, "less than the day the crew has on site")
    return left


@rule(
    "hours = days · hours a day",
    "hour",
    definition("multiplication"),
    days="dimensionless, 0 days or more",
    hours="hour, 0 or more",
)
def daily_hours(*, days: Number, hours: Number) -> Number:
    """Return the person-hours that come back every day on site."""
    return days * hours


@rule(
    "hours = days · 2 · one way · crew",
    "hour",
    definition("there and back, every person paid"),
    days="dimensionless, 0 days or more",
    one_way="hour, 0 or more",
    crew="dimensionless, more than 0 people",
)
def travel_hours(*, days: Number, one_way: Number, crew: Number) -> Number:
    """Return the person-hours on the road: there and back each day, for everybody in the van."""
    return days * 2 * one_way * crew
