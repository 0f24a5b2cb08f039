"""Still to confirm: every open question, ranked by what its answer can move, with a way to its field."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Protocol, get_args, get_origin

from estimating.desk.browser_parts import ActionRows
from estimating.desk.form import bare
from estimating.desk.places import find_place, spoken
from estimating.desk.usual import ASSUMED, usual_answer
from estimating.errors import EstimatingError, Location
from estimating.estimate.pricing.plan import Question
from estimating.estimate.whatif.scenario import ABSENT, apply, value_at
from estimating.job.values import Notes, Whole
from estimating.scopes.registry import JOB, KINDS

GO, ASSUME, LOOKED, RANK = "Go to it", "Assume usual", "Confirmed", "Rank by dollars"
MOST = 8  # shown; the others follow when these are answered, or by "show all"
TRIED_COUNTS = ("2",)
Price = Callable[[Mapping[str, Any]], float]


@dataclass(frozen=True)
class Open:
    """An open question at its place in the job, with the usual answer where there is one."""

    question: Question
    place: Location
    usual: Any | None


def open_questions(questions: Sequence[Question], job: Mapping[str, Any], house: Mapping[str, Any]) -> list[Open]:
    """Return the questions with their places and their usual answers."""
    placed = [(each, find_place(each.field, job)) for each in questions]
    return [Open(each, place, usual_answer(place, house)) for each, place in placed]


def at_stake(one: Open, job: Mapping[str, Any], price: Price) -> float:
    """Return how far the price can move with the answers that can be given (dollars); 0 where none can be tried."""
    prices = []
    for answer in answers_of(one.place, job):
        try:
            prices.append(price(_answered(job, one.place, answer)))
        except EstimatingError:
            continue  # an answer that asks for another one first says nothing by itself
    return max(prices) - min(prices) if len(prices) > 1 else 0.0


def _answered(job: Mapping[str, Any], place: Location, answer: Any) -> dict[str, Any]:
    """Return the job with an answer at a place, making the parts on the way that the notes left out."""
    for size in range(1, len(place)):
        if value_at(job, place[:size]) is ABSENT:
            job = apply(job, {place[:size]: {}})
    return apply(job, {place: answer})


def answers_of(place: Location, job: Mapping[str, Any]) -> list[str]:
    """Return the answers that can be tried at a place: every word of a list, and none or a few of a count."""
    annotation = _type_at(place, job)
    if isinstance(annotation, type) and issubclass(annotation, StrEnum):
        return [*map(str, annotation)]
    if annotation is int or annotation is bare(Whole):
        return ["0", *TRIED_COUNTS]
    return []


def _type_at(place: Location, job: Mapping[str, Any]) -> Any:
    model: Any = JOB
    for depth, step in enumerate(place):
        if isinstance(step, int):
            model = _item(model, value_at(job, place[: depth + 1]))
        elif isinstance(model, type) and issubclass(model, Notes) and step in model.model_fields:
            model = bare(model.model_fields[step].rebuild_annotation())
        else:
            return None
    return model


def _item(several: Any, item: Any) -> Any:
    """Return the model of one item of a list, by its kind where there are several."""
    inner = bare(get_args(several)[0]) if get_origin(several) is tuple else None
    kind = str(item.get("kind")) if isinstance(item, Mapping) else ""
    return KINDS[kind].notes if kind in KINDS else inner


class ChangesJob(Protocol):
    """What the list acts upon."""

    @property
    def job(self) -> Mapping[str, Any]:
        """The job as typed."""

    def take(self, job: Mapping[str, Any], said: str = "") -> None:
        """Take a changed job as the next step."""

    def go_to(self, place: Location) -> None:
        """Put the cursor into the field at a place."""

    def rank(self, pause: float = 0.0) -> None:
        """Work out what each open answer can move."""


class Confirm:
    """The list of what is still to confirm, the dearest first; what was assumed stands after it."""

    def __init__(self, desk: ChangesJob, guarded: Callable[[Callable[[], None]], Callable[..., None]]) -> None:
        self.desk = desk
        self.open: list[Open] = []
        self.stakes: dict[Location, float] = {}
        self.all = False
        self.widget = ActionRows(
            lambda row, do: guarded(lambda: self._pressed(row, do))(),
            head=["At stake", "What", "Taken for now"],
            nothing="Nothing is open.",
        )

    def offer(self, found: list[Open]) -> None:
        """Show the questions as they stand, by what is known of their stakes."""
        self.open = found
        places = {each.place for each in found}
        self.stakes = {place: stake for place, stake in self.stakes.items() if place in places}
        self.paint()

    def rank(self, job: Mapping[str, Any], price: Price) -> Iterator[None]:
        """Work out what each answer can move, one at a time, and show them in that order at the end."""
        for each in self.open:
            if each.place and each.place not in self.stakes:
                self.stakes[each.place] = at_stake(each, job, price)
                yield
        self.paint()

    def paint(self) -> None:
        """Show the list."""
        ranked = sorted(enumerate(self.open), key=lambda one: -self.stakes.get(one[1].place, 0.0))
        rows = [self._row(place, each) for place, each in (ranked if self.all else ranked[:MOST])]
        if len(ranked) > MOST:
            rows.append(self._rest(len(ranked) - MOST))
        rows += [self._assumed_row(text) for text in self.desk.job.get(ASSUMED) or []][: None if self.all else MOST]
        if self.widget.rows != rows:
            self.widget.rows = rows

    def _row(self, place: int, each: Open) -> dict[str, Any]:
        stake = self.stakes.get(each.place)
        money = "…" if stake is None else f"±${stake / 2:,.0f}" if stake >= 1 else "under $1"
        actions = ([GO] if each.place else []) + ([ASSUME] if each.usual is not None else [])
        asked, _, taken = each.question.text.partition("? ")
        where = spoken(each.place, self.desk.job) if each.place else each.question.field
        return {
            "id": f"q{place}",
            "called": where,
            "cells": [money, f"{where}: {asked}?" if taken else f"{where}: {asked}", taken],
            "actions": actions,
        }

    def _rest(self, count: int) -> dict[str, Any]:
        words = f"{count} more" if not self.all else "all of them are shown"
        more = ["Show fewer" if self.all else "Show all", "Assume usual for all"]
        more += [RANK] if any(each.place and each.place not in self.stakes for each in self.open) else []
        return {"id": "more", "called": "still to confirm", "cells": ["", words, ""], "actions": more}

    def _assumed_row(self, text: str) -> dict[str, Any]:
        place, job = find_place(text, self.desk.job), self.desk.job
        value = value_at(job, place) if place else ABSENT
        words = f"assumed: {value}" if value is not ABSENT else "assumed"
        return {
            "id": f"a{text}",
            "called": spoken(place, job),
            "cells": ["", spoken(place, job), words],
            "actions": [GO, LOOKED] if place else [LOOKED],
        }

    def _pressed(self, row: str, do: str) -> None:
        if do in ("Show all", "Show fewer"):
            self.all = not self.all
            self.paint()
        elif do == RANK:
            self.desk.rank()
        elif do == "Assume usual for all":
            self._assume([each for each in self.open if each.usual is not None])
        elif do == LOOKED:
            kept = [text for text in self.desk.job.get(ASSUMED) or [] if text != row[1:]]
            self.desk.take({**self.desk.job, ASSUMED: kept}, "confirmed")
        elif row.startswith("a"):
            self.desk.go_to(find_place(row[1:], self.desk.job))
        elif do == GO:
            self.desk.go_to(self.open[int(row[1:])].place)
        else:
            self._assume([self.open[int(row[1:])]])

    def _assume(self, several: Sequence[Open]) -> None:
        job: Mapping[str, Any] = self.desk.job
        for each in several:
            job = _answered(job, each.place, each.usual)
        assumed = [*(job.get(ASSUMED) or []), *(each.question.field for each in several)]
        self.desk.take({**job, ASSUMED: list(dict.fromkeys(assumed))}, "usual answers assumed")
