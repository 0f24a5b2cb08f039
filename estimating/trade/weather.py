"""The season outdoors: on how many days a coat can go on, by its ordinary weather, and how likely it slips.

A month's rain days, temperatures and dew point go in. Rain of one day makes rain on the next more likely; temperature
strays round its ordinary value from day to day. What is left out: that fit days come in runs as well, sun and shade,
and everything a forecast of the week says better.
"""

from __future__ import annotations

import numpy as np
from scipy import special

from estimating.origins import Kind, Origin, definition, judgment
from estimating.rules import rule
from estimating.trade._numbers import require
from estimating.units import Number

DAY = 24.0  # hours
WHOLE = 1e-9
CHAIN = Origin(Kind.MEMORY, note="two-state Markov chain of wet and dry days")


@rule(
    "share = rain days / days of the month",
    "dimensionless",
    definition("a share"),
    rain_days="dimensionless, 0 or more",
    days="dimensionless, more than 0",
)
def wet_share(*, rain_days: Number, days: Number) -> Number:
    """Return the share of days with rain."""
    require(rain_days <= days, "rain_days", rain_days, "no more than the days of the month")
    return rain_days / days


@rule(
    "rain after a dry day = wet share · (1 − persistence)",
    "dimensionless",
    CHAIN,
    wet="dimensionless, a share from 0 to 1",
    persistence="dimensionless, a share from 0 to 1",
)
def rain_after_a_dry_day(*, wet: Number, persistence: Number) -> Number:
    """Return the chance of rain on the day after a dry one.

    persistence: how much likelier rain is after a wet day than after a dry one; 0 where days do not hang together.
    """
    return wet * (1 - persistence)


@rule(
    "share = (1 − wet) · (1 − rain after a dry day)^(hours / 24)",
    "dimensionless",
    CHAIN,
    wet="dimensionless, a share from 0 to 1",
    persistence="dimensionless, a share from 0 to 1",
    hours="hour, 0 or more",
)
def dry_spell_share(*, wet: Number, persistence: Number, hours: Number) -> Number:
    """Return the share of days that are dry and are followed by so many dry hours."""
    goes_on = 1 - rain_after_a_dry_day(wet=wet, persistence=persistence)
    return (1 - wet) * goes_on ** (hours / DAY)


@rule(
    "share = P(night and day warm enough) − P(day too hot), normal round the ordinary values",
    "dimensionless",
    judgment("low and high of a day stray together, as one normal deviate"),
    night_low="degF",
    day_high="degF",
    spread="delta_degF, more than 0",
    night_least="degF",
    day_least="degF",
    day_most="degF",
)
def mild_share(
    *, night_low: Number, day_high: Number, spread: Number, night_least: Number, day_least: Number, day_most: Number
) -> Number:
    """Return the share of days whose night stays above one limit and whose day lies between two others.

    spread: how far the temperature of a day strays from the ordinary one (standard deviation).
    """
    cold = np.minimum(night_low - night_least, day_high - day_least) / spread
    hot = (day_high - day_most) / spread
    left: Number = np.maximum(special.ndtr(cold) - special.ndtr(hot), 0.0)
    return left


@rule(
    "hours = 24 / π · arccos((limit − mean) / half the swing)",
    "hour",
    Origin(Kind.MEMORY, note="single-sine method for the course of a day between its low and its high"),
    night_low="degF",
    day_high="degF",
    limit="degF",
)
def hours_above(*, night_low: Number, day_high: Number, limit: Number) -> Number:
    """Return for how many hours of an ordinary day it is warmer than a limit.

    >>> round(float(hours_above(night_low=40.0, day_high=60.0, limit=55.0)), 6)
    8.0
    """
    require(night_low < day_high, "night_low", night_low, "less than the high of the day")
    mean, half = (night_low + day_high) / 2, (day_high - night_low) / 2
    hours: Number = DAY / np.pi * np.arccos(np.clip((limit - mean) / half, -1.0, 1.0))
    return hours


@rule(
    "days = coats · (1 / share − 1), a part of one counted as one",
    "day",
    definition("mean of a waiting time"),
    coats="dimensionless, 0 or more",
    share="dimensionless, more than 0, a share from 0 to 1",
)
def days_lost(*, coats: Number, share: Number) -> Number:
    """Return the calendar days that weather is likely to take beyond the days on which coats go on."""
    lost: Number = np.ceil(coats * (1 / share - 1) - WHOLE)
    return lost


@rule(
    "P(fewer fit days than coats among coats + allowed), by the incomplete beta function",
    "dimensionless",
    definition("binomial: days fit or not, each by itself"),
    coats="dimensionless, 1 or more",
    share="dimensionless, a share from 0 to 1",
    allowed="day, 0 or more",
)
def chance_of_slip(*, coats: Number, share: Number, allowed: Number) -> Number:
    """Return the chance that the coats are not all on after the days allowed for weather."""
    slipped: Number = np.asarray(special.betainc(allowed + 1, coats, 1 - np.asarray(share)), dtype=np.float64)[()]
    return slipped


@rule(
    "limit = the warmer of the least for paint and the dew point with its margin",
    "degF",
    definition("both hold"),
    least="degF",
    dew_point="degF",
    margin="delta_degF, 0 or more",
)
def surface_limit(*, least: Number, dew_point: Number, margin: Number) -> Number:
    """Return how warm a surface has to be so that paint can go on it."""
    limit: Number = np.maximum(least, dew_point + margin)
    return limit


@rule(
    "share = dry · mild",
    "dimensionless",
    judgment("rain and mild days by themselves; where rain comes with cold, more days are fit than this says"),
    dry="dimensionless, a share from 0 to 1",
    mild="dimensionless, a share from 0 to 1",
)
def fit_share(*, dry: Number, mild: Number) -> Number:
    """Return the share of days that are both dry for long enough and mild enough."""
    return dry * mild
