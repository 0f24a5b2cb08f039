from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import EvidenceError, InputError
from estimating.figures import evaluate, leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import film
from estimating.units import convert

ON_SITE = Origin(Kind.MEASURED, place="test")

# Sources stand by their key in reference/bibliography.json.
# Theoretical spread, ft²/gallon, at volume solids (%) and dry film (mil): conversion-chart-bulletin, estimating guide.
# Its 72 % column at 2 mils prints 527, against 1155 at 1 mil: a misprint for 577, left out here.
SPREAD_CHART = [
    (30, 1, 481),
    (35, 1, 561),
    (40, 1, 642),
    (50, 1, 802),
    (60, 1, 962),
    (100, 1, 1604),
    (35, 2, 281),
    (45, 2, 361),
    (100, 2, 802),
    (40, 3, 214),
    (30, 4, 120),
    (55, 4, 221),
    (35, 6, 94),
    (30, 10, 48),
    (100, 10, 160),
]
CONSTANT = 0.17 / 1604  # these sources round 1604.17 to 1604

SPREAD_EXAMPLES = [
    # (volume solids %, dry film mil, ft²/gallon, half the last digit)
    (65, 5, 208.52, 0.005),  # spreading-rate-sheet, US example
    (88, 12, 117.63, 0.005),  # raven-coverage-2014, example at 12 mils
    (56, 2.5, 358, 2),  # paintpro-spread-rate, product B; works 1604 ÷ 2.5 as 641 first and drops the rest
]


@pytest.mark.parametrize(("solids", "dry", "printed"), SPREAD_CHART)
def test_spread_rate_matches_a_printed_chart(solids: float, dry: float, printed: float) -> None:
    """Spread rates agree with a printed estimating guide to its last digit."""
    worked = film.theoretical_spread_rate(volume_solids=solids, dry_film=dry)
    assert worked == pytest.approx(printed, abs=0.5 + printed * CONSTANT)


@pytest.mark.parametrize(("solids", "dry", "printed", "half_digit"), SPREAD_EXAMPLES)
def test_spread_rate_matches_worked_examples(solids: float, dry: float, printed: float, half_digit: float) -> None:
    """Spread rates agree with examples worked in other publications."""
    worked = film.theoretical_spread_rate(volume_solids=solids, dry_film=dry)
    assert worked == pytest.approx(printed, abs=half_digit + printed * CONSTANT)


@pytest.mark.parametrize(
    ("solids", "micrometers", "printed", "half_digit"),
    [
        (65, 125, 5.2, 0.05),  # spreading-rate-sheet, metric example
        (65, 100, 6.5, 0.05),  # calculations-paint-slides
        (28, 18, 15.55, 0.01),  # promain-coverage; cuts 15.556 off after two places
        (50, 25, 20.0, 0.05),  # transocean-coverage, table
        (50, 50, 10.0, 0.05),  # the same table
        (50, 100, 5.0, 0.05),  # the same table
        (45.45, 60, 7.57, 0.01),  # sorwar-coverage-2022; cuts 7.575 off
    ],
)
def test_spread_rate_matches_metric_sources(
    solids: float, micrometers: float, printed: float, half_digit: float
) -> None:
    """Converted to m²/L, spread rates agree with metric tables, whose rule is m²/L = 10 × %VS ÷ µm."""
    worked = film.theoretical_spread_rate(volume_solids=solids, dry_film=convert(micrometers, "micrometer", "thou"))
    assert convert(worked, "ft**2/gallon", "meter**2/liter") == pytest.approx(printed, abs=half_digit)


@pytest.mark.parametrize(
    ("wet", "solids", "dry"),
    [
        (250, 50, 125),  # calculations-paint-slides
        (200, 60, 120),  # calculation-of-paint-slides
        (80, 88, 70.4),  # raven-coverage-2014
    ],
)
def test_dry_film_of_a_wet_film(wet: float, solids: float, dry: float) -> None:
    """Wet to dry agrees with printed examples; the rule holds in any unit of thickness."""
    assert film.dry_film(wet_film=wet, volume_solids=solids) == pytest.approx(dry, abs=0.05)


@pytest.mark.parametrize(
    ("dry", "solids", "wet"),
    [
        (100, 65, 154),  # calculations-paint-slides
        (1, 70, 1.43),  # rust-bullet-faq: wet = 1.43 × dry at 70 %
    ],
)
def test_wet_film_for_a_dry_film(dry: float, solids: float, wet: float) -> None:
    """Dry to wet agrees with printed examples."""
    half_digit = 0.5 if wet > 10 else 0.005
    assert film.wet_film(dry_film=dry, volume_solids=solids) == pytest.approx(wet, abs=half_digit)


def test_loss_and_yield() -> None:
    """A loss of 45 % is a yield of 0.55 (calculation-of-paint-slides)."""
    assert film.paint_yield(loss=45) == pytest.approx(0.55, abs=0.005)


def test_practical_spread_rate_takes_the_loss_off() -> None:
    """100 ft²/gallon with 30 % lost is 70 (corrosionpedia-practical)."""
    assert film.practical_spread_rate(theoretical=100, area_factor=1, take_up=0, loss=30) == pytest.approx(70)


def test_practical_spread_rate_of_a_thinned_paint() -> None:
    """7.57 m²/L with 30 % lost is 5.30 (sorwar-coverage-2022)."""
    worked = film.practical_spread_rate(theoretical=7.57, area_factor=1, take_up=0, loss=30)
    assert worked == pytest.approx(5.30, abs=0.005)


def test_rough_surfaces_and_suction_lower_the_flat_spread() -> None:
    """A surface of twice the area that drinks a quarter more leaves 40 % of the spread: 1 ÷ (2 × 1.25), by hand."""
    assert film.practical_spread_rate(theoretical=400, area_factor=2, take_up=0.25, loss=0) == pytest.approx(160)


def test_paint_for_an_elastic_lining() -> None:
    """1,400 ft² at 80 mils of a solid coating takes 70 gallons (raven-coverage-2014)."""
    spread = film.theoretical_spread_rate(volume_solids=100, dry_film=80)
    assert film.paint_for_coat(area=1400, spread=spread) == pytest.approx(70, abs=0.5)


solids_ = st.floats(5, 100)
thickness = st.floats(0.1, 100)


@given(wet=thickness, solids=solids_)
def test_dry_is_never_thicker_than_wet(wet: float, solids: float) -> None:
    """A film never grows as it dries, and going back gives the wet film again."""
    dry = film.dry_film(wet_film=wet, volume_solids=solids)
    assert dry <= wet * (1 + 1e-12)
    assert film.wet_film(dry_film=dry, volume_solids=solids) == pytest.approx(wet)


@given(factor=st.floats(1, 5), take_up=st.floats(0, 2), loss=st.floats(0, 95))
def test_practical_never_beats_theoretical(factor: float, take_up: float, loss: float) -> None:
    """On a surface no smaller than flat, no allowance makes a gallon go further."""
    assert film.practical_spread_rate(theoretical=400, area_factor=factor, take_up=take_up, loss=loss) <= 400


def test_arrays_and_single_numbers_agree() -> None:
    """A thousand draws at once give what one at a time gives."""
    draws = np.array([20.0, 35.0, 60.0])
    together = film.theoretical_spread_rate(volume_solids=draws, dry_film=2.0)
    assert list(np.asarray(together)) == [
        film.theoretical_spread_rate(volume_solids=float(each), dry_film=2.0) for each in draws
    ]


@pytest.mark.parametrize(
    ("rule", "given_", "field"),
    [
        (film.theoretical_spread_rate, {"volume_solids": 0, "dry_film": 2}, "volume_solids"),
        (film.theoretical_spread_rate, {"volume_solids": 101, "dry_film": 2}, "volume_solids"),
        (film.theoretical_spread_rate, {"volume_solids": 40, "dry_film": 0}, "dry_film"),
        (film.dry_film, {"wet_film": -1, "volume_solids": 40}, "wet_film"),
        (film.paint_yield, {"loss": 100}, "loss"),
        (film.paint_for_coat, {"area": 100, "spread": 0}, "spread"),
        (film.paint_for_coat, {"area": np.array([1.0, -2.0]), "spread": 300}, "area"),
        (film.paint_for_coat, {"area": float("nan"), "spread": 300}, "area"),
    ],
)
def test_nonsense_is_refused_by_name(rule: object, given_: dict[str, float], field: str) -> None:
    """Outside its range a rule names the argument at fault."""
    with pytest.raises(InputError) as caught:
        rule(**given_)  # type: ignore[operator]
    assert caught.value.field == field


def test_units_are_checked_where_figures_meet() -> None:
    """Micrometers are converted; a volume in place of a thickness is refused; so is a bare number."""
    solids = leaf("solids", 40, "percent", ON_SITE)
    thin = leaf("film", 50.8, "micrometer", ON_SITE)
    spread = work(film.theoretical_spread_rate, "spread", volume_solids=solids, dry_film=thin)
    assert spread.unit == "ft**2/gallon"
    assert spread.value == pytest.approx(1604.17 * 0.4 / 2, rel=1e-4)
    with pytest.raises(InputError, match="thou"):
        work(film.theoretical_spread_rate, "spread", volume_solids=solids, dry_film=leaf("jar", 2, "gallon", ON_SITE))
    with pytest.raises(EvidenceError, match="bare number"):
        work(film.theoretical_spread_rate, "spread", volume_solids=solids, dry_film=2.0)  # type: ignore[arg-type]


def test_draws_pass_through_figures() -> None:
    """A range of solids gives a range of spread rates through the same figures."""
    solids = leaf("solids", 40, "percent", ON_SITE)
    spread = work(
        film.theoretical_spread_rate, "spread", volume_solids=solids, dry_film=leaf("film", 2, "thou", ON_SITE)
    )
    (drawn,) = evaluate([spread], {solids: np.array([30.0, 40.0])})
    assert np.asarray(drawn) == pytest.approx([240.6, 320.8], abs=0.05)
