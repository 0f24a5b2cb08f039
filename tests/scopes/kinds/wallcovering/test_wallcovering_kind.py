"""Walls to be papered, from site notes to price: paper counted, removal in three outcomes, ways allowed and closed."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from places import JOBS

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Plan, Suitability
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.estimate.uncertainty.ranges import simulate
from estimating.estimate.whatif.compare import Option
from estimating.evidence import Basis, load_library
from estimating.figures import leaves, work
from estimating.origins import Kind
from estimating.scopes.kinds.wallcovering import methods as papering
from estimating.scopes.kinds.wallcovering.facts import Papering, facts
from estimating.scopes.kinds.wallcovering.hanging import paper_order, paper_supply
from estimating.scopes.kinds.wallcovering.notes import Wallcovering
from estimating.scopes.kinds.wallcovering.removal import by_the_hour
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import take_off
from estimating.trade.wallcovering.rolls import rolls_to_order
from estimating.workbook import Outcome, build_job, estimate_job

DEMO = JOBS / "quarry_lane_study.toml"
Change = Callable[[dict[str, Any]], None]
OPEN, CONDITIONS, CLOSED = Suitability.OPEN, Suitability.CONDITIONS, Suitability.CLOSED


def as_it_is(job: dict[str, Any]) -> None:
    """Change nothing."""


def plain_job(change: Change) -> dict[str, Any]:
    plain = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    change(plain)
    return plain


def outcome(change: Change = as_it_is) -> Outcome:
    return estimate_job(build_job(plain_job(change)))


def papered(change: Change = as_it_is) -> Papering:
    job = build_job(plain_job(change))
    (item,) = job.work
    assert isinstance(item, Wallcovering)
    basis = Basis(load_library())
    return facts(item, WorkArea(job, take_off(job.room(item.room), basis), basis))


def put(part: str, **fields: object) -> Change:
    """Return a change of a part of the item, or of the item itself where the part is empty."""
    return lambda job: (job["work"][0][part] if part else job["work"][0]).update(fields)


def both(*changes: Change) -> Change:
    def change(job: dict[str, Any]) -> None:
        for each in changes:
            each(job)

    return change


def results(*words: str) -> Change:
    """Return a change of the test strips to untimed ones that came off like this."""
    return put("existing", tests=[{"where": f"place {n}", "result": word} for n, word in enumerate(words, 1)])


def one_wall(width_inches: int, **goods: object) -> Change:
    """Return a change to one bare wall of this width with no opening, hung with these goods."""
    wall = {"name": "long wall", "width": f"{width_inches} in", "openings": "none"}
    return both(put("", walls=[wall], start="long wall", closes_the_room="no"), put("goods", **goods))


def option(found: Outcome, method: str) -> Option:
    return next(each for each in found.comparisons[0].options if each.plan.method == method)


def plan(found: Outcome, method: str) -> Plan:
    return option(found, method).plan


# ---- paper -------------------------------------------------------------------------------------------------------


def test_the_rolls_of_the_demo_by_hand() -> None:
    """A second calculation in inches, without the package: 23 strips, 22 of them whole, out of 8 rolls, 9 bought."""
    roll_width, roll_length, repeat = 53 / 2.54, 1005 / 2.54, 64 / 2.54  # 20.87, 395.7 and 25.2 in
    height, trims, wrap = 100.0, 10 / 2.54, 0.5
    run = 126 + 110 + 126 + 110  # four walls: 472 in
    strips = math.ceil((run + 4 * wrap) / roll_width)  # 474 ÷ 20.87 = 22.7: 23, no remainder being under 6 in
    cut = math.ceil((height + trims) / repeat) * repeat  # 103.9 in is 4.1 repeats: 5 of them, 126 in
    strips_a_roll = math.floor(roll_length / cut)  # 395.7 ÷ 126 = 3.1: 3
    # The door stands from 24 to 58 in; the seams beside it at 20.4, 41.2 and 62.1 in: both strips reach past it.
    first_seams = [number * roll_width - wrap for number in (1, 2, 3)]
    assert first_seams[0] < 24
    assert first_seams[2] > 58
    # Before the window wall lie 236 in of wall and 3 wraps; strip 15 stands from 53.7 to 74.6 in of the 36 to 92.
    left = 14 * roll_width - 236 - 3 * wrap
    assert left > 36
    assert left + roll_width < 92
    full, parts = strips - 1, 2  # strip 15 is cut in two parts: over and under the window
    rolls = math.ceil(full / strips_a_roll)  # 22 ÷ 3: 8 rolls, the last of which has room for both parts
    assert (strips, full, rolls, rolls + 1) == (23, 22, 8, 9)

    walls = papered()
    assert walls.paper.layout.strips_taken == strips
    assert (walls.paper.full.value, walls.paper.parts.value) == (full, parts)
    assert walls.paper.rolls.value == rolls
    assert paper_order(walls).value == rolls + 1


def test_the_area_of_the_demo_by_hand() -> None:
    """Two walls of 10½ and two of 9⅙ ft, 8⅓ ft high, less a door of 34 × 82 and a window of 56 × 49 in."""
    gross = 2 * (10.5 + 9 + 2 / 12) * (8 + 4 / 12)
    assert papered().area.value == pytest.approx(gross - 34 * 82 / 144 - 56 * 49 / 144)


def test_the_second_opinion_knows_nothing_of_strips() -> None:
    """Usable 18 of 28 ft² of 57.3 is 36.9 a roll, and 289 ft² take 8 of them: the note says both counts."""
    rows = Basis(load_library())
    single = rows.figure("wallcovering", "roll_metric_single", "area").value
    usable = rows.figure("wallcovering", "roll_metric_single", "usable_repeat_19_to_23").value / single
    by_area = math.ceil(papered().area.value / (0.53 * 10.05 / 0.3048**2 * usable))
    notes = " ".join(plan(outcome(), "strip_hang").notes)
    assert f"by usable area: {by_area} rolls; by strips 8" in notes


@settings(max_examples=25, deadline=None)
@given(st.integers(40, 400), st.integers(0, 60), st.sampled_from(["random", "straight", "half drop"]))
def test_a_wider_bare_wall_never_takes_fewer_rolls(width: int, more: int, match: str) -> None:
    """One wall without openings: strips, rolls and order grow with its width or stay."""
    narrow, wide = (papered(one_wall(each, match=match)) for each in (width, width + more))
    assert narrow.paper.full.value <= wide.paper.full.value
    assert narrow.paper.rolls.value <= wide.paper.rolls.value
    assert paper_order(narrow).value <= paper_order(wide).value


@settings(max_examples=25, deadline=None)
@given(
    st.integers(40, 400),
    st.sampled_from(["metric roll", "US single roll", "US double roll", "natural weave, 36 in"]),
    st.integers(0, 3),
    st.integers(1, 2),
    st.sampled_from(["sure", "guess"]),
)
def test_the_order_is_never_short(width: int, roll: str, spare: int, pack: int, tape: str) -> None:
    """As taped and in every draw: whole packs, that hold the rolls and the spare."""
    label = {"format": roll, "width": "unknown", "length": "unknown", "spare": spare, "sold_by": pack}
    change = both(one_wall(width, **label), lambda job: job["rooms"][0].update(measured=tape))
    walls = papered(change)
    order, rolls = simulate([paper_order(walls), walls.paper.rolls], points=64)
    assert np.all(order >= rolls + spare)
    assert np.all(order % pack == 0)
    assert np.all(rolls >= walls.paper.cuts.rolls)


def test_a_guess_at_the_walls_buys_more_often() -> None:
    """Walls that were guessed may be a quarter larger: the range of the rolls shows it, and never goes below."""
    sure, guess = (
        simulate([papered(lambda job, how=how: job["rooms"][0].update(measured=how)).paper.rolls])[0]
        for how in ("sure", "guess")
    )
    assert sure.min() == guess.min() == 8
    assert guess.max() > sure.max()


def test_rolls_that_begin_anywhere_are_said() -> None:
    """Strips of 103.9 in use 4 repeats of 26: 312 in hold just three of them, and two where a roll begins badly."""
    label = put("goods", repeat="26 in", length="26 ft")
    walls = papered(label)
    assert walls.paper.cuts.rolls == math.ceil(22 / 3)
    assert walls.paper.rolls_at_worst == 11  # 22 in twos; the parts come out of what is left
    said = " ".join(plan(outcome(label), "strip_hang").notes)
    assert "11 rolls if every one begins where the pattern is wanted least" in said


def test_a_strip_too_narrow_to_hang_well_is_said() -> None:
    """The seam before the first corner of the demo stands 6 × 20.87 − ½ = 124.7 in along a wall of 126."""
    assert "strip 7 on door wall is 1.3 in wide" in " ".join(plan(outcome(), "strip_hang").notes)


def test_wide_goods_go_by_length_in_whole_yards() -> None:
    """Seven full strips of 8′ 4″ and 6 in of trims and one spare: 8 × 8.83 is 70.7 ft, 24 yd of 3 ft."""
    goods = {"format": "wide goods by length", "match": "random", "width": "54 in", "length": "unknown"}
    walls = papered(one_wall(7 * 54, **goods))
    supply = paper_supply(walls)
    assert supply.need.unit == "ft"
    assert supply.need.value == 72.0
    assert supply.holds is not None
    assert supply.holds.value == 3.0
    (bought,) = [each for each in outcome(one_wall(7 * 54, **goods)).estimate.supplies if "off one bolt" in each.title]
    assert bought.count.value == 24


def test_units_cannot_mix() -> None:
    """A length of wide goods is no number of rolls."""
    goods = {"format": "wide goods by length", "match": "random", "width": "54 in", "length": "unknown"}
    walls = papered(one_wall(300, **goods))
    one = walls.paper.full
    with pytest.raises(InputError, match="unit"):
        work(rolls_to_order, "rolls", rolls=walls.paper.running, spare=one, pack=one)


def test_walls_that_cannot_be_hung_are_named() -> None:
    """A window that reaches past the end of its wall is refused with the item, the wall and the field."""
    far = {"kind": "window", "left": "8 ft", "width": "5 ft", "sill": "3 ft", "head": "7 ft"}
    with pytest.raises(InputError) as raised:
        papered(lambda job: job["work"][0]["walls"][1].update(openings=[far]))
    assert 'work "study"' in raised.value.field
    assert "shelf wall" in raised.value.field


def test_a_roll_shorter_than_a_strip_is_refused() -> None:
    """No strip has a cross seam."""
    with pytest.raises(InputError, match="cuts to no more than the roll"):
        papered(put("goods", length="8 ft"))


def test_who_buys_the_paper() -> None:
    """The contractor's paper is in the price; the client's is ordered at no cost, and asked to be there."""
    own, clients = outcome(), outcome(put("goods", supplied_by="client", price="unknown"))
    cost = {each.title: float(each.cost.value) for each in own.estimate.supplies if "one batch" in each.title}
    assert list(cost.values()) == [9 * 62.0]
    (theirs,) = [each for each in clients.estimate.supplies if "one batch" in each.title]
    assert (theirs.count.value, theirs.cost.value) == (9, 0)
    assert "(the client buys it)" in theirs.title
    assert any("of one batch" in each for each in plan(clients, "strip_hang").client_requirements)


# ---- removal -----------------------------------------------------------------------------------------------------


def test_a_removal_falls_on_one_of_three_outcomes() -> None:
    """The hours are those of one outcome, far apart; stripping and mending go well or badly together."""
    found = papered(results("came with water")).removal
    strip, mend = simulate([found.strip_hours, found.mend_hours])
    assert np.quantile(strip, 0.9) > 6 * np.quantile(strip, 0.1)
    assert np.corrcoef(strip, mend)[0, 1] > 0.6
    assert found.stripping["best"].value < found.strip_hours.value < found.stripping["worst"].value


def test_the_cost_shows_the_width_of_the_removal() -> None:
    """The same room with no covering on its walls is known far better."""
    wide = estimate_ranges(outcome().estimate)
    bare = estimate_ranges(outcome(put("existing", covering="none", layers=0, tests=[])).estimate)
    assert (wide.cost.high - wide.cost.low) > 2 * (bare.cost.high - bare.cost.low)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (results(*["came with water"] * 6), results(*["came with water"] * 2)),
        (results(*["came with water"] * 3), results("took face paper or plaster", *["came with water"] * 2)),
        (put("existing", wall_sized="yes"), put("existing", wall_sized="unknown")),
        (put("existing", wall_sized="unknown"), put("existing", wall_sized="no")),
        (put("existing", painted_over="no"), put("existing", painted_over="yes")),
    ],
)
def test_tests_and_history_move_the_odds_the_right_way(one: Change, other: Change) -> None:
    """More clean strips, a sized wall and bare paper make a bad removal less likely."""
    assert papered(one).removal.bad.value < papered(other).removal.bad.value


def test_clean_tests_never_rule_the_bad_wall_out() -> None:
    """Thirty clean strips in one room leave a chance."""
    assert papered(results(*["came with water"] * 30)).removal.bad.value > 0.02


def test_dry_strips_and_strippable_paper_make_an_easy_removal_likelier() -> None:
    """Either is a reason to expect it to peel."""
    plain = papered(results("came with water", "came with water")).removal.easy.value
    dry = papered(results("peeled dry", "came with water")).removal.easy.value
    label = papered(both(results("came with water", "came with water"), put("existing", covering="strippable paper")))
    assert plain < dry
    assert plain < label.removal.easy.value


def test_slow_strips_slow_the_plan_down() -> None:
    """Timed strips at 5 ft²/h pull the likely rate down from the table's, and set the worst."""
    slow = {"where": "over the door", "result": "came with steam", "width": "12 in", "height": "12 in", "minutes": 12}
    found = papered(put("existing", tests=[slow])).removal
    table = papered(results("came with steam")).removal
    assert found.stripping["likely"].value > table.stripping["likely"].value
    assert found.stripping["worst"].value == pytest.approx(papered().area.value / 5)


def test_every_layer_is_stripped_by_itself() -> None:
    """Two layers take twice the hours of one in every outcome."""
    one, two = (papered(put("existing", layers=layers)).removal.stripping for layers in (1, 2))
    assert {name: hours.value for name, hours in two.items()} == pytest.approx(
        {name: 2 * hours.value for name, hours in one.items()}
    )


def test_time_and_material_is_offered_in_three_prices() -> None:
    """The note names best, likely and worst by the hour and what the fixed price carries, which lies between."""
    walls = papered()
    cost = {name: figure.value for name, figure in by_the_hour(walls.removal, walls.work_area).items()}
    assert cost["best"] < cost["likely"] < cost["average"] < cost["worst"]
    (said,) = [note for note in plan(outcome(), "strip_hang").notes if "time and material" in note]
    assert f"best {cost['best']:,.0f}, likely {cost['likely']:,.0f}" in said


# ---- ways --------------------------------------------------------------------------------------------------------

BARE = put("existing", covering="none", layers=0, tests=[])
HOLDS = both(put("existing", tight="yes"), results(*["came with water"] * 4), put("", wall="sound, flat paint"))


def new_house(job: dict[str, Any]) -> None:
    """Put the job into a house built long after lead and asbestos went out of use."""
    job["site"].update(year_built=2005)


@pytest.mark.parametrize(
    ("change", "standings"),
    [
        (as_it_is, {"hang": CLOSED, "strip_hang": CONDITIONS, "line_hang": CONDITIONS, "hang_over": CLOSED}),
        (both(BARE, new_house), {"hang": OPEN, "strip_hang": CLOSED, "line_hang": OPEN, "hang_over": CLOSED}),
        (both(HOLDS, new_house), {"hang": CLOSED, "strip_hang": OPEN, "hang_over": CONDITIONS}),
        (both(HOLDS, put("existing", tight="unknown")), {"hang_over": CLOSED}),
        (both(HOLDS, put("existing", layers=2)), {"hang_over": CLOSED}),
        (both(HOLDS, put("existing", covering="embossed or textured")), {"hang_over": CLOSED}),
        (both(HOLDS, put("existing", covering="strippable paper")), {"hang_over": CLOSED}),
        (both(HOLDS, results(*["came with water"] * 3, "peeled dry")), {"hang_over": CLOSED}),
        (both(HOLDS, results("came with water")), {"hang_over": CLOSED, "strip_hang": CONDITIONS}),
        (both(HOLDS, put("", wall="rough or sand finish")), {"hang_over": CLOSED}),
        (put("existing", covering="unknown"), {"hang": CONDITIONS, "strip_hang": CONDITIONS, "hang_over": CLOSED}),
        (put("", wall="damp"), dict.fromkeys(("hang", "strip_hang", "line_hang", "hang_over"), CLOSED)),
        (both(BARE, put("", wall="bare board", first_coat="none")), {"hang": CLOSED, "line_hang": CLOSED}),
        (both(BARE, put("", ceiling_line="out of level")), {"hang": CONDITIONS}),
    ],
)
def test_what_each_way_may_do(change: Change, standings: dict[str, Suitability]) -> None:
    """A way stands as the facts allow, and says why where it is not simply open."""
    found = outcome(change)
    assert {method: plan(found, method).suitability for method in standings} == standings
    assert all(plan(found, method).findings for method, standing in standings.items() if standing is not OPEN)


def test_a_damp_wall_is_declined() -> None:
    """Where nothing may be done the last resort is recommended, and costs nothing."""
    found = outcome(put("", wall="damp"))
    assert found.comparisons[0].recommended.plan.method == "decline"
    assert found.estimate.price == 0
    assert "mold" in {each.key for each in plan(found, "strip_hang").cautions}


def test_hanging_over_carries_its_own_failure() -> None:
    """Its allowance is the chance that the old covering lets go, times stripping, hanging and paper again."""
    found = plan(outcome(HOLDS), "hang_over")
    (risk,) = found.risks
    assert 0 < risk.chance.value < 0.12  # four strips that held bring the table's chance down
    assert risk.expected.value == pytest.approx(risk.chance.value * risk.cost_if.value)
    assert risk.cost_if.value > 9 * 62


def test_the_choice_turns_on_a_bad_wall() -> None:
    """Where both may be used, stripping and hanging over are compared at every chance of a bad removal."""
    comparison = outcome(both(HOLDS, new_house)).comparisons[0]
    assert comparison.decision_figure is not None
    assert comparison.recommended.plan.method == "hang_over"
    assert comparison.stretches[0].low == 0
    assert "now; " in comparison.turning


def test_a_rough_wall_is_skimmed_or_lined_and_the_price_tells_which() -> None:
    """Hanging needs the skim and its day of drying; lining takes its place."""
    found = outcome(both(BARE, put("", wall="rough or sand finish")))
    assert "skim" in {task.key for task in plan(found, "hang").tasks}
    assert "skim" not in {task.key for task in plan(found, "line_hang").tasks}
    assert option(found, "hang").price != option(found, "line_hang").price


def test_lining_is_counted_and_bought_like_paper() -> None:
    """472 in of wall and four wraps in strips of 22 in: 22 strips, of which a 10 m roll gives three."""
    found = outcome(both(BARE, put("", method="line_hang")))
    (lining,) = [each for each in found.estimate.supplies if each.item == "lining_paper"]
    assert papered().lining.layout.strips_taken == math.ceil(474 / (56 / 2.54))
    assert lining.count.value == papered().lining.rolls.value == 7  # 21 full strips, and parts from what is left


@pytest.mark.parametrize(
    ("first", "wait"),
    [("wallcovering primer", "prime_walls"), ("size", "size"), ("none", None)],
)
def test_primer_and_size_dry_before_paper(first: str, wait: str | None) -> None:
    """The wait stands behind the coat, and paper begins only when it is over."""
    found = outcome(both(BARE, put("", first_coat=first)))
    schedule = found.estimate.schedule
    keys = [task.key for task in schedule.tasks]
    table = schedule.times[keys.index("set_up_table")]
    assert ({"prime_walls", "size"} & set(keys)) == ({wait} if wait else set())
    if wait:
        coat = schedule.times[keys.index(wait)]
        assert schedule.tasks[keys.index(wait)].wait is not None
        assert (table.start_day, table.start_hour) >= (coat.ready_day, coat.ready_hour)


def test_a_stripped_wall_is_primed_whatever_was_asked() -> None:
    """What was mended drinks."""
    assert "prime_walls" in {task.key for task in plan(outcome(put("", first_coat="none")), "strip_hang").tasks}


def test_the_work_comes_in_order() -> None:
    """Strip, mend, prime, line, hang; the floor stays covered until the table is washed."""
    keys = [task.key for task in outcome(put("", method="line_hang")).estimate.schedule.tasks]
    order = ["protect_floor", "strip", "mend_wall", "prime_walls", "line_full", "set_up_table", "hang_full", "wash_up"]
    places = [keys.index(key) for key in [*order, "unmask_floor"]]
    assert places == sorted(places)


def test_what_stands_in_the_way_is_minutes() -> None:
    """Six outlets at two minutes are 0.2 hours; a small room and a learning crew slow all of it."""
    hours = {task.key: task.hours.value for task in plan(outcome(), "strip_hang").tasks}
    assert hours["round_outlet"] == pytest.approx(0.2)
    small = outcome(
        both(put("", place="kitchen, bath or powder room"), lambda job: job["crew"].update(experience="learning"))
    )
    slow = {task.key: task.hours.value for task in plan(small, "strip_hang").tasks}
    assert slow["hang_full"] == pytest.approx(hours["hang_full"] * 1.9 * 1.6)


@pytest.mark.parametrize("change", [as_it_is, HOLDS, BARE, put("existing", covering="unknown")])
def test_every_leaf_has_an_origin_that_says_something(change: Change) -> None:
    """Nothing in a line, an allowance or a figure shown stands on a bare number."""
    found = outcome(change)
    figures = [line.amount for each in found.comparisons[0].options for line in each.estimate.lines]
    figures += [figure for each in found.comparisons[0].options for figure in each.plan.figures]
    for leaf in leaves(figures):
        assert isinstance(leaf.origin.kind, Kind)
        assert leaf.origin.source or leaf.origin.place or leaf.origin.note, leaf.name
        assert leaf.unit


def test_open_answers_are_asked_and_answered_ones_are_not() -> None:
    """The demo leaves three things open; a bare start leaves many."""
    fields = {each.field for each in outcome().questions}
    assert 'work "study" · existing · wall_sized' in fields
    assert 'work "study" · goods · match' not in fields
    empty = {"kind": "wallcovering", "room": "study", "walls": [{"name": "a", "width": "9 ft"}]}
    asked = {each.field for each in outcome(lambda job: job.update(work=[empty])).questions}
    assert {f'work "study" · {each}' for each in ("goods · match", "goods · width", 'walls "a" · openings')} <= asked


def test_cautions_come_from_the_facts() -> None:
    """Stripping an old house raises lead and wet walls; hanging on new board raises neither."""
    old = {each.key for each in plan(outcome(), "strip_hang").cautions}
    new = {each.key for each in plan(outcome(both(BARE, new_house)), "hang").cautions}
    assert {"lead_paint", "steam_stripping", "silica_dust"} <= old
    assert not {"lead_paint", "steam_stripping"} & new


def test_the_way_asked_for_is_priced() -> None:
    """And an unknown way is refused with those there are."""
    assert outcome(put("", method="line_hang")).comparisons[0].taken.plan.method == "line_hang"
    with pytest.raises(InputError, match="strip_hang"):
        outcome(put("", method="glue it"))


def test_the_pivot_is_found_in_the_plans_that_strip() -> None:
    """A plan that leaves the wall alone has none."""
    found = outcome()
    assert papering.decision_figure(plan(found, "strip_hang")) is found.comparisons[0].decision_figure
    assert papering.decision_figure(plan(found, "hang")) is None
