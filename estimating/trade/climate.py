"""Weather in the room and on the wall: dew point, heat on the crew, and how long paint takes to dry."""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, published
from estimating.rules import rule
from estimating.units import Number

# Magnus form over water with Sonntag's coefficients, as the WMO gives them; °C.
_MAGNUS_SLOPE, _MAGNUS_ZERO = 17.62, 243.12
# Heat index at and above which work is in the band, °F: bands of the occupational safety agency's heat guidance.
HEAT_BANDS = ((115.0, "very high"), (103.0, "high"), (91.0, "moderate"))


@rule(
    "γ = ln RH + 17.62 t ÷ (243.12 + t); dew point = 243.12 γ ÷ (17.62 − γ)",
    "degC",
    published("wmo-cimo-annex-4b", "Annex 4.B, Magnus formula over water"),
    air="degC, −40 to 60 °C (−40 to 140 °F)",
    humidity="percent, more than 0, at most 100",
)
def dew_point(*, air: Number, humidity: Number) -> Number:
    """Return the temperature at which this air starts to wet a surface.

    Over water, for air from −40 to 60 °C. Read humidity and temperature at the surface, not at the thermostat.

    >>> round(float(dew_point(air=20.0, humidity=50.0)), 1)
    9.3
    """
    gamma = np.log(humidity / 100) + _MAGNUS_SLOPE * air / (_MAGNUS_ZERO + air)
    return _MAGNUS_ZERO * gamma / (_MAGNUS_SLOPE - gamma)


@rule("margin = surface − dew point", "delta_degC", definition("subtraction"), surface="degC", dew_point="degC")
def dew_margin(*, surface: Number, dew_point: Number) -> Number:
    """Return how far a surface is above the dew point; handbooks ask for 3 °C (5 °F) and rising."""
    return surface - dew_point


def _full_heat_index(air: Number, humidity: Number) -> Number:
    """Return Rothfusz's regression with both adjustments of the National Weather Service."""
    index = (
        -42.379
        + 2.04901523 * air
        + 10.14333127 * humidity
        - 0.22475541 * air * humidity
        - 0.00683783 * air**2
        - 0.05481717 * humidity**2
        + 0.00122874 * air**2 * humidity
        + 0.00085282 * air * humidity**2
        - 0.00000199 * air**2 * humidity**2
    )
    dry = (13 - humidity) / 4 * np.sqrt(np.maximum(17 - np.abs(air - 95), 0) / 17)
    damp = (humidity - 85) / 10 * (87 - air) / 5
    index = index - np.where((humidity < 13) & (air >= 80) & (air <= 112), dry, 0)
    adjusted: Number = index + np.where((humidity > 85) & (air >= 80) & (air <= 87), damp, 0)
    return adjusted


@rule(
    "regression of temperature and humidity; below 80 °F the mean of 0.5 (T + 61 + 1.2 (T − 68) + 0.094 RH) and T",
    "degF",
    published("nws-heat-index-1990", "heat index equation with both adjustments"),
    air="degF, 32 to 120",
    humidity="percent, 0 to 100",
)
def heat_index(*, air: Number, humidity: Number) -> Number:
    """Return how hot the air feels in shade, °F; full sun can add up to 15 °F.

    For air from 32 to 120 °F; the regression goes astray where heat and damp are both beyond what people work in.
    Coveralls and respirators make it worse than the figure says.
    """
    simple = (0.5 * (air + 61 + 1.2 * (air - 68) + 0.094 * humidity) + air) / 2
    felt: Number = np.where(simple >= 80, _full_heat_index(air, humidity), simple)[()]
    return felt


def heat_band(index: float) -> str:
    """Return the band of heat guidance a heat index (°F) falls in: lower, moderate, high or very high.

    A value on the line counts as the hotter band. Guidance, not a limit: rest, water and shade are decided on site.
    """
    return next((name for start, name in HEAT_BANDS if index >= start), "lower")


@rule(
    "factor = 2^((standard air − air) ÷ doubling) × (100 − standard humidity) ÷ (100 − humidity)",
    "dimensionless",
    judgment(
        "Time doubles for a drop of `doubling` degrees: a rule of thumb for curing, from memory for paint. That water "
        "leaves in proportion to the dryness of the air is our own reading; it leaves out draft, suction and film."
    ),
    air="degC, 4 to 40 °C (40 to 104 °F)",
    humidity="percent, 0 to 90 percent; above that paint may not dry",
    standard_air="degC",
    standard_humidity="percent, 0 to 90",
    doubling="delta_degC, more than 0",
)
def drying_time_factor(
    *, air: Number, humidity: Number, standard_air: Number, standard_humidity: Number, doubling: Number
) -> Number:
    """Return what a printed drying time of a water-borne paint is multiplied by in this air.

    The standard is the air the data sheet speaks of, mostly 77 °F and 50 percent; doubling is about 10 °C. For paint
    that is not water-borne give the standard humidity as the humidity. Above 90 percent, or outside 4 to 40 °C, no
    factor is given: paint may not dry at all there.
    """
    cold = 2.0 ** ((standard_air - air) / doubling)
    damp = (100 - standard_humidity) / (100 - humidity)
    return cold * damp
