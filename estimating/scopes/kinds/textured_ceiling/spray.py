"""Choosing a spray set-up for a ceiling: every tip at hand, at two pressures, by the mist it leaves in the air."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from estimating.figures import Figure, leaf, work
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.trade import film, spraying
from estimating.units import convert

LEAST_PASSES = 2.0  # two light crossed passes beat one wet one on texture: common practice, no source
PRESSURES = {"usual": "airless", "reduced": "airless_reduced"}  # setting: row of paint loss


@dataclass(frozen=True)
class SetUp:
    """A tip at a pressure, and the passes it takes here."""

    tip: spraying.TipCode
    setting: str
    plan: spraying.PassPlan

    @property
    def method(self) -> str:
        """The row of paint loss this set-up falls under."""
        return PRESSURES[self.setting]


def set_ups(ceiling: Ceiling, product: str, coat: str) -> tuple[SetUp, ...]:
    """Return every set-up at hand, the possible ones first, the one that leaves least mist before all."""
    asked, field = ceiling.item.tip, f'work "{ceiling.item.room}" · tip'
    texts = [asked] if asked else [keys[0] for keys in ceiling.work_area.basis.library.table("tips")]
    tips = _read(tuple(texts), field)
    guns = tuple((setting, _gun(ceiling, setting, tips[0])) for setting in PRESSURES)
    return _ranked(guns, tips, _coat(ceiling, product, coat), _hand(ceiling))


@lru_cache(maxsize=32)  # the tips at hand are the same for every coat
def _read(texts: tuple[str, ...], field: str) -> tuple[spraying.TipCode, ...]:
    return tuple(spraying.read_tip_code(text, field) for text in texts)


@lru_cache(maxsize=32)  # all coats of all ways to spray one ceiling ask for few different ones
def _ranked(
    guns: tuple[tuple[str, spraying.Gun], ...],
    tips: tuple[spraying.TipCode, ...],
    wanted: spraying.SprayCoat,
    hand: spraying.Hand,
) -> tuple[SetUp, ...]:
    found = [
        SetUp(tip, setting, spraying.plan_passes(replace(gun, tip=tip), wanted, hand))
        for setting, gun in guns
        for tip in tips
    ]
    found.sort(key=lambda each: (not each.plan.possible, round(each.plan.mist, 6), each.plan.passes, each.plan.gun_on))
    return tuple(found)


def chosen(ceiling: Ceiling, product: str, coat: str) -> SetUp:
    """Return the set-up to use; where none can lay an even film, the least bad, whose plan says why."""
    return set_ups(ceiling, product, coat)[0]


def _value(ceiling: Ceiling, *row: str, unit: str) -> float:
    figure = ceiling.work_area.basis.figure(*row)
    return float(convert(figure.value, figure.unit, unit))


def _gun(ceiling: Ceiling, setting: str, tip: spraying.TipCode) -> spraying.Gun:
    return spraying.Gun(
        tip=tip,
        pressure=_value(ceiling, "spray", "pressure", setting, unit="psi"),
        distance=_value(ceiling, "spray", "gun", "distance", unit="inch"),
        overlap=_value(ceiling, "spray", "gun", "overlap", unit="percent"),
        discharge=_value(ceiling, "spray", "discharge", "coefficient", unit="dimensionless"),
        loss=_value(ceiling, "losses", PRESSURES[setting], "masked_interior", unit="percent"),
        pump_capacity=_value(ceiling, "spray", "pump", "capacity", unit="gallon/minute"),
        tip_wear=_value(ceiling, "spray", "tip", "wear", unit="percent"),
    )


def _coat(ceiling: Ceiling, product: str, coat: str) -> spraying.SprayCoat:
    return spraying.SprayCoat(
        area=ceiling.area.value,
        dry_film=wanted_film(ceiling, product, coat).value,
        volume_solids=_value(ceiling, "coatings", product, "volume_solids", unit="percent"),
        specific_gravity=_value(ceiling, "coatings", product, "density", unit="kilogram/liter"),
        sag_limit=sag_over_flat(ceiling, coat),
    )


def sag_over_flat(ceiling: Ceiling, coat: str) -> float:
    """Return the wet film over the flat area (thou) above which a pass sags.

    The limit is for paint standing on the surface: texture has more surface than its flat area, and what a porous
    surface drinks no longer stands on it.
    """
    surface = film.film_over_flat(
        dry_film=_value(ceiling, "spray", "film", "texture", unit="thou"),
        area_factor=_value(ceiling, "surfaces", ceiling.surface, "area_factor", unit="dimensionless"),
        take_up=_value(ceiling, "take_up", ceiling.porosity, coat, unit="dimensionless"),
    )
    return float(surface)


def _hand(ceiling: Ceiling) -> spraying.Hand:
    return spraying.Hand(
        slowest=_value(ceiling, "spray", "gun", "speed_least", unit="ft/second"),
        fastest=_value(ceiling, "spray", "gun", "speed_most", unit="ft/second"),
        least_pressure=_value(ceiling, "spray", "pressure", "least", unit="psi"),
        most_passes=_value(ceiling, "spray", "passes", "most", unit="dimensionless"),
        least_passes=LEAST_PASSES,
    )


def wanted_film(ceiling: Ceiling, product: str, coat: str) -> Figure:
    """Return the dry film that has to be laid over the flat area so that the texture is covered (thou)."""
    basis = ceiling.work_area.basis
    return work(
        film.film_over_flat,
        f"{product.replace('_', ' ')}, film over the flat area",
        dry_film=basis.figure("coatings", product, "dry_film"),
        area_factor=basis.figure("surfaces", ceiling.surface, "area_factor"),
        take_up=basis.figure("take_up", ceiling.porosity, coat),
    )


def gun_hours(ceiling: Ceiling, set_up: SetUp, product: str, coat: str) -> tuple[Figure, tuple[Figure, ...]]:
    """Return the hours at the gun for one coat, and the figures of the set-up on the way there."""
    basis = ceiling.work_area.basis
    overlap = basis.figure("spray", "gun", "overlap")
    flow, fan = _flow(ceiling, set_up, product), _fan(ceiling, set_up)
    passes, each = _passes(ceiling, set_up, product, coat)
    laid = {"fan_width": fan, "overlap": overlap}
    loss = basis.figure("losses", set_up.method, "masked_interior")
    speed = work(spraying.arm_speed_for_film, "arm speed", film=each, loss=loss, flow=flow, **laid)
    swept = {**laid, "arm_speed": speed, "passes": passes}
    gun_on = work(spraying.gun_on_minutes, "trigger held", area=ceiling.area, **swept)
    share = basis.figure("production", "spray_lap", "airless", "any")
    spacing = work(spraying.pass_spacing, "between strokes", **laid)
    hours = work(spraying.spray_hours, "at the gun", gun_on=gun_on, trigger_share=share)
    return hours, (flow, fan, spacing, passes, each, speed, gun_on)


def _fan(ceiling: Ceiling, set_up: SetUp) -> Figure:
    coded = _coded(set_up, "fan", set_up.tip.fan_inches)
    distance = ceiling.work_area.basis.figure("spray", "gun", "distance")
    return work(spraying.fan_width, "fan on the surface", coded_fan=coded, distance=distance)


def _passes(ceiling: Ceiling, set_up: SetUp, product: str, coat: str) -> tuple[Figure, Figure]:
    """Return the passes of a coat, and the wet film that each of them lays."""
    origin = Origin(
        Kind.DEFINITION,
        place="the fewest that stay below the sag limit at a speed the arm can hold, and no fewer than two",
    )
    passes = leaf("passes", float(set_up.plan.passes), "dimensionless", origin)
    solids = ceiling.work_area.basis.figure("coatings", product, "volume_solids")
    wanted = wanted_film(ceiling, product, coat)
    wet = work(film.wet_film, "wet film of the coat", dry_film=wanted, volume_solids=solids)
    return passes, work(film.per_pass, "wet film, each pass", wet_film=wet, passes=passes)


def _flow(ceiling: Ceiling, set_up: SetUp, product: str) -> Figure:
    basis = ceiling.work_area.basis
    return work(
        spraying.orifice_flow,
        "flow at the tip",
        orifice=_coded(set_up, "orifice", set_up.tip.orifice_inches),
        pressure=basis.figure("spray", "pressure", set_up.setting),
        discharge=basis.figure("spray", "discharge", "coefficient"),
        specific_gravity=work(
            film.specific_gravity, "specific gravity", density=basis.figure("coatings", product, "density")
        ),
    )


def _coded(set_up: SetUp, what: str, inches: float) -> Figure:
    origin = Origin(Kind.DEFINITION, place=f"tip code {set_up.tip}")
    return leaf(f"{what} of tip {set_up.tip}", inches, "inch", origin)


def problems(ceiling: Ceiling, product: str) -> tuple[str, ...]:
    """Return what stands against spraying the first coat with the best set-up there is; nothing when it can be done."""
    best = chosen(ceiling, product, "first")
    return tuple(f"tip {best.tip}, {best.setting} pressure: {each}" for each in best.plan.problems)
