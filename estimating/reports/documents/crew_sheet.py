"""The crew sheet: what to do in order on two clocks, how to mask and spray, what to mind, and blanks for what it took.

No money is on it: it lies about on site.
"""

from __future__ import annotations

from estimating.estimate.pricing.order import PaintOrder
from estimating.estimate.pricing.plan import Phase, Plan, Task
from estimating.estimate.whatif.compare import Comparison, usable
from estimating.figures import Figure
from estimating.job.room import Room
from estimating.reports.charts.room_drawing import plans_of_ceilings
from estimating.reports.charts.wall_drawing import drawn_walls
from estimating.reports.documents.page import (
    BLANK,
    TICK,
    Html,
    amount,
    caution_items,
    cautions_taken,
    clock,
    facts,
    grid,
    html,
    joined,
    listed,
    one_line,
    page,
    paragraph,
    section,
    signed,
    small,
)
from estimating.reports.format import UnitSystem, in_words, number, quantity, unit_words
from estimating.trade.drying import StepTime
from estimating.units import convert
from estimating.workbook import Outcome

LIFE_SAFETY = ("detector", "sprinkler_head")  # counted out and in before all other fixtures
NOT_COUNTED = "not counted: count now"


def crew_sheet(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> Html:
    """Return the crew sheet as a printable document."""
    plans = [comparison.taken.plan for comparison in outcome.comparisons]
    return page(
        "Crew sheet",
        outcome,
        _site(outcome, shown),
        *(_stop_rule(comparison, shown) for comparison in outcome.comparisons),
        section("Count out, count in", _counts(outcome)),
        section("Tasks in order", _tasks(outcome, shown)),
        section("Covering and masking", _masking(plans, shown)),
        section("Set-up", *(_set_up(plan, shown) for plan in plans)),
        section("Paint", _paint(outcome, shown), listed(_boxed(outcome))),
        section("Plan of the ceiling", Html(plans_of_ceilings(outcome, shown))),
        section("Walls, strip by strip", Html(drawn_walls(outcome, shown))),
        section(
            "Asked of the household", listed(dict.fromkeys(each for plan in plans for each in plan.client_requirements))
        ),
        section("Mind", caution_items(cautions_taken(outcome), outcome, shown)),
        section("To write down", _record(shown)),
        signed("Checked and left in order by"),
    )


def _site(outcome: Outcome, shown: UnitSystem) -> Html:
    job, plan = outcome.job, outcome.estimate.schedule
    methods = "; ".join(f"{each.scope}: {each.title}" for each in outcome.estimate.plans)
    air = [
        f"{name} {quantity(reading.value, reading.unit, shown)}"
        for name, reading in (("air", job.site.air), ("surface", job.site.surface))
        if reading
    ]
    humidity = [f"humidity {number(job.site.humidity)} %"] if job.site.humidity is not None else []
    return facts(
        [
            ("Site", job.site.address or ""),
            ("Client", ", ".join(filter(None, (job.client.name, job.client.contact)))),
            ("Work", methods),
            ("Crew", f"{round(plan.crew.value)} for {number(plan.days.value)} days on site"),
            ("At the visit", ", ".join([*air, *humidity])),
        ]
    )


def _stop_rule(comparison: Comparison, shown: UnitSystem) -> Html:
    rule = comparison.taken.plan.stop_rule
    if not rule:
        return Html("")
    others = [each.plan.title for each in usable(comparison.options) if each is not comparison.taken]
    return section(
        f"Stop rule: {comparison.scope}",
        paragraph(in_words(rule, shown)),
        paragraph(f"Next way, priced already: {others[0]}." if others else "No other way is priced: ask first."),
        kind="box stop",
    )


def _counts(outcome: Outcome) -> Html:
    rooms = dict.fromkeys(task.room for task in outcome.estimate.schedule.tasks if task.room)
    rows = [row for name in rooms for row in _room_counts(outcome.job.room(name))]
    return joined(
        grid(("Room", "Fixture", "Counted", "Out or covered", "Back in", "Tested, by whom"), rows),
        paragraph(small("Detectors and sprinkler heads: nobody leaves, on any day, until both columns agree.")),
    )


def _room_counts(room: Room) -> list[list[str]]:
    kinds = [*LIFE_SAFETY, *(name for name in type(room.fixtures).model_fields if name not in LIFE_SAFETY)]
    counts = {kind: getattr(room.fixtures, kind) for kind in kinds}
    known = {f"{kind.replace('_', ' ')}s": str(count) for kind, count in counts.items() if count}
    unknown = [kind for kind, count in counts.items() if count is None]
    asked = {f"{kind.replace('_', ' ')}s": NOT_COUNTED for kind in unknown if kind in LIFE_SAFETY}
    others = {"other fixtures": NOT_COUNTED} if len(unknown) > len(asked) else {}
    rows = {**asked, **known, **others}
    return [[room.name, name, count, BLANK, BLANK, BLANK] for name, count in rows.items()]


def _tasks(outcome: Outcome, shown: UnitSystem) -> Html:
    plan = outcome.estimate.schedule
    several = len(outcome.job.rooms) > 1
    rows = [_task_row(task, time, several, shown) for task, time in zip(plan.tasks, plan.times, strict=False)]
    after = plan.tasks[len(plan.times) :]
    daily = [[TICK, _what(task, several, shown), "", "", clock(_hours(task)), "", BLANK] for task in after]
    head = ("", "Task", "Day", "From – to", "Labor", "Then wait", "Took")
    note = (
        "Labor is hours of one person, as h:mm. Day and hour are by the clock from the start of each day, for the "
        "whole crew; the last rows are spread over the days."
    )
    return joined(paragraph(small(note)), grid(head, [*rows, *daily]))


def _task_row(task: Task, time: StepTime, several: bool, shown: UnitSystem) -> list[str]:
    later = "" if time.end_day == time.start_day else f"day {time.end_day}, "
    wait = f"{clock(float(convert(task.wait.value, task.wait.unit, 'hour')))} {task.wait_for}" if task.wait else ""
    return [
        TICK,
        _what(task, several, shown),
        str(time.start_day),
        one_line(f"{clock(time.start_hour)} – {later}{clock(time.end_hour)}"),
        clock(_hours(task)),
        wait,
        BLANK,
    ]


def _what(task: Task, several: bool, shown: UnitSystem) -> Html:
    place = f", {task.room}" if task.room and several else ""
    detail = joined(Html("<br>"), small(in_words(task.detail, shown))) if task.detail else ""
    return joined(f"{task.title}{place}", detail)


def _hours(task: Task) -> float:
    return float(convert(task.hours.value, task.hours.unit, "hour"))


def _masking(plans: list[Plan], shown: UnitSystem) -> Html:
    tasks = {task.title: task for plan in plans for task in plan.tasks if task.phase in (Phase.PROTECT, Phase.MASK)}
    rolls = [
        [each.title, amount(each.need.value, each.need.unit, shown), _roll(each.holds, shown)]
        for plan in plans
        for each in plan.supplies
        if each.holds is not None
    ]
    steps = [f"{task.title}: {in_words(task.detail, shown)}" for task in tasks.values() if task.detail]
    return joined(listed(steps), grid(("By the roll or can", "Needed", "One holds"), rolls))


def _roll(holds: Figure | None, shown: UnitSystem) -> str:
    return amount(holds.value, holds.unit, shown) if holds else ""


def _set_up(plan: Plan, shown: UnitSystem) -> Html:
    rows = [[each.name, amount(each.value, each.unit, shown)] for each in plan.figures]
    return grid(("Figure", "Value"), rows, f"{plan.scope}: {plan.title}")


def _paint(outcome: Outcome, shown: UnitSystem) -> Html:
    rows = [
        [
            each.title,
            each.color or "–",
            "; ".join(each.purposes),
            amount(each.need.value, each.need.unit, shown, digits=2),
            str(each.containers),
            BLANK,
        ]
        for each in outcome.estimate.paint
    ]
    return grid(("Product", "Color", "For", "Planned", "On the van", f"Used, {unit_words('gallon', shown)}"), rows)


def _boxed(outcome: Outcome) -> list[Html]:
    return [html(_box(each)) for each in outcome.estimate.paint if _cans(each) > 1]


def _cans(order: PaintOrder) -> int:
    return order.containers.fives + order.containers.gallons + order.containers.quarts


def _box(order: PaintOrder) -> str:
    named = f"{order.title}{f', {order.color}' if order.color else ''}"
    return f"Box before the first coat: pour {order.containers} of {named} together and stir, so that no can shows."


def _record(shown: UnitSystem) -> Html:
    asked = (
        "Air, surface and humidity when coating starts",
        "Tip, pressure and passes really used",
        f"Came down, {unit_words('ft**2', shown)} (write 0 for none)",
        "Hours to put it right",
        "Photographs, where they are kept",
        "What the notes had wrong",
    )
    return facts([(each, BLANK) for each in asked], "wide")
