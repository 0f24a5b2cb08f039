"""From cost to price: markup, margin, tax and the minimum charge, each defined once.

Markup is a share of cost, margin a share of price. Taking one for the other is the commonest way to lose the profit.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, published
from estimating.rules import rule
from estimating.trade._numbers import pick
from estimating.units import Number

MARKUP = published("markup-margin-2024", "mark-up and margin, worked example", "Markup is on cost, margin on price.")


@rule(
    "price = cost · (1 + markup)",
    "dollar",
    MARKUP,
    cost="dollar, 0 or more",
    markup="dimensionless, 0 or more, as a share of cost",
)
def price_from_markup(*, cost: Number, markup: Number) -> Number:
    """Return the price at a markup, a share of cost."""
    return cost * (1 + markup)


@rule(
    "price = cost / (1 − margin)",
    "dollar",
    MARKUP,
    cost="dollar, 0 or more",
    margin="dimensionless, 0 or more and less than 1, as a share of the price",
)
def price_from_margin(*, cost: Number, margin: Number) -> Number:
    """Return the price at a margin, a share of price.

    >>> round(price_from_margin(cost=700.0, margin=0.3), 2)
    1000.0
    """
    return cost / (1 - margin)


@rule("margin = markup / (1 + markup)", "dimensionless", MARKUP, markup="dimensionless, 0 or more, as a share of cost")
def margin_from_markup(*, markup: Number) -> Number:
    """Return the margin that a markup comes to."""
    return markup / (1 + markup)


@rule(
    "markup = margin / (1 − margin)",
    "dimensionless",
    MARKUP,
    margin="dimensionless, 0 or more and less than 1, as a share of the price",
)
def markup_from_margin(*, margin: Number) -> Number:
    """Return the markup that brings a margin."""
    return margin / (1 - margin)


@rule(
    "hourly price = (hourly cost + overhead) · (1 + markup)",
    "dollar/hour",
    definition("an hour of labor with all that is put on it"),
    loaded_wage="dollar/hour, 0 or more",
    overhead="dollar/hour, 0 or more",
    markup="dimensionless, 0 or more, as a share of cost",
)
def hourly_price(*, loaded_wage: Number, overhead: Number, markup: Number) -> Number:
    """Return what an hour of labor is sold for before sales tax.

    >>> hourly_price(loaded_wage=36.0, overhead=14.0, markup=0.5)
    75.0
    """
    return (loaded_wage + overhead) * (1 + markup)


@rule(
    "least = max(minimum charge, price + max(least hours − hours, 0) · hourly price)",
    "dollar",
    judgment("a small job takes half a day from whoever comes, and is charged so"),
    price="dollar, 0 or more",
    minimum="dollar, 0 or more",
    hours="hour, 0 or more",
    least_hours="hour, 0 or more",
    hourly="dollar/hour, 0 or more",
)
def least_price(*, price: Number, minimum: Number, hours: Number, least_hours: Number, hourly: Number) -> Number:
    """Return the least a job is sold for: its minimum charge, or its price with the hours that fill up half a day.

    >>> float(least_price(price=180.0, minimum=200.0, hours=2.5, least_hours=4.0, hourly=60.0))
    270.0
    """
    return np.maximum(minimum, price + hourly * np.maximum(least_hours - hours, 0.0))


@rule("margin = (price − cost) / price", "dimensionless", MARKUP, price="dollar, more than 0", cost="dollar, 0 or more")
def margin_of(*, price: Number, cost: Number) -> Number:
    """Return the margin of a price over a cost; below 0 where the job loses money."""
    return (price - cost) / price


@rule(
    "amount · share",
    "dollar",
    definition("a share of an amount"),
    amount="dollar, 0 or more",
    share="dimensionless, 0 or more",
)
def share_of(*, amount: Number, share: Number) -> Number:
    """Return a share of an amount of money: a tax on it, a markup on it, a deposit."""
    return amount * share


@rule(
    "top-up = minimum − price, never below 0",
    "dollar",
    definition("least charge"),
    price="dollar, 0 or more",
    minimum="dollar, 0 or more",
)
def minimum_top_up(*, price: Number, minimum: Number) -> Number:
    """Return what a small job is short of the minimum charge; 0 where the price reaches it."""
    return np.maximum(minimum - price, 0.0)


@rule(
    "top-up to the cent = top-up − crumbs, and none where there is none",
    "dollar",
    definition("least charge"),
    top_up="dollar, 0 or more",
    crumbs="dollar",
)
def top_up_to_the_cent(*, top_up: Number, crumbs: Number) -> Number:
    """Return a top-up that makes lines, each rounded to the cent, come to the minimum itself.

    crumbs: what the price below the minimum gains by its lines being rounded.
    """
    return pick(top_up > 0, top_up - crumbs, top_up)


@rule(
    "discount = −price · share",
    "dollar",
    definition("a discount in percent"),
    price="dollar, 0 or more",
    discount="dimensionless, 0 to 1",
)
def share_off(*, price: Number, discount: Number) -> Number:
    """Return what a discount in percent takes off a price: an amount of 0 or below.

    >>> share_off(price=2000.0, discount=0.05)
    -100.0
    """
    return -(price * discount)


@rule(
    "discount = −amount, never more than the price",
    "dollar",
    definition("a discount in dollars"),
    price="dollar, 0 or more",
    discount="dollar, 0 or more",
)
def dollars_off(*, price: Number, discount: Number) -> Number:
    """Return what a discount in dollars takes off a price: an amount of 0 or below.

    >>> float(dollars_off(price=150.0, discount=200.0))
    -150.0
    """
    return -np.minimum(price, discount)


@rule(
    "taxable = price − untaxed · (1 + markup), never below 0",
    "dollar",
    definition("what is sold without tax is not in the base of the tax"),
    price="dollar, 0 or more",
    untaxed="dollar, 0 or more",
    markup="dimensionless, 0 or more",
)
def taxable(*, price: Number, untaxed: Number, markup: Number) -> Number:
    """Return the part of a price that sales tax is charged on.

    >>> float(taxable(price=1000.0, untaxed=100.0, markup=0.35))
    865.0
    """
    return np.maximum(price - untaxed * (1 + markup), 0.0)


@rule(
    "rounding = step · ceiling((price + crumbs) / step) − (price + crumbs)",
    "dollar",
    definition("the next multiple of the step"),
    price="dollar, 0 or more",
    crumbs="dollar",
    step="dollar, more than 0",
)
def rounding_up(*, price: Number, crumbs: Number, step: Number) -> Number:
    """Return what lifts a price to the next multiple of a step; a price that is one already stays.

    crumbs: what the price gains by its lines being rounded to the cent, so that the answer is exact to the cent.

    >>> round(float(rounding_up(price=1982.04, crumbs=0.0, step=5.0)), 2)
    2.96
    """
    exact = np.round(price + crumbs, 2)
    up: Number = np.ceil(np.round(exact / step, 9)) * step - exact
    return up
