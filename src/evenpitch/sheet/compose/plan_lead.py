"""The lead of one gear on its plan: the link's ratio, and the trains that can make it."""

from __future__ import annotations

import math
from dataclasses import replace

from evenpitch.job.leading import LeadPlan
from evenpitch.job.plan import GearPlan
from evenpitch.quantity.showing import System, number
from evenpitch.sheet.compose.lead import TRAIN_HEADS, TRAIN_NOTE, pair_table, train_row, trap_words
from evenpitch.sheet.compose.rows import row
from evenpitch.sheet.compose.words import length
from evenpitch.sheet.document import Choose, Row, Schedule, Table, Words, Working

TRAINS_SHOWN = 6


def lead_blocks(gear: GearPlan, lead: LeadPlan, system: System) -> tuple[Schedule | Words | Working, ...]:
    """What the lead is, what makes it, and the ratio of the link with what a display would make of it."""
    rows = []
    for name in ("pulses_per_mm", "pulses_per_count", "pulses_per_turn"):
        figure = gear.figure(name)
        if figure is not None:
            rows.append(row(figure, system))
    if lead.ratio is not None:
        rows.append(
            Row(
                "as a ratio of whole numbers",
                lead.ratio.words(),
                "exact" if lead.ratio.exact else f"{number(lead.ratio.error_ppm, 2)} ppm",
            )
        )
    if lead.pulses_per_turn is not None:
        per_pulse = gear.value("pitch_diameter") * math.pi * 1000 / float(lead.pulses_per_turn)
        rows.append(Row("one pulse at the pitch line", f"{number(per_pulse, 2)} µm"))
    if lead.count is not None:
        rows.append(Row("one count along the flank", f"{number(float(lead.count) * 1000 * math.tan(gear.gear.helix), 3)} µm"))
    if lead.machine_lead is not None:
        rows.append(Row("lead of the machine", *length(float(lead.machine_lead), system)))
    if lead.take_up is not None and lead.start_before is not None:
        rows.append(Row("take-up: table travel of the backlash", *length(float(lead.take_up), system)))
        rows.append(Row("start before the blank, at least", *length(float(lead.start_before), system)))
    by = lead.by or "nothing"
    blocks: list[Schedule | Words | Working] = [Schedule(tuple(rows)), Words(f"The lead is made by **{by}**: {lead.reason}.")]
    if lead.simpler:
        near = "; ".join(
            f"{ratio.pulses}/{ratio.counts} is {number(ratio.error_ppm, 1, plus=True)} ppm off" for ratio in lead.simpler[-4:]
        )
        blocks.append(Words(f"Smaller numbers, if you like them better: {near}."))
    if lead.pair_ratio is not None:
        blocks.append(Words(f"For the pair, so that both leads err alike: {lead.pair_ratio.words()}."))
    if lead.traps:
        traps = "; ".join(trap_words(trap) for trap in lead.traps)
        blocks.append(Words(f"Never type the ratio as a decimal: {traps}."))
    return tuple(blocks)


def train_tables(lead: LeadPlan) -> tuple[Table, ...]:
    """The trains to choose from, and those for both leads of a pair."""
    rows = []
    for train in lead.trains[:TRAINS_SHOWN]:
        chosen = lead.by == "change gears" and lead.train is not None and train.train == lead.train.train
        value = f"{', '.join(map(str, train.train.drivers))} : {', '.join(map(str, train.train.driven))}"
        choose = None if chosen else Choose("choice.train", value)
        rows.append(replace(train_row(train, chosen=chosen), choose=choose))
    tables = [Table(TRAIN_HEADS, tuple(rows), right=(1, 2, 3), note=TRAIN_NOTE)]
    if lead.pairs:
        tables.append(pair_table(lead.pairs, TRAINS_SHOWN))
    return tuple(tables)
