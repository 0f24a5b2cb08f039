"""The chosen room's notes, and those of the job as a whole: parts with a heading, each filled when it is opened."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from html import escape
from typing import Any, Protocol

import ipywidgets as widgets

from estimating.desk.browser_parts import SectionHead
from estimating.desk.form import Group, shared
from estimating.desk.layout import EMPTY
from estimating.errors import Location
from estimating.estimate.whatif.scenario import ABSENT, value_at
from estimating.job.model import kind_words
from estimating.job.room import Room
from estimating.job.site import Client, Crew, Site
from estimating.job.terms import Terms
from estimating.job.values import Notes
from estimating.scopes.registry import KINDS


class HasJob(Protocol):
    """A job that can be read and changed by place."""

    @property
    def job(self) -> Mapping[str, Any]:
        """The job as typed."""

    def put(self, path: Location, value: Any) -> None:
        """Let something else stand at a place."""

    def guarded(self, action: Callable[[], None]) -> Callable[..., None]:
        """Return a handler whose errors are said on the page."""


class Folded:
    """A heading and the box under it, which is filled when it is first opened."""

    def __init__(self, title: str, opened: Callable[[], None], shown: bool = False) -> None:
        self.head = SectionHead(title=title, shown=shown)
        self.box = widgets.VBox([], layout=shared().box)
        self.box.add_class("desk-part")
        if not shown:
            self.box.add_class("desk-folded")
        self.head.observe(lambda _change: opened(), names="shown")

    @property
    def widgets(self) -> tuple[widgets.Widget, widgets.Widget]:
        """The heading and the box, in this order and side by side in whatever holds them."""
        return self.head, self.box

    @property
    def shown(self) -> bool:
        """Whether it is open."""
        return bool(self.head.shown)

    def open(self) -> None:
        """Open it."""
        self.head.shown = True


@dataclass(frozen=True)
class Part:
    """Where a part of the notes stands in the job, by which model it is read, and what it is called."""

    path: Location
    model: type[Notes]
    title: str
    hidden: tuple[str, ...] = ()


class PartForm:
    """A part of the notes under its heading; what it shows is always what the job holds."""

    def __init__(self, part: Part, desk: HasJob, more: Sequence[widgets.Widget] = (), shown: bool = False) -> None:
        self.part, self.desk, self.more = part, desk, more
        self.form: Group | None = None
        self.held: Any = None
        self.folded = Folded(part.title, desk.guarded(self.paint), shown)

    def paint(self) -> None:
        """Show what the job holds; a form that shows it already stays as it is."""
        if not self.folded.shown:
            return
        value = value_at(self.desk.job, self.part.path)
        value = {} if value is ABSENT else value
        if self.form is not None and value == self.held:
            return
        self.held = value
        self.form = Group(self.part.model, value, self.desk.guarded(self._typed), self.part.hidden)
        self.folded.box.children = (self.form.widget, *self.more)

    def _typed(self) -> None:
        if self.form is not None:
            self.held = self.form.plain()
            self.desk.put(self.part.path, self.held)

    def mark(self, location: Location, complaint: str) -> bool:
        """Show a complaint about a place of the job, if it is in this part and open; none takes every one away."""
        if self.form is None:
            return False
        if not complaint:
            return self.form.mark((), "")
        size = len(self.part.path)
        return location[:size] == self.part.path and self.form.mark(location[size:], complaint)

    def focus(self, location: Location) -> bool:
        """Open the part that has this place and put the cursor there; say whether it was in this part."""
        size = len(self.part.path)
        if location[:size] != self.part.path:
            return False
        self.folded.open()
        self.paint()
        found = self.form.find(location[size:]) if self.form else None
        if found is not None:
            found.control.focus()
        return True


JOB_PARTS = (
    Part(("client",), Client, "Client"),
    Part(("site",), Site, "Site and building"),
    Part(("crew",), Crew, "Crew"),
    Part(("terms",), Terms, "Terms of the papers"),
)


class JobDetails:
    """The notes of the job as a whole."""

    def __init__(self, desk: HasJob) -> None:
        self.forms = [PartForm(part, desk) for part in JOB_PARTS]
        self.widget = widgets.VBox([each for form in self.forms for each in form.folded.widgets])

    def paint(self) -> None:
        """Show what the job holds in the parts that are open."""
        for form in self.forms:
            form.paint()


class RoomDetails:
    """The notes of the chosen room and of the work in it; no other room has controls."""

    def __init__(self, desk: HasJob, actions: Mapping[str, Callable[[], None]]) -> None:
        self.desk = desk
        self.room = -1
        self.parts: tuple[Part, ...] = ()
        self.forms: list[PartForm] = []
        self.opened: set[str] = set()
        self.title = widgets.HTML()
        buttons = [_press(word, desk.guarded(action)) for word, action in actions.items()]
        self.head = widgets.HBox([self.title, *buttons])
        self.head.add_class("desk-head")
        self.inside = widgets.VBox([], layout=shared().box)
        self.add = widgets.HBox([])
        self.add.add_class("desk-acts")
        self.widget = widgets.VBox([self.head, self.inside, self.add])

    def choose(self, room: int) -> None:
        """Show the notes of another room."""
        self.room = room
        self.paint()

    def paint(self) -> None:
        """Show what the job holds; forms are made anew only where the parts are others."""
        parts = tuple(self._parts())
        (self.widget.remove_class if parts else self.widget.add_class)(EMPTY)
        name = escape(str(value_at(self.desk.job, ("rooms", self.room, "name")))) if parts else ""
        self.title.value = f"<h2>{name}</h2>"
        if parts != self.parts:
            self.opened = {form.part.title for form in self.forms if form.folded.shown} or self.opened
            self.parts = parts
            self.forms = [PartForm(part, self.desk, self._more(part), part.title in self.opened) for part in parts]
            self.inside.children = [each for form in self.forms for each in form.folded.widgets]
            self._offer_work()
        for form in self.forms:
            form.paint()

    def _parts(self) -> Iterable[Part]:
        rooms = self.desk.job.get("rooms") or []
        if not 0 <= self.room < len(rooms):
            return
        name = rooms[self.room].get("name")
        yield Part(("rooms", self.room), Room, "Room: doors, windows, fixtures, what stands in it", ("name",))
        for place, item in enumerate(self.desk.job.get("work") or []):
            if item.get("room") == name and item.get("kind") in KINDS:
                kind = str(item["kind"])
                yield Part(("work", place), KINDS[kind].notes, _capital(kind_words(kind)), ("room", "kind"))

    def _more(self, part: Part) -> tuple[widgets.Widget, ...]:
        if part.path[0] != "work":
            return ()
        return (_press(f"Remove {part.title.lower()}", self.desk.guarded(lambda: self._removed(part))),)

    def _removed(self, part: Part) -> None:
        work = [item for place, item in enumerate(self.desk.job["work"]) if ("work", place) != part.path]
        self.desk.put(("work",), work)

    def _offer_work(self) -> None:
        there = {part.model for part in self.parts}
        missing = [kind for kind in KINDS.values() if kind.notes not in there and self.parts]
        self.add.children = [
            _press(f"Add {kind_words(kind.key)}", self.desk.guarded(partial(self._added, kind.key))) for kind in missing
        ]

    def _added(self, kind: str) -> None:
        name = self.desk.job["rooms"][self.room]["name"]
        self.opened.add(_capital(kind_words(kind)))
        self.desk.put(("work",), [*(self.desk.job.get("work") or []), {"kind": kind, "room": name}])


def _press(label: str, pressed: Callable[..., None]) -> widgets.Button:
    button = widgets.Button(description=label, style=shared().button, layout=shared().press)
    button.on_click(pressed)
    return button


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
