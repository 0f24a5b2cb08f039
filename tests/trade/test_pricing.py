import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import pricing

ENTERED = Origin(Kind.ENTERED)
money = st.floats(0, 1e6)
shares = st.floats(0, 0.95)

# "Contracting 101: Mark-Up and Margin", Contracting Business, 25 April 2024: a $100 part.
CONTRACTING_101 = "Contracting 101"
# "Remodelers Exchange: Protecting Your Margin and Mark-Up", Professional Remodeler, May 2012: $100 plus 30 percent.
EXCHANGE = "Remodelers Exchange"
# "Planning for Profit in Commercial Remodeling", Journal of Light Construction: cost $1,000 sold at $1,500.
PLANNING = "Planning for Profit"


@pytest.mark.parametrize(
    ("cost", "markup", "price", "margin", "digits", "source"),
    [
        (100, 0.20, 120, 0.1667, 0.00005, CONTRACTING_101),
        (100, 0.30, 130, 0.23, 0.005, EXCHANGE),
        (1000, 0.50, 1500, 0.333, 0.0005, PLANNING),
    ],
)
def test_markup_and_the_margin_it_comes_to(cost, markup, price, margin, digits, source):
    """Published examples, each to half its last printed digit."""
    found = pricing.price_from_markup(cost=float(cost), markup=markup)
    assert found == pytest.approx(price), source
    assert pricing.margin_from_markup(markup=markup) == pytest.approx(margin, abs=digits), source
    assert pricing.margin_of(price=found, cost=float(cost)) == pytest.approx(margin, abs=digits), source


def test_price_at_a_margin():
    """In "Contracting 101: Mark-Up and Margin" a $100 part at a margin of 20 percent sells at $100 / 0.8 = $125."""
    assert pricing.price_from_margin(cost=100.0, margin=0.20) == pytest.approx(125)
    assert pricing.margin_of(price=125.0, cost=100.0) == pytest.approx(0.20)


@pytest.mark.parametrize(
    ("margin", "markup", "digits"),
    [
        # "Managing Markups", Remodeling magazine: a markup of 50 brings a 33 percent, of 67 a 40 percent gross profit.
        (1 / 3, 0.50, 0.005),
        (0.40, 0.67, 0.005),
        # "Mixing Up the Markup", Journal of Light Construction: 1 / (1 − 0.33) = 1.49, so the markup is 0.49.
        (0.33, 0.49, 0.005),
    ],
)
def test_the_markup_that_brings_a_margin(margin, markup, digits):
    """Published pairs, each to half its last printed digit."""
    assert pricing.markup_from_margin(margin=margin) == pytest.approx(markup, abs=digits)


def test_overhead_and_profit_spread_over_direct_cost():
    """Journal of Light Construction: 600,000 of direct cost marked up by half sells at 900,000, leaving 300,000."""
    price = pricing.price_from_markup(cost=600_000.0, markup=300_000 / 600_000)
    assert price == 900_000
    assert price - 600_000.0 == 300_000


@given(money, shares)
def test_margin_and_markup_are_two_words_for_one_price(cost, margin):
    """Pricing by a margin and by the markup it stands for agree, and both go back to where they came from."""
    markup = pricing.markup_from_margin(margin=margin)
    by_margin = pricing.price_from_margin(cost=cost, margin=margin)
    assert pricing.price_from_markup(cost=cost, markup=markup) == pytest.approx(by_margin)
    assert pricing.margin_from_markup(markup=markup) == pytest.approx(margin, abs=1e-12)
    assert by_margin >= cost


@given(money, money)
def test_no_job_is_below_the_minimum(price, minimum):
    """Price and top-up reach the minimum and no more is added than that takes."""
    top_up = pricing.minimum_top_up(price=price, minimum=minimum)
    assert top_up >= 0
    assert price + top_up == pytest.approx(max(price, minimum))


@given(money, money, st.floats(0, 100))
def test_a_small_job_is_filled_up_to_half_a_day(price, minimum, hours):
    """From half a day on only the minimum charge counts; below it every hour that is missing is charged."""
    least = pricing.least_price(price=price, minimum=minimum, hours=hours, least_hours=4.0, hourly=60.0)
    assert least >= max(price, minimum)
    assert least == pytest.approx(max(minimum, price + 60 * max(4 - hours, 0)))


def test_a_share_in_percent_comes_in_through_figures():
    """8 percent tax on 250 dollars is 20; a share in hours is refused."""
    amount = leaf("amount", 250, "dollar", ENTERED)
    assert work(pricing.share_of, "tax", amount=amount, share=leaf("tax", 8, "percent", ENTERED)).value == 20
    with pytest.raises(InputError, match="unit"):
        work(pricing.share_of, "tax", amount=amount, share=leaf("tax", 8, "hour", ENTERED))


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: pricing.price_from_margin(cost=100.0, margin=1.0), "margin"),
        (lambda: pricing.price_from_markup(cost=-1.0, markup=0.2), "cost"),
        (lambda: pricing.price_from_markup(cost=1.0, markup=-0.2), "markup"),
        (lambda: pricing.margin_of(price=0.0, cost=1.0), "price"),
        (lambda: pricing.share_of(amount=1.0, share=-0.1), "share"),
        (lambda: pricing.minimum_top_up(price=1.0, minimum=-1.0), "minimum"),
        (lambda: pricing.markup_from_margin(margin=20.0), "margin"),
        (lambda: pricing.margin_from_markup(markup=-0.1), "markup"),
    ],
)
def test_what_is_no_price_is_refused(call, field):
    """A margin of 1 or more has no price; nor is 20 a margin where 20 percent is meant."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field


@given(st.lists(money, min_size=1, max_size=5))
def test_arrays_answer_as_scalars_do(costs):
    """A thousand draws at once give what each would give alone."""
    many = pricing.minimum_top_up(price=np.array(costs), minimum=500.0)
    assert list(many) == [pricing.minimum_top_up(price=cost, minimum=500.0) for cost in costs]
    prices = pricing.price_from_markup(cost=np.array(costs), markup=0.2)
    assert list(prices) == [pricing.price_from_markup(cost=cost, markup=0.2) for cost in costs]


def test_a_top_up_makes_rounded_lines_come_to_the_minimum() -> None:
    """Lines that gain a cent by rounding leave a cent less to top up; where nothing is topped up nothing is taken."""
    assert pricing.top_up_to_the_cent(top_up=111.82, crumbs=0.01) == pytest.approx(111.81)
    assert pricing.top_up_to_the_cent(top_up=0.0, crumbs=0.01) == 0.0
