"""One pass simulated as an answer: a job, a rig, a feed as typed; a document, JSON and files out."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from evenpitch.job.simulating import AsSet, Simulation, Vibration, simulate
from evenpitch.link.motion import CrankFeed, PowerFeed, checked_crank
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_number import read_number
from evenpitch.quantity.read_physical import read_physical
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Millimetre, Second
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.simulation import compose_simulation
from evenpitch.web.answer import Answer
from evenpitch.web.order_asked import checked_gear, order_of, read_gear
from evenpitch.web.papers import page_file, pdf
from evenpitch.web.typed import Collected, Typed


def simulate_answer(job: Path | bytes | str, typed: Typed, *, rig: bytes | str | None = None) -> Answer:
    """One pass. Typed: feed ("60 mm/min") or crank ("1 mm/s 0.6 1 Hz"); gear; and what it is tried with, see `read_as_set`."""
    collected = Collected()
    which = read_gear(typed, collected)
    feed = collected.read(typed, "feed", read_feed, None)
    crank = collected.read(typed, "crank", read_crank, None)
    as_set = read_as_set(typed, collected)
    collected.settle()
    if (feed is None) == (crank is None):
        given = "both" if feed is not None else ""
        raise refuse(
            "feed",
            given,
            "either feed or crank",
            "A table is moved one way at a time.",
            'Write --feed 60mm/min, or --crank "1 mm/s 0.6 1 Hz".',
        )
    order = order_of(job, rig)
    motion = feed if feed is not None else crank
    assert motion is not None
    return pass_answer(simulate(order, motion, gear=checked_gear(which, order), as_set=as_set))


def pass_answer(found: Simulation) -> Answer:
    """A simulated pass to read, as JSON, and as files."""
    document = compose_simulation(found)
    files: dict[str, Callable[[], bytes]] = {"pdf": lambda: pdf(document), "html": lambda: page_file(document)}
    return Answer(document, answer("simulate", (), found.findings, **found.facts()), files)


def read_as_set(typed: Typed, collected: Collected) -> AsSet:
    """All optional: ramp ("5000 from 200", pulses/s² and pulses/s), poll ("1 ms"), play ("open": it begins on the other side),
    vibration ("2 um 97 Hz").
    """
    ramp, ramp_from = collected.read(typed, "ramp", read_ramp, (None, None))
    return AsSet(
        ramp=ramp,
        ramp_from=ramp_from,
        poll=collected.read(typed, "poll", read_poll, None),
        open_play=collected.read(typed, "play", read_play, False),
        vibration=collected.read(typed, "vibration", read_vibration, None),
    )


LARGEST_RAMP = 1e9
LONGEST_POLL = 1.0
TREMBLE = (1.0, 1000.0)
"""Millimetres either way and times a second at most."""


def read_ramp(text: str) -> tuple[float, float | None]:
    """An acceleration in pulses/s², and where the ramp begins in pulses/s where that is said: "5000 from 200"."""
    plain = text.casefold()
    for unit in ("pulses/s²", "pulses/s^2", "pulses/s2", "/s²", "/s^2", "/s2", "pulses/s", "/s"):
        plain = plain.replace(unit, "")
    ramp, _, start = plain.partition("from")
    value = float(read_number(ramp.strip(), field="ramp"))
    begin = float(read_number(start.strip(), field="ramp")) if start.strip() else None
    if not 0 < value <= LARGEST_RAMP or (begin is not None and not 0 < begin <= LARGEST_RAMP):
        raise refuse("ramp", text, "pulses/s², above 0", "The motor would never start.", "Write 5000 from 200, or leave it out.")
    return value, begin


def read_poll(text: str) -> Second:
    """How often the controller looks at the count."""
    value = read_physical(text, "time", field="poll")
    if not 0 < value <= LONGEST_POLL:
        raise refuse(
            "poll", text, "a time above 0 and up to 1 s", "", "Write it with its unit: 1 ms. Leave it out for every count."
        )
    return Second(value)


def read_play(text: str) -> bool:
    """Whether the pass begins with the play open."""
    plain = text.strip().casefold()
    if plain not in ("open", "closed"):
        raise refuse("play", text, "open or closed", "It is neither.", "closed: taken up before the blank; open: it is not.")
    return plain == "open"


def read_vibration(text: str) -> Vibration:
    """How far a trembling table moves either way, and how often a second: "2 um 97 Hz"."""
    words = text.replace(",", " ").split()
    numbers = [place for place, word in enumerate(words) if word[0].isdigit() or word[0] in ".½¼¾"]
    question = refuse(
        "vibration", text, "how far either way, and how often a second", "Two figures make it.", "Write e.g. 2 um 97 Hz."
    )
    if len(numbers) != 2 or numbers[0]:
        raise question
    size = float(read_length(" ".join(words[: numbers[1]]), field="vibration"))
    often = read_physical(" ".join(words[numbers[1] :]), "frequency", field="vibration", bare="Hz")
    if not (0 < size <= TREMBLE[0] and 0.1 <= often <= TREMBLE[1]):
        raise refuse(
            "vibration", text, "up to 1 mm, 0.1 to 1000 Hz", "A table trembles by micrometres.", "Write e.g. 2 um 97 Hz."
        )
    return Vibration(Millimetre(size), often)


def read_feed(text: str) -> PowerFeed:
    """A power feed as typed."""
    found = read_physical(text, "feed", field="feed") / 60
    if not 0 < found <= 1000:
        raise refuse("feed", text, "a feed above 0 and up to 60 000 mm/min", "", "Write it with its unit: 60 mm/min.")
    return PowerFeed(found)


def read_crank(text: str) -> CrankFeed:
    """Mean feed, unevenness and turns a second of a hand on the crank, parted by spaces or commas."""
    words = text.replace(",", " ").split()
    question = refuse(
        "crank", text, "mean feed, unevenness, turns a second", "Three figures make it.", 'Write e.g. "1 mm/s 0.6 1 Hz".'
    )
    numbers = [place for place, word in enumerate(words) if word[0].isdigit() or word[0] in ".½¼¾"]
    if len(numbers) != 3:
        raise question
    parts = [" ".join(words[a:b]) for a, b in zip(numbers, [*numbers[1:], len(words)], strict=True)]
    mean = read_physical(parts[0], "feed", field="crank", bare="mm/s") / 60
    unevenness = float(read_number(parts[1], field="crank"))
    turns = read_physical(parts[2], "frequency", field="crank", bare="Hz")
    return checked_crank(mean, unevenness, turns)
