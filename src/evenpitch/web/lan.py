"""Pages for other devices in this shop: a PIN shown at the terminal, a signed cookie, a wait that grows with wrong tries.

The traffic is plain HTTP and can be read by anyone on the same network; the terminal and the page of the PIN say so.
"""

from __future__ import annotations

import hashlib
import hmac
import math
import secrets
import socket
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from threading import Lock
from typing import Literal

DIGITS = 6
COOKIE = "shop"
A_SHIFT = 12 * 3600
"""Seconds that a device stays known; restarting the server asks every one again."""

FIRST_WAIT, LONGEST_WAIT = 1.0, 300.0
"""Seconds after the first wrong try; it doubles with each. At the longest a million PINs take years."""

LOOPBACK = frozenset({"127.0.0.1", "::1", "localhost"})
"""Requests from here come from the machine itself, whose terminal shows the PIN."""

Try = Literal["right", "wrong", "wait"]


@dataclass(slots=True)
class Door:
    """Who may come in. One wait for all who try: another address is as easily had as another guess."""

    pin: str = field(default_factory=lambda: f"{secrets.randbelow(10**DIGITS):0{DIGITS}d}")
    clock: Callable[[], float] = time.monotonic
    _secret: bytes = field(default_factory=lambda: secrets.token_bytes(32))
    _wrong: int = 0
    _open_at: float = -math.inf
    _lock: Lock = field(default_factory=Lock)

    def try_pin(self, typed: str) -> Try:
        """One try. While the wait runs nothing is compared, so that a right guess in it is worth nothing."""
        with self._lock:
            if self.clock() < self._open_at:
                return "wait"
            if hmac.compare_digest(_digits(typed).encode(), self.pin.encode()):
                self._wrong = 0
                return "right"
            self._open_at = self.clock() + min(FIRST_WAIT * 2**self._wrong, LONGEST_WAIT)
            self._wrong = min(self._wrong + 1, 60)
            return "wrong"

    def seconds_left(self) -> int:
        """How long the wait still is, whole seconds."""
        return max(0, math.ceil(self._open_at - self.clock()))

    def cookie(self) -> str:
        """What a device that gave the PIN carries: until when, and a signature over it."""
        until = str(int(self.clock()) + A_SHIFT)
        return f"{until}.{self._sign(until)}"

    def knows(self, cookie: str) -> bool:
        """Whether a cookie was given here and still holds."""
        until, _, signature = cookie.partition(".")
        if not hmac.compare_digest(signature.encode(), self._sign(until).encode()):
            return False
        return self.clock() < int(until)

    def _sign(self, text: str) -> str:
        return hmac.new(self._secret, text.encode(), hashlib.sha256).hexdigest()


def _digits(typed: str) -> str:
    """The PIN may be typed with gaps."""
    return "".join(letter for letter in typed if letter.isascii() and letter.isdigit())[:64]


def own_addresses() -> tuple[str, ...]:
    """The IPv4 addresses of this machine on its networks, the one it goes out by first. Nothing is sent to find them."""
    found: list[str] = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe, suppress(OSError):
        probe.connect(("192.0.2.1", 9))  # a documentation address (RFC 5737); connecting a datagram socket sends nothing
        found.append(str(probe.getsockname()[0]))
    with suppress(OSError):
        found += [str(entry[4][0]) for entry in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)]
    return tuple(dict.fromkeys(one for one in found if not one.startswith(("127.", "0."))))
