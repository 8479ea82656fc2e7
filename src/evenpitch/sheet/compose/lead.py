"""Trains for a lead, and the link's ratio, as documents: one question without a job."""

from __future__ import annotations

from evenpitch.dividing.lead import LeadTrain, hand_test
from evenpitch.dividing.lead_pair import LeadPair
from evenpitch.dividing.link_ratio import DecimalTrap
from evenpitch.dividing.trains import Mounting
from evenpitch.job.lead_question import LeadAnswer, RatioAnswer
from evenpitch.quantity.showing import both, inch, mm, number
from evenpitch.sheet.document import Cell, Document, KeyFigure, Section, Table, TableRow, Words, Working

SHOWN = 12


def train_row(train: LeadTrain, *, chosen: bool = False) -> TableRow:
    """One train: gears, lead, error, micrometres, what meshes with what."""
    slope = train.helix_slope_um
    return TableRow(
        (
            train.train_words(),
            f"{mm(train.lead)}\n{inch(train.lead)}" + ("\nto the spindle, worm out" if train.geared_to == "spindle" else ""),
            number(train.error_ppm, 0, plus=True),
            "" if slope is None else number(slope, 1),
            mounting_words(train.mountings()),
        ),
        chosen=chosen,
    )


TRAIN_HEADS = ("drivers : driven", "lead", "ppm", "over the face, µm", "mesh")
TRAIN_NOTE = (
    "Drivers: the gear on the screw, then the first on the stud. Driven: the second on the stud, then the gear on the worm. "
    "An idler more or less changes the hand, not the lead: put it in or out by the scratch test."
)


def mounting_words(mountings: tuple[Mounting, ...]) -> str:
    """The first mounting that clears, and how many there are."""
    if not mountings:
        return "none clears"
    pairs = ", ".join(f"{a} with {b}" for a, b in mountings[0])
    return pairs if len(mountings) == 1 else f"{pairs}; {len(mountings)} ways clear"


def pair_table(pairs: tuple[LeadPair, ...], shown: int = SHOWN) -> Table:
    """Trains for two leads chosen together."""
    rows = tuple(
        TableRow(
            (
                pair.first.train_words(),
                pair.second.train_words(),
                number(pair.mismatch_ppm, 1),
                "" if pair.mismatch_um is None else number(pair.mismatch_um, 1),
                number(pair.further(), 0),
            )
        )
        for pair in pairs[:shown]
    )
    note = "Chosen together, so that the two helices suit each other; the last column is the larger of the two lead errors."
    return Table(
        ("first gear", "second gear", "mismatch, ppm", "mismatch, µm", "each off, ppm"), rows, right=(2, 3, 4), note=note
    )


def trap_words(trap: DecimalTrap) -> str:
    """What a decimal costs."""
    slope = trap.helix_slope_um
    cost = f"{number(trap.error_ppm, 0, plus=True)} ppm" if slope is None else f"{number(slope, 2)} µm over the face"
    return f"{trap.written} costs {cost}"


def compose_lead(answer: LeadAnswer) -> Document:
    """What `evenpitch lead` prints, and its page."""
    question, sections = answer.question, []
    if answer.trains:
        rows = tuple(train_row(train, chosen=place == 0) for place, train in enumerate(answer.trains[:SHOWN]))
        sections.append(Section("trains", "Trains, nearest first", (Table(TRAIN_HEADS, rows, right=(1, 2, 3), note=TRAIN_NOTE),)))
        sections.append(Section("check", "Check it by hand", (Working(_proof(answer)), Words(f"Hand: {hand_test()}."))))
    else:
        sections.append(Section("trains", "No train", (Words("There are no change gears in the box."),)))
    if answer.pairs:
        sections.append(Section("pairs", "Together with the mate", (pair_table(answer.pairs),)))
    keys = [KeyFigure("lead wanted", mm(question.lead), "", inch(question.lead))]
    if answer.trains:
        best = answer.trains[0]
        keys.append(KeyFigure("gears", best.train_words(), "", f"{number(best.error_ppm, 0, plus=True)} ppm"))
    cells = (
        Cell("sheet", "one question"),
        Cell("lead of the machine", both(answer.machine_lead)),
        Cell("gears", f"{len(question.change_gears.teeth)} in the box"),
    )
    return Document(
        kind="answer",
        title=f"Change gears for a lead of {both(question.lead)}",
        keys=tuple(keys),
        findings=answer.findings,
        sections=tuple(sections),
        cells=cells,
    )


def _proof(answer: LeadAnswer) -> tuple[str, ...]:
    best = answer.trains[0]
    driven = " x ".join(map(str, best.train.driven))
    drivers = " x ".join(map(str, best.train.drivers))
    through = answer.machine_lead if best.geared_to == "worm" else answer.question.screw_lead
    machine, got = float(through), float(best.lead)
    return (f"lead = {machine:g} x ({driven}) / ({drivers}) = {got:.4f} mm = {got / 25.4:.5f} in",)


def compose_ratio(answer: RatioAnswer) -> Document:
    """What `evenpitch ratio` prints, and its page."""
    ratio = answer.ratio
    error = "exact" if ratio.exact else f"{number(ratio.error_ppm, 3, plus=True)} ppm"
    rows = tuple(
        TableRow((f"{found.pulses}", f"{found.counts}", "exact" if found.exact else number(found.error_ppm, 3, plus=True)))
        for found in answer.simpler
    )
    sections = (
        Section("ratios", "Whole numbers", (Table(("pulses", "for counts", "ppm"), rows, right=(0, 1, 2)),)),
        Section("decimals", "What decimals would cost", (Words("; ".join(trap_words(trap) for trap in answer.traps) + "."),)),
    )
    keys = (
        KeyFigure("enter", f"{ratio.pulses} : {ratio.counts}", "", ratio.words()),
        KeyFigure("wanted", number(float(ratio.wanted), 9), "", "pulses for a count"),
        KeyFigure("error", error, "", ""),
    )
    lead = float(answer.question.lead)
    cells = (Cell("sheet", "one question"), Cell("lead", both(lead)), Cell("a turn", f"{answer.question.pulses_per_turn} pulses"))
    return Document(
        kind="answer",
        title=f"The link's ratio for a lead of {both(lead)}",
        keys=keys,
        findings=answer.findings,
        sections=sections,
        cells=cells,
    )
