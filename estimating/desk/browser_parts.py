"""The few controls that no form library has, each a small script in browser/: grid, section heading, files, pulse."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib.resources import files
from typing import Any

import anywidget
import traitlets

SCRIPTS = files("estimating.desk") / "browser"
Message = Mapping[str, Any]


def _script(name: str) -> str:
    return SCRIPTS.joinpath(name).read_text(encoding="utf-8")


class RoomGrid(anywidget.AnyWidget):
    """A line a room. What is typed or pasted comes as one message a change; `rows` is always what the job holds."""

    _esm = _script("grid.js")
    label = traitlets.Unicode("Rooms").tag(sync=True)
    entry = traitlets.Unicode("Add rooms as they stand in your notes, a line a room").tag(sync=True)
    hint = traitlets.Unicode("").tag(sync=True)
    cols: Any = traitlets.List().tag(sync=True)
    rows: Any = traitlets.List().tag(sync=True)
    foot: Any = traitlets.List().tag(sync=True)
    chosen = traitlets.Unicode("").tag(sync=True)

    def __init__(self, heard: Callable[[Message], None], **given: Any) -> None:
        super().__init__(**given)
        self.on_msg(lambda _widget, message, _buffers: heard(message))

    def say(self, text: str, back: str | None = None) -> None:
        """Say what became of a paste, and put back into the entry line what was not understood."""
        self.send({"said": text} | ({} if back is None else {"back": back}))


class SectionHead(anywidget.AnyWidget):
    """The heading of the box after it; opened and closed in the browser, by mouse or key."""

    _esm = _script("section.js")
    title = traitlets.Unicode().tag(sync=True)
    note = traitlets.Unicode().tag(sync=True)
    shown = traitlets.Bool(False).tag(sync=True)


class FileButtons(anywidget.AnyWidget):
    """Buttons for files that are made when pressed: `make` returns a name, a media type and the bytes, or nothing."""

    _esm = _script("files.js")
    offered: Any = traitlets.List().tag(sync=True)

    def __init__(self, make: Callable[[str], tuple[str, str, bytes] | None], **given: Any) -> None:
        super().__init__(**given)
        self.make = make
        self.on_msg(lambda _widget, message, _buffers: self.press(str(message["make"])))

    def press(self, which: str) -> None:
        """Make a file and hand it to the page."""
        made = self.make(which)
        if made is None:
            self.send({"id": which})
            return
        name, kind, content = made
        self.send({"id": which, "name": name, "kind": kind}, buffers=[content])


class Pulse(anywidget.AnyWidget):
    """A line that says whether the page is heard and when the job was saved; hands on undo and redo."""

    _esm = _script("pulse.js")
    saved = traitlets.Float(0.0).tag(sync=True)  # seconds since 1970; 0 while there is nothing to save

    def __init__(self, asked: Callable[[str], None], **given: Any) -> None:
        super().__init__(**given)
        self.asked = asked
        self.on_msg(self._heard)

    def _heard(self, _widget: Any, message: Message, _buffers: Any) -> None:
        if "ping" in message:
            self.send({"pong": message["ping"]})
            self.asked("look")
        elif message.get("do") in ("undo", "redo"):
            self.asked(str(message["do"]))


class ActionRows(anywidget.AnyWidget):
    """A table of words with buttons in each line; a press comes as the line's id and the button's word."""

    _esm = _script("rows.js")
    caption = traitlets.Unicode().tag(sync=True)
    nothing = traitlets.Unicode().tag(sync=True)  # said where there is no row
    head: Any = traitlets.List().tag(sync=True)
    rows: Any = traitlets.List().tag(sync=True)

    def __init__(self, pressed: Callable[[str, str], None], **given: Any) -> None:
        super().__init__(**given)
        self.on_msg(lambda _widget, message, _buffers: pressed(str(message["row"]), str(message["do"])))


class LeverBoard(anywidget.AnyWidget):
    """Sliders with a number and a bar each; `moved` is the last one moved, and of a drag only the newest is sent."""

    _esm = _script("levers.js")
    rows: Any = traitlets.List().tag(sync=True)
    moved = traitlets.Dict().tag(sync=True)
