"""A long sweep on the command line: how far it is, on standard error; the interrupt key stops it, and what is done is answered."""

from __future__ import annotations

import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from evenpitch.link.draws import Progress

LARGE = 40_000
"""Gears drawn from which on a sweep shows how far it is."""
EVERY = 5_000


@contextmanager
def watched() -> Iterator[Progress]:
    """Progress of a sweep. The first press of the interrupt key stops it with what is done; a second one ends the program as usual."""
    stopped = open_line = False

    def stop(_number: int, _frame: Any) -> None:
        nonlocal stopped
        stopped = True
        signal.signal(signal.SIGINT, before)

    def progress(done: int, draws: int) -> bool:
        nonlocal open_line
        if draws >= LARGE and (done % EVERY == 0 or done == draws or stopped):
            last = done == draws or stopped
            end = "stopped: the answer is of these" if stopped else "Ctrl-C stops and answers with these" * (done < draws)
            click.echo(f"\r{done} of {draws} gears drawn. {end:<38}", err=True, nl=last)
            sys.stderr.flush()
            open_line = not last
        return not stopped

    before = signal.getsignal(signal.SIGINT)
    signal.signal(signal.SIGINT, stop)
    try:
        yield progress
    finally:
        if open_line:
            click.echo(err=True)
        signal.signal(signal.SIGINT, before)
