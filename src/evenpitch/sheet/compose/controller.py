"""The numbers for a controller as a sheet: ratio, limits, every target from the first space, and the same with the head's map taken out."""

from __future__ import annotations

from evenpitch.job.predicting import Numbers, Prediction
from evenpitch.quantity.showing import grouped, number
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.words import rig_words
from evenpitch.sheet.document import Cell, Document, Paper, Row, Schedule, Section, Table, TableRow, Words

COLUMNS = 3
TEN = 10


def compose_controller(found: Prediction, numbers: Numbers, paper: Paper | None = None) -> Document:
    """What stands on the sheet beside the controller."""
    return Document(
        kind="answer",
        title=f"Numbers for the controller: {gear_line(found.plan.gear)}",
        lead="Type them as they stand; every target counts from the first space, so nothing adds up.",
        sections=(
            Section("ratio", "Ratio and limits", (Schedule(ratio_rows(numbers)),)),
            Section("targets", "Targets, pulses from space 1", (targets_table(numbers),)),
            Section("closing", "The closing check", (Words(_closing(numbers)),)),
        ),
        cells=(
            Cell("sheet", "controller"),
            Cell("gear in one line", gear_line(found.plan.gear)),
            Cell("rig", rig_words(found.order.rig)),
            Cell("targets", grouped(len(numbers.targets))),
        ),
        paper=paper or found.order.choice.paper,
    )


def ratio_rows(numbers: Numbers) -> tuple[Row, ...]:
    """The ratio in whole numbers where there is one, and what must not be passed."""
    rows = []
    if numbers.pulses is not None:
        ratio = f"{numbers.pulses} pulses for every {numbers.counts} counts"
        error = numbers.error_ppm or 0.0
        rows.append(Row("ratio", ratio, "exact" if error == 0 else f"{number(error, 3)} ppm off"))
    rows += [Row(name, f"{number(value, 0)} {unit}") for name, value, unit in numbers.limits]
    return tuple(rows)


def targets_table(numbers: Numbers, most: int | None = None) -> Table:
    """The targets, the last of them space 1 again; `most`: only so many of them."""
    last = len(numbers.targets) - 1
    mapped = bool(numbers.corrected)
    rows = []
    for place, target in enumerate(numbers.targets[:most]):
        space = "1 again" if place == last else str(place + 1)
        cells = (space, grouped(target))
        rows.append(TableRow((*cells, grouped(numbers.corrected[place])) if mapped else cells))
    heads = ("space", "target", "with the head's map") if mapped else ("space", "target")
    told = (
        f"All {len(numbers.targets)} targets are in the CSV, the JSON and on the sheet for the controller."
        if most is not None and most < len(numbers.targets)
        else "With the head's map: the same places with the head's known waves taken out. A pass is not corrected, only where it stands."
        if mapped
        else "The head has no map: no compensation is given."
    )
    return Table(
        heads, tuple(rows), right=tuple(range(len(heads))), columns=1 if most is not None else COLUMNS,
        heavy=0 if most is not None else TEN, note=told,
    )  # fmt: skip


def _closing(numbers: Numbers) -> str:
    return (
        f"The last target is {grouped(numbers.targets[-1])}, one whole turn of the work: "
        "the cutter in space 1 again must take nothing."
    )
