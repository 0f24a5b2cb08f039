"""The crew sheet: a page for the job and one for each room, with boxes for what it really took.

The job's page has the half days, the paint to box, the set-up and what to mind; a room's page has its tasks in order,
its alarms out and back in, and its drawing. No money is on it: it lies about on site. The boxes are those that the
review page asks for.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from estimating.estimate.pricing.order import PaintOrder
from estimating.estimate.pricing.plan import Caution, Plan, Task
from estimating.estimate.pricing.room_prices import room_of
from estimating.estimate.whatif.compare import Comparison, usable
from estimating.job.room import Floor, Room
from estimating.reports.documents.by_day import day_by_day, rooms_and_verbs
from estimating.reports.documents.cautions import TAIL, advice_text, cautions_taken
from estimating.reports.documents.content import (
    BLANK,
    TICK,
    Block,
    Document,
    Drawing,
    Drawings,
    Frame,
    NewPage,
    Rank,
    Row,
    Section,
    Text,
    bullets,
    clock,
    facts,
    listed_words,
    paragraph,
    section,
    sentence,
    small,
    strong,
    table,
    words,
)
from estimating.reports.documents.drawings import drawings_by_room
from estimating.reports.documents.letterhead import letterhead
from estimating.reports.documents.scope_of_work import capital
from estimating.reports.format import UnitSystem, in_words, number, quantity, unit_words
from estimating.trade.drying import StepTime
from estimating.workbook import Outcome

LIFE_SAFETY = ("detector", "sprinkler_head")  # counted out and in before all other fixtures
ALARMS = "Alarms and sprinkler heads: nobody leaves, on any day, until what is out and what is back in agree."
SMALLEST = 0.84  # of the usual size: a page that is still read at arm's length
NOT_COUNTED = "not counted: count now"
LONG = 6  # days
MOST_IN_ONE_COLUMN = 18  # rows of tasks; more than these would not leave room for the drawing


def crew_sheet(outcome: Outcome, shown: UnitSystem = UnitSystem.US, logo: Path | None = None) -> Document:
    """Return the crew sheet."""
    drawn = drawings_by_room(outcome, shown)
    rooms = list(dict.fromkeys(task.room for task in outcome.estimate.schedule.tasks if task.room))
    pages = [part for name in rooms for part in (NewPage(), *_room_page(name, outcome, shown, drawn.get(name, [])))]
    rest: tuple[Block, ...] = (NewPage(), Drawings(tuple(drawn[""]))) if drawn.get("") else ()
    parts = (*_job_page(outcome, shown), *pages, *rest)
    return Document(letterhead("Crew sheet", outcome, _when(outcome), logo), parts, TAIL, SMALLEST)


def _when(outcome: Outcome) -> tuple[tuple[str, str], ...]:
    plan = outcome.estimate.schedule
    return (("Crew", f"{round(plan.crew.value)}"), ("Days on site", number(plan.days.value)))


def _job_page(outcome: Outcome, shown: UnitSystem) -> tuple[Section | Block, ...]:
    job, terms = outcome.job, outcome.job.terms
    site = facts(
        [
            ("Site", job.site.address or ""),
            ("Client", ", ".join(filter(None, (job.client.name, job.client.contact)))),
            ("Hours", terms.working_hours or ""),
            ("Methods", _methods(outcome)),
            ("At the visit", _air(outcome, shown)),
        ]
    )
    return (
        *((site,) if site else ()),
        *_stop_rules(outcome, shown),
        *_days(outcome),
        *section("Paint to box and to use", _paint(outcome, shown), paragraph(_boxed(outcome)), dense=True),
        *section("Gun and rolls", bullets(_set_up(outcome, shown)), dense=True),
        *section("For the whole job", _daily(outcome), half=True, dense=True),
        *section("Write down", facts([(each, BLANK) for each in _asked(shown)]), half=True, dense=True),
        *section("Mind", bullets(_mind(outcome, shown)), dense=True),
    )


def _methods(outcome: Outcome) -> str:
    by_method: dict[str, list[str]] = {}
    for plan in outcome.estimate.plans:
        by_method.setdefault(plan.title, []).append(place_of(plan, outcome))
    return "; ".join(f"{title}: {listed_words(places)}" for title, places in by_method.items())


def place_of(plan: Plan, outcome: Outcome) -> str:
    """Return where a plan is worked: its room, or what it is called where the room has other work too."""
    room = room_of(plan)
    alone = sum(room_of(each) == room for each in outcome.estimate.plans) == 1
    return room if room and alone else plan.scope


def _air(outcome: Outcome, shown: UnitSystem) -> str:
    site = outcome.job.site
    readings = [
        f"{name} {quantity(reading.value, reading.unit, shown)}"
        for name, reading in (("air", site.air), ("surface", site.surface))
        if reading
    ]
    humidity = [f"humidity {number(site.humidity)} %"] if site.humidity is not None else []
    return ", ".join([*readings, *humidity])


def _stop_rules(outcome: Outcome, shown: UnitSystem) -> tuple[Section, ...]:
    """Return each stop rule once, with the work it holds for and what to go over to in each."""
    alike: dict[str, list[Comparison]] = {}
    for comparison in outcome.comparisons:
        if comparison.taken.plan.stop_rule:
            alike.setdefault(comparison.taken.plan.stop_rule, []).append(comparison)
    return tuple(part for rule, several in alike.items() for part in _stop_rule(rule, several, shown))


def _stop_rule(rule: str, several: Sequence[Comparison], shown: UnitSystem) -> tuple[Section, ...]:
    scopes = listed_words([each.scope for each in several])
    then: dict[str, list[str]] = {}
    for each in several:
        then.setdefault(_next_method(each), []).append(each.scope)
    said = [text if len(then) == 1 else f"{capital(listed_words(where))}: {text}" for text, where in then.items()]
    return section(
        f"Stop rule: {scopes}", paragraph((in_words(rule, shown), " ", strong(" ".join(said)))), frame=Frame.STOP
    )


def _next_method(comparison: Comparison) -> str:
    others = [each.plan.title for each in usable(comparison.options) if each is not comparison.taken]
    return f"Next method, priced already: {others[0]}." if others else "No other method is priced: ask first."


def half_day(time: StepTime, working_day: float) -> str:
    """Return the half day in which a step starts: Day 2 a.m."""
    return f"Day {time.start_day} {'a.m.' if time.start_hour < working_day / 2 else 'p.m.'}"


def _days(outcome: Outcome) -> tuple[Section, ...]:
    """Return what is done in which half day; in a long job by days, side by side."""
    plan = outcome.estimate.schedule
    if not _is_long(outcome):
        halves = rooms_and_verbs(plan, lambda time: (half_day(time, plan.working_day.value),))
        return section("Half days", facts(halves), dense=True)
    days = day_by_day(plan)
    cut = (len(days) + 1) // 2
    parts = (("Days", days[:cut]), ("Days, continued", days[cut:]))
    return tuple(each for name, rows in parts for each in section(name, facts(rows), half=True, dense=True))


def _is_long(outcome: Outcome) -> bool:
    """Say whether the job has so many days that half days would not fit beside the rest."""
    return outcome.estimate.schedule.days.value > LONG


def _paint(outcome: Outcome, shown: UnitSystem) -> Block | None:
    rows = [
        (
            each.title,
            each.color or "–",
            _goes_on(each, outcome),
            quantity(each.need.value, each.need.unit, shown, 2),
            str(each.containers),
            BLANK,
        )
        for each in outcome.estimate.paint
    ]
    head = ("Product", "Color", "For", "Planned", "On the van", f"Used, {unit_words('gallon', shown)}")
    return table(head, rows, "nllnnr")


def _goes_on(order: PaintOrder, outcome: Outcome) -> str:
    """Return what a batch goes on: its surfaces, or its purpose where it goes on no whole surface."""
    materials = (each for plan in outcome.estimate.plans for each in plan.materials)
    batch = [each for each in materials if (each.product, each.color) == (order.product, order.color) and each.room]
    return ", ".join(dict.fromkeys(each.surface or each.purpose for each in batch))


def _boxed(outcome: Outcome) -> str:
    several = [_box(each) for each in outcome.estimate.paint if _cans(each) > 1]
    lead = "Box before the first coat, so that no can shows: "
    return f"{lead}{'; '.join(several)}." if several else ""


def _cans(order: PaintOrder) -> int:
    return order.containers.fives + order.containers.gallons + order.containers.quarts


def _box(order: PaintOrder) -> str:
    return f"{order.containers} of {order.title}{f', {order.color}' if order.color else ''}"


def _set_up(outcome: Outcome, shown: UnitSystem) -> list[str]:
    figures = [_figures(plan, shown) for plan in outcome.estimate.plans if plan.figures]
    rolls = [
        f"{each.title} {quantity(each.need.value, each.need.unit, shown)}"
        for each in outcome.estimate.supplies
        if "holds" in dict(each.count.inputs)
    ]
    return [*figures, *([f"By the roll or tube: {'; '.join(rolls)}."] if rolls else [])]


def _figures(plan: Plan, shown: UnitSystem) -> str:
    """Return the figures to set up by; odds and the hours they come to are the estimator's."""
    set_up = [each for each in plan.figures if each.unit != "hour" and not each.name.startswith("chance")]
    said = "; ".join(f"{each.name} {quantity(each.value, each.unit, shown)}" for each in set_up)
    return f"{capital(plan.scope)}: {said}."


def _daily(outcome: Outcome) -> Block | None:
    plan = outcome.estimate.schedule
    rooms = [task for task in plan.tasks if not task.room]
    rows = [(TICK, task.title, clock(hours_of(task)), BLANK) for task in rooms]
    return table(("", "Task", "Labor", "Took"), rows, "nlrr")


def _mind(outcome: Outcome, shown: UnitSystem) -> list[Text]:
    """Return what to do about every caution, once; the pages of the rooms name those that count there."""
    indoors = any(room.floor is not Floor.OUTDOORS for room in outcome.job.rooms)
    return [*((ALARMS,) if indoors else ()), *(_said(each, outcome, shown) for each in cautions_taken(outcome))]


def _mind_here(here: Sequence[Plan], shown: UnitSystem) -> Text:
    """Return what to mind in a room by name and reason; what to do about it stands once, on the page of the job."""
    own = {each.key: each for plan in here for each in plan.cautions}
    reasons = [(strong(each.title), small(f" ({in_words(each.because, shown)}); ")) for each in own.values()]
    return (*(part for reason in reasons for part in reason), small("what to do: see the first page")) if own else ""


def _said(caution: Caution, outcome: Outcome, shown: UnitSystem) -> Text:
    return strong(f"{caution.title}: "), small(advice_text(caution, outcome, shown))


def _asked(shown: UnitSystem) -> tuple[str, ...]:
    return (
        "Air, surface, humidity",
        "Tip, pressure, passes",
        f"Came loose, {unit_words('ft**2', shown)} (0 for none)",
        "Hours to put it right",
        "What the notes had wrong",
        "Checked and left in order by",
    )


def _room_page(name: str, outcome: Outcome, shown: UnitSystem, drawn: Sequence[Drawing]) -> tuple[Section | Block, ...]:
    all_plans = [plan for plan in outcome.estimate.plans if plan.tasks]
    plans = [plan for plan in all_plans if room_of(plan) == name]
    rows = _room_rows(name, outcome, shown)
    crowded = len(rows) > MOST_IN_ONE_COLUMN
    small_ones = Drawings(tuple(drawn), small=True) if drawn and crowded else None
    return (
        *_room_tasks(name, rows),
        *section(
            "Fixtures: out or covered, back in", _fixtures(outcome.job.room(name)), small_ones, half=True, dense=True
        ),
        *section("Agreed with the client", bullets(_agreed(plans, all_plans, shown)), half=True, dense=True),
        *section("Mind here", paragraph(_mind_here(plans, shown)), dense=True),
        *([Drawings(tuple(drawn))] if drawn and not crowded else []),
    )


def _room_rows(name: str, outcome: Outcome, shown: UnitSystem) -> list[Row]:
    """Return the tasks of a room by half days."""
    plan = outcome.estimate.schedule
    by_half: dict[str, list[Row]] = {}
    said: set[str] = set()
    for task, time in zip(plan.on_site, plan.times, strict=True):
        if task.room == name:
            by_half.setdefault(half_day(time, plan.working_day.value), []).append(_task_row(task, said, shown))
            said.add(task.detail)
    return [row for when, rows in by_half.items() for row in (Row((strong(when),), Rank.GROUP), *rows)]


def _room_tasks(name: str, rows: Sequence[Row]) -> tuple[Section, ...]:
    """Return the tasks of a room, in two columns where there are many."""
    if len(rows) <= MOST_IN_ONE_COLUMN:
        return section(capital(name), _tasks(rows), dense=True)
    cut = _middle(rows)
    return (
        *section(capital(name), _tasks(rows[:cut]), half=True, dense=True),
        *section(f"{capital(name)}, continued", _tasks([*_half_day_of(rows, cut), *rows[cut:]]), half=True, dense=True),
    )


def _middle(rows: Sequence[Row]) -> int:
    """Return where the rows are cut into two columns of about one length: a long title takes two lines."""
    lines = [1 + len(words(row.cells[min(1, len(row.cells) - 1)])) // 40 for row in rows]
    cut = min(range(1, len(rows)), key=lambda place: abs(2 * sum(lines[:place]) - sum(lines)))
    return cut - 1 if rows[cut - 1].rank is Rank.GROUP else cut


def _half_day_of(rows: Sequence[Row], cut: int) -> list[Row]:
    """Return the heading of the half day that the second column begins in the middle of."""
    if rows[cut].rank is Rank.GROUP:
        return []
    return [row for row in rows[:cut] if row.rank is Rank.GROUP][-1:]


def _tasks(rows: Sequence[Row]) -> Block | None:
    return table(("", "Task", "Labor", "Took"), rows, "nlrr")


def _task_row(task: Task, said: set[str], shown: UnitSystem) -> Row:
    wait = f"then {clock(task.wait.value_in('hour'))} {task.wait_for}" if task.wait else ""
    detail = in_words(task.detail, shown) if task.detail not in said else ""
    notes = "; ".join(filter(None, [detail, wait]))
    what: Text = (task.title, small(f"  {notes}")) if notes else task.title
    return Row((TICK, what, clock(hours_of(task)), BLANK))


def hours_of(task: Task) -> float:
    """Return the hours of labor of a task."""
    return task.hours.value_in("hour")


def _fixtures(room: Room) -> Block | None:
    kinds = [*LIFE_SAFETY, *(name for name in type(room.fixtures).model_fields if name not in LIFE_SAFETY)]
    counts = {kind: getattr(room.fixtures, kind) for kind in kinds}
    known = {f"{kind.replace('_', ' ')}s": str(count) for kind, count in counts.items() if count}
    inside = room.floor is not Floor.OUTDOORS  # where nobody looks for an alarm
    unknown = [kind for kind, count in counts.items() if count is None and inside]
    asked = {f"{kind.replace('_', ' ')}s": NOT_COUNTED for kind in unknown if kind in LIFE_SAFETY}
    others = {"other fixtures": NOT_COUNTED} if len(unknown) > len(asked) else {}
    rows = [(name, count, BLANK, BLANK, BLANK) for name, count in {**asked, **known, **others}.items()]
    return table(("Fixture", "Count", "Out", "Back in", "Tested"), rows, "nlnnn")


def _agreed(plans: Sequence[Plan], everywhere: Sequence[Plan], shown: UnitSystem) -> list[str]:
    """Return what was asked of the household in these plans and not in all the others."""
    asked = dict.fromkeys(each for plan in plans for each in plan.client_requirements)
    common = [each for each in asked if all(each in plan.client_requirements for plan in everywhere)]
    return [sentence(in_words(each, shown)) for each in asked if each not in common or len(plans) == len(everywhere)]
