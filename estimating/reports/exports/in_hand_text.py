"""Jobs in hand and open estimates priced again, as text for a terminal and as CSV for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal

from estimating.records.sitting import STATES
from estimating.reports.documents.content import counted
from estimating.reports.exports.summary_csv import plain_text
from estimating.reports.format import dollars, whole_dollars
from estimating.review.in_hand import JobInHand, Week, Wins, wins, wins_by, without_a_start
from estimating.review.reprice import Repriced

FEW = 5  # decisions below which a rate says little
CSV_HEAD = ("job", "title", "state", "before", "after", "change", "cost low", "cost high", "problem")


def in_hand_text(jobs: Sequence[JobInHand], weeks: Sequence[Week]) -> str:
    """Return the states, the wins by kind and size, and the weeks promised."""
    parts = [_states(jobs), _wins(jobs), _weeks(jobs, weeks), _problems(jobs)]
    return "\n\n".join("\n".join(part) for part in parts if part)


def _states(jobs: Sequence[JobInHand]) -> list[str]:
    found = {state: [each for each in jobs if each.state == state and not each.problem] for state in STATES}
    lines = [f"{'state':8} {'jobs':>5} {'hours':>8} {'price':>12}"]
    for state, several in found.items():
        hours, price = sum(each.hours for each in several), sum((each.price for each in several), Decimal(0))
        lines.append(f"{state:8} {len(several):5} {hours:8,.0f} {whole_dollars(price):>12}")
    return lines


def _wins(jobs: Sequence[JobInHand]) -> list[str]:
    lines = [f"Won {_rate(wins(jobs))}"]
    lines += [f"  {name}: {_rate(found)}" for field in ("kind", "size") for name, found in wins_by(jobs, field).items()]
    return lines


def _rate(found: Wins) -> str:
    if found.rate is None:
        return "none yet: no job is decided"
    said = f"{found.won} of {found.decided} decided"
    return f"{said} ({found.rate:.0%})" if found.decided >= FEW else f"{said} (too few for a rate)"


def _weeks(jobs: Sequence[JobInHand], weeks: Sequence[Week]) -> list[str]:
    lines = [f"{'week of':12} {'promised':>9} {'there are':>10} {'left':>8}"] if weeks else []
    lines += [_week(each) for each in weeks]
    loose = without_a_start(jobs)
    if loose:
        hours = sum(each.hours for each in loose)
        lines.append(
            f"Won, and no day to start on (terms · start_earliest): {counted(len(loose), 'job')}, {hours:,.0f} h"
        )
    return lines


def _week(week: Week) -> str:
    left = week.there_are - week.promised
    over = "  more than there are" if left < 0 else ""
    return f"{week.monday.isoformat():12} {week.promised:8,.0f}h {week.there_are:9,.0f}h {left:7,.0f}h{over}"


def _problems(jobs: Sequence[JobInHand]) -> list[str]:
    return [f"{each.name}: no price: {each.problem}" for each in jobs if each.problem]


def repriced_text(jobs: Iterable[Repriced]) -> Iterator[str]:
    """Yield a line for each job as it is priced, then what all of them and each change move."""
    yield f"{'job':28} {'before':>11} {'after':>11} {'change':>11}   cost to do it, 8 in 10"
    total, by_change, count = [Decimal(0), Decimal(0)], dict[str, Decimal](), 0
    for each in jobs:
        yield _line(each)
        if not each.problem:
            count += 1
            total = [total[0] + each.before, total[1] + each.after]
            for key, amount in (each.moved or {}).items():
                by_change[key] = by_change.get(key, Decimal(0)) + amount
    yield f"{counted(count, 'open job'):28} {_amounts(*total)}"
    yield from _each_change(by_change)


def _line(each: Repriced) -> str:
    if each.problem:
        return f"{each.name:28} no price: {each.problem}"
    cost = f"{whole_dollars(each.cost_low)} to {whole_dollars(each.cost_high)}"
    return f"{each.name[:28]:28} {_amounts(each.before, each.after)}   {cost}"


def _amounts(before: Decimal, after: Decimal) -> str:
    change = after - before
    sign = "+" if change > 0 else ""
    return f"{dollars(before):>11} {dollars(after):>11} {f'{sign}{change:,.2f}':>11}"


def _each_change(by_change: Mapping[str, Decimal]) -> Iterator[str]:
    if by_change:
        yield "\nEach change by itself, over all of them (methods and order of rooms as they stand):"
        yield from (f"  {key}: {amount:+,.2f}" for key, amount in by_change.items())


def repriced_csv(jobs: Iterable[Repriced]) -> str:
    """Return a row for each job, and a column for each change."""
    several = list(jobs)
    keys = list(dict.fromkeys(key for each in several for key in each.moved or {}))
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow((*CSV_HEAD, *keys))
    for each in several:
        moved = [(each.moved or {}).get(key, "") for key in keys]
        costs = (f"{each.cost_low:.2f}", f"{each.cost_high:.2f}")
        cells = (each.name, each.title, each.state, each.before, each.after, each.change, *costs, each.problem)
        writer.writerow([plain_text(cell) if isinstance(cell, str) else cell for cell in (*cells, *moved)])
    return text.getvalue()
