"""The ordinary weather of the season in which work outdoors is planned, as a climate table of the place has it."""

from __future__ import annotations

from pydantic import model_validator

from estimating.errors import InputError
from estimating.job.values import Notes, Temperature, Whole


class Season(Notes):
    """One month's ordinary weather; what nobody looked up is unknown, and no days are then allowed for it."""

    month: str | None = None
    night_low: Temperature | None = None
    day_high: Temperature | None = None
    dew_point: Temperature | None = None
    rain_days: Whole | None = None  # days of the month with rain to measure
    wind_mph: Whole | None = None  # by day
    source: str | None = None  # the station and the table it was read in

    @model_validator(mode="after")
    def _in_order(self) -> Season:
        low, high = self.night_low, self.day_high
        if low is not None and high is not None and low.value > high.value:
            raise InputError("night_low", low.text, f"no more than the high of the day, {high.text}")
        if self.rain_days is not None and self.rain_days > DAYS:
            raise InputError("rain_days", self.rain_days, f"no more than {DAYS} days of a month")
        return self


DAYS = 31
