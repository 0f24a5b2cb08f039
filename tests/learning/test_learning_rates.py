import math
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.evidence import Basis, Library, OwnValue, Row
from estimating.learning.rates import Learned, Manner, Observed, Parts, implied, learn, propose_updates
from estimating.learning.scores import digits, measure_of, per_amount, score, value_at
from estimating.origins import Kind, Origin, published

TODAY = date(2026, 6, 1)


def _row(*keys: str, range_=(100.0, 150.0, 225.0), unit="ft**2/hour", table="production", kind=Kind.PUBLISHED) -> Row:
    return Row(table, keys, *range_, unit, Origin(kind, "handbook", "table 1"))


POPCORN = _row("roll_ceiling", "roll", "popcorn")
SMOOTH = _row("roll_ceiling", "roll", "smooth")
CUT_IN = _row("cut_in", "brush", "sealed")
DOOR = _row("paint_door", "brush", "panel", range_=(20.0, 30.0, 45.0), unit="minute/count")
SPREAD = _row("popcorn", "porous", "first", "roll", range_=(60.0, 100.0, 180.0), unit="ft**2/gallon", table="coverage")
ROWS = {row.key: row for row in (POPCORN, SMOOTH, CUT_IN, DOOR, SPREAD)}


def _took(over: float, row: Row = POPCORN, job: str = "parlor", **more: object) -> Observed:
    """Return a line that took `over` times its estimate of 4, made with the published likely rate."""
    plain = Observed(
        job,
        row.keys[0],
        measure_of(row),
        3.0,
        4.0,
        5.5,
        4.0 * over,
        TODAY,
        row=row.key,
        assumed=row.likely,
        unit=row.unit,
    )
    return replace(plain, **more)


def _jobs(over: list[float], row: Row = POPCORN) -> list[Observed]:
    return [_took(each, row, f"job {number}") for number, each in enumerate(over)]


def _one(observed: list[Observed], row: Row = POPCORN, **more: object) -> Learned:
    (learned,) = learn(ROWS, observed, today=TODAY, wanted=[row], **more).updates
    return learned


def test_one_job_moves_the_rate_as_the_textbook_says() -> None:
    """One line, half of whose variance is not the row's own: worked by hand.

    The line took 1.5 times as long, so its rate is 150 / 1.5 = 100, the published P10: a score of -1.2816.
    What stays is 0.20 + 0.15 + 0.10 = 0.45 (the product is not named), out of a variance of 1.
    Mean -1.2816 x 0.45 = -0.5767; variance 1 - 0.45^2 = 0.7975, deviation 0.8930.
    ln(150/100) / 1.2816 = 0.31638 per score below the likely value, and the same above it.
    """
    learned = _one([_took(1.5)])
    assert learned.likely == pytest.approx(150 * math.exp(-0.5767 * 0.31638), rel=1e-4)
    assert learned.low == pytest.approx(150 * math.exp((-0.5767 - 1.2816 * 0.8930) * 0.31638), rel=1e-4)
    assert learned.high == pytest.approx(150 * math.exp((-0.5767 + 1.2816 * 0.8930) * 0.31638), rel=1e-4)
    assert learned.own == pytest.approx(100.0)
    assert learned.n == 1


def test_many_like_jobs_move_the_rate_by_normal_normal_shrinkage() -> None:
    """n jobs of one row: mean = y v / (v + s / n), with v what stays and s what comes and goes."""
    manner = Manner(scatter_worth=1e12)  # the published scatter is taken as known
    for n in (2, 7, 40):
        learned = _one(_jobs([1.5] * n), manner=manner)
        assert score(learned.likely, POPCORN) == pytest.approx(-1.2816 * 0.45 / (0.45 + 0.55 / n), rel=1e-4)


def test_the_text_says_what_was_published_what_is_ours_and_how_often() -> None:
    """The line at the desk reads as the trade would say it."""
    learned = Learned(POPCORN, 120.0, 7, 3, 104.0, 128.4, 158.0)
    assert learned.text == "published 150 → yours 128 (n = 7)"
    assert replace(learned, n=0).text == "published 150 → yours 128 (n = 0 here, 3 on other work)"
    by_eye = replace(POPCORN, origin=Origin(Kind.JUDGMENT))
    assert replace(learned, row=by_eye).text == "judgment 150 → yours 128 (n = 7)"


@pytest.mark.parametrize(
    ("value", "text"),
    [(150.0, "150"), (1234.0, "1,230"), (0.01234, "0.0123"), (2.5, "2.5"), (99.96, "100"), (0.0, "0")],
)
def test_rates_are_written_to_three_figures(value: float, text: str) -> None:
    """No digit that means nothing."""
    assert digits(value) == text


@pytest.mark.parametrize(
    ("unit", "measure", "per"),
    [
        ("ft**2/hour", "hours", True),
        ("ft/hour", "hours", True),
        ("minute/count", "hours", False),
        ("hour", "hours", False),
        ("ft**2/gallon", "gallons", True),
        ("gallon", "gallons", False),
        ("thou", "gallons", False),
    ],
)
def test_the_unit_says_which_way_a_rate_goes(unit: str, measure: str, per: bool) -> None:
    """Work per hour falls when the work takes longer; hours per piece rise."""
    row = _row("task", unit=unit)
    assert (measure_of(row), per_amount(row)) == (measure, per)


@pytest.mark.parametrize("unit", ["percent", "dimensionless", "inch", "dollar/gallon", "ft**2"])
def test_what_is_no_rate_cannot_be_learned(unit: str) -> None:
    """A share or a width is not corrected by hours."""
    with pytest.raises(InputError, match="a rate of hours or gallons"):
        measure_of(_row("task", unit=unit))


def test_the_share_of_the_time_the_trigger_is_held_goes_with_hours() -> None:
    """It is a bare share, known by its address: hours fall as it rises."""
    row = _row("spray_lap", "airless", "any", range_=(0.25, 0.4, 0.6), unit="dimensionless")
    assert (measure_of(row), per_amount(row)) == ("hours", True)
    assert implied(_took(2.0, row), row) == pytest.approx(0.2)


def test_longer_work_lowers_a_rate_and_raises_a_time() -> None:
    """Half as much again: 150 ft² an hour was 100, and 30 minutes a door were 45."""
    assert implied(_took(1.5), POPCORN) == pytest.approx(100.0)
    assert implied(_took(1.5, DOOR), DOOR) == pytest.approx(45.0)
    assert implied(_took(1.5, DOOR, assumed=0.5, unit="hour/count"), DOOR) == pytest.approx(45.0)


def test_an_estimate_made_with_an_own_rate_teaches_the_same_as_one_made_with_the_published() -> None:
    """4 h at 150 that took 6 h, and 6 h at 100 that took 6 h, are one and the same ceiling."""
    with_published = _one([_took(1.5)])
    with_own = _one([_took(1.0, assumed=100.0)])
    assert with_own.likely == pytest.approx(with_published.likely)


@given(st.floats(0.1, 1000.0), st.floats(1.01, 3.0), st.floats(1.01, 3.0))
def test_score_and_value_are_each_others_inverse(value: float, below: float, above: float) -> None:
    """Also where the published range leans to one side."""
    row = _row("task", range_=(100 / below, 100.0, 100 * above))
    assert value_at(score(value, row), row) == pytest.approx(value)
    assert [score(each, row) for each in (row.low, row.high)] == pytest.approx([-1.2816, 1.2816], abs=1e-4)


@given(st.lists(st.floats(0.25, 4.5), min_size=1, max_size=12))
def test_the_learned_range_is_a_range_and_the_likely_lies_between_published_and_own(over: list[float]) -> None:
    """Shrinkage never overshoots, in either direction."""
    learned = _one(_jobs(over))
    assert learned.own is not None
    assert 0 < learned.low < learned.likely < learned.high
    least, most = sorted((learned.own, POPCORN.likely))
    assert least * 0.999999 <= learned.likely <= most * 1.000001


@given(st.lists(st.floats(0.5, 2.0), min_size=2, max_size=8), st.randoms())
def test_the_order_of_records_does_not_matter(over: list[float], chance) -> None:
    """Learning from all at once is learning one after another."""
    observed = _jobs(over)
    shuffled = list(observed)
    chance.shuffle(shuffled)
    assert _one(shuffled).likely == pytest.approx(_one(observed).likely)


def test_other_work_teaches_less_the_further_off_it_is() -> None:
    """Slow popcorn says most about popcorn, less about smooth ceilings, least about cutting in, nothing about paint."""
    slow = _jobs([1.5] * 5)
    moved = [_one(slow, row).likely / row.likely for row in (POPCORN, SMOOTH, CUT_IN)]
    assert moved[0] < moved[1] < moved[2] < 1
    assert _one(slow, DOOR).likely > DOOR.likely  # slower work: more minutes a door
    assert learn(ROWS, slow, today=TODAY, wanted=[SPREAD]).updates == ()
    assert _one(slow, SMOOTH).n == 0
    assert _one(slow, SMOOTH).elsewhere == 5


def test_coverage_is_learned_from_gallons_the_same_way() -> None:
    """A thirsty ceiling lowers its own spread rate and leaves the hours alone."""
    learned = _one(_jobs([1.4] * 4, SPREAD), SPREAD)
    assert 100 / 1.4 < learned.likely < 100
    assert learned.n == 4


def test_a_product_of_its_own_counts_for_that_product() -> None:
    """Records of one product say more about the next job with it than about another's."""
    thirsty = [replace(each, product="sealer") for each in _jobs([1.6] * 6, SPREAD)]
    same = _one(thirsty, SPREAD, product="sealer")
    other = _one(thirsty, SPREAD, product="ceiling_flat")
    assert same.likely < other.likely < SPREAD.likely
    assert same.high / same.low < other.high / other.low


def test_ten_rooms_of_one_job_teach_less_than_one_room_of_ten_jobs() -> None:
    """What was odd about one job is not taken for the contractor's habit."""
    one_job = [_took(1.5, job="the one") for _ in range(10)]
    assert _one(_jobs([1.5] * 10)).likely < _one(one_job).likely < POPCORN.likely


def test_old_jobs_count_for_less() -> None:
    """With fast jobs now and slow ones long ago, the rate leans to the fast ones; a short memory leans further."""
    old = [replace(each, done_on=TODAY - timedelta(days=2000)) for each in _jobs([1.5] * 5)]
    new = [replace(each, job=f"new {each.job}") for each in _jobs([1.0] * 5)]
    usual, short = (_one(old + new, manner=Manner(half_life=days)) for days in (730.0, 200.0))
    assert _one(_jobs([1.5] * 5 + [1.0] * 5)).likely < usual.likely < short.likely < POPCORN.likely
    assert usual.n == 10
    forgotten = [replace(each, done_on=date(1950, 1, 1)) for each in _jobs([1.5] * 5)]
    assert _one(forgotten, manner=Manner(half_life=1.0)).likely == pytest.approx(POPCORN.likely)


def test_a_steady_contractor_gets_a_narrow_range_and_an_uneven_one_a_wide_one() -> None:
    """Job-to-job scatter is the contractor's own, once there are records enough."""
    steady, uneven = _one(_jobs([1.1] * 20)), _one(_jobs([0.6, 2.0] * 10))
    assert steady.high / steady.low < POPCORN.high / POPCORN.low < uneven.high / uneven.low


@pytest.mark.parametrize(("worth", "size"), [(3.0, (3 + 8 / 0.55) / 5), (10.0, (10 + 8 / 0.55) / 12)])
def test_three_uneven_jobs_widen_the_range_as_worked_by_hand(worth: float, size: float) -> None:
    """Scores of -2, 0 and 2 about their mean of 0: squares 8 / 0.55, two degrees of freedom, drawn toward 1.

    What stays, 0.45, is known by 3 records of noise 0.55 x size; the next job adds 0.55 x size again.
    """
    learned = _one(_jobs([1.5 ** (each / 1.2816) for each in (-2, 0, 2)]), manner=Manner(scatter_worth=worth))
    known = 0.45 * 0.45 / (0.45 + 0.55 * size / 3)
    deviation = math.sqrt(0.45 - known + 0.55 * size)
    assert learned.likely == pytest.approx(150.0)
    assert score(learned.high, POPCORN) == pytest.approx(1.2816 * deviation, rel=1e-4)


def test_age_alone_makes_nobody_look_steadier() -> None:
    """Equally old records are scattered as much as they were when new; only how much they prove wears off."""
    uneven = _jobs([0.6, 2.0] * 10)
    old = [replace(each, done_on=TODAY - timedelta(days=730)) for each in uneven]
    assert _one(old).high / _one(old).low == pytest.approx(_one(uneven).high / _one(uneven).low, rel=0.1)


@pytest.mark.parametrize(
    ("observed", "reason"),
    [
        (_took(1.2, row=POPCORN, measure="gallons"), "needs hours"),
        (replace(_took(1.2), row=""), "one reference row"),
        (replace(_took(1.2), row="production/gone"), "still in the reference tables"),
        (replace(_took(1.2), assumed=0.0), "the rate the promise was made with"),
        (replace(_took(1.2), unit="ft**2/gallon"), "converts to"),
    ],
)
def test_a_record_that_cannot_be_used_is_named_and_the_others_count(observed: Observed, reason: str) -> None:
    """Nothing is dropped in silence, and nothing stops the rest."""
    proposals = learn(ROWS, [observed, _took(1.5, job="good")], today=TODAY)
    assert [learned.n for learned in proposals.updates] == [1]
    assert reason in proposals.left_out[0].reason


@pytest.mark.parametrize("amount", [0.0, -1.0, math.nan, math.inf])
def test_nothing_is_not_an_amount(amount: float) -> None:
    """A blank or nothing has no ratio."""
    with pytest.raises(InputError, match="more than nothing"):
        _took(1.0, actual=amount)


def test_a_row_without_a_range_is_refused_with_what_it_needs() -> None:
    """A fixed figure has no spread to measure with."""
    fixed = _row("roll_ceiling", "fixed", range_=(150.0, 150.0, 150.0))
    with pytest.raises(InputError, match="low < likely < high"):
        learn(ROWS, [_took(1.5)], today=TODAY, wanted=[fixed])
    left_out = learn({fixed.key: fixed}, [_took(1.5, fixed)], today=TODAY).left_out
    assert "low < likely < high" in left_out[0].reason


def test_parts_must_make_up_the_whole() -> None:
    """Shares of a variance add up to 1."""
    with pytest.raises(InputError, match="add up to 1"):
        Parts(all_work=0.5)


def test_an_update_is_proposed_accepted_and_then_not_proposed_again() -> None:
    """Nothing changes by proposing; what is accepted enters as own record; the same records then bring no news."""
    observed = _jobs([1.4, 1.5, 1.3])
    (update,) = propose_updates(ROWS, observed, today=TODAY).updates
    own = update.own_value(TODAY)
    assert (own.kind, own.date, own.note) == (Kind.OWN_RECORD, "2026-06-01", update.text)
    standing = {POPCORN.key: own}
    assert propose_updates(ROWS, observed, today=TODAY, own=standing).updates == ()
    more = [*observed, _took(2.0, job="a slow one")]
    assert len(propose_updates(ROWS, more, today=TODAY, own=standing).updates) == 1
    by_hand = {POPCORN.key: OwnValue(own.likely, own.unit)}
    assert len(propose_updates(ROWS, observed, today=TODAY, own=by_hand).updates) == 1
    library = Library({"production": {POPCORN.keys: POPCORN}}, {})
    figure = Basis(library, standing).figure("production", *POPCORN.keys)
    assert (figure.low, figure.value, figure.high) == (update.low, update.likely, update.high)
    assert figure.origin.kind is Kind.OWN_RECORD


def test_the_origin_of_a_published_row_is_kept_beside_the_own_value() -> None:
    """The learned figure still shows which row it grew from."""
    assert _one([_took(1.2)]).row.origin == published("handbook", "table 1")
