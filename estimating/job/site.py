"""Who the work is for, and the building it stands in."""

from __future__ import annotations

from enum import StrEnum

from pydantic import model_validator

from estimating.errors import InputError
from estimating.job.season import Season
from estimating.job.values import Answer, Listed, Notes, Percent, Temperature, Whole


class Client(Notes):
    """The household or owner."""

    name: str | None = None
    contact: str | None = None


class TestResult(StrEnum):
    """What a laboratory found."""

    __test__ = False  # not a test case, whatever its name begins with

    NOT_TESTED = "not tested"
    NEGATIVE = "negative"
    POSITIVE = "positive"


class Household(StrEnum):
    """People and habits that change hours, product or odor."""

    CHILDREN = "children"
    PREGNANCY = "pregnancy"
    ALLERGIES = "allergies"
    PETS = "pets"
    DAY_SLEEPER = "day sleeper"
    WORKS_FROM_HOME = "works from home"


class Ignition(StrEnum):
    """Something that can light solvent vapor, and whether it can be put out of use."""

    ABSENT = "absent"
    CAN_BE_SHUT_OFF = "can be shut off"
    CANNOT_BE_SHUT_OFF = "cannot be shut off"


class IgnitionSources(Notes):
    """What in or near the room can light solvent vapor."""

    pilot_flame: Ignition | None = None
    gas_appliance: Ignition | None = None
    open_fire: Ignition | None = None
    electric_motor: Ignition | None = None


class Site(Notes):
    """The building and the conditions of work."""

    address: str | None = None
    state: str | None = None
    year_built: Whole | None = None
    asbestos_test: TestResult | None = None
    lead_test: TestResult | None = None
    occupied: Answer | None = None
    household: Listed[Household] | None = None
    travel_minutes: Whole | None = None  # one way
    air: Temperature | None = None
    surface: Temperature | None = None
    humidity: Percent | None = None
    airflow: Answer | None = None  # can the room be aired to the outside
    ignition: IgnitionSources = IgnitionSources()
    season: Season = Season()  # for work outdoors


class Experience(StrEnum):
    """How long a crew has done this kind of work."""

    EXPERIENCED = "experienced"
    LEARNING = "learning"


class Crew(Notes):
    """Who does the work."""

    people: Whole = 1
    experience: Experience = Experience.EXPERIENCED

    @model_validator(mode="after")
    def _somebody_comes(self) -> Crew:
        if self.people < 1:
            raise InputError("people", self.people, "1 person or more")
        return self
