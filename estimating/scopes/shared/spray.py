"""Choosing a spray set-up for a surface: every tip at hand, at two pressures, by the mist it leaves in the air."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from itertools import takewhile

from estimating.figures import Figure, leaf, work
from estimating.origins import Kind, Origin
from estimating.scopes.shared.surface import Surface
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import film, spraying

LEAST_PASSES = 2.0  # two light crossed passes beat one wet one on texture: common practice, no source
PRESSURES = {"usual": "airless", "reduced": "airless_reduced"}  # setting: row of paint loss
DROPLETS = {"usual": "fine", "reduced": "reduced_fine"}


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

    @property
    def droplets(self) -> str:
        """The row of droplets it leaves in the air."""
        return DROPLETS[self.setting]

    @property
    def in_words(self) -> str:
        """What the crew sets and keeps to."""
        plan = self.plan
        return (
            f"tip {self.tip}, {self.setting} pressure, {plan.fan:.0f} in fan, strokes {plan.spacing:.0f} in apart, "
            f"{plan.passes} crossed passes at {plan.arm_speed:.1f} ft/s"
        )


def _in_short(each: SetUp) -> str:
    return (
        f"{each.plan.gun_on:.0f} min of trigger, {each.plan.flow:.2f} gal a minute, arm {each.plan.arm_speed:.1f} ft/s"
    )


@lru_cache(maxsize=32)  # the tips at hand are the same for every coat
def _read(texts: tuple[str, ...], field: str) -> tuple[spraying.TipCode, ...]:
    return tuple(spraying.read_tip_code(text, field) for text in texts)


@lru_cache(maxsize=32)  # all coats of all methods of spraying one surface ask for few different ones
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
    found.sort(key=_worse)
    return tuple(found)


def _worse(each: SetUp) -> tuple[bool, float, int, float]:
    """Return what puts a set-up behind another: no even film, mist left in the air, passes, time at the trigger."""
    return not each.plan.possible, round(each.plan.mist, 6), each.plan.passes, round(each.plan.gun_on, 6)


@dataclass(frozen=True, eq=False)
class Spraying:
    """One coat sprayed on a surface pass by pass: "first" on what is there, "later" over a coat."""

    work_area: WorkArea
    surface: Surface
    coat: str
    tip: str | None = None  # the tip the notes ask for; without one, every tip at hand is looked at
    field: str = ""  # where they ask for it
    kept: spraying.TipCode | None = None  # of tips that are as good here, the one that is as good for every coat

    @cached_property
    def set_ups(self) -> tuple[SetUp, ...]:
        """Every set-up at hand, the possible ones first, the one that leaves least mist before all."""
        texts = [self.tip] if self.tip else [keys[0] for keys in self.work_area.basis.library.table("tips")]
        tips = _read(tuple(texts), self.field)
        guns = tuple((setting, self._gun(setting, tips[0])) for setting in PRESSURES)
        return _ranked(guns, tips, self._wanted, self._hand)

    @property
    def chosen(self) -> SetUp:
        """The set-up to use; where none can lay an even film, the least bad, whose plan says why."""
        return next((each for each in self.as_good if each.tip == self.kept), self.set_ups[0])

    @cached_property
    def as_good(self) -> tuple[SetUp, ...]:
        """The set-ups that nothing puts behind the best: tips of one orifice, whose wider fan slows the arm."""
        least = _worse(self.set_ups[0])
        return tuple(takewhile(lambda each: _worse(each) == least, self.set_ups))

    @property
    def compared(self) -> str:
        """Why this set-up: least mist first, then time; and what smaller tips of the narrowest fan would do instead."""
        mine, able = self.chosen, [each for each in self.set_ups if each.plan.possible]
        like = [each for each in able if each.setting == mine.setting and each.plan.flow < mine.plan.flow]
        narrow = min((each.tip.fan_inches for each in like), default=0.0)
        smaller = [each for each in like if each.tip.fan_inches == narrow]
        usual = [each.plan.mist for each in able if each.setting == "usual"]
        found = [f"tip {mine.tip}: {_in_short(mine)}, {mine.plan.mist:.2f} gal of mist"]
        found += [f"at the usual pressure {min(usual):.2f} gal of mist"] if usual else []
        listed = ", ".join(f"{each.tip} {_in_short(each)}" for each in smaller)
        found += [f"a smaller tip lays the same film slower, with more control: {listed}"] if listed else []
        return "; ".join(found)

    @property
    def problems(self) -> tuple[str, ...]:
        """What stands against spraying with the best set-up there is; nothing when it can be done."""
        best = self.chosen
        return tuple(f"tip {best.tip}, {best.setting} pressure: {each}" for each in best.plan.problems)

    def _value(self, *row: str, unit: str) -> float:
        figure = self.work_area.basis.figure(*row)
        return figure.value_in(unit)

    def _gun(self, setting: str, tip: spraying.TipCode) -> spraying.Gun:
        return spraying.Gun(
            tip=tip,
            pressure=self._value("spray", "pressure", setting, unit="psi"),
            distance=self._value("spray", "gun", "distance", unit="inch"),
            overlap=self._value("spray", "gun", "overlap", unit="percent"),
            discharge=self._value("spray", "discharge", "coefficient", unit="dimensionless"),
            loss=self._value("losses", PRESSURES[setting], "masked_interior", unit="percent"),
            pump_capacity=self._value("spray", "pump", "capacity", unit="gallon/minute"),
            tip_wear=self._value("spray", "tip", "wear", unit="percent"),
        )

    @property
    def _wanted(self) -> spraying.SprayCoat:
        product = self.surface.product
        return spraying.SprayCoat(
            area=self.surface.area.value,
            dry_film=self.film.value,
            volume_solids=self._value("coatings", product, "volume_solids", unit="percent"),
            specific_gravity=self._value("coatings", product, "density", unit="kilogram/liter"),
            sag_limit=self.sag_limit,
        )

    @property
    def sag_limit(self) -> float:
        """The wet film over the flat area (thou) above which a pass sags.

        The limit is for paint standing on the surface: texture has more surface than its flat area, and what a porous
        surface takes in no longer stands on it.
        """
        surface = film.film_over_flat(
            dry_film=self._value("spray", "film", "texture", unit="thou"),
            area_factor=self._value("surfaces", self.surface.texture, "area_factor", unit="dimensionless"),
            take_up=self._value("take_up", self.surface.porosity, self.coat, unit="dimensionless"),
        )
        return float(surface)

    @property
    def _hand(self) -> spraying.Hand:
        return spraying.Hand(
            slowest=self._value("spray", "gun", "speed_least", unit="ft/second"),
            fastest=self._value("spray", "gun", "speed_most", unit="ft/second"),
            least_pressure=self._value("spray", "pressure", "least", unit="psi"),
            most_passes=self._value("spray", "passes", "most", unit="dimensionless"),
            least_passes=LEAST_PASSES,
        )

    @cached_property
    def film(self) -> Figure:
        """The dry film that has to be laid over the flat area so that the texture is covered (thou)."""
        basis, surface = self.work_area.basis, self.surface
        return work(
            film.film_over_flat,
            f"{surface.product.replace('_', ' ')}, film over the flat area",
            dry_film=basis.figure("coatings", surface.product, "dry_film"),
            area_factor=basis.figure("surfaces", surface.texture, "area_factor"),
            take_up=basis.figure("take_up", surface.porosity, self.coat),
        )

    @property
    def trigger_share(self) -> Figure:
        """The part of the time at the gun in which the trigger is held."""
        return self.work_area.basis.figure("production", "spray_lap", "airless", "any")

    @property
    def hours(self) -> Figure:
        """The hours at the gun for the coat."""
        return work(spraying.spray_hours, "at the gun", gun_on=self.figures[-1], trigger_share=self.trigger_share)

    @cached_property
    def figures(self) -> tuple[Figure, ...]:
        """The figures of the set-up: flow, fan, spacing, passes, film of each, speed of the arm, trigger time."""
        basis = self.work_area.basis
        flow, fan = self._flow(), self._fan()
        passes, each = self._passes()
        laid = {"fan_width": fan, "overlap": basis.figure("spray", "gun", "overlap")}
        loss = basis.figure("losses", self.chosen.method, "masked_interior")
        speed = work(spraying.arm_speed_for_film, "arm speed", film=each, loss=loss, flow=flow, **laid)
        swept = {**laid, "arm_speed": speed, "passes": passes}
        gun_on = work(spraying.gun_on_minutes, "trigger held", area=self.surface.area, **swept)
        spacing = work(spraying.pass_spacing, "between strokes", **laid)
        return flow, fan, spacing, passes, each, speed, gun_on

    def _fan(self) -> Figure:
        distance = self.work_area.basis.figure("spray", "gun", "distance")
        coded = self._coded("fan", self.chosen.tip.fan_inches)
        return work(spraying.fan_width, "fan on the surface", coded_fan=coded, distance=distance)

    def _passes(self) -> tuple[Figure, Figure]:
        """Return the passes of a coat, and the wet film that each of them lays."""
        origin = Origin(
            Kind.DEFINITION,
            place="the fewest that stay below the sag limit at a speed the arm can hold, and no fewer than two",
        )
        passes = leaf("passes", float(self.chosen.plan.passes), "dimensionless", origin)
        solids = self.work_area.basis.figure("coatings", self.surface.product, "volume_solids")
        wet = work(film.wet_film, "wet film of the coat", dry_film=self.film, volume_solids=solids)
        return passes, work(film.per_pass, "wet film, each pass", wet_film=wet, passes=passes)

    def _flow(self) -> Figure:
        basis = self.work_area.basis
        density = basis.figure("coatings", self.surface.product, "density")
        return work(
            spraying.orifice_flow,
            "flow at the tip",
            orifice=self._coded("orifice", self.chosen.tip.orifice_inches),
            pressure=basis.figure("spray", "pressure", self.chosen.setting),
            discharge=basis.figure("spray", "discharge", "coefficient"),
            specific_gravity=work(film.specific_gravity, "specific gravity", density=density),
        )

    def _coded(self, what: str, inches: float) -> Figure:
        origin = Origin(Kind.DEFINITION, place=f"tip code {self.chosen.tip}")
        return leaf(f"{what} of tip {self.chosen.tip}", inches, "inch", origin)
