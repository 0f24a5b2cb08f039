"""The kernel connection that does not wait."""

from __future__ import annotations

from typing import Any

import pytest
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection

from estimating.lab.channels import PromptChannels


def test_the_connection_stops_waiting_before_it_connects(monkeypatch: pytest.MonkeyPatch) -> None:
    """TCP_NODELAY is set first; then the stock class connects, and its answer is handed on."""
    done: list[Any] = []

    class Socket:
        def set_nodelay(self, value: bool) -> None:
            done.append(("nodelay", value))

    monkeypatch.setattr(ZMQChannelsWebsocketConnection, "connect", lambda _self: done.append("connect") or "answer")
    connection = PromptChannels.__new__(PromptChannels)  # a whole one needs a running kernel
    monkeypatch.setattr(PromptChannels, "websocket_handler", Socket())
    monkeypatch.setattr(PromptChannels, "kernel_id", "k")
    assert connection.connect() == "answer"
    assert done == [("nodelay", True), "connect"]
