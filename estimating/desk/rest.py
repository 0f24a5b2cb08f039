"""Slow work when the hand rests: in slices short enough not to be felt, and dropped when the next change comes."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable, Iterator

PAUSE = 0.12  # seconds of rest before slow work begins
SLICE = 0.008  # seconds of work at a time
BETWEEN = 0.002  # seconds given to whatever waits: a change that waits ends this work
Work = Callable[[], Iterator[None]]


class Rest:
    """The slow work that belongs to the last change. Without a running loop, as in a script, it waits for `finish`."""

    def __init__(self, failed: Callable[[Exception], None]) -> None:
        self.failed = failed
        self.task: asyncio.Task[None] | None = None
        self.work: Work | None = None

    def begin(self, work: Work, pause: float = PAUSE) -> None:
        """Drop what is going on and begin this work after a pause."""
        self.stop()
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            self.work = work
            return
        self.task = loop.create_task(self._run(work, pause))

    def finish(self) -> None:
        """Do at once what is waiting."""
        work, self.work = self.work, None
        for _ in work() if work else ():
            pass

    def stop(self) -> None:
        """Drop what is going on."""
        self.work = None
        if self.task is not None:
            self.task.cancel()
            self.task = None

    async def _run(self, work: Work, pause: float) -> None:
        try:
            await asyncio.sleep(pause)
            began = time.perf_counter()
            for _ in work():
                if time.perf_counter() - began > SLICE:
                    await asyncio.sleep(BETWEEN)
                    began = time.perf_counter()
        except Exception as problem:  # an exception in a task is never seen otherwise
            self.failed(problem)
