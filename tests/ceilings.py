"""Recommended methods over random ceilings, as a table: `python tests/ceilings.py`, or so many with a number.

How often the recommendation carries what chance, how often a calm method that costs little more was passed over,
how many are ties, and what prices come to beside those of the cheapest methods.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import dataclass

from random_ceilings import ceilings

from estimating.estimate.pricing.preference import chance_of_surface
from estimating.estimate.whatif.compare import Comparison, Option, usable
from estimating.workbook import estimate_job

SEED, COUNT = 2026, 200
SHUNNED, CALM, DEARER = 0.20, 0.10, 1.15


@dataclass(frozen=True)
class Found:
    """What was recommended for one ceiling, and what the cheapest method would have been."""

    price: float
    cheapest: float
    chance: float
    tie: bool
    calmer: bool
    passed_over: bool  # a calm method that costs little more


def found(comparison: Comparison) -> Found:
    """Return what the comparison of a ceiling's methods recommends."""
    best, allowed = comparison.recommended, usable(comparison.options)
    picked = comparison.picked
    calm = [each for each in allowed if _chance(each) < CALM and float(each.price) < DEARER * float(best.price)]
    return Found(
        price=float(best.price),
        cheapest=float(allowed[0].price),
        chance=_chance(best),
        tie=int(picked.plainest) != int(picked.cheapest),
        calmer=int(picked.recommended) != int(picked.plainest),
        passed_over=_chance(best) > SHUNNED and bool(calm),
    )


def _chance(option: Option) -> float:
    return chance_of_surface(option.plan)


def table(cases: Iterable[Found]) -> str:
    """Return what was found as lines to print."""
    all_ = list(cases)
    count, mean = len(all_), sum(each.price for each in all_) / len(all_)
    least = sum(each.cheapest for each in all_) / len(all_)

    def share(name: str, times: int) -> str:
        return f"{name:<58} {times:>5} {times / count:>6.0%}"

    return "\n".join(
        [
            share("ceilings", count),
            share("recommended with a chance over 20 %", sum(each.chance > SHUNNED for each in all_)),
            share("of them, a method under 10 % costs less than 15 % more", sum(each.passed_over for each in all_)),
            share("the plainer of methods that cost the same", sum(each.tie for each in all_)),
            share("a calmer method instead of the cheaper one", sum(each.calmer for each in all_)),
            f"{'mean price, dollars':<58} {mean:>12,.2f}",
            f"{'mean price of the cheapest, dollars':<58} {least:>12,.2f}",
            f"{'more than the cheapest':<58} {mean / least - 1:>12.1%}",
        ]
    )


def main(count: int = COUNT) -> str:
    """Return the table for so many ceilings that have a method that may be used."""
    outcomes = (estimate_job(job).comparisons[0] for job in ceilings(SEED, count))
    return table(found(each) for each in outcomes if usable(each.options))


if __name__ == "__main__":
    print(main(*map(int, sys.argv[1:2])))
