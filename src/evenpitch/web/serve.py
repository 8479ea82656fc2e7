"""Serve the pages on this machine: port, hosts, and what is said at the terminal."""

from __future__ import annotations

import socket
from collections.abc import Callable

from evenpitch.quantity.refusal import refuse

USUAL_PORT = 8127
TRIES = 20
FIRST_PORT, LAST_PORT = 1024, 65_535
THIS_MACHINE = "127.0.0.1"


def serve(*, port: int | None, lan: bool, say: Callable[[str], None]) -> int:
    """Serve until interrupted; the address is said once port and book are ours. A port asked for and taken is refused."""
    if lan:
        raise refuse(
            "lan",
            "--lan",
            "this machine only",
            "Pages for other devices in the shop need a PIN, which this edition does not have yet.",
            "Leave --lan out and open the pages on this machine.",
        )
    listener = _listen(port)

    import uvicorn

    from evenpitch.web.app import make_app

    try:
        app = make_app()
    except BaseException:
        listener.close()
        raise
    say(f"The pages are at http://{THIS_MACHINE}:{listener.getsockname()[1]}/ (Ctrl-C ends it; nothing is lost)")
    config = uvicorn.Config(app, log_level="warning", access_log=False, server_header=False, date_header=False)
    try:
        uvicorn.Server(config).run(sockets=[listener])
    except KeyboardInterrupt:
        say("Ended.")
    return 0


def _listen(port: int | None) -> socket.socket:
    """A socket of ours on the port asked for, or on the usual one or the next free one."""
    if port is not None and not FIRST_PORT <= port <= LAST_PORT:
        likely = "Lower numbers belong to the system, and there is none above."
        raise refuse("port", port, f"a port from {FIRST_PORT} to {LAST_PORT}", likely, "Leave it out for the usual one.")
    wanted = [port] if port is not None else list(range(USUAL_PORT, USUAL_PORT + TRIES))
    for number in wanted:
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((THIS_MACHINE, number))
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
