"""The settings shipped with the workbook, held against the JupyterLab that is installed."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest
from jupyter_server.serverapp import ServerApp
from jupyterlab.labapp import LabApp
from traitlets.config import Config, PyFileConfigLoader

from estimating.lab.channels import PromptChannels
from estimating.start import LAB_SETTINGS

SCHEMAS = Path(sys.prefix) / "share" / "jupyter" / "lab" / "schemas" / "@jupyterlab"
OVERRIDES = json.loads((LAB_SETTINGS / "labconfig" / "default_setting_overrides.json").read_text(encoding="utf-8"))
SHORTCUTS = OVERRIDES["@jupyterlab/shortcuts-extension:shortcuts"]["shortcuts"]
MOVES = {"ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Home", "End"}


def schema(name: str) -> dict[str, Any]:
    """Return one of JupyterLab's own settings schemas."""
    found: dict[str, Any] = json.loads((SCHEMAS / f"{name}.json").read_text(encoding="utf-8"))
    return found


def is_one_key(keys: list[str]) -> bool:
    """Say whether a shortcut is letters, digits or moves only, with Shift at most."""
    words = [word for key in keys for word in key.split() if word != "Shift"]
    return bool(words) and all(len(word) == 1 or word in MOVES for word in words)


def server_config() -> Config:
    """Return what the shipped server configuration sets."""
    return PyFileConfigLoader("jupyter_server_config.py", path=str(LAB_SETTINGS)).load_config()


def test_every_one_key_command_of_the_notebook_is_off() -> None:
    """A newer JupyterLab with a further one-key command would harm a form; this names it."""
    stock = [
        each
        for name in ("notebook-extension/tracker", "mainmenu-extension/plugin")
        for each in schema(name)["jupyter.lab.shortcuts"]
    ]
    harmful = {(each["command"], *each["keys"], each["selector"]) for each in stock if is_one_key(each["keys"])}
    off = {(each["command"], *each["keys"], each["selector"]) for each in SHORTCUTS if each.get("disabled")}
    assert off == harmful


def test_the_toolbar_is_the_stock_one_behind_the_button() -> None:
    """The key replaces JupyterLab's whole list, so the list must be whole."""
    first, *others = OVERRIDES["@jupyterlab/notebook-extension:panel"]["toolbar"]
    assert first["command"] == "notebook:run-all-cells"
    assert others == schema("notebook-extension/panel")["jupyter.lab.toolbars"]["Notebook"]


def test_a_form_is_answered_in_the_order_it_was_used() -> None:
    """Over subshells a button could be heard before the box that was typed in, and two handlers could run at once."""
    setting = OVERRIDES["@jupyterlab/apputils-extension:kernels-settings"]["commsOverSubshells"]
    assert setting == "disabled"
    choices = schema("apputils-extension/kernels-settings")["properties"]["commsOverSubshells"]["oneOf"]
    assert setting in [each["const"] for each in choices]


def test_every_overridden_setting_exists() -> None:
    """A setting that JupyterLab renamed would do nothing, silently."""
    for plugin, settings in OVERRIDES.items():
        package, name = plugin.removeprefix("@jupyterlab/").split(":")
        assert settings.keys() <= schema(f"{package}/{name}")["properties"].keys(), plugin


def test_every_part_switched_off_exists() -> None:
    """What is switched off on the page is something that JupyterLab has."""
    page = json.loads((LAB_SETTINGS / "labconfig" / "page_config.json").read_text(encoding="utf-8"))
    for name in page["disabledExtensions"]:
        assert (SCHEMAS / name.removeprefix("@jupyterlab/")).is_dir()


def test_the_server_uses_the_quick_connection() -> None:
    """The import path is no promise of the server's; here it is pinned."""
    assert server_config().ServerApp.kernel_websocket_connection_class is PromptChannels


def test_without_the_quick_connection_the_stock_one_stays(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the server's class cannot be imported, nothing is set and nothing fails."""
    monkeypatch.setitem(sys.modules, "estimating.lab.channels", None)
    assert "kernel_websocket_connection_class" not in server_config().ServerApp


def test_every_server_setting_exists() -> None:
    """Each name that the configuration sets is one that the server or JupyterLab reads."""
    config = server_config()
    for application in (ServerApp, LabApp):
        known = application.class_trait_names(config=True)
        assert set(config[application.__name__]) <= set(known)


def test_the_style_sheet_is_where_the_server_looks() -> None:
    """The folder handed to the server holds the style sheet."""
    (folder,) = server_config().ServerApp.tornado_settings["static_custom_path"]
    assert (Path(folder) / "custom.css").is_file()
