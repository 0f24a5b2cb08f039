"""A form for any part of a job file, built from its model: one labelled control a field, errors shown in place.

What was typed stays as it was typed, right or wrong, until the user changes it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from html import escape
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Protocol, Union, get_args, get_origin

import ipywidgets as widgets
from ipywidgets.widgets.widget_description import DescriptionStyle
from ipywidgets.widgets.widget_string import TextStyle
from pydantic.fields import FieldInfo

from estimating.errors import Location
from estimating.job.values import UNKNOWN, Notes

Changed = Callable[[], None]


@lru_cache(maxsize=1)
def shared() -> Shared:
    """Return the layouts and styles that all fields have in common: one of each, however many fields there are."""
    width = "170px"
    return Shared(
        field=widgets.Layout(width="100%", min_width="0", max_width="460px"),
        box=widgets.Layout(width="100%", min_width="0"),
        text=TextStyle(description_width=width),
        choice=DescriptionStyle(description_width=width),
        button=widgets.ButtonStyle(),
        press=widgets.Layout(width="auto"),
    )


@dataclass(frozen=True)
class Shared:
    """Layouts and styles in common."""

    field: widgets.Layout
    box: widgets.Layout
    text: TextStyle
    choice: DescriptionStyle
    button: widgets.ButtonStyle
    press: widgets.Layout


class Part(Protocol):
    """A piece of the form: what it shows, what was typed in it, and the complaint about it."""

    widget: widgets.Widget

    def plain(self) -> Any:
        """Return what was typed, as a job file would hold it."""

    def mark(self, location: Location, complaint: str) -> bool:
        """Show a complaint at a place within this part, and say whether it has one; none takes every one away."""

    def find(self, location: Location) -> Entry | None:
        """Return the control at a place within this part."""


class Entry:
    """One control with its label, and a line for what is wrong with it."""

    def __init__(self, control: widgets.Widget, changed: Changed) -> None:
        self.control = control
        self.widget = widgets.VBox([control], layout=shared().box)
        self.widget.add_class("pe-field")
        control.observe(lambda _change: changed(), names="value")

    def plain(self) -> Any:
        """Return what the control holds."""
        return self.control.value

    def mark(self, location: Location, complaint: str) -> bool:
        """Show the complaint under the control, or nothing."""
        del location
        line = [widgets.HTML(f'<p class="pe-error" role="alert">{escape(complaint)}</p>')] if complaint else []
        if line or len(self.widget.children) > 1:
            self.widget.children = (self.control, *line)
        return True

    def find(self, location: Location) -> Entry | None:
        """Return itself: there is nothing within it."""
        del location
        return self


class TextEntry(Entry):
    """One line of text; an empty one stands for what nobody knows."""

    def plain(self) -> Any:
        """Return what was typed, or that it is unknown."""
        return self.control.value if self.control.value.strip() else UNKNOWN


class ListEntry(Entry):
    """Several words in one line, with commas between."""

    def plain(self) -> Any:
        """Return the words as a list; `unknown` and `none` stay words."""
        text = self.control.value.strip()
        return (text or UNKNOWN) if text in (UNKNOWN, "none", "") else [word.strip() for word in text.split(",")]


class CornersEntry(Entry):
    """Corners in one line: x, y; x, y; …"""

    def plain(self) -> Any:
        """Return the corners as pairs, as far as they can be told apart."""
        pairs = [corner.split(",") for corner in self.control.value.split(";") if corner.strip()]
        return [[each.strip() for each in pair] for pair in pairs]


class Group:
    """The fields of one model, under one another."""

    def __init__(
        self,
        model: type[Notes],
        values: Mapping[str, Any],
        changed: Changed,
        hidden: Iterable[str] = (),
    ) -> None:
        self.fixed = {
            name: get_args(field.annotation)[0]
            for name, field in model.model_fields.items()
            if get_origin(field.annotation) is Literal
        }
        self.fixed |= {name: values[name] for name in hidden if name in values}
        self.parts: dict[str, Part] = {
            name: part_for(name, field.rebuild_annotation(), values.get(name, _usual(field)), changed)
            for name, field in model.model_fields.items()
            if name not in self.fixed and name not in hidden
        }
        self.said = widgets.HTML()
        self.widget = widgets.VBox([self.said, *(part.widget for part in self.parts.values())], layout=shared().box)

    def plain(self) -> Any:
        """Return the fields by name."""
        return {**self.fixed, **{name: part.plain() for name, part in self.parts.items()}}

    def mark(self, location: Location, complaint: str) -> bool:
        """Pass the complaint on to the field it is about, or show it above them all; none takes every one away."""
        if not complaint:
            for part in self.parts.values():
                part.mark((), "")
        elif location and location[0] in self.parts:
            return self.parts[str(location[0])].mark(location[1:], complaint)
        said = f'<p class="pe-error" role="alert">{escape(complaint)}</p>' if complaint else ""
        if self.said.value != said:
            self.said.value = said
        return True

    def find(self, location: Location) -> Entry | None:
        """Return the control at a place within these fields: of a place with parts, the first."""
        if location and location[0] in self.parts:
            return self.parts[str(location[0])].find(location[1:])
        return next((found for part in self.parts.values() if (found := part.find(()))), None)


class Rows:
    """Any number of like parts, with buttons to add and to take away."""

    def __init__(self, name: str, make: Callable[[Any], Part], values: Any, changed: Changed) -> None:
        self.changed, self.make, self.name = changed, make, name
        self.unknown = values in (UNKNOWN, None)
        self.rows: list[Part] = [make(each) for each in (() if self.unknown or values == "none" else values)]
        self.add = _press(f"Add to {name}", self._added)
        self.widget = widgets.VBox([], layout=shared().box)
        self._laid()

    def _laid(self) -> None:
        title = heading(f"{self.name} – not answered yet" if self.unknown else self.name)
        self.widget.children = (title, *(self._row(each) for each in self.rows), self.add)

    def _row(self, part: Part) -> widgets.Widget:
        row = widgets.VBox([part.widget, _press(f"Remove from {self.name}", lambda: self._removed(part))])
        row.add_class("pe-row")
        return row

    def _added(self) -> None:
        self.unknown = False
        self.rows.append(self.make({}))
        self._laid()
        self.changed()

    def _removed(self, part: Part) -> None:
        self.rows.remove(part)
        self._laid()
        self.changed()

    def plain(self) -> Any:
        """Return the rows, or unknown when nobody has answered."""
        return UNKNOWN if self.unknown else [row.plain() for row in self.rows]

    def mark(self, location: Location, complaint: str) -> bool:
        """Pass the complaint on to the row it is about; none takes every one away."""
        if not complaint:
            for row in self.rows:
                row.mark((), "")
            return True
        found = self._at(location)
        return found.mark(location[1:], complaint) if found else False

    def find(self, location: Location) -> Entry | None:
        """Return the control at a place within the rows."""
        found = self._at(location) or next(iter(self.rows), None)
        return found.find(location[1:]) if found else None

    def _at(self, location: Location) -> Part | None:
        place = location[0] if location else None
        return self.rows[place] if isinstance(place, int) and place < len(self.rows) else None


class Kinds:
    """A part that may be of several kinds: the kind is chosen, and its own fields follow."""

    def __init__(self, name: str, models: Mapping[str, type[Notes]], values: Any, changed: Changed) -> None:
        values = values if isinstance(values, Mapping) else {}
        self.models, self.changed = models, changed
        kind = values.get("kind", next(iter(models)))
        self.choice = widgets.Dropdown(
            options=[(each.replace("_", " "), each) for each in models],
            value=kind,
            description=words(name),
            style=shared().choice,
            layout=shared().field,
        )
        self.group = Group(models[kind], values, changed)
        self.choice.observe(lambda _change: self._changed(), names="value")
        self.widget = widgets.VBox([self.choice, self.group.widget])

    def _changed(self) -> None:
        self.group = Group(self.models[self.choice.value], self.group.plain(), self.changed)
        self.widget.children = (self.choice, self.group.widget)
        self.changed()

    def plain(self) -> Any:
        """Return the fields of the kind chosen."""
        return self.group.plain()

    def mark(self, location: Location, complaint: str) -> bool:
        """Pass the complaint on to the kind chosen."""
        return self.group.mark(location, complaint)

    def find(self, location: Location) -> Entry | None:
        """Return the control at a place within the kind chosen."""
        return self.group.find(location)


ROW = "kind"  # what a row of several is labelled by, where it can be of several kinds


def heading(text: str) -> widgets.HTML:
    """Return a heading within the form."""
    return widgets.HTML(f'<p class="pe-heading">{escape(text)}</p>')


LABELS = {  # where a field's own name is not what a contractor calls it
    "recessed_light": "can lights",
    "ceiling_light": "ceiling lights",
    "grille": "vents",
    "detector": "smoke or CO alarms",
    "plates": "switch and outlet covers",
    "soffits": "soffits",
    "removals": "take down and rehang",
    "openings": "doors and windows",
    "washing": "how dirty",
    "next_room_came_down": "same texture came down next door",
    "humid_years": "years of humid air",
    "smooth_wanted": "smooth ceiling wanted",
    "walls_next": "walls after the ceiling",
    "closes_the_room": "paper on all walls",
    "change": "color change",
    "over_stairs_feet": "wall over stairs, ft",
    "caulk_feet": "caulk, ft",
    "travel_minutes": "drive, min one way",
    "air": "room temperature",
    "surface": "wall temperature",
    "airflow": "can be ventilated",
    "ignition": "pilot lights and sparks",
    "batch": "dye lot",
    "measured": "how sure of the tape",
}


def words(name: str) -> str:
    """Return a field's name as its label."""
    return LABELS.get(name, name.replace("_", " "))


def part_for(name: str, annotation: Any, value: Any, changed: Changed) -> Part:
    """Return the part of the form for a field of this type."""
    inner = bare(annotation)
    if _is_list(inner):
        return _list_part(name, bare(get_args(inner)[0]), value, changed)
    models = [each for each in _members(inner) if isinstance(each, type) and issubclass(each, Notes)]
    if len(models) > 1:
        return Kinds(name, {_kind_of(model): model for model in models}, value, changed)
    if models:
        group = Group(models[0], value if isinstance(value, Mapping) else {}, changed)
        if name != ROW:
            group.widget.children = (heading(words(name)), *group.widget.children)
        return group
    if isinstance(inner, type) and issubclass(inner, StrEnum):
        return Entry(_dropdown(name, inner, value), changed)
    return TextEntry(_text(name, "" if value in (None, UNKNOWN) else str(value), UNKNOWN), changed)


def _list_part(name: str, item: Any, value: Any, changed: Changed) -> Part:
    if _is_list(item):
        corners = "; ".join(", ".join(map(str, pair)) for pair in value) if isinstance(value, list) else ""
        return CornersEntry(_text(name, corners, "0, 0; 12 ft, 0; 12 ft, 9 ft; 0, 9 ft"), changed)
    if isinstance(item, type) and issubclass(item, StrEnum):
        text = (
            ", ".join(value)
            if isinstance(value, list) and value
            else "none"
            if value == []
            else ""
            if value == UNKNOWN
            else str(value)
        )
        return ListEntry(_text(name, text, ", ".join(item)), changed)
    return Rows(words(name), lambda given: part_for(ROW, item, given, changed), value, changed)


def _text(name: str, value: str, hint: str = "") -> widgets.Text:
    return widgets.Text(
        value=value,
        description=words(name),
        placeholder=hint,
        continuous_update=False,
        style=shared().text,
        layout=shared().field,
    )


def _press(label: str, pressed: Callable[[], None]) -> widgets.Button:
    button = widgets.Button(description=label, style=shared().button, layout=shared().press)
    button.on_click(lambda _button: pressed())
    return button


def _usual(field: FieldInfo) -> Any:
    """Return what stands in a field that nobody filled in: its number where it has one, else that it is unknown."""
    return field.default if isinstance(field.default, int) and not isinstance(field.default, bool) else UNKNOWN


def _dropdown(name: str, choices: type[StrEnum], value: Any) -> widgets.Dropdown:
    options = [*map(str, choices), UNKNOWN]
    return widgets.Dropdown(
        options=options,
        value=value if value in options else UNKNOWN,
        description=words(name),
        style=shared().choice,
        layout=shared().field,
    )


def bare(annotation: Any) -> Any:
    """Return a type without its annotations and without the None that stands for unknown."""
    if get_origin(annotation) is Annotated:
        return bare(get_args(annotation)[0])
    if get_origin(annotation) in (Union, UnionType):
        members = [each for each in get_args(annotation) if each is not NoneType]
        return bare(members[0]) if len(members) == 1 else annotation
    return annotation


def _members(annotation: Any) -> Iterable[Any]:
    return get_args(annotation) if get_origin(annotation) in (Union, UnionType) else (annotation,)


def _is_list(annotation: Any) -> bool:
    return get_origin(annotation) is tuple


def _kind_of(model: type[Notes]) -> str:
    return str(get_args(model.model_fields["kind"].annotation)[0])
