"""The fly cutter's bit as a section of a page, as its own sheet, and as an outline."""

from __future__ import annotations

import math

from evenpitch.job.bit import BitPlan
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.showing import both, degrees_text, inch, mm, number
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.document import Block, Cell, Document, Paper, Picture, Row, Schedule, Section, Steps, Table, TableRow, Words
from evenpitch.sheet.drawing import Drawing
from evenpitch.sheet.drawings.fly_bit import BitShown, fly_bit_for_dxf, fly_bit_picture

ROWS = 21
"""Coordinates printed of one flank."""


def shown_bit(gear: GearPlan, made: BitPlan) -> BitShown:
    """The bit as its drawings need it."""
    bit = made.bit
    return BitShown(
        edge=tuple((float(w), float(depth)) for w, depth in bit.outline),
        arc_radius=bit.arc.radius,
        arc_off_centre=bit.arc.off_centre,
        arc_depth=bit.arc.depth,
        arc_worst=bit.arc.worst,
        checks=tuple((width / 2, abs(depth) if abs(depth) < 5e-4 else depth) for width, depth in bit.checks),
        words=f"Fly cutter for {gear_line(gear.gear)}",
        short=f"{gear.gear.teeth} teeth, {gear.gear.pitch_words()}",
    )


def bit_outline(gear: GearPlan, made: BitPlan) -> Drawing:
    """The edge in millimetres, for DXF."""
    return fly_bit_for_dxf(shown_bit(gear, made))


def bit_section(gear: GearPlan, made: BitPlan) -> Section:
    """The bit beneath the cutters of a page."""
    lead = "When no cutter will do. The edge below leaves exactly this gear."
    return Section(
        "bit",
        "Fly cutter for exactly this gear",
        (Picture(fly_bit_picture(shown_bit(gear, made))), _figures(gear, made)),
        lead=lead,
    )


def compose_bit(plan: Plan, index: int, made: BitPlan, paper: Paper | None = None) -> Document:
    """The sheet of the bit: outline to scale, figures, coordinates, how it is ground and checked."""
    gear = plan.gears[index]
    sections = (
        Section("outline", "Edge of the bit", (Picture(fly_bit_picture(shown_bit(gear, made))),)),
        Section("figures", "The bit", (_figures(gear, made),), "left"),
        Section("grinding", "Grind and check", (Steps(_grinding(gear, made)),), "left"),
        Section("coordinates", "Coordinates of one flank", _coordinates(made), "right"),
    )
    return Document(
        kind="sheet",
        title=f"Fly cutter: {gear_line(gear.gear)}",
        sections=sections,
        cells=(Cell("what", "fly cutter's bit"), Cell("job", plan.order.title), Cell("gear", gear_line(gear.gear))),
        paper=paper or plan.order.choice.paper,
        sign="ground by, and when",
    )


def _figures(gear: GearPlan, made: BitPlan) -> Schedule:
    bit, arc = made.bit, made.bit.arc
    rows = [
        Row("end of the bit swings on", *_two(bit.outside, 2)),
        *([Row("set to a swing of", degrees_text(math.degrees(abs(bit.swing)), 3))] if gear.gear.helix else []),
        Row("best single arc a flank", *_two(arc.radius)),
        Row("its centre, off the middle", *_two(arc.off_centre)),
        Row("its centre, above the end" if arc.depth >= 0 else "its centre, beyond the end", *_two(abs(arc.depth))),
        Row("flank within", f"{number(arc.worst * 1000, 1)} µm of the arc"),
        Row("the bit's flank is", "hollow" if arc.hollow else "round"),
        Row("rake", degrees_text(math.degrees(bit.rake), 1) if bit.rake else "none: the edge is the form itself"),
        Row("end relief", degrees_text(math.degrees(bit.relief), 1)),
        Row("gives the sides at least", degrees_text(math.degrees(bit.least_side_relief), 2)),
        Row("depth from touch", *_two(made.depth)),
        Row(f"span over {made.spanned} then", *_two(made.span)),
    ]
    return Schedule(tuple(rows))


def _two(value: float, places: int = 3) -> tuple[str, str]:
    return mm(value, places), inch(value)


def _coordinates(made: BitPlan) -> tuple[Block, ...]:
    bit = made.bit
    every = max(1, (len(bit.outline) - 1) // (ROWS - 1))
    raked = bool(bit.rake)
    rows = []
    for (w, depth), (_, radial) in zip(bit.outline[::every], bit.radial[::every], strict=True):
        cells = [f"{abs(depth):.3f}", f"{w:.4f}", f"{2 * w:.3f}"] + ([f"{radial:.3f}"] if raked else [])
        rows.append(TableRow(tuple(cells)))
    heads = ("from the end", "half width", "width") + (("square to arbor",) if raked else ())
    note = "Millimetres, from the end of the edge, in the rake face."
    blocks: list[Block] = [Table(heads, tuple(rows), right=tuple(range(len(heads))), note=note)]
    if bit.form_from > 0.001:
        blocks.append(Words(f"The lowest {mm(bit.form_from)} lie below the base circle: any line that clears will do there."))
    return tuple(blocks)


def _grinding(gear: GearPlan, made: BitPlan) -> tuple[str, ...]:
    bit = made.bit
    widths = "; ".join(f"{width:.3f} at {abs(depth):.3f}" for width, depth in bit.checks)
    face = (
        "Face flat, in line with the arbor's middle"
        if not bit.rake
        else f"Face at {degrees_text(math.degrees(bit.rake), 1)} rake"
    )
    swing = "" if not gear.gear.helix else " Swing to the helix angle."
    return (
        f"{face}; relief {degrees_text(math.degrees(bit.relief), 0)} behind the whole edge.",
        f"Widths to check on the bit, mm: {widths}.",
        "Lay the bit on this sheet's outline under a glass, or project it; the bar must measure 50 mm.",
        f"Stand it out so that its end swings on {mm(bit.outside, 2)}; two screws hold it; guard on; speed for that diameter.{swing}",
        f"Sink to {both(made.depth)}: the span over {made.spanned} is then {both(made.span)}. Measure before the last cut.",
    )
