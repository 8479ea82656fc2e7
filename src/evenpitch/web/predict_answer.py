"""Prediction, simulation and audit as answers: a job, a rig, words typed; a document, JSON and files out."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable

from evenpitch.job.auditing import audit
from evenpitch.job.order import Order
from evenpitch.job.predicting import Prediction, numbers_out, predict
from evenpitch.job.simulating import simulate
from evenpitch.link.draws import DRAWS, MOST_DRAWS, Progress
from evenpitch.link.motion import CrankFeed, PowerFeed, checked_crank
from evenpitch.quantity.figure import Figure, figure
from evenpitch.quantity.read_number import read_number, read_whole
from evenpitch.quantity.read_physical import read_physical
from evenpitch.quantity.refusal import refuse
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.log_audit import compose_audit
from evenpitch.sheet.compose.prediction import compose_prediction
from evenpitch.sheet.compose.simulation import compose_simulation
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.readings import read_log
from evenpitch.store.files.rig_file import read_rig
from evenpitch.web.answer import Answer
from evenpitch.web.papers import page_file, pdf
from evenpitch.web.typed import Collected, Typed
from evenpitch.web.usual_rig import usual_rig

LARGEST_SEED = 2**32 - 1


def order_of(job: bytes | str, rig: bytes | str | None) -> Order:
    """The job on the rig named, or on the usual head."""
    return read_job(job).order((usual_rig() if rig is None else read_rig(rig)).rig)


def _which(typed: Typed, collected: Collected) -> int:
    return collected.read(typed, "gear", lambda text: read_whole(text, field="gear", least=1, most=2), 1)


def _checked(which: int, order: Order) -> int:
    if which > len(order.works):
        raise refuse("gear", which, f"1 to {len(order.works)}", "The job has no second gear.", "Leave it out.")
    return which - 1


def predict_answer(
    job: bytes | str, typed: Typed | None = None, *, rig: bytes | str | None = None, progress: Progress | None = None
) -> Answer:
    """What the rig will leave on a gear of the job. Typed, all optional: draws [20000], seed [1], gear (1 or 2 of a pair)."""
    typed, collected = typed or {}, Collected()
    which = _which(typed, collected)
    draws = collected.read(typed, "draws", lambda text: read_whole(text, field="draws", least=100, most=MOST_DRAWS), DRAWS)
    seed = collected.read(typed, "seed", lambda text: read_whole(text, field="seed", least=0, most=LARGEST_SEED), 1)
    collected.settle()
    order = order_of(job, rig)
    found = predict(order, draws, seed, gear=_checked(which, order), progress=progress)
    numbers = numbers_out(found)
    document = compose_prediction(found)
    shown = answer(
        "predict", _figures(found), found.findings, **found.facts(), controller=None if numbers is None else numbers.facts()
    )
    files: dict[str, Callable[[], bytes]] = {"pdf": lambda: pdf(document), "html": lambda: page_file(document)}
    if numbers is not None:
        files["csv"] = lambda: controller_csv(found)
    return Answer(document, shown, files)


def _figures(found: Prediction) -> tuple[Figure, ...]:
    """The deviations that 95 of 100 gears stay below, under their names."""
    note = "95 of 100 gears lie below; predicted, not measured"
    sources = ("JCGM 101:2008", "derived here")
    return tuple(
        figure(q.name, q.p95, "um", symbol=q.symbol, sources=sources, note=note) for q in found.expected.quantiles if q.p95 > 0
    )


def controller_csv(found: Prediction) -> bytes:
    """Ratio, limits and every target as a table in plain words."""
    numbers = numbers_out(found)
    assert numbers is not None
    out = io.StringIO()
    write = csv.writer(out, lineterminator="\n")
    write.writerow(("what", "space", "value", "unit"))
    if numbers.pulses is not None:
        write.writerow(("ratio, pulses", "", numbers.pulses, ""))
        write.writerow(("ratio, counts", "", numbers.counts, ""))
    for name, value, unit in numbers.limits:
        write.writerow((name, "", f"{value:.6g}", unit))
    for place, target in enumerate(numbers.targets):
        write.writerow(("target", place + 1, target, "pulses"))
    for place, target in enumerate(numbers.corrected):
        write.writerow(("target with the head's map", place + 1, target, "pulses"))
    return out.getvalue().encode()


def simulate_answer(job: bytes | str, typed: Typed, *, rig: bytes | str | None = None) -> Answer:
    """One pass. Typed: feed ("60 mm/min") or crank ("1 mm/s 0.6 1 Hz"); gear (1 or 2 of a pair)."""
    collected = Collected()
    which = _which(typed, collected)
    feed = collected.read(typed, "feed", read_feed, None)
    crank = collected.read(typed, "crank", read_crank, None)
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
    found = simulate(order, motion, gear=_checked(which, order))
    document = compose_simulation(found)
    files: dict[str, Callable[[], bytes]] = {"pdf": lambda: pdf(document), "html": lambda: page_file(document)}
    return Answer(document, answer("simulate", (), found.findings, **found.facts()), files)


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


def audit_answer(log: bytes | str, job: bytes | str, typed: Typed | None = None, *, rig: bytes | str | None = None) -> Answer:
    """What the link really did. Typed, all optional: gear (1 or 2 of a pair), space (under the cutter when the log begins) [1]."""
    typed, collected = typed or {}, Collected()
    which = _which(typed, collected)
    space = collected.read(typed, "space", lambda text: read_whole(text, field="space", least=1, most=100_000), 1)
    collected.settle()
    order = order_of(job, rig)
    gear = _checked(which, order)
    teeth = order.works[gear].gear.teeth
    if space > teeth:
        raise refuse("space", space, f"1 to {teeth}", "The gear has no such space.", "Count from space 1.")
    found = audit(read_log(log), order, gear=gear, space=space)
    document = compose_audit(found)
    files: dict[str, Callable[[], bytes]] = {"pdf": lambda: pdf(document), "html": lambda: page_file(document)}
    return Answer(document, answer("audit", (), found.findings, **found.facts()), files)
