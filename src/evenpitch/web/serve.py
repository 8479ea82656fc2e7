"""Serve the pages on this machine: port, hosts, and what is said at the terminal."""

from __future__ import annotations

import socket
from collections.abc import Callable
from typing import TYPE_CHECKING

from evenpitch.quantity.refusal import refuse

if TYPE_CHECKING:
    from fastapi import FastAPI

USUAL_PORT = 8127
TRIES = 20
FIRST_PORT, LAST_PORT = 1024, 65_535
THIS_MACHINE = "127.0.0.1"
ALL_NETWORKS = "0.0.0.0"


def serve(*, port: int | None, lan: bool, say: Callable[[str], None]) -> int:
    """Serve until interrupted; the address is said once port and book are ours. A port asked for and taken is refused.

    `lan`: other devices in the shop may open the pages too, with the PIN that is said here.
    """
    listener = _listen(port, ALL_NETWORKS if lan else THIS_MACHINE)
    number = listener.getsockname()[1]

    import uvicorn

    try:
        app = _app(number, lan, say)
    except BaseException:
        listener.close()
        raise
    say(f"The pages are at http://{THIS_MACHINE}:{number}/ (Ctrl-C ends it; nothing is lost)")
    config = uvicorn.Config(
        app, log_level="warning", access_log=False, ws="none", server_header=False, date_header=False, proxy_headers=False
    )
    try:
        uvicorn.Server(config).run(sockets=[listener])
    except KeyboardInterrupt:
        say("Ended.")
    return 0


def _app(port: int, lan: bool, say: Callable[[str], None]) -> FastAPI:
    from evenpitch.web.app import THIS_MACHINE as ALONE
    from evenpitch.web.app import make_app

    if not lan:
        return make_app()
    from evenpitch.web.lan import Door, own_addresses

    addresses, door = own_addresses(), Door()
    if not addresses:
        say("This machine is on no network now: no other device can reach it. Start again once it is.")
    at = [f"http://{one}:{port}" for one in addresses]
    for one in at:
        say(f"Other devices in this shop: {one}/")
    say(f"PIN {door.pin} (a new one at each start)")
    say("This is plain HTTP: anyone on the same network can read what is sent. Use it in your own shop only.")
    return make_app(allowed_hosts=ALONE | frozenset(addresses), door=door, lan_address=at[0] if at else "")


def _listen(port: int | None, host: str = THIS_MACHINE) -> socket.socket:
    """A socket of ours on the port asked for, or on the usual one or the next free one."""
    if port is not None and not FIRST_PORT <= port <= LAST_PORT:
        likely = "Lower numbers belong to the system, and there is none above."
        raise refuse("port", port, f"a port from {FIRST_PORT} to {LAST_PORT}", likely, "Leave it out for the usual one.")
    wanted = [port] if port is not None else list(range(USUAL_PORT, USUAL_PORT + TRIES))
    for number in wanted:
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, number))
        except OSError:
            listener.close()
            continue
        listener.listen(64)
        return listener
    raise refuse(
        "port",
        wanted[0] if port is not None else f"{wanted[0]} to {wanted[-1]}",
        f"a free port from {FIRST_PORT} to {LAST_PORT}",
        "Another program, perhaps evenpitch itself, already listens there.",
        "Open the pages that are already served, or name another: evenpitch serve --port 8300",
    )
