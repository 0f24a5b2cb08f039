"""What every painter knows: settled facts of the trade, common practice without a printed source.

They are not measurements. They say which way a thing goes, so that a slip in a table is seen at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import pytest

from estimating.evidence import Library, Row, load_library
from estimating.trade.spraying import fan_width, read_tip_code
from estimating.units import convert

QUARTS = {"quart": 1, "gallon": 4, "five": 20}


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()


def likely(library: Library, addresses: Sequence[str]) -> list[float]:
    """Return the likely values of rows of one table, all in the unit of the first."""
    rows = [library.row(*address.split("/")) for address in addresses]
    return [float(convert(each.likely, each.unit, rows[0].unit)) for each in rows]


def rising(values: Sequence[float]) -> bool:
    """Say whether each value is above the one before."""
    return all(one < other for one, other in pairwise(values))


def under(library: Library, table: str, *first: str) -> list[Row]:
    """Return the rows of a table whose keys begin so."""
    return [each for keys, each in library.table(table).items() if keys[: len(first)] == first]


def test_a_tip_code_beginning_with_2_lays_a_4_inch_fan_at_12_inches(library: Library) -> None:
    """A first digit of 2 is a 4 in fan when the gun is 12 in away, whatever the orifice."""
    twos = [keys[0] for keys in library.table("tips") if keys[0].startswith("2")]
    assert twos
    for code in twos:
        assert fan_width(coded_fan=read_tip_code(code).fan_inches, distance=12.0) == 4.0
        assert library.row("tips", code).words["fan"] == "4"


def test_tips_of_one_orifice_differ_only_in_fan(library: Library) -> None:
    """The last two digits are the orifice, so 213, 313 and 413 pass the same paint over a wider fan."""
    assert likely(library, ["tips/213", "tips/313", "tips/413"]) == [0.013] * 3
    assert rising([float(library.row("tips", code).words["fan"]) for code in ("213", "313", "413")])


def test_heavy_ceiling_texture_wants_a_deep_nap(library: Library) -> None:
    """At least 3/4 in and up to 1-1/4 in."""
    nap = library.row("naps", "heavy_popcorn", "nap")
    assert (nap.low, nap.high, nap.unit) == (0.75, 1.25, "inch")


def test_the_deeper_the_nap_the_harder_it_pulls(library: Library) -> None:
    """Nap and pull rise together from a smooth ceiling to heavy texture."""
    surfaces = ("smooth", "light_texture", "popcorn", "heavy_popcorn")
    for measure in ("nap", "pull"):
        assert rising(likely(library, [f"naps/{each}/{measure}" for each in surfaces]))


def test_a_soiled_recessed_light_takes_three_light_passes(library: Library) -> None:
    """Three light passes, each left to flash, rather than one wet one that runs."""
    assert likely(library, ["fixtures/recessed_light/passes"]) == [3]
    assert library.row("fixtures", "recessed_light", "flash").low > 0


def test_a_plugged_trim_can_be_painted_and_costs_less_than_masking_it(library: Library) -> None:
    """A wad in the can is quicker than masking the trim; a spring trim is quicker still to drop."""
    treatments = ("remove", "plug", "mask")
    assert rising(likely(library, [f"fixtures/recessed_light/{each}" for each in treatments]))


def test_a_film_drape_hangs_from_paper_nine_inches_wide(library: Library) -> None:
    """The run of paper is 9 in wide and the film laps behind it."""
    assert likely(library, ["masking_stock/paper_run/width"]) == [9]
    assert 0 < library.row("masking_stock", "overlap", "film_on_paper").likely < 9


def test_one_width_of_film_covers_an_ordinary_wall(library: Library) -> None:
    """A 99 in film reaches the floor of an 8 ft room, and the wide film that of a 10 ft room."""
    film, wide = likely(library, ["masking_stock/wall_film/width", "masking_stock/wall_film_wide/width"])
    assert film >= 8 * 12
    assert wide >= 10 * 12


def test_detectors_and_sprinkler_heads_are_only_covered_and_uncovered(library: Library) -> None:
    """Nobody takes them down, plugs them or paints them, and what was covered is uncovered."""
    for fixture in ("detector", "sprinkler_head"):
        assert {each.keys[1] for each in under(library, "fixtures", fixture)} == {"mask", "uncover"}
    for caution in ("detectors", "sprinkler_heads"):
        assert "never" in library.row("cautions", caution).words["advice"]


def test_whatever_is_masked_is_uncovered(library: Library) -> None:
    """Each fixture that can be masked has its time to strip."""
    masked = {fixture for fixture, treatment in library.table("fixtures") if treatment == "mask"}
    assert masked == {fixture for fixture, treatment in library.table("fixtures") if treatment == "uncover"}


@pytest.mark.parametrize(
    "slow_to_fast",
    [
        ["roll_ceiling/roll/popcorn", "roll_ceiling/roll/light_texture", "roll_ceiling/roll/smooth"],
        ["roll_ceiling/roll/smooth", "roll_wall/roll/smooth"],
        ["roll_wall/roll/rough", "roll_wall/roll/light_texture", "roll_wall/roll/smooth"],
        ["cut_in/brush/popcorn", "cut_in/brush/suction", "cut_in/brush/sealed"],
        ["cut_in/brush/extension_ladder", "cut_in/brush/sealed"],
        ["scrape_ceiling/hand/dry", "scrape_ceiling/hand/wet"],
        ["brush_wall/brush/any", "roll_wall/roll/any"],
        ["paint_crown/brush/any", "paint_casing/brush/any", "paint_base/brush/any"],
        ["siding/brush/any", "siding/airless_back_brush/any"],
        ["shingle/brush/any", "siding/brush/any"],
        ["hang_film/film/any", "protect_floor/hand/any", "unmask/hand/any"],
        ["scrape_sand_prime/hand/severe", "scrape_sand_prime/hand/moderate", "scrape_sand_prime/hand/light"],
        ["wash_ceiling/hand/any", "wash_wall/hand/any"],
        ["repair_release/spots/any", "repair_release/patches/any", "repair_release/sheets/any"],
    ],
    ids=lambda addresses: addresses[0],
)
def test_rates_rise_with_easier_work(library: Library, slow_to_fast: list[str]) -> None:
    """Rough, thirsty, high or overhead work goes slower than smooth, sealed, low or upright work."""
    assert rising(likely(library, [f"production/{each}" for each in slow_to_fast]))


@pytest.mark.parametrize(
    "quick_to_long",
    [
        ["paint_door/brush/flush", "paint_door/brush/panel", "paint_door/brush/glazed", "paint_door/brush/louvered"],
        ["paint_door/airless/panel", "paint_door/brush/panel"],
        ["paint_window/brush/single", "paint_window/brush/double_hung", "paint_window/brush/divided"],
        ["patch/hand/nail_pop", "patch/hand/small", "patch/hand/medium", "patch/hand/large"],
        ["paint_baluster/brush/plain", "paint_baluster/brush/turned", "paint_newel/brush/any"],
        ["paint_closet/roll/small", "paint_closet/roll/walk_in"],
        ["move_furniture/hand/light", "move_furniture/hand/heavy"],
        ["wash_rollers/roll/any", "wash_sprayer/airless/any"],
        ["spot_coat/airless/any", "spot_coat/brush/any"],
    ],
    ids=lambda addresses: addresses[0],
)
def test_times_rise_with_fiddlier_work(library: Library, quick_to_long: list[str]) -> None:
    """More edges, more parts or more goods to move take longer."""
    assert rising(likely(library, [f"production/{each}" for each in quick_to_long]))


@pytest.mark.parametrize(
    "easy_to_hard",
    [
        ["height/to_9ft", "height/9_to_12ft", "height/12_to_16ft", "height/over_16ft"],
        ["furniture/none", "furniture/light", "furniture/heavy"],
        ["occupied/no", "occupied/yes"],
        ["crew/experienced", "crew/ordinary", "crew/learning"],
        ["suction/sealed", "suction/patched", "suction/raw_compound"],
        ["element/floor", "element/wall", "element/ceiling", "element/door", "element/window"],
        ["prep/sound", "prep/worn"],
        ["masking/share_of_roll_job", "masking/share_of_spray_job"],
    ],
    ids=lambda addresses: addresses[0],
)
def test_factors_rise_with_harder_conditions(library: Library, easy_to_hard: list[str]) -> None:
    """The harder the place or the greener the crew, the greater the factor."""
    assert rising(likely(library, [f"factors/{each}" for each in easy_to_hard]))


def test_a_guess_is_wider_than_a_tape(library: Library) -> None:
    """The surer the measurement, the narrower its range."""
    rows = [library.row("factors", "measured", each) for each in ("sure", "fair", "guess")]
    assert rising([each.high - each.low for each in rows])


@pytest.mark.parametrize(
    "low_to_high",
    [
        ["spray/pressure/least", "spray/pressure/reduced", "spray/pressure/usual", "spray/pressure/greatest"],
        ["spray/gun/speed_least", "spray/gun/speed", "spray/gun/speed_most"],
        ["spray/droplet/fine", "spray/droplet/median_air_spray", "spray/droplet/median"],
        ["spray/droplet/fine", "spray/droplet/reduced_fine"],
        ["spray/droplet/median", "spray/droplet/reduced_median"],
        ["spray/film/texture", "spray/film/most_wet"],
        ["filters/coarse", "filters/usual", "filters/fine"],
        ["hiding/same/coats", "hiding/near/coats", "hiding/deep_base/coats"],
        ["wallcovering/strip_unsized_board/rate", "wallcovering/strip_steam/rate", "wallcovering/strip_dry_peel/rate"],
        ["wallcovering/remove_worst/rate", "wallcovering/remove_likely/rate", "wallcovering/remove_best/rate"],
        ["wallcovering/damage_best/share", "wallcovering/damage_likely/share", "wallcovering/damage_worst/share"],
        [
            "wallcovering/pattern_random/factor",
            "wallcovering/pattern_straight/factor",
            "wallcovering/pattern_drop/factor",
        ],
        [
            "wallcovering/waste_random_match/share",
            "wallcovering/waste_straight_match/share",
            "wallcovering/waste_drop_match/share",
        ],
        ["cautions/heat", "cautions/heat_high", "cautions/heat_extreme"],
        ["business/wage_helper", "business/wage", "business/wage_owner"],
    ],
    ids=lambda addresses: addresses[-1],
)
def test_other_figures_stand_in_their_order(library: Library, low_to_high: list[str]) -> None:
    """Pressures, drops, meshes, colors and walls stand in the order the trade knows."""
    assert rising(likely(library, low_to_high))


def test_usable_paper_shrinks_with_the_repeat(library: Library) -> None:
    """The longer the repeat, the less of a roll reaches the wall, and always less than the roll."""
    repeats = ("19_to_23", "13_to_18", "7_to_12", "0_to_6")
    usable = likely(library, [f"wallcovering/roll_metric_single/usable_repeat_{each}" for each in repeats])
    assert rising([*usable, *likely(library, ["wallcovering/roll_metric_single/area"])])


def test_a_double_roll_is_two_singles(library: Library) -> None:
    """Usable area of a double roll is twice that of a single."""
    single, double = likely(library, [f"wallcovering/roll_us_{each}/usable" for each in ("single", "double")])
    assert double == 2 * single


def test_seal_first_brings_down_fewer_than_spraying(library: Library) -> None:
    """Spraying takes away the pull, a solvent sealer the wetting, and both together do most."""
    methods = ("seal_spray", "seal_roll", "spray", "roll")
    assert rising(likely(library, [f"release/method/{each}/share" for each in methods]))


def test_tests_point_the_way_they_should(library: Library) -> None:
    """Good signs lower the odds of release and bad signs raise them; the roller patch says most."""
    good = ("patch_clean", "mist_beads", "rub_clean")
    bad = ("rub_chalky", "mist_darkens", "patch_crumbs")
    signs = likely(library, [f"release/evidence/{each}/odds" for each in (*good, *bad)])
    assert rising(signs)
    assert signs[2] < 1 < signs[3]


def test_the_less_is_known_to_be_under_paint_the_likelier_it_comes_down(library: Library) -> None:
    """From twice painted over once painted and unknown to never painted and bare board."""
    history = ("painted_twice", "primed_and_painted", "painted_once_unknown_primer", "unknown", "looks_unpainted")
    chances = likely(library, [f"release/prior/{each}/probability" for each in (*history, "bare_board")])
    assert rising(chances)


def test_small_spots_are_the_commonest_and_sheets_the_largest(library: Library) -> None:
    """The three extents are all there is; the commoner, the smaller."""
    extents = ("sheets", "patches", "spots")
    chances = likely(library, [f"release/extent/{each}/probability" for each in extents])
    areas = likely(library, [f"release/extent/{each}/area" for each in reversed(extents)])
    assert sum(chances) == pytest.approx(1)
    assert rising(chances)
    assert rising(areas)


def test_paint_is_cheaper_by_the_larger_container(library: Library) -> None:
    """Every coating is sold in quarts, gallons and fives, each cheaper by measure than the one before."""
    for product in {keys[0] for keys in library.table("coatings") if keys[1] == "volume_solids"}:
        if any(keys == (product, "five") for keys in library.table("prices")):
            prices = [library.row("prices", product, size).likely / quarts for size, quarts in QUARTS.items()]
            assert rising(prices[::-1]), product


def test_everything_on_a_roll_has_a_price(library: Library) -> None:
    """What is unrolled on site can be bought."""
    sold_singly = {"drop_cloth", "cover_sheet"}
    rolls = {keys[0] for keys in library.table("masking_stock") if keys[1] == "length"} - sold_singly
    assert rolls <= {keys[0] for keys in library.table("prices") if keys[1] == "roll"}


def test_every_demo_price_is_dated_and_called_invented(library: Library) -> None:
    """No price pretends to be anybody's, and each says when it was set."""
    for found in library.table("prices").values():
        assert str(found.origin.kind) == "invented for the demo"
        assert found.words["priced_on"]


def test_every_caution_says_what_to_do(library: Library) -> None:
    """A caution has a title for the sheet and advice of its own; none claims that anything complies."""
    for found in library.table("cautions").values():
        assert found.title
        assert len(found.words["advice"]) > 40
        assert "complies" not in found.words["advice"]
        assert "compliant" not in found.words["advice"]


def test_work_with_asbestos_lead_or_live_wires_is_left_to_the_licensed(library: Library) -> None:
    """The advice defers to licensed or certified people, or to the local rules."""
    for caution in ("asbestos_texture", "lead_paint", "live_fixtures", "sprinkler_heads", "asbestos_renovation_area"):
        advice = library.row("cautions", caution).words["advice"]
        assert any(word in advice for word in ("licensed", "certified")), caution
