"""Recording the estimate on the desk as sent: a name, a button, and what was done said in the status line."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import ipywidgets as widgets

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.records.own import make_folder
from estimating.records.price_list import trusted_days
from estimating.records.store import open_records
from estimating.reports.format import dollars
from estimating.reports.panes.price import old_prices_line
from estimating.review.prices import aged_prices
from estimating.review.sending import record_as_sent
from estimating.workbook import Outcome


class SendRow:
    """The name box and the button. An estimate that was sent is never written over."""

    def __init__(self, ready: Callable[[], tuple[Outcome, EstimateRanges]], say: Callable[[str], None]) -> None:
        self.ready, self.say = ready, say
        self.name = widgets.Text(
            description="save as",
            placeholder="the job's title",
            continuous_update=False,
            layout={"width": "330px"},
        )
        self.button = widgets.Button(
            description="Save as sent",
            tooltip="keep this job and its estimate in the records, as the client gets them",
        )
        self.widget = widgets.HBox([self.name, self.button])

    def send(self, records: Path, today: date) -> None:
        """Keep the estimate as it stands; say under which name, for how much, and how far its prices can be trusted."""
        outcome, sure = self.ready()
        name = self.name.value.strip() or outcome.job.title
        make_folder(records)
        with open_records(records) as opened:
            sending = record_as_sent(opened, name, outcome, sure)
        kept = sending.estimate
        what = f"“{name}”, {dollars(kept.price)}"
        done = (
            f"recorded as sent: {what}. It stays as it is; a change is a further estimate."
            if sending.new
            else f"nothing to add: {what} was recorded just so on {kept.sent_at[:10]}."
        )
        prices = aged_prices(outcome.estimate.amount, outcome.basis, today)
        old = old_prices_line(prices, trusted_days(outcome.basis))
        self.say(f"{done} Mind: {old}." if old else done)
