"""What-if as HTML: scenarios side by side, where two methods cross, and the worth of a test."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from html import escape
from typing import Any

from estimating.errors import InputError
from estimating.estimate.pricing.lines import Line
from estimating.estimate.pricing.plan import Caution, Suitability
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.price_risk import PriceRisk, risk_at_price
from estimating.estimate.whatif.compare import Comparison, Option
from estimating.estimate.whatif.compare_methods import Along, Stretch, along, movers, rests_on
from estimating.estimate.whatif.scenario import ABSENT, LineChange, changes_between, line_changes, value_at
from estimating.estimate.whatif.value_of_testing import (
    FurtherTests,
    Trial,
    ValueOfTest,
    best,
    leads_to,
    range_of,
    worths,
)
from estimating.figures import Figure, leaves
from estimating.job.file import plain_job, spell
from estimating.reports.charts import whatif as charts
from estimating.reports.format import UnitSystem, dollars, number, quantity, shown_value, unit_words
from estimating.reports.panes.desk_panes import table
from estimating.reports.panes.how_sure import share
from estimating.scopes.registry import KINDS
from estimating.workbook import Outcome

PIVOT = ""  # in place of the row of an assumption: the figure on which the choice between methods turns
THIN = "\u202f"  # a narrow space at which no line breaks


@dataclass(frozen=True)
class Kept:
    """A scenario as it was priced when it was kept."""

    name: str
    outcome: Outcome
    sure: EstimateRanges


NOTHING_KEPT = (
    "<p>Nothing is kept yet. Keep what is typed now under a name, change the form, and keep that too: here they lie "
    "side by side, and below only what differs.</p>"
)


def side_by_side(kept: Sequence[Kept], shown: UnitSystem = UnitSystem.US) -> str:
    """Return the main results of scenarios, a column for each."""
    paint = f"paint, {unit_words('gallon', shown)}"
    facts: list[tuple[str, Callable[[Kept], str]]] = [
        ("method", lambda each: _methods_taken(each.outcome)),
        ("price offered", lambda each: f"<strong>{dollars(each.outcome.estimate.price)}</strong>"),
        ("cost to do it", lambda each: f"{dollars(each.sure.cost.low)} – {dollars(each.sure.cost.high)}"),
        ("expected profit", lambda each: dollars(_own_bid(each).profit)),
        ("chance of loss", lambda each: share(_own_bid(each).chance)),
        ("hours", lambda each: number(each.outcome.estimate.hours.value)),
        ("days on site", lambda each: number(each.outcome.estimate.schedule.days.value)),
        (paint, lambda each: number(shown_value(each.outcome.estimate.gallons, "gallon", shown))),
    ]
    return _narrow(table(("", *(each.name for each in kept)), [[name, *map(said, kept)] for name, said in facts]))


def _narrow(rows: str) -> str:
    """Return a table that gives every column no more room than its words need, and lets the heads wrap."""
    return f'<div class="pe-narrow">{rows}</div>'


def _own_bid(kept: Kept) -> PriceRisk:
    """Return the price of a scenario as a bid, its sales tax taken off as for any price typed."""
    return risk_at_price(kept.outcome.estimate, kept.sure.cost_draws, float(kept.outcome.estimate.price))


def _methods_taken(outcome: Outcome) -> str:
    several = len(outcome.comparisons) > 1
    return "<br>".join(
        escape(f"{each.scope}: {each.taken.plan.title}" if several else each.taken.plan.title)
        for each in outcome.comparisons
    )


def only_differences(before: Kept, after: Kept, shown: UnitSystem = UnitSystem.US) -> str:
    """Return what differs between two scenarios and nothing else: inputs, and lines of the price."""
    inputs = _inputs(plain_job(before.outcome.job), plain_job(after.outcome.job))
    lines = line_changes(before.outcome.estimate, after.outcome.estimate)
    head = (before.name, after.name)
    said = _narrow(table(("input", *head), inputs)) if inputs else "<p>No input differs.</p>"
    if not lines:
        return f"{said}<p>No line of the price differs.</p>"
    change = after.outcome.estimate.price - before.outcome.estimate.price
    rows = [_changed(each, shown) for each in lines]
    rows.append(["<strong>price</strong>", "", "", f"<strong>{signed(change)}</strong>"])
    return said + _narrow(table(("line of the price", *head, "change"), rows))


def _inputs(before: Mapping[str, Any], after: Mapping[str, Any]) -> list[list[str]]:
    return [
        [escape(spell(path, before if value is ABSENT else after)), _typed(value_at(before, path)), _typed(value)]
        for path, value in changes_between(before, after).items()
    ]


def _typed(value: Any) -> str:
    """Return an answer as it was typed; a row as its answers, those not known left out."""
    if value is ABSENT:
        return "–"
    if isinstance(value, Mapping):
        known = [(name, each) for name, each in value.items() if each not in ("unknown", "")]
        return "<br>".join(f"{escape(name.replace('_', ' '))}: {_typed(each)}" for name, each in known)
    if isinstance(value, list):
        return ", ".join(map(_typed, value)) or "none"
    return escape(str(value))


def _changed(pair: LineChange, shown: UnitSystem) -> list[str]:
    room = f' <span class="pe-small">{escape(pair.line.room)}</span>' if pair.line.room else ""
    return [f"{escape(pair.line.item)}{room}", _cost(pair.before, shown), _cost(pair.after, shown), signed(pair.change)]


def _cost(line: Line | None, shown: UnitSystem) -> str:
    if line is None:
        return "–"
    of = "" if line.quantity.unit.startswith("dollar") else quantity(line.quantity.value, line.quantity.unit, shown)
    return f'{dollars(line.cost)}<br><span class="pe-small">{escape(of)}</span>'


def signed(change: float | Decimal) -> str:
    """Return a change of money with its sign."""
    return f"{'−' if change <= -0.005 else '+'}{dollars(abs(float(change)))}"


def break_even(
    outcome: Outcome, place: int, methods: tuple[str, str], moved: str, shown: UnitSystem = UnitSystem.US
) -> str:
    """Return two methods of a work item along one figure: a chart, who is cheaper where, and where it stands now.

    place: of the work item in the job. moved: an assumption by its row, or PIVOT for what the choice turns on.
    Raises InputError where the two are one, or neither rests on the figure.
    """
    one, other = two_options(outcome, place, methods)
    found = along(one.estimate.amount, other.estimate.amount, _figure(outcome, place, moved))
    names = (one.plan.title, other.plan.title)

    axis = figure_axis(found, shown)
    chart = charts.methods_chart(found, names, axis)
    sentences = [*_still(found, names), _where(found, names, axis.said), _now(found, (one, other), axis.said)]
    return (
        f'{charts.key(names)}<div class="pe-drawing">{chart}</div>'
        f"<p>{escape(' '.join(sentences))}</p>{_closed(one, other)}"
        '<p class="pe-small">Only this figure moves; everything else, and what is planned, stays as it is. Steps are '
        f"whole cans, rolls and days.{_shaded(found.figure)}</p>"
    )


def _shaded(figure: Figure) -> str:
    return "" if figure.low is None or figure.low == figure.high else " Shaded: from its low to its high."


def movable(outcome: Outcome, place: int, methods: tuple[str, str]) -> dict[str, str]:
    """Return what can be moved under two methods of a work item, by its words: the pivot first, then assumptions."""
    amounts = [each.estimate.amount for each in two_options(outcome, place, methods)]
    decision_figure = outcome.comparisons[place].decision_figure
    turns = decision_figure is not None and any(rests_on(each, decision_figure) for each in amounts)
    first = (
        {f"what the choice turns on: {decision_figure.name}": PIVOT} if decision_figure is not None and turns else {}
    )
    return first | {key: key for key in sorted(movers(amounts, outcome.basis.used()))}


def two_options(outcome: Outcome, place: int, methods: tuple[str, str]) -> tuple[Option, Option]:
    """Return two methods of a work item by their words; InputError where they are one."""
    if methods[0] == methods[1]:
        raise InputError("other method", methods[1], "a method that is not the first one")
    found = {each.plan.method: each for each in outcome.comparisons[place].options}
    return found[methods[0]], found[methods[1]]


def _figure(outcome: Outcome, place: int, moved: str) -> Figure:
    decision_figure = outcome.comparisons[place].decision_figure
    used = outcome.basis.used()
    if moved == PIVOT and decision_figure is not None:
        return decision_figure
    if moved not in used:
        raise InputError("assumption", moved, "one that this job rests on")
    return used[moved]


def figure_axis(found: Along, shown: UnitSystem) -> charts.Axis:
    """Return how the figure that is moved is shown: a chance that is worked out in percent, else in its unit."""
    figure = found.figure
    if figure.rule is not None and figure.unit == "dimensionless" and found.values[-1] <= 1:
        return charts.Axis(f"{figure.name}, %", lambda value: 100 * value, lambda value: f"{100 * value:.3g}%")
    unit = unit_words(figure.unit, shown)
    return charts.Axis(
        f"{figure.name}, {unit}" if unit else figure.name,
        lambda value: shown_value(value, figure.unit, shown),
        lambda value: quantity(value, figure.unit, shown),
    )


def _still(found: Along, names: tuple[str, str]) -> list[str]:
    return [
        f"{name} does not rest on it: its price is the same throughout."
        for name, still in zip(names, found.still, strict=True)
        if still
    ]


def _where(found: Along, names: tuple[str, str], said: Callable[[float], str]) -> str:
    ends = f"from {said(found.values[0])} to {said(found.values[-1])}"
    if not found.at:
        return f"The two do not change places anywhere {ends}{_throughout(found.stretches[0], names)}."
    if len(found.at) > charts.NAMED:
        return (
            f"Steps make the two change places {len(found.at)} times {ends}: first at {said(found.at[0])}, "
            f"last at {said(found.at[-1])}, {_cheaper(found.stretches[0], names)} below the first and "
            f"{_cheaper(found.stretches[-1], names)} above the last being the cheaper."
        )
    parts = [f"up to {said(each.high)} {_cheaper(each, names)} is cheaper" for each in found.stretches[:-1]]
    parts.append(f"above that {_cheaper(found.stretches[-1], names)}")
    return f"They change places at {_and([said(each) for each in found.at])}: {', '.join(parts)}."


def _and(words: Sequence[str]) -> str:
    return " and ".join([*([", ".join(words[:-1])] if words[1:] else []), words[-1]])


def _throughout(stretch: Stretch, names: tuple[str, str]) -> str:
    return ": they cost the same" if stretch.cheaper is None else f": {names[stretch.cheaper]} is cheaper throughout"


def _cheaper(stretch: Stretch, names: tuple[str, str]) -> str:
    return "neither" if stretch.cheaper is None else names[stretch.cheaper]


def _now(found: Along, options: tuple[Option, Option], said: Callable[[float], str]) -> str:
    apart = abs(options[0].price - options[1].price)
    best_now = min(options, key=lambda option: option.price).plan.title
    less = f"{best_now} is {dollars(apart)} cheaper" if apart else "they cost the same"
    return f"It is {said(found.figure.value)} now, where {less}."


def _closed(*options: Option) -> str:
    """Return why one of the methods may not be used now."""
    items = "".join(
        f'<li><span class="pe-stop">{escape(option.plan.title)} is out now</span>: {escape(reason.text)}</li>'
        for option in options
        for reason in option.plan.findings
        if reason.suitability is Suitability.CLOSED
    )
    return f"<ul>{items}</ul>" if items else ""


def one_more_test(outcome: Outcome, place: int) -> str:
    """Return what further tests are worth before a method is chosen, and whether it is enough."""
    comparison, item = outcome.comparisons[place], outcome.job.work[place]
    tests = KINDS[item.kind].tests
    if tests is None or comparison.decision_figure is None:
        return "<p>No further test is set down for this kind of work.</p>"
    further = tests(item, outcome.job, outcome.basis)
    if further.barred:
        return "".join(map(_bar, further.barred))
    found = worths(further, comparison, outcome.basis)
    chosen = best(found)
    head = ("more tests", *(kind[0].trial.title for kind in found))
    made = ["made so far", *(f"{kind[0].trial.made}, {kind[0].trial.bad} bad" for kind in found)]
    rows = [[str(each[0].tests), *(_worth(worth, chosen) for worth in each)] for each in zip(*found, strict=True)]
    return (
        f"<p><strong>{escape(_advice(chosen, further, comparison))}</strong></p>"
        + _narrow(table(head, [made, *rows], "What they are expected to save, less what they cost to make"))
        + "".join(_leads(further, kind[0].trial, comparison) for kind in found)
        + f'<p class="pe-small">{escape(" ".join(_supposed(kind[0].trial for kind in found)))}</p>'
    )


def _leads(further: FurtherTests, trial: Trial, comparison: Comparison) -> str:
    said = "; ".join(
        f"{each.shows.title} ({each.chance:.0%}): {each.option.plan.title}"
        for each in leads_to(further, trial, comparison)
    )
    return f'<p class="pe-small">One more {escape(trial.title)} leads to: {escape(said)}.</p>'


def _supposed(trials: Iterable[Trial]) -> Iterator[str]:
    yield "Made on a visit that is made anyway: minutes at the spot are counted, no drive and no wait."
    kinds: set[str] = set()
    for trial in trials:
        kinds |= {str(each.origin.kind) for each in leaves([shows.weak for shows in trial.shows])}
        if trial.note:
            yield f"A {trial.title} is {trial.note}."
    yield "After each result that may come the method is chosen anew among all of them, by the rule that recommends."
    yield "Saved is cost, and what a failure costs beyond its mending."
    yield "The more of a kind were made, the less the next tells."
    yield f"Origin of the odds ratios: {', '.join(sorted(kinds))}."


def _bar(caution: Caution) -> str:
    return (
        f'<p class="pe-stop"><strong>{escape(caution.because[:1].upper() + caution.because[1:])}.</strong> '
        f"{escape(caution.title)}. {escape(caution.advice)}"
        f'<br><span class="pe-small">{escape(caution.citation)}. Local codes and licensed practice come first.'
        "</span></p>"
    )


def _advice(chosen: ValueOfTest | None, further: FurtherTests, comparison: Comparison) -> str:
    title = comparison.recommended.plan.title
    if chosen is None:
        return f"Enough tested: {title}. No further test would save what it costs."
    times = {1: "once", 2: "twice"}.get(chosen.tests, f"{chosen.tests} times")
    over = range_of(chosen, further, comparison)
    return (
        f"Test {times} more, {chosen.trial.title}, before choosing: that is expected to save "
        f"{dollars(chosen.saves.value)} and costs {dollars(chosen.costs.value)}, {signed(chosen.net)} in all "
        f"({signed(over.low)} to {signed(over.high)} over the range of the chance). Without it: {title}."
    )


def _worth(worth: ValueOfTest, chosen: ValueOfTest | None) -> str:
    if not worth.tests:
        return dollars(0)
    net = signed(worth.net)
    detail = f"{worth.saves.value:,.2f}{THIN}−{THIN}{worth.costs.value:,.2f}"
    return f'{f"<strong>{net} ★</strong>" if worth is chosen else net}<br><span class="pe-small">{detail}</span>'
