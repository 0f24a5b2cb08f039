"""A command at any terminal: whatever becomes of what it prints, it ends in a line and a status, never a traceback."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from typing import TextIO

from estimating.errors import EstimatingError, InputErrors

WRONG, INTERRUPTED, PIPE_CLOSED = 2, 130, 141  # the last two as shells count signals

Command = Callable[[Sequence[str] | None], int]


def run(command: Command, arguments: Sequence[str] | None = None) -> int:
    """Return the status of a command, 0 when done; what went wrong is said on one line each.

    2: something in the job, the records or on the command line is wrong, or the output could not be written. 130: it
    was interrupted. 141: whoever read its output went away.
    """
    for stream in (sys.stdout, sys.stderr):
        _say_what_it_can(stream)
    try:
        status = command(arguments)
        sys.stdout.flush()
    except InputErrors as problems:
        return _refused(*map(str, problems.problems))
    except EstimatingError as problem:
        return _refused(str(problem))
    except KeyboardInterrupt:
        return _refused("interrupted; nothing was half written", status=INTERRUPTED)
    except BrokenPipeError:
        _let_go(sys.stdout)
        return PIPE_CLOSED
    except OSError as problem:
        _let_go(sys.stdout)
        return _refused(f"output: cannot be written ({problem.strerror})")
    return status


def _say_what_it_can(stream: TextIO) -> None:
    """Let a terminal that has no ′ or ½ show a question mark instead of stopping the command."""
    reconfigure = getattr(stream, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors="replace")


def _refused(*sentences: str, status: int = WRONG) -> int:
    try:
        print("\n".join(sentences), file=sys.stderr, flush=True)
    except OSError:
        _let_go(sys.stderr)
    return status


def _let_go(stream: TextIO) -> None:
    """Send what is still to be printed nowhere, so that the end of the program does not try again."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    except (OSError, ValueError):  # no real stream, such as under a test
        return
