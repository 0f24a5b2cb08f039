"""The result of an estimate as HTML, a pane for each question: price, way, order, days, and what to mind."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from html import escape

from estimating.estimate.pricing.lines import Line
from estimating.estimate.pricing.plan import Risk, Suitability, Task
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.price_risk import risk_at_price
from estimating.estimate.uncertainty.sensitivity import Share
from estimating.estimate.whatif.compare import Comparison, Option
from estimating.evidence import Library
from estimating.figures import Figure
from estimating.norms import beside
from estimating.reports.documents.cautions import TAIL, caution_text, cautions_taken
from estimating.reports.documents.time_and_materials import by_time
from estimating.reports.exports.profit import markup_words
from estimating.reports.format import UnitSystem, dollars, in_words, number, quantity, shown_value, unit_words
from estimating.reports.panes.calendar import calendar
from estimating.reports.provenance import origin_words
from estimating.trade.drying import StepTime
from estimating.workbook import Outcome

STALE = "From before the last change: put the marked fields right to bring it up to date."
MARKS = {Suitability.OPEN: "ok", Suitability.CONDITIONS: "mind", Suitability.CLOSED: "stop"}


def table(head: Sequence[str], rows: Iterable[Sequence[str]], caption: str = "") -> str:
    """Return a table; cells are HTML already, the first of each row heads it, and numbers stand to the right."""
    top = "".join(f'<th scope="col">{escape(each)}</th>' if each else "<td></td>" for each in head)
    body = "".join(
        f'<tr><th scope="row">{cells[0]}</th>' + "".join(f"<td>{cell}</td>" for cell in cells[1:]) + "</tr>"
        for cells in rows
    )
    title = f"<caption>{escape(caption)}</caption>" if caption else ""
    return f'<table class="pe-table">{title}<thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>'


def head(outcome: Outcome, sure: EstimateRanges, stale: bool = False) -> str:
    """Return the offer, what it costs and leaves, hours and days; marked where the form has moved on."""
    estimate = outcome.estimate
    risked = risk_at_price(estimate, sure.cost_draws, float(estimate.price))
    facts = [
        ("price offered", dollars(estimate.price), "by time and materials" if by_time(outcome) else "fixed"),
        (
            "cost to do it",
            dollars(risked.kept - risked.profit),
            f"on average, {dollars(estimate.cost.value)} as planned; "
            f"{dollars(sure.cost.low)} – {dollars(sure.cost.high)} eight times in ten",
        ),
        (
            "expected profit",
            dollars(risked.profit),
            f"{risked.margin:.0%} of the price; {estimate.margin:.0%} if all goes as planned, {markup_words(estimate)}",
        ),
        ("chance of loss", f"{risked.chance:.0%}", "cost above this price"),
        ("hours", number(estimate.hours.value), f"{number(sure.hours.low)} – {number(sure.hours.high)}"),
        ("days on site", number(estimate.schedule.days.value), f"{number(sure.days.low)} – {number(sure.days.high)}"),
    ]
    boxes = "".join(
        f'<div class="pe-fact"><span class="pe-name">{name}</span><strong>{value}</strong><span>{span}</span></div>'
        for name, value, span in facts
    )
    invented = '<p class="pe-small">An invented job, to show the workbook.</p>' if outcome.job.invented else ""
    mark = f'<p class="pe-stale" role="status">{STALE}</p>' if stale else ""
    return f'<div class="pe-head{" pe-old" if stale else ""}">{boxes}</div>{mark}{invented}'


def methods(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return every method of each work item side by side, why one is recommended, and what would overturn it."""
    return "".join(_comparison(each, shown) for each in outcome.comparisons)


def _comparison(comparison: Comparison, shown: UnitSystem) -> str:
    rows = [_method_row(option, comparison, shown) for option in comparison.options]
    why = "".join(f"<li>{escape(in_words(each, shown))}</li>" for each in comparison.why)
    stop = in_words(comparison.taken.plan.stop_rule, shown)
    paint = f"paint, {unit_words('gallon', shown)}"
    return (
        f"<h3>{escape(comparison.scope)}</h3>"
        + table(("method", "may it be used", "price", "hours", "days", paint, "risk", "if it happens"), rows)
        + f"<h4>Why</h4><ul>{why}</ul>"
        + (f"<h4>What would overturn it</h4><p>{escape(comparison.turning)}.</p>" if comparison.turning else "")
        + "".join(_method_detail(option, shown) for option in comparison.options)
        + _release(comparison, shown)
        + (f'<p class="pe-stop"><strong>Stop rule.</strong> {escape(stop)}</p>' if stop else "")
    )


def _method_row(option: Option, comparison: Comparison, shown: UnitSystem) -> list[str]:
    plan = option.plan
    best = " ★" if option is comparison.recommended else ""
    taken = ' <span class="pe-small">(priced)</span>' if option is comparison.taken else ""
    risk = plan.risks[0] if plan.risks else None
    return [
        f"{escape(plan.title)}{best}{taken}",
        f'<span class="pe-{MARKS[plan.suitability]}">{plan.suitability}</span>',
        dollars(option.price),
        number(option.likely.hours),
        number(option.likely.days),
        number(shown_value(option.likely.gallons, "gallon", shown)),
        f"{escape(risk.title)}: {risk.chance.value:.0%}" if risk else "–",
        dollars(risk.cost_if.value) if risk else "–",
    ]


def _method_detail(option: Option, shown: UnitSystem) -> str:
    plan = option.plan
    parts = [
        *((str(reason.suitability), reason.text) for reason in plan.findings),
        *(("client_requirements", each) for each in plan.client_requirements),
        *(("note", each) for each in plan.notes),
    ]
    items = "".join(f"<li><em>{escape(kind)}</em>: {escape(in_words(text, shown))}</li>" for kind, text in parts)
    return f"<details><summary>{escape(plan.title)}</summary><ul>{items}</ul></details>" if items else ""


def release(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return how likely the surface fails: history, each test, each method; and how much of it, if it does."""
    return "".join(_release(each, shown) for each in outcome.comparisons)


def _release(comparison: Comparison, shown: UnitSystem) -> str:
    base = comparison.decision_figure
    risks = [
        (option.plan, risk)
        for option in comparison.options
        for risk in option.plan.risks
        if base is not None and base in risk.chance.walk()
    ]
    if base is None or not risks:
        return ""
    steps = [_step_row(each) for each in _steps(base)]
    by_method = [_chance_row(f"by this method: {plan.title}", "share", risk.chance) for plan, risk in risks]
    notes = dict.fromkeys(risk.surface.tested for _, risk in risks if risk.surface and risk.surface.tested)
    said = "".join(f"<p>{escape(note)}.</p>" for note in notes)
    extents = table(
        ("if it comes down, it comes as", "chance", "share", "area", "mending"), _extent_rows(risks[0][1], shown)
    )
    return (
        "<details><summary>How this chance is reached</summary>"
        + table(("what is known", "odds times", "counts for", "chance"), [*steps, *by_method])
        + said
        + extents
        + f'<p class="pe-small">The odds rest on: {escape(origin_words(risks[0][1].chance))}.</p></details>'
    )


def _steps(base: Figure) -> list[Figure]:
    """Return the chance as it stood at first, and after each further piece of evidence."""
    steps = [base]
    while "chance" in (inputs := dict(steps[-1].inputs)):
        steps.append(inputs["chance"])
    return steps[::-1]


def _step_row(step: Figure) -> list[str]:
    return _chance_row(step.name, "added" if "added" in dict(step.inputs) else "ratio", step)


def _chance_row(name: str, factor: str, chance: Figure) -> list[str]:
    inputs = dict(chance.inputs)
    ratio = inputs.get(factor)
    tests = dict(ratio.inputs).get("tests") if ratio else None
    sign = "and besides " if factor == "added" else "× "
    return [
        escape(name),
        f"{sign}{number(ratio.value)}{_ends(ratio)}" if ratio else "",
        f"{number(tests.value)} test{'' if tests.value == 1 else 's'}" if tests else "",
        f"{chance.value:.1%}{'' if chance.rule else _ends(chance, '{:.0%}'.format)}",
    ]


def _ends(figure: Figure, said: Callable[[float], str] = number) -> str:
    if figure.low is None or figure.high is None or figure.low == figure.high:
        return ""
    return f' <span class="pe-small">({said(figure.low)} – {said(figure.high)})</span>'


def _extent_rows(risk: Risk, shown: UnitSystem) -> list[list[str]]:
    return [
        [
            escape(each.title),
            f"{each.chance.value:.0%}",
            quantity(each.share.value, each.share.unit),
            quantity(each.area.value, each.area.unit, shown),
            dollars(each.cost.value),
        ]
        for each in (risk.surface.extents if risk.surface else ())
    ]


def lines(outcome: Outcome, sure: EstimateRanges, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the build-up of the price, line by line, with the range of each."""
    rows = [_line_row(line, sure, shown, outcome.basis.library) for line in outcome.estimate.lines]
    rows.append(["<strong>price</strong>", "", "", "", f"<strong>{dollars(outcome.estimate.price)}</strong>", "", ""])
    note = (
        '<p class="pe-small">Markup is profit as a share of cost; margin is profit as a share of the price. '
        "low and high are the 10th and 90th percentile of the line alone; they do not add up to those of the cost.</p>"
    )
    return table(("item", "section", "quantity", "at", "cost", "low", "high"), rows) + note


def _line_row(line: Line, sure: EstimateRanges, shown: UnitSystem, library: Library) -> list[str]:
    amount = sure.amounts[line]
    said = "; ".join(part for part in (line.detail, beside(library, line.row)) if part)
    detail = f'<br><span class="pe-small">{escape(in_words(said, shown))}</span>' if said else ""
    return [
        f"{escape(line.item)}{detail}",
        str(line.section),
        escape(quantity(line.quantity.value, line.quantity.unit, shown)),
        escape(quantity(line.unit_cost.value, line.unit_cost.unit, shown)) if line.unit_cost else "",
        dollars(line.cost),
        dollars(amount.low),
        dollars(amount.high),
    ]


def order(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return what to buy: cans by product and color with what is left, rolls and pieces."""
    paint = [
        [
            escape(each.title),
            escape(each.color),
            quantity(each.need.value, "gallon", shown),
            escape(str(each.containers)),
            quantity(each.leftover, "gallon", shown),
            dollars(each.cost.value),
            escape("; ".join(each.purposes)),
        ]
        for each in outcome.estimate.paint
    ]
    supplies = [
        [
            escape(each.title),
            quantity(each.need.value, each.need.unit, shown),
            number(each.count.value),
            dollars(each.cost.value),
        ]
        for each in outcome.estimate.supplies
    ]
    return table(("paint", "color", "need", "buy", "left over", "cost", "for"), paint) + table(
        ("supplies", "need", "buy", "cost"), supplies
    )


def days(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the tasks on two clocks: hours of labor, and the day and hour of each with the waits between."""
    plan = outcome.estimate.schedule
    rows = [_day_row(task, time, shown) for task, time in zip(plan.tasks, plan.times, strict=False)]
    said = (
        f"<p>{number(plan.days.value)} days on site for {number(plan.crew.value)}; hours are counted from the start of "
        f"each day; {quantity(plan.elapsed.value, 'hour')} by the clock from first arrival until the last wait is "
        "over.</p>"
    )
    return said + calendar(plan) + table(("task", "room", "labor", "day", "from – to", "then wait"), rows)


def _day_row(task: Task, time: StepTime, shown: UnitSystem) -> list[str]:
    detail = f'<br><span class="pe-small">{escape(in_words(task.detail, shown))}</span>' if task.detail else ""
    end = "" if time.end_day == time.start_day else f"day {time.end_day}, "
    return [
        f"{escape(task.title)}{detail}",
        escape(task.room),
        quantity(task.hours.value, "hour"),
        f"day {time.start_day}",
        f"{time.start_hour:.1f} – {end}{time.end_hour:.1f}",
        f"{quantity(task.wait.value, task.wait.unit)}, {escape(task.wait_for)}" if task.wait else "",
    ]


def set_up(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the set-up figures of each work item: flow, fan, passes, speed, settling."""
    parts = [
        table(
            ("figure", "value", "worked out as"),
            [
                [escape(each.name), quantity(each.value, each.unit, shown), escape(each.formula)]
                for each in plan.figures
            ],
            f"{comparison.scope}: {plan.title}",
        )
        for comparison in outcome.comparisons
        for plan in (option.plan for option in comparison.options)
        if plan.figures
    ]
    return "".join(parts) or "<p>No set-up to show.</p>"


def cautions(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the cautions of the methods taken, each with the fact that raises it and the rule it rests on."""
    items = "".join(
        f"<li><strong>{escape(each.title)}</strong> – {escape(caution_text(each, outcome, shown))}"
        f'<br><span class="pe-small">{escape(each.citation)}</span></li>'
        for each in cautions_taken(outcome)
    )
    return f'<ul class="pe-cautions">{items}</ul><p class="pe-small">{TAIL}</p>'


def questions(outcome: Outcome) -> str:
    """Return what the site notes leave open."""
    if not outcome.questions:
        return "<p>No open questions.</p>"
    items = "".join(
        f"<li><strong>{escape(each.field)}</strong>: {escape(each.text)}</li>" for each in outcome.questions
    )
    return f"<ul>{items}</ul>"


def movers(shares: Sequence[Share]) -> str:
    """Return the assumptions that move the price most, as bars of their share of its variance."""
    rows = "".join(
        f'<tr><th scope="row">{escape(each.name)}</th><td>{each.total:.0%}</td>'
        f'<td class="pe-bar"><span style="width:{100 * min(1.0, max(0.0, each.total)):.1f}%"></span></td></tr>'
        for each in shares
    )
    note = '<p class="pe-small">How much of the variance of the cost goes when this is known.</p>'
    return f'<table class="pe-table pe-movers"><tbody>{rows}</tbody></table>{note}'
