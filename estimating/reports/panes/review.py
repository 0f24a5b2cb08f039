"""A review as HTML: what was promised, what records teach, what a lesson would change, and whether it was honest."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from html import escape

from estimating.errors import InputError
from estimating.evidence import Library, OwnValue
from estimating.learning.backtest import before_and_after, try_forward
from estimating.learning.calibration import FEWEST, bias_by, coverage_of
from estimating.learning.failures import LearnedChance
from estimating.learning.pace import unrecorded
from estimating.learning.rates import Learned, LeftOut, Observed, implied
from estimating.records.actuals import Release, SurfaceTest
from estimating.records.sent import SentEstimate, SentLine
from estimating.reports.charts.review import bias_chart, held_chart, learning_chart, rate_chart
from estimating.reports.format import dollars, number, spoken_unit
from estimating.reports.panes.desk_panes import table
from estimating.reports.panes.evidence import row_name
from estimating.reports.panes.price import price_ages
from estimating.review.lessons import Effect, Lesson, Lessons, Walked, rows_of, standing
from estimating.review.parse_actuals import UNITS
from estimating.review.prices import AgedPrice
from estimating.units import convert

KIND_WORDS = {"hours": "hours of labor, each person's counted", "gallons": "gallons used, not bought"}


def welcome(place: str) -> str:
    """Return what an empty records file has to say for itself."""
    return (
        "<h3>No estimate has been recorded as sent yet</h3>"
        f"<p>The records file <code>{escape(place)}</code> is empty or not there, which is how everybody starts. It "
        "fills like this:</p><ol>"
        "<li>At the desk, press <strong>Save as sent</strong> when an estimate goes to the client. Job, price, "
        "promises and assumptions are kept as they were, and never changed.</li>"
        "<li>When the job is done, come back here and type what it took. What nobody timed stays blank.</li>"
        "<li>After a few jobs this page proposes rates of your own, shows what each would do to the estimates that are "
        "still open, and says whether the ranges held.</li></ol>"
        "<p>To see what that looks like, open an <strong>invented</strong> history of ten jobs. It is kept in a file "
        "of its own, beside yours.</p>"
    )


def estimate_name(sent: SentEstimate, done: bool) -> str:
    """Return a sent estimate in one line, for a list to choose from."""
    state = "actuals recorded" if done else "open"
    return f"{sent.sent_at[:10]}  {sent.job.name}  {dollars(sent.price)}  ({state})"


def promised(line: SentLine) -> str:
    """Return what a line was promised to take, with its range and the evidence it rested on."""
    unit = spoken_unit(UNITS[line.measure])
    ends = "" if line.low == line.high else f" ({number(line.low)} – {number(line.high)})"
    return f'<span class="pe-small">promised {number(line.likely)} {unit}{ends}</span>'


def surface_list(tests: Sequence[SurfaceTest], releases: Sequence[Release]) -> str:
    """Return the tests and releases kept about a job."""
    items = [f"{each.tested_on}: {each.kind}, {each.result}{_at(each.place)}" for each in tests]
    items += [
        f"{each.done_on}: {number(each.released_area)} of {number(each.worked_area)} ft² came down, "
        f"{each.method.replace('_', ' ')}, {each.history.replace('_', ' ')}, {number(each.hours_to_fix)} h to put right"
        f"{_at(each.place)}"
        for each in releases
    ]
    return f"<ul>{''.join(f'<li>{escape(each)}</li>' for each in items)}</ul>" if items else "<p>Nothing kept yet.</p>"


def _at(place: str) -> str:
    return f", {place}" if place else ""


def proposals_table(found: Lessons, own: Mapping[str, OwnValue], skipped: Sequence[str] = ()) -> str:
    """Return every proposal: what stands, what the records say, on how many; the farthest move first."""
    rows = [_proposal_row(each, own) for each in found.proposals if each.row.key not in skipped]
    if not rows:
        return "<p>Nothing new to propose: either nothing is recorded yet, or what stands is what the records say.</p>"
    return table(("row", "change", "range from", "range to", "unit"), rows)


def _proposal_row(lesson: Lesson, own: Mapping[str, OwnValue]) -> list[str]:
    row, mine = lesson.row, own.get(lesson.row.key)
    now = f" (yours now {number(standing(row, own))})" if mine else ""
    times, unit = _as_shown(lesson)
    return [
        escape(row_name(row)),
        f"{escape(lesson.text)}{now}",
        f"{number(row.low * times)} – {number(row.high * times)}",
        f"{number(lesson.low * times)} – {number(lesson.high * times)}",
        escape(unit),
    ]


def _as_shown(lesson: Lesson) -> tuple[float, str]:
    """Return what a row's figures are multiplied by to be shown, and their unit: a chance is said in percent."""
    if isinstance(lesson, LearnedChance):
        return float(convert(1.0, lesson.row.unit, "percent")), "%"
    return 1.0, spoken_unit(lesson.row.unit)


def lesson_detail(lesson: Lesson, observed: Sequence[Observed]) -> str:
    """Return one proposal opened: its range before and after, and the records it rests on."""
    row = lesson.row
    times, unit = _as_shown(lesson)
    records = [implied(each, row) for each in observed if each.row == row.key]
    published, yours = (
        [each * times for each in ends]
        for ends in ((row.low, row.likely, row.high), (lesson.low, lesson.likely, lesson.high))
    )
    chart = rate_chart(published, yours, records, unit or "share")
    if isinstance(lesson, Learned) and lesson.own is not None:
        note = (
            f"Your own records of it alone average {number(lesson.own)} {unit}; the proposal lies between them and the "
            f"table's {number(row.likely)}, nearer to yours the more there are, and rests also on {lesson.elsewhere} "
            "lines of other work."
        )
    else:
        note = "The class of history is judged by what came down, and by the odds of tests and method on each job."
    return (
        f"<h4>{escape(row.key)}</h4><p>{escape(lesson.text)}</p>"
        f'<p class="pe-small">{escape(note)}</p><div class="pe-drawing">{chart}</div>'
    )


def effects_table(effects: Sequence[Effect]) -> str:
    """Return what accepting a proposal would do to the open estimates."""
    if not effects:
        return "<p>No estimate is open, so nothing that was sent would be priced differently.</p>"
    head = ("open estimate", "sent", "as sent", "worked out now", "with this", "change")
    rows = [_effect_row(each) for each in effects]
    note = '<p class="pe-small">What was sent stays as it was sent; this is what the same job would be priced at.</p>'
    return table(head, rows, "What it would do to open estimates") + note


def _effect_row(effect: Effect) -> list[str]:
    first = [escape(effect.job), effect.sent_on, dollars(effect.sent)]
    if effect.now is None or effect.then is None:
        return [*first, f'<span class="pe-mind">cannot be priced any more: {escape(effect.problem)}</span>', "", ""]
    change = effect.then.price - effect.now.price
    sign = "+" if change > 0 else "−" if change < 0 else "±"
    return [*first, _walked(effect.now), _walked(effect.then), f"<strong>{sign}{dollars(abs(change))}</strong>"]


def _walked(walked: Walked) -> str:
    small = f'<br><span class="pe-small">{number(walked.hours)} h, {number(walked.days)} days</span>'
    return f"{dollars(walked.price)}{small}"


def left_out(several: Sequence[LeftOut]) -> str:
    """Return what could not be learned from, counted by the reason."""
    if not several:
        return ""
    counts = Counter(each.reason for each in several)
    examples = {each.reason: each.what for each in several}
    items = "".join(
        f"<li>{count} × {escape(reason)}, such as {escape(examples[reason])}</li>" for reason, count in counts.items()
    )
    return f"<details><summary>What nothing could be learned from</summary><ul>{items}</ul></details>"


def with_a_range(observed: Sequence[Observed]) -> list[Observed]:
    """Return the lines that were promised with a range: a promise without one was never said to hold four in five."""
    return [each for each in observed if each.low < each.high]


def open_prices(prices: Sequence[AgedPrice], trusted: float) -> str:
    """Return how old the prices are that the open estimates rest on; nothing where none is open."""
    return f"<h3>How old are the prices of what is open?</h3>{price_ages(prices, trusted)}" if prices else ""


def honesty(found: Lessons, library: Library) -> str:
    """Return whether the ranges held, bias by task, and how learned rates did on jobs they had no part in."""
    observed = found.compared.observed
    if not observed:
        return "<p>No finished line can be compared yet: type what a sent estimate really took.</p>"
    ranged = with_a_range(observed)
    return _coverage(ranged) + _trend(found) + _biases(observed) + _learning(observed, library) + _unmatched(found)


def _coverage(ranged: Sequence[Observed]) -> str:
    items = []
    for measure in UNITS:
        several = [each for each in ranged if each.measure == measure]
        if several:
            items.append(f"<li><strong>{measure}</strong>: {escape(coverage_of(several).text)}.</li>")
    note = (
        '<p class="pe-small">Exact binomial bound at 95 % of as many independent lines as these are worth: lines of '
        "one job share its good and bad days.</p>"
    )
    chart = f'<div class="pe-drawing">{held_chart(ranged)}</div>' if ranged else ""
    return f"<h3>Did the ranges hold?</h3><ul>{''.join(items)}</ul>{chart}{note}"


def _trend(found: Lessons) -> str:
    return f"<h3>Is your pace changing?</h3><p>{escape(found.drift.text)}</p>" if found.drift else ""


def to_look_at(found: Lessons, sent: int) -> str:
    """Return what to look at before trusting what the records teach: likely slips, and jobs nobody wrote down."""
    said = [each.text for each in found.slips]
    missing = unrecorded(sent, found.jobs)
    return "".join(f"<p class='pe-mind'>{escape(each)}</p>" for each in (*said, *([missing] if missing else [])))


def still_needed(found: Lessons) -> str:
    """Return what the records still lack before they can teach, in a sentence; blank once they teach and can judge."""
    if not found.jobs:
        return "<p>Type one job's total hours and the records begin to teach your pace; lines teach single rates.</p>"
    if found.jobs < FEWEST:
        more = FEWEST - found.jobs
        jobs = "one more job" if more == 1 else f"{more} more jobs"
        return f"<p>Rates are learned already; whether the ranges hold can be said after {jobs}.</p>"
    return ""


def pace_line(found: Lessons) -> str:
    """Return what accepting the crew's pace would do, in a sentence; blank where there is nothing to accept."""
    return f"<p>{escape(found.pace.text[0].upper() + found.pace.text[1:])}.</p>" if found.pace else ""


def _biases(observed: Sequence[Observed]) -> str:
    biases = bias_by(observed)
    rows = [[escape(each.group.replace("_", " ")), escape(each.text.partition(": ")[2])] for each in biases]
    return (
        f'<h3>Which way, and where?</h3><div class="pe-drawing">{bias_chart(biases)}</div>'
        f"<details><summary>In words</summary>{table(('task', 'what it took'), rows)}</details>"
    )


def _learning(observed: Sequence[Observed], library: Library) -> str:
    tried = try_forward(rows_of(library), observed)
    try:
        said = before_and_after(tried).text
    except InputError:
        return "<h3>Does learning help?</h3><p>That is seen from the second finished job on.</p>"
    return (
        f"<h3>Does learning help?</h3><p>{escape(said[0].upper() + said[1:])}.</p>"
        f'<div class="pe-drawing">{learning_chart(tried)}</div>'
        '<p class="pe-small">Each job is judged by what the jobs before it had taught; × 1 would be exact.</p>'
    )


def _unmatched(found: Lessons) -> str:
    several = found.compared.unmatched
    if not several:
        return ""
    items = "".join(
        f"<li>{escape(each.line)}: {number(each.amount)} {each.measure}, {each.done_on}</li>" for each in several
    )
    return f"<h3>Not promised, or promised and not done</h3><ul>{items}</ul>"


def review_summary(found: Lessons, library: Library, sent: int, proposals: int = 6) -> str:
    """Return the review as plain text: whether ranges held, the worst biases, and the farthest proposals."""
    observed = found.compared.observed
    finished = len({each.job for each in observed})
    lines = [f"estimates sent {sent}, jobs finished {finished}, lines compared {len(observed)}"]
    ranged = with_a_range(observed)
    if ranged:
        lines += ["", "Did the ranges hold?", f"  {coverage_of(ranged).text}"]
        lines += ["", "Which way, and where?", *(f"  {each.text}" for each in bias_by(observed)[:proposals])]
    tried = try_forward(rows_of(library), observed)
    if tried:
        said = before_and_after(tried).text.split("; ")
        lines += ["", "Does learning help?", *(f"  {each}" for each in said)]
    said = [each.text for each in (*found.slips, found.drift, found.pace) if each]
    missing = unrecorded(sent, finished)
    lines += ["", *said, *([missing] if missing else [])] if said or missing else []
    lines += ["", f"{len(found.proposals)} proposals, the farthest move first"]
    lines += [f"  {each.row.key}: {each.text}" for each in found.proposals[:proposals]]
    return "\n".join(lines)
