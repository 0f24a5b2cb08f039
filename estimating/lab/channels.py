"""A kernel connection that sends every small message at once."""

from __future__ import annotations

from typing import Any

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection


class PromptChannels(ZMQChannelsWebsocketConnection):
    """The stock connection without the wait for a full packet.

    A slider sends many small messages. Left alone, the network joins them up: each waits about 40 ms for the answer
    to the one before (Nagle's algorithm meeting delayed acknowledgement), which is most of what a hand feels.
    """

    def connect(self) -> Any:
        """Connect as the stock class does, and return what it returns, with TCP_NODELAY set first."""
        self.websocket_handler.set_nodelay(True)
        self.log.info("Kernel %s: small messages are sent at once", self.kernel_id)
        return super().connect()
