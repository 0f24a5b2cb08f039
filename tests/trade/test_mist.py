from __future__ import annotations

import numpy as np
import pytest
from fluids.drag import drag_sphere_correlations, v_terminal
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import mist
from estimating.trade.mist import AIR_DENSITY, AIR_VISCOSITY

# Sources stand by their key in reference/bibliography.json.
ON_SITE = Origin(Kind.MEASURED, place="test")
PAINT = {"density": 1300.0, "volume_solids": 36.0, "volatile_density": 998.0}
SEALED_ROOM = {"height": 8.0, "left": 5.0, "air_changes": 0.0, **PAINT}


@pytest.mark.parametrize("diameter", [5.0, 10.0, 20.0, 37.0, 50.0, 70.0, 100.0, 150.0, 300.0, 600.0, 1000.0])
@pytest.mark.parametrize("density", [1000.0, 1300.0, 1800.0])
def test_velocity_agrees_with_an_independent_library(diameter: float, density: float) -> None:
    """Within 4 % of the `fluids` library, which takes its drag from other correlations and leaves slip out.

    Drag correlations differ among themselves by 2 to 4 % over this range; slip is 3 % at 5 micrometers.
    """
    suitability = v_terminal(D=diameter * 1e-6, rhop=density, rho=AIR_DENSITY, mu=AIR_VISCOSITY)
    assert mist.settling_velocity(diameter=diameter, density=density) == pytest.approx(suitability, rel=0.04)


@pytest.mark.parametrize("diameter", [70.0, 100.0, 150.0])
def test_velocity_lies_amid_all_drag_curves_of_that_library(diameter: float) -> None:
    """At the size of airless droplets (70 to 150 µm: coating-terms-atomization) it is within 3 % of their median.

    All twenty curves but Stokes' own are asked; single ones stray from each other by up to a tenth.
    """
    suitability = [
        v_terminal(D=diameter * 1e-6, rhop=1300.0, rho=AIR_DENSITY, mu=AIR_VISCOSITY, Method=method)
        for method in drag_sphere_correlations
        if method != "Stokes"
    ]
    assert mist.settling_velocity(diameter=diameter, density=1300.0) == pytest.approx(np.median(suitability), rel=0.03)


def test_a_fog_drop_falls_as_an_examination_says() -> None:
    """A water drop of 5 µm radius falls at 3 mm/s in air of 1.8e-5 Pa·s (falling-drop-question)."""
    assert mist.settling_velocity(diameter=10, density=1000) == pytest.approx(3e-3, abs=0.5e-3)


@pytest.mark.parametrize(
    ("diameter", "remembered", "half_digit"),
    [(10, 0.306, 0.002), (100, 24.9, 0.3)],  # cm/s; Hinds, Aerosol Technology: from memory, not checked
)
def test_velocity_agrees_with_remembered_textbook_values(diameter: float, remembered: float, half_digit: float) -> None:
    """Water drops fall as a textbook is remembered to say; a memory is no proof, only a warning if it disagreed."""
    velocity = mist.settling_velocity(diameter=diameter, density=1000)
    assert velocity * 100 == pytest.approx(remembered, abs=half_digit)


def test_small_drops_follow_stokes() -> None:
    """By hand for 20 µm of water: 998.8 · 9.807 · (2e-5)² ÷ (18 · 1.81e-5) = 12.0 mm/s, give or take 1 % of slip."""
    assert mist.settling_velocity(diameter=20, density=1000) == pytest.approx(12.0e-3, rel=0.01)


def test_stokes_alone_would_be_a_fifth_too_fast_at_a_hundred_micrometers() -> None:
    """Inertia counts: Stokes' law gives 30 cm/s at 100 µm, a fifth above what the drag curve allows."""
    stokes = 998.795 * 9.80665 * 1e-8 / (18 * AIR_VISCOSITY)
    assert stokes / mist.settling_velocity(diameter=100, density=1000) == pytest.approx(1.21, abs=0.01)


def test_weight_and_drag_balance() -> None:
    """Put back into the drag law, slip aside, the velocity carries the drop's weight."""
    diameters = np.array([2.0, 20.0, 200.0, 1000.0])
    slip = 1 + mist.SLIP_LENGTH / diameters
    velocity = np.asarray(mist.settling_velocity(diameter=diameters, density=1300.0)) / slip
    reynolds = velocity * diameters * 1e-6 * AIR_DENSITY / AIR_VISCOSITY
    drag = 3 * np.pi * AIR_VISCOSITY * diameters * 1e-6 * velocity * (1 + 0.15 * reynolds**0.687)
    weight = (1300.0 - AIR_DENSITY) * mist.GRAVITY * np.pi / 6 * (diameters * 1e-6) ** 3
    assert drag == pytest.approx(weight, rel=1e-9)


def test_a_third_of_solids_leaves_seven_tenths_of_the_size() -> None:
    """By hand: the cube root of 0.343 is 0.7; a droplet without volatiles keeps its size."""
    assert mist.dried_diameter(droplet=50, volume_solids=34.3) == pytest.approx(35)
    assert mist.dried_diameter(droplet=50, volume_solids=100) == pytest.approx(50)


def test_the_solids_of_a_paint_are_denser_than_the_paint() -> None:
    """By hand: 1300 less 64 % of 1000 leaves 660 in 36 % of the volume, 1833 kg/m³."""
    assert mist.dried_density(density=1300, volatile_density=1000, volume_solids=36) == pytest.approx(1833, abs=0.5)


def test_big_drops_are_down_in_seconds_and_fine_mist_in_minutes() -> None:
    """From 8 ft, 100 µm of water takes 10 seconds and 10 µm a quarter of an hour: time is distance over speed."""
    assert mist.settling_time(height=8, diameter=100, density=1000) * 60 == pytest.approx(2.4384 / 0.249, rel=0.01)
    assert mist.settling_time(height=8, diameter=10, density=1000) == pytest.approx(2.4384 / 0.00306 / 60, rel=0.01)


def test_stirred_air_clears_later_than_still_air() -> None:
    """To be down to 5 % stirred air takes three times the fall of a grain: ln 20 = 3.0."""
    wait = mist.settle_before_unmasking(droplet=20, **SEALED_ROOM)
    grain = mist.settling_time(
        height=8,
        diameter=mist.dried_diameter(droplet=20, volume_solids=36),
        density=mist.dried_density(density=1300, volatile_density=998, volume_solids=36),
    )
    assert wait / grain == pytest.approx(3.0, abs=0.01)


def test_the_wait_is_what_the_trade_waits() -> None:
    """Mist of 12 to 20 µm as sprayed keeps masking up 10 to 40 minutes (common practice, no source: 15 to 60)."""
    waits = mist.settle_before_unmasking(**{**SEALED_ROOM, "droplet": np.array([12.0, 20.0])})
    assert np.all((np.asarray(waits) > 10) & (np.asarray(waits) < 40))


def test_fresh_air_alone_clears_a_room_by_its_changes() -> None:
    """For mist too fine to fall in time, one air change leaves 37 %: by hand ln(100 ÷ 36.8) = 1 change."""
    room = {**SEALED_ROOM, "height": 1e6, "left": 36.788, "air_changes": 4.0}
    assert mist.settle_before_unmasking(droplet=5, **room) == pytest.approx(15, rel=0.001)


sizes = st.floats(1, 1000)
densities = st.floats(800, 2500)


@given(small=sizes, more=st.floats(1, 3), density=densities)
def test_a_bigger_drop_never_falls_slower(small: float, more: float, density: float) -> None:
    """Velocity never falls with size, nor does a drop outrun Stokes' law with its slip."""
    big = min(small * more, 1000.0)
    slow, fast = (mist.settling_velocity(diameter=each, density=density) for each in (small, big))
    assert slow <= fast
    stokes = (density - AIR_DENSITY) * mist.GRAVITY * (big * 1e-6) ** 2 / (18 * AIR_VISCOSITY)
    assert fast <= stokes * (1 + mist.SLIP_LENGTH / big) * (1 + 1e-9)


@given(droplet=st.floats(5, 60), solids=st.floats(15, 100), density=st.floats(1000, 1500))
def test_taking_a_drop_as_dry_never_shortens_the_fall(droplet: float, solids: float, density: float) -> None:
    """Of fine mist the dried grain falls no faster than the wet drop: taking it as dry errs on the safe side."""
    grain = mist.settling_velocity(
        diameter=mist.dried_diameter(droplet=droplet, volume_solids=solids),
        density=mist.dried_density(density=density, volatile_density=998, volume_solids=solids),
    )
    assert grain <= mist.settling_velocity(diameter=droplet, density=density) * (1 + 1e-9)


@given(droplet=st.floats(5, 100), left=st.floats(1, 50), changes=st.floats(0, 20))
def test_a_cleaner_room_or_less_air_takes_longer(droplet: float, left: float, changes: float) -> None:
    """Waiting for half as much mist takes longer; more fresh air never does."""
    room = {**SEALED_ROOM, "droplet": droplet, "left": left, "air_changes": changes}
    wait = mist.settle_before_unmasking(**room)
    assert mist.settle_before_unmasking(**{**room, "left": left / 2}) > wait
    assert mist.settle_before_unmasking(**{**room, "air_changes": changes + 1}) <= wait


def test_arrays_and_single_numbers_agree() -> None:
    """Many draws at once give what one at a time gives."""
    draws = np.array([5.0, 40.0, 160.0])
    together = mist.settling_velocity(diameter=draws, density=1300.0)
    alone = [mist.settling_velocity(diameter=float(each), density=1300.0) for each in draws]
    assert np.asarray(together) == pytest.approx(alone, rel=1e-12)


@pytest.mark.parametrize(
    ("rule", "given_", "field"),
    [
        (mist.settling_velocity, {"diameter": 0.5, "density": 1000}, "diameter"),
        (mist.settling_velocity, {"diameter": 1500, "density": 1000}, "diameter"),
        (mist.settling_velocity, {"diameter": 20, "density": 1.0}, "density"),
        (mist.dried_diameter, {"droplet": 20, "volume_solids": 0}, "volume_solids"),
        (mist.dried_density, {"density": 500, "volatile_density": 1000, "volume_solids": 40}, "density"),
        (mist.settling_time, {"height": -1, "diameter": 20, "density": 1000}, "height"),
        (mist.settle_before_unmasking, {**SEALED_ROOM, "droplet": 1}, "droplet"),
        (mist.settle_before_unmasking, {**SEALED_ROOM, "droplet": 20, "left": 0}, "left"),
        (mist.settle_before_unmasking, {**SEALED_ROOM, "droplet": 20, "air_changes": -1}, "air_changes"),
    ],
)
def test_nonsense_is_refused_by_name(rule: object, given_: dict[str, float], field: str) -> None:
    """Outside its range a rule names the argument at fault."""
    with pytest.raises(InputError) as caught:
        rule(**given_)  # type: ignore[operator]
    assert caught.value.field == field


def test_units_are_checked_where_figures_meet() -> None:
    """Kilograms a liter are converted; a weight in place of a density is refused."""
    drop = leaf("drop", 0.1, "millimeter", ON_SITE)
    velocity = work(
        mist.settling_velocity, "fall", diameter=drop, density=leaf("paint", 1.0, "kilogram/liter", ON_SITE)
    )
    assert velocity.unit == "meter/second"
    assert velocity.value == pytest.approx(mist.settling_velocity(diameter=100, density=1000))
    with pytest.raises(InputError):
        work(mist.settling_velocity, "fall", diameter=drop, density=leaf("paint", 1.0, "kilogram", ON_SITE))
