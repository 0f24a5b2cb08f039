"""The table of rooms on the desk: what is typed or pasted into it changes the job, or is marked where it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Protocol

from estimating.desk import rooms
from estimating.desk.browser_parts import Message, RoomGrid
from estimating.desk.to_do import covered
from estimating.errors import InputError
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome

HINT = "bed 1: 12' x 11'6\" x 8'; 2 doors, 1 window; walls, ceiling, baseboard"
Guarded = Callable[[Callable[[], None]], Callable[..., None]]


class HasRooms(Protocol):
    """The desk as the table sees it."""

    @property
    def job(self) -> Mapping[str, Any]:
        """The job as typed."""

    @property
    def house(self) -> Mapping[str, Any]:
        """The usual house."""

    @property
    def units(self) -> UnitSystem:
        """The units shown."""

    def take(self, job: Mapping[str, Any], said: str = "") -> None:
        """Take a changed job as the next step."""


class RoomTable:
    """The grid and what it cannot read yet."""

    def __init__(self, desk: HasRooms, guarded: Guarded, chosen: Callable[[], None]) -> None:
        self.desk = desk
        self.bad: dict[str, dict[str, str]] = {}
        self.grid = RoomGrid(
            lambda message: guarded(lambda: self._heard(message))(), cols=list(rooms.COLUMNS), hint=HINT
        )
        self.grid.observe(guarded(chosen), names="chosen")

    @property
    def actions(self) -> dict[str, Callable[[], None]]:
        """What can be done with the chosen room, by the words of the buttons."""
        return {
            "Move up": lambda: self.move(self.place, -1),
            "Move down": lambda: self.move(self.place, 1),
            "Copy room": self.copy,
            "Remove room": self.remove,
        }

    @property
    def place(self) -> int:
        """The place of the chosen room in the job; -1 for none."""
        return rooms.place_of(self.grid.chosen)

    @property
    def covered(self) -> set[str]:
        """The surfaces of the chosen room that are painted or papered."""
        several = self.desk.job.get("rooms") or []
        name = several[self.place].get("name") if 0 <= self.place < len(several) else None
        return covered(rooms.work_in(self.desk.job, str(name)))

    @property
    def unit(self) -> str:
        """The unit a bare number is taken in."""
        return "m" if self.desk.units is UnitSystem.METRIC else "ft"

    def choose(self, place: int) -> None:
        """Choose a room."""
        self.grid.chosen = rooms.room_id(place) if place >= 0 else ""

    def mark(self, place: int, column: str, said: str, *, aloud: bool = True) -> None:
        """Mark a cell, and say what is wrong with it, unless a field of the room says so already."""
        self.bad.setdefault(rooms.room_id(place), {})[column] = said
        if aloud:
            self.grid.say(said)

    def paint(self, outcome: Outcome | None) -> None:
        """Show the rooms of the job, with what each comes to where it is priced."""
        sums = rooms.room_sums(outcome) if outcome else {}
        self.grid.foot = rooms.foot(self.desk.job, outcome, sums) if outcome else []
        self.grid.rows = rooms.grid_rows(self.desk.job, sums, self.bad)
        if self.place >= len(self.grid.rows) or (self.place < 0 and self.grid.rows):
            self.choose(0 if self.grid.rows else -1)

    def _heard(self, message: Message) -> None:
        row = str(message.get("row", ""))
        match message["do"]:
            case "set":
                self._set(row, str(message["col"]), str(message["value"]))
            case "paste":
                self._paste(row, str(message["col"]), str(message["text"]))
            case "move":
                self.move(rooms.place_of(row), int(str(message["by"])))
            case "lines":
                self.add_lines(str(message["text"]))

    def copy(self) -> None:
        """Put the chosen room into the job once more, its work with it, and choose the copy."""
        row, place = self.grid.chosen, self.place
        self.desk.take(rooms.copied(self.desk.job, row), "room copied")
        self.choose(place + 1)

    def remove(self) -> None:
        """Take the chosen room and its work out of the job."""
        self.desk.take(rooms.removed(self.desk.job, self.grid.chosen), "room removed")

    def move(self, place: int, by: int) -> None:
        """Move a room up or down the table and choose it."""
        count = len(self.desk.job.get("rooms") or [])
        if not (0 <= place < count and 0 <= place + by < count):
            return
        self.bad = {}
        self.desk.take(rooms.moved(self.desk.job, rooms.room_id(place), by), "rooms put in order")
        self.choose(place + by)

    def _set(self, row: str, column: str, text: str) -> None:
        self.bad.get(row, {}).pop(column, None)
        try:
            job = rooms.changed(self.desk.job, row, column, text, self.desk.house, self.unit)
        except InputError as problem:
            self.mark(rooms.place_of(row), column, f"{problem.value}: needs {problem.needed}")
            self.grid.rows = rooms.grid_rows(self.desk.job, {}, self.bad)
            return
        self.grid.say("")
        name = self.desk.job["rooms"][rooms.place_of(row)].get("name", "")
        self.desk.take(job, f"{name}, {column.replace('_', ' ')}")

    def _paste(self, row: str, column: str, text: str) -> None:
        job, bad = rooms.with_cells(self.desk.job, row, column, text, self.desk.house, self.unit)
        self.bad |= bad
        self.desk.take(job, "cells pasted")
        unread = sum(map(len, bad.values()))
        self.grid.say(f"{len(text.splitlines())} lines pasted" + (f", {unread} cells not understood" if unread else ""))

    def add_lines(self, text: str) -> None:
        """Add the rooms of lines of notes; a line that is not understood goes back to where it was typed, marked."""
        job, unclear, count = rooms.with_lines(self.desk.job, text, self.desk.house, self.unit)
        self.desk.take(job, "a room added" if count == 1 else f"{count} rooms added")
        if count:
            self.choose(len(job["rooms"]) - count)
        more = f", {len(unclear)} not understood: put right what is marked" if unclear else ""
        self.grid.say(f"{'1 room' if count == 1 else f'{count} rooms'} added{more}", "\n".join(unclear))
