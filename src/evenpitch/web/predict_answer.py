"""A prediction as an answer: a job, a rig, words typed; a document, JSON and files out, the controller's numbers among them."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path

from evenpitch.dividing.link_ratio import LARGEST
from evenpitch.job.predicting import Numbers, Prediction, numbers_out, predict
from evenpitch.link.draws import DRAWS, MOST_DRAWS, Progress
from evenpitch.quantity.figure import Figure, figure
from evenpitch.quantity.read_number import read_whole
from evenpitch.quantity.refusal import refuse
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.prediction import compose_prediction
from evenpitch.sheet.document import Paper
from evenpitch.web.answer import Answer
from evenpitch.web.order_asked import checked_gear, order_of, read_gear
from evenpitch.web.papers import page_file, pdf
from evenpitch.web.typed import Collected, Typed

LARGEST_FIELD = 2**31 - 1
LARGEST_SEED = 2**32 - 1


def predict_answer(
    job: Path | bytes | str,
    typed: Typed | None = None,
    *,
    rig: bytes | str | None = None,
    progress: Progress | None = None,
    most: int = MOST_DRAWS,
) -> Answer:
    """What the rig will leave on a gear of the job. Typed, all optional: draws [20000], seed [1], gear (1 or 2 of a pair),
    largest-pulses and largest-counts of the controller's ratio [65535].
    """
    typed, collected = typed or {}, Collected()
    which = read_gear(typed, collected)
    draws = collected.read(typed, "draws", lambda text: read_whole(text, field="draws", least=100, most=most), DRAWS)
    seed = collected.read(typed, "seed", lambda text: read_whole(text, field="seed", least=0, most=LARGEST_SEED), 1)
    fields = read_ratio_fields(typed, collected)
    collected.settle()
    order = order_of(job, rig)
    return prediction_answer(predict(order, draws, seed, gear=checked_gear(which, order), progress=progress, fields=fields))


def read_ratio_fields(typed: Typed, collected: Collected) -> tuple[int, int]:
    """The largest numbers that the controller's ratio takes, pulses and counts."""

    def one(field: str) -> int:
        return collected.read(typed, field, lambda text: read_whole(text, field=field, least=1, most=LARGEST_FIELD), LARGEST)

    return one("largest-pulses"), one("largest-counts")


def prediction_answer(found: Prediction) -> Answer:
    """A prediction to read, as JSON, and as files; of a rig with a link also the numbers for its controller."""
    numbers = numbers_out(found)
    document = compose_prediction(found)
    shown = answer(
        "predict", _figures(found), found.findings, **found.facts(), controller=None if numbers is None else numbers.facts()
    )
    files: dict[str, Callable[[], bytes]] = {"pdf": lambda: pdf(document), "html": lambda: page_file(document)}
    if numbers is not None:
        files["csv"] = lambda: controller_csv(numbers)
    return Answer(document, shown, files)


def _figures(found: Prediction) -> tuple[Figure, ...]:
    """The deviations that 95 of 100 gears stay below, under their names."""
    note = "95 of 100 gears lie below; predicted, not measured"
    sources = ("JCGM 101:2008", "derived here")
    return tuple(
        figure(q.name, q.p95, "um", symbol=q.symbol, sources=sources, note=note) for q in found.expected.quantiles if q.p95 > 0
    )


def numbers_of(found: Prediction) -> Numbers:
    """The numbers for the controller, or a Refusal where the rig has no link to enter them in."""
    numbers = numbers_out(found)
    if numbers is None:
        raise refuse("rig, link", "", "a link", "The rig has none.", "Add it on the rig page; don't-knows are allowed.")
    return numbers


def controller_answer(found: Prediction, paper: Paper | None = None) -> Answer:
    """Ratio, limits and every target, as a sheet, as CSV and as JSON."""
    from evenpitch.sheet.compose.controller import compose_controller

    numbers = numbers_of(found)
    document = compose_controller(found, numbers, paper)
    return Answer(
        document,
        answer("predict", controller=numbers.facts()),
        {"pdf": lambda: pdf(document), "csv": lambda: controller_csv(numbers)},
    )


def controller_csv(numbers: Numbers) -> bytes:
    """Ratio, limits and every target as a table in plain words."""
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
