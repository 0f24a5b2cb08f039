"""The build-up of a price, against a few lines worked out by hand."""

import dataclasses
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_up import charge, made, masks, paint, plan, round_basis, small_job, tape, task

from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.lines import Section, sum_of
from estimating.estimate.pricing.plan import Plan, Risk

money = st.floats(0.01, 999.0)


def priced(*plans: Plan, people: int = 1, travel: int | None = None, **changed: float) -> Estimate:
    site = {} if travel is None else {"travel_minutes": travel}
    return build_up(plans, small_job(people, **site), round_basis(**changed))


def costs(estimate: Estimate, section: Section) -> dict[str, Decimal]:
    return {line.key: line.cost for line in estimate.section(section)}


def dollars(amount: str) -> Decimal:
    return Decimal(amount)


def test_a_price_worked_out_by_hand() -> None:
    """One painter, 4 h of rolling, half an hour's drive, 1¾ gallons, 200 ft of tape, 2 masks, a sprayer by the day.

    4 h, loading 1 h, the walk ½ h fill one day of 8 h; opening and closing it is ½ h, the road 2 × ½ h: 7 h in all.
    Labor 7 × 30 = 210. Paint: 1 gallon and 3 quarts at 30 + 36, or 2 gallons at 60: 60. Tape 2 rolls at 5: 10.
    Masks 2 × 4 = 8. Sprayer 1 day at 45. Allowance ¼ × 200 = 50. Tax on 60 + 10 + 8: 7.80. Overhead 7 × 10 = 70.
    Cost 460.80. Markup of a quarter 115.20. Price 576.
    """
    risk = Risk("release", "It comes down", made(0.25, "dimensionless"), made(200.0, "dollar"), made(50.0, "dollar"))
    estimate = priced(
        plan(
            task("roll", 4.0),
            materials=(paint(1.0), paint(0.75)),
            supplies=(tape(200.0), masks(2.0)),
            charges=(charge("sprayer", 45.0),),
            risks=(risk,),
        ),
        travel=30,
    )
    assert costs(estimate, Section.LABOR) == {
        "mobilize": dollars("30.00"),
        "roll": dollars("120.00"),
        "final_walk": dollars("15.00"),
        "daily_start": dollars("15.00"),
        "travel": dollars("30.00"),
    }
    assert costs(estimate, Section.PAINT) == {"ceiling_flat": dollars("60.00")}
    assert costs(estimate, Section.SUPPLIES) == {"tape": dollars("10.00"), "mask": dollars("8.00")}
    assert costs(estimate, Section.EQUIPMENT) == {"sprayer": dollars("45.00")}
    assert costs(estimate, Section.ALLOWANCE) == {"release": dollars("50.00")}
    assert costs(estimate, Section.PURCHASE_TAX) == {"purchase_tax": dollars("7.80")}
    assert costs(estimate, Section.OVERHEAD) == {"overhead": dollars("70.00")}
    assert costs(estimate, Section.PROFIT) == {"markup": dollars("115.20")}
    assert costs(estimate, Section.MINIMUM) == {"minimum_charge": dollars("0.00")}
    assert costs(estimate, Section.SALES_TAX) == {"sales_tax": dollars("0.00")}
    assert estimate.price == dollars("576.00")
    assert estimate.cost.value == pytest.approx(460.80)
    assert estimate.amount.value == pytest.approx(576.00)
    assert estimate.hours.value == pytest.approx(7.0)
    assert estimate.gallons == pytest.approx(1.75)


def test_lines_stand_in_the_order_a_price_is_built_up() -> None:
    """Labor first, taxes on the price last."""
    estimate = priced(plan(task("roll", 4.0), materials=(paint(1.0),), supplies=(tape(90.0),)))
    sections = [line.section for line in estimate.lines]
    assert sections == sorted(sections, key=list(Section).index)


@settings(max_examples=30, deadline=None)
@given(st.lists(money, min_size=1, max_size=6), money, money)
def test_the_price_is_the_sum_of_its_rounded_lines(prices: list[float], wage: float, markup: float) -> None:
    """To the cent, whatever the amounts; and it is off the unrounded price by no more than half a cent a line."""
    charges = tuple(charge(f"charge {place}", price) for place, price in enumerate(prices))
    estimate = priced(plan(task("roll", 1.0), charges=charges), wage=wage, markup=markup)
    assert estimate.price == sum_of(estimate.lines) == sum(line.cost for line in estimate.lines)
    assert all(line.cost == line.cost.quantize(Decimal("0.01")) for line in estimate.lines)
    assert float(estimate.price) == pytest.approx(estimate.amount.value, abs=0.005 * len(estimate.lines) + 1e-6)


def test_markup_is_on_cost_and_margin_on_price() -> None:
    """A markup of a quarter is a margin of a fifth: 1/4 over 1 1/4."""
    estimate = priced(plan(task("roll", 4.0)))
    assert estimate.profit == pytest.approx(Decimal(str(estimate.cost.value)) / 4, abs=Decimal("0.01"))
    assert estimate.margin == pytest.approx(0.2, abs=1e-4)


def test_a_small_job_is_topped_up_to_the_least_charge() -> None:
    """2½ h with the day's opening: 2 h at 30 and 10 are 80, with a quarter 100. To 450 dollars 350 are short.

    What is added is profit; a job that reaches the least charge by itself is left alone.
    """
    small = priced(plan(task("roll", 0.0)), minimum_charge=450.0)
    assert costs(small, Section.MINIMUM) == {"minimum_charge": dollars("350.00")}
    assert small.price == dollars("450.00")
    assert small.profit == dollars("370.00")
    large = priced(plan(task("roll", 40.0)), minimum_charge=450.0)
    assert costs(large, Section.MINIMUM) == {"minimum_charge": dollars("0.00")}


def test_the_least_charge_is_before_tax() -> None:
    """The client pays the tax on top of it: 450 and 8 % are 486."""
    taxed = priced(plan(task("roll", 0.0)), minimum_charge=450.0, sales_tax=8.0)
    assert costs(taxed, Section.SALES_TAX) == {"sales_tax": dollars("36.00")}
    assert taxed.price == dollars("486.00")
    assert taxed.profit == dollars("370.00")


def test_a_job_that_is_declined_costs_nothing() -> None:
    """No visit, no overhead, no least charge."""
    declined = priced(plan(), travel=30, minimum_charge=450.0)
    assert declined.price == dollars("0.00")
    assert declined.lines == ()
    assert (declined.hours.value, declined.schedule.days.value, declined.margin, declined.gallons) == (0, 0, 0, 0)


def test_one_ceiling_declined_beside_one_that_is_done_adds_nothing() -> None:
    """The visit is for the other."""
    rolled = plan(task("roll", 4.0))
    assert priced(rolled, plan()).price == priced(rolled).price


def test_what_a_job_does_once_is_done_once_for_all_its_rooms() -> None:
    """Two ceilings, one van to load, one sprayer to clean at the longer of two times, one fee, one order of paint."""
    one = plan(task("roll", 2.0), task("wash", 0.5, share_key="wash"), materials=(paint(0.5),),
               charges=(charge("fee", 25.0, share_key="fee"),))  # fmt: skip
    other = plan(task("spray", 1.0), task("wash", 0.75, share_key="wash"), materials=(paint(0.5),),
                 charges=(charge("fee", 25.0, share_key="fee"),))  # fmt: skip
    both = priced(one, other)
    labor = costs(both, Section.LABOR)
    assert labor["mobilize"] == dollars("30.00")
    assert labor["wash"] == dollars("22.50")
    assert [line.key for line in both.section(Section.LABOR)].count("wash") == 1
    assert costs(both, Section.EQUIPMENT) == {"fee": dollars("25.00")}
    assert costs(both, Section.PAINT) == {"ceiling_flat": dollars("30.00")}
    assert both.price < priced(one).price + priced(other).price


def test_a_machine_by_the_day_is_out_for_its_own_piece_only() -> None:
    """Ten hours of spraying are two days of 8; forty hours of rolling beside them do not keep the sprayer longer."""
    spray = dataclasses.replace(task("spray", 10.0), machine="sprayer")
    sprayed = plan(spray, charges=(charge("sprayer", 45.0, machine="sprayer"),))
    rolled = plan(task("roll", 40.0))
    assert costs(priced(sprayed), Section.EQUIPMENT) == {"sprayer": dollars("90.00")}
    both = priced(rolled, sprayed)
    assert both.schedule.days.value == 7
    assert costs(both, Section.EQUIPMENT) == {"sprayer": dollars("90.00")}


def test_every_line_has_its_quantity_and_what_it_costs_each() -> None:
    """Hours at the wage, rolls at their price; a base and its share."""
    estimate = priced(plan(task("roll", 4.0), supplies=(tape(200.0),)))
    for line in estimate.lines:
        if line.unit_cost is not None and line.unit_cost.unit.startswith("dollar"):
            each = line.quantity.value * line.unit_cost.value
            assert float(line.cost) == pytest.approx(each, abs=0.005), line.key
    (markup,) = estimate.section(Section.PROFIT)
    assert markup.unit_cost is not None
    assert (markup.quantity.value, markup.unit_cost.value) == (pytest.approx(estimate.cost.value), 25.0)


def test_paint_says_what_to_buy_and_what_for() -> None:
    """Each purpose once."""
    materials = (paint(4.0, purpose="coat 1"), paint(0.9, purpose="coat 2"), paint(0.1, purpose="coat 2"))
    (line,) = priced(plan(task("roll", 4.0), materials=materials)).section(Section.PAINT)
    assert line.detail == "buy 1 five; coat 1; coat 2"
    assert line.quantity.value == pytest.approx(5.0)


@given(st.floats(0.1, 30.0), st.floats(0.0, 5.0))
@settings(max_examples=30, deadline=None)
def test_more_hours_never_cost_less(hours: float, more: float) -> None:
    """Nor does more paint, with its containers and days."""
    less = priced(plan(task("roll", hours), materials=(paint(hours),)), travel=30)
    longer = priced(plan(task("roll", hours + more), materials=(paint(hours + more),)), travel=30)
    assert longer.price >= less.price
